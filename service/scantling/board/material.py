"""What a part is cut from: a material at a thickness somebody measured or assumed."""

from dataclasses import dataclass
from typing import Literal


@dataclass(frozen=True, slots=True)
class RoleMaterial:
    """A module's own word (`role`) mapped to a material and a thickness in mm.

    `thickness` is what the sizes are derived from; `least` and `most` bound it; `assumed` says nobody has put a
    caliper to it yet, so no joint that depends on it may be cut. `width` is that of a board as bought (None: a sheet).
    """

    role: str
    material: str
    thickness: float
    least: float
    most: float
    assumed: bool
    density_kg_m3: float
    stock_kind: Literal["sheet", "board"] = "sheet"
    has_grain: bool = True
    width: float | None = None
