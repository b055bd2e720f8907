"""The cuts of a part: shop operations in the board frame, each one something a saw, router or drill does.

Board frame, right-handed: X length along the grain, Y width, Z thickness, origin at the blank's start/near/back
corner. Ends are `start`/`end`, edges `near`/`far`, faces `back`/`face` (`face` is the show side). Lengths are mm.

Saw cuts and recesses shape the convex cells. Holes, easings and curves are drawn, listed and routed to a tool;
checks use the straight shape without them, which is on the safe side.
"""

from dataclasses import dataclass, replace
from math import atan2, cos, degrees, radians, sin
from typing import Literal, cast

from .cell import Plane

Side = Literal["start", "end", "near", "far"]
FaceName = Literal["back", "face"]
Size = tuple[float, float, float]

MOST_BEVEL_DEG = 75.0


class CutError(ValueError):
    """A cut that cannot be made on this blank; the message says which and why."""


@dataclass(frozen=True, slots=True)
class SawCut:
    """A through-cut that makes a new `start`, `end`, `near` or `far` side.

    `mitre` turns the cut on the board's face, `bevel` tilts the blade, both in degrees from square and never
    negative. The long point lies on the edge (or, for a rip, the end) `long_edge` and on the face `long_face`, `at`
    millimetres in from the blank's side; a blank is the long-point size, so `at` is usually 0.
    """

    side: Side
    mitre: float = 0.0
    bevel: float = 0.0
    long_edge: Side = "far"
    long_face: FaceName = "face"
    at: float = 0.0

    def __str__(self) -> str:
        turned = f", mitre {self.mitre:g}°, bevel {self.bevel:g}°" if self.mitre or self.bevel else ""
        return f"saw cut {self.at:g} mm in from the {self.side}{turned}"

    @property
    def crosscut(self) -> bool:
        """Whether the cut makes an end (else it is a rip along the board)."""
        return self.side in ("start", "end")

    def plane(self, size: Size) -> Plane:
        """Return the half-space the part keeps, in the board frame of a blank of `size` (length, width, thickness).

        Raises CutError for an angle outside 0 to 75° or a long point that does not lie on a neighbouring side.
        """
        if not (0 <= self.mitre <= MOST_BEVEL_DEG and 0 <= self.bevel <= MOST_BEVEL_DEG):
            raise CutError(f"saw cut at {self.side}: mitre {self.mitre} and bevel {self.bevel} must lie in 0 to 75°")
        neighbours = ("near", "far") if self.crosscut else ("start", "end")
        if self.long_edge not in neighbours:
            raise CutError(f"saw cut at {self.side}: long_edge must be one of {neighbours}, not {self.long_edge!r}")
        m, b = radians(self.mitre), radians(self.bevel)
        outwards = 1.0 if self.side in ("end", "far") else -1.0
        lean_edge = -1.0 if self.long_edge in ("far", "end") else 1.0
        lean_face = -1.0 if self.long_face == "face" else 1.0
        main, cross, z = outwards * cos(b) * cos(m), lean_edge * cos(b) * sin(m), lean_face * sin(b)
        normal = (main, cross, z) if self.crosscut else (cross, main, z)
        length, width, thickness = size
        along, across = (length, width) if self.crosscut else (width, length)
        long_main = along - self.at if outwards > 0 else self.at
        long_cross = across if self.long_edge in ("far", "end") else 0.0
        long_z = thickness if self.long_face == "face" else 0.0
        point = (long_main, long_cross, long_z) if self.crosscut else (long_cross, long_main, long_z)
        return Plane(normal, sum(n * p for n, p in zip(normal, point, strict=True)))


