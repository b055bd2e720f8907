"""Joints and fasteners: what holds two parts together, and what goes through them."""

from dataclasses import dataclass
from enum import StrEnum
from typing import Literal

from .vector import Vector


class JointKind(StrEnum):
    """How parts are held; the trade's own words."""

    GLUE = "glue"
    SCREWS = "screws"
    NAILS = "nails"
    DOWELS = "dowels"
    FOLDED_MITRE = "folded-mitre"
    HOUSED = "housed"
    BOLTED = "bolted"
    HINGED = "hinged"
    SLIDING = "sliding"
    LOOSE = "loose"
    CLIPPED = "clipped"


class ScrewRole(StrEnum):
    """What a screw is there for: it carries the load, pulls up a glued joint, or keeps a part in place."""

    HOLDS = "holds"
    CLAMPS = "clamps"
    LOCATES = "locates"


@dataclass(frozen=True, slots=True)
class Joint:
    """Two or more parts that meet. `clearance` in mm is the gap meant to stay open (0 for a tight joint)."""

    id: str
    kind: JointKind
    parts: tuple[str, ...]
    glued: bool = False
    clearance: float = 0.0
    shows: bool = False


@dataclass(frozen=True, slots=True)
class Fastener:
    """A screw (nail, bolt, dowel) in place: its head at `head`, driven along the unit vector `direction`.

    `parts` are those it passes in order, the last one holds the point. `head_depth` is how far the head sits below
    the surface. `gauge` is the screw number of ASME B18.6.1; `length` and `diameter` are in mm.
    """

    id: str
    kind: Literal["wood screw", "nail", "dowel", "bolt"]
    gauge: int
    diameter: float
    length: float
    head: Vector
    direction: Vector
    parts: tuple[str, ...]
    role: ScrewRole
    joint: str
    head_depth: float = 0.0
