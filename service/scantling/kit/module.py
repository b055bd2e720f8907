"""What a furniture module is: an id, a parameter class, the roles it cuts its parts from, and a build function."""

from abc import ABC, abstractmethod
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, ClassVar, Generic, Literal, TypeVar

from scantling.board import Assembly, RoleMaterial

from .parameters import Parameters

INTERFACE = 2

P = TypeVar("P", bound=Parameters)


@dataclass(frozen=True, slots=True)
class Role:
    """A module's own word for what some parts are cut from, with the material and thickness (mm) taken by default.

    A default thickness is an assumption until the caller measures; `least` and `most` bound what a shop may sell.
    `width` (mm) is that of a board as bought.
    """

    says: str
    material: str
    thickness: float
    least: float
    most: float
    stock_kind: Literal["sheet", "board"] = "sheet"
    width: float | None = None


@dataclass(frozen=True, slots=True)
class Build(Generic[P]):
    """What a module is handed to build from: its parameters and the material of each of its roles.

    `screws` are sizes (gauge, length in mm) that the caller's shop sells; screws are picked from them where one suits.
    """

    parameters: P
    materials: Mapping[str, RoleMaterial]
    screws: tuple[tuple[int, float], ...] = ()

    def thickness(self, role: str) -> float:
        """Return the thickness of a role's material in mm."""
        return self.materials[role].thickness

    def board_width(self, role: str) -> float:
        """Return the width in mm of the board a role is cut from. Raises ValueError for a role cut from sheets."""
        width = self.materials[role].width
        if width is None:
            raise ValueError(f"the role {role!r} is cut from a sheet; only boards have a width of their own")
        return width


class Module(ABC, Generic[P]):
    """A kind of furniture. Subclass it, fill in the class members, and write `build`.

    `when_not` is a sentence for when not to build it; `sources` say where its default sizes come from. `grows` names
    the parameters that take more material the larger they are; `one_sided` says that hands need not pair up.
    """

    id: ClassVar[str]
    title: ClassVar[str]
    sentence: ClassVar[str]
    family: ClassVar[str]
    when_not: ClassVar[str]
    parameters: ClassVar[type[Any]]
    roles: ClassVar[Mapping[str, Role]]
    sources: ClassVar[tuple[str, ...]] = ()
    grows: ClassVar[tuple[str, ...]] = ()
    one_sided: ClassVar[bool] = False

    @abstractmethod
    def build(self, build: Build[P]) -> Assembly:
        """Return the piece: parts placed, joined, with steps, promises and cautions."""

    def start(self, build: Build[P]) -> Assembly:
        """Return an empty assembly of this module to add to."""
        return Assembly(self.id, self.title, build.materials, sold=build.screws)