@dataclass(frozen=True, slots=True)
class Recess:
    """A box taken out of the blank: a notch, groove, rabbet, dado or slot, by its bounds in the board frame.

    A notch and a slot go through the thickness; a groove runs along the grain, a dado across it, a rabbet along an
    edge or end, all in one face. `stopped` says that it does not run out at both ends.
    """

    kind: Literal["notch", "groove", "rabbet", "dado", "slot"]
    x0: float
    x1: float
    y0: float
    y1: float
    z0: float
    z1: float
    stopped: bool = False

    def __str__(self) -> str:
        ranges = ((self.x0, self.x1), (self.y0, self.y1), (self.z0, self.z1))
        return (
            f"{self.kind} over "
            + ", ".join(f"{axis} {low:g} to {high:g}" for axis, (low, high) in zip("xyz", ranges, strict=True))
            + " mm"
        )

    def planes(self) -> tuple[Plane, ...]:
        """Return the six half-spaces of the box. Raises CutError where it has no size."""
        if not (self.x0 < self.x1 and self.y0 < self.y1 and self.z0 < self.z1):
            raise CutError(f"a cut needs a size in every direction, got a {self}")
        return (
            Plane((-1.0, 0.0, 0.0), -self.x0),
            Plane((1.0, 0.0, 0.0), self.x1),
            Plane((0.0, -1.0, 0.0), -self.y0),
            Plane((0.0, 1.0, 0.0), self.y1),
            Plane((0.0, 0.0, -1.0), -self.z0),
            Plane((0.0, 0.0, 1.0), self.z1),
        )


@dataclass(frozen=True, slots=True)
class Hole:
    """A round hole drilled square to a face at (x, y); `depth` None goes through. `purpose`: drain, finger, bolt …"""

    x: float
    y: float
    diameter: float
    depth: float | None = None
    side: FaceName = "face"
    purpose: str = "hole"


@dataclass(frozen=True, slots=True)
class Easing:
    """A softened edge: `edge` names the two sides that meet ("near/face"), `kind` round-over or chamfer, size in mm."""

    edge: str
    size: float
    kind: Literal["round-over", "chamfer"] = "round-over"


@dataclass(frozen=True, slots=True)
class Curve:
    """A curved side: the side bows in by `rise` mm at its middle; cut to a line after the straight cuts."""

    side: Side
    rise: float


Cut = SawCut | Recess | Hole | Easing | Curve


def corner_cut(size: Size, end: Side, edge: Side, along: float, across: float) -> SawCut:
    """Return the cut of a corner: a line that leaves `edge` `along` mm from `end`, and `end` `across` mm from `edge`.

    It is told as a cut at the end, or as a rip where that turns the saw less. Raises CutError for a size of 0 or less.
    """
    if not (along > 0 and across > 0):
        raise CutError(f"a corner is cut off by two sizes above 0, got {along:.2f} and {across:.2f} mm")
    if along <= across:
        long_at = -along * (size[1] - across) / across
        return SawCut(end, degrees(atan2(along, across)), 0.0, cast(Side, _ACROSS[edge]), "face", long_at)
    long_at = -across * (size[0] - along) / along
    return SawCut(edge, degrees(atan2(across, along)), 0.0, cast(Side, _ACROSS[end]), "face", long_at)


_ACROSS = {"start": "end", "end": "start", "near": "far", "far": "near"}


def traded(side: str) -> str:
    """Return a side's name on the other hand's board: near and far trade places."""
    return {"near": "far", "far": "near"}.get(side, side)


def other_hand(cut: Cut, width: float) -> Cut:
    """Return a cut as the other hand's board of a width has it."""
    if isinstance(cut, SawCut):
        return replace(cut, side=cast(Side, traded(cut.side)), long_edge=cast(Side, traded(cut.long_edge)))
    if isinstance(cut, Recess):
        return replace(cut, y0=width - cut.y1, y1=width - cut.y0)
    if isinstance(cut, Hole):
        return replace(cut, y=width - cut.y)
    if isinstance(cut, Easing):
        return replace(cut, edge="/".join(traded(s) for s in cut.edge.split("/")))
    return replace(cut, side=cast(Side, traded(cut.side)))
