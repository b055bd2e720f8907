"""Plain shapes a view is made of. Sizes are mm of the thing drawn; y runs down the page, as on paper."""

from dataclasses import dataclass
from typing import Literal


@dataclass(frozen=True, slots=True)
class Rectangle:
    """A rectangle; `style` says what it is, and the writer how it looks."""

    x: float
    y: float
    width: float
    height: float
    style: Literal["stock", "part", "offcut", "waste"]


@dataclass(frozen=True, slots=True)
class Line:
    """A straight line: a cut, or an arrow along the grain."""

    x0: float
    y0: float
    x1: float
    y1: float
    style: Literal["cut", "grain"]


@dataclass(frozen=True, slots=True)
class Text:
    """A line of text centred on (x, y); `upright` turns it to run up the page; `box` is the room it must fit, mm."""

    x: float
    y: float
    text: str
    box: tuple[float, float]
    upright: bool = False
    ringed: bool = False


Shape = Rectangle | Line | Text


@dataclass(frozen=True, slots=True)
class Drawing:
    """A view: its size in mm, a heading of a few lines, and the shapes from back to front."""

    width: float
    height: float
    heading: tuple[str, ...]
    shapes: tuple[Shape, ...]
