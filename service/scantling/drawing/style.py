"""The line styles of all drawings: width in mm, dashes in mm, and grey from 0 (black) to 1 (white).

Black on white and told apart by width and dash first, so that a photocopy and a colour-blind reader lose nothing.
Widths follow the 0.18 – 0.25 – 0.35 – 0.5 – 0.7 mm series of ISO 128.
"""

from dataclasses import dataclass
from types import MappingProxyType


@dataclass(frozen=True, slots=True)
class Stroke:
    """One line style."""

    width: float
    dash: tuple[float, ...] = ()
    grey: float = 0.0


STROKES = MappingProxyType(
    {
        "none": Stroke(0.0),
        "new": Stroke(0.7),
        "heavy": Stroke(0.5),
        "outline": Stroke(0.35),
        "old": Stroke(0.18, (), 0.35),
        "thin": Stroke(0.18),
        "hidden": Stroke(0.18, (1.5, 1.0)),
        "kept": Stroke(0.25, (3.0, 1.5)),
        "cut": Stroke(0.25, (0.6, 0.9)),
        "seal": Stroke(0.7, (4.0, 1.2, 0.8, 1.2)),
        "hatch": Stroke(0.13, (), 0.45),
        "dimension": Stroke(0.18),
        "leader": Stroke(0.18),
        "rule": Stroke(0.18, (), 0.4),
        "fold": Stroke(0.18, (2.0, 2.0), 0.5),
    }
)

FILLS = MappingProxyType({"none": None, "white": 1.0, "black": 0.0, "tint": 0.92, "waste": 0.96})
