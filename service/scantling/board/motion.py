"""Things that move in use: a lid or a door that swings on its hinges, a drawer that slides out, from shut to open."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from math import isfinite
from typing import Any, Literal

from .joint import Joint, JointKind
from .part import Part
from .vector import Vector, along, cross, dot, named_axis, sub, unit

MOST_SWING_DEG = 360.0
FREE = (JointKind.LOOSE, JointKind.HINGED, JointKind.SLIDING)  # what these join does not move as one
ACROSS = 0.1  # cosine: a direction this far along the hinge line or the leaf's own reach says nothing of the way


class MotionError(ValueError):
    """A motion that cannot be; the message names it and says what would be accepted."""


@dataclass(frozen=True, slots=True)
class Motion:
    """What moves and how: a swing about an axis through `point` by `travel` degrees, or a slide by `travel` mm.

    `axis` is the direction of the hinge line (right-handed) or of the slide, kept at length 1. `parts` are those that
    hang on the hinge or the slide; what is fixed to them moves with them (`moving_parts`). `held_by` says what holds
    it open, `cushions` are those fixed to it. Raises MotionError for a travel of nothing or an axis without length.
    """

    id: str
    kind: Literal["swing", "slide"]
    parts: tuple[str, ...]
    axis: Vector
    travel: float
    point: Vector = (0.0, 0.0, 0.0)
    held_by: str = ""
    cushions: tuple[str, ...] = ()

    def __post_init__(self) -> None:
        if not self.parts:
            raise MotionError(f"{self.id}: a motion needs a part that moves")
        if self.travel == 0 or not isfinite(self.travel):
            raise MotionError(f"{self.id}: a motion needs a travel other than 0")
        if self.kind == "swing" and abs(self.travel) > MOST_SWING_DEG:
            raise MotionError(f"{self.id}: a swing of {self.travel:g}° goes round more than once")
        try:
            object.__setattr__(self, "axis", unit(self.axis))
        except ValueError as error:
            raise MotionError(f"{self.id}: {error}") from None


def swing(
    id: str, leaf: Part, edge: tuple[str, str], gap: float, towards: str | Vector, opens: float,
    held_by: str = "", cushions: Iterable[str] = (),
) -> Motion:  # fmt: skip
    """Return the swing of a leaf on hinges along the edge where two of its sides meet.

    The second side faces what the leaf hangs on, `gap` mm away: the pins lie in the middle of that gap. `towards` is
    the way the leaf moves when it begins to open, `opens` by how many degrees. Raises MotionError for sides that do
    not meet, or a direction that says nothing.
    """
    first, second = (leaf.plane(side) for side in edge)
    line = cross(first.normal, second.normal)
    if dot(line, line) < 1e-9:
        raise MotionError(f"{leaf.id}: its {edge[0]} and {edge[1]} do not meet in an edge to hinge it on")
    axis = unit(line)
    met = next(c for cell in leaf.cells() for c in cell.corners if _on(c, first.offset, first.normal)
               and _on(c, second.offset, second.normal))  # fmt: skip
    point = along(met, second.normal, gap / 2)
    way = named_axis(towards) if isinstance(towards, str) else unit(towards)
    begins = cross(axis, sub(leaf.volume_and_centre()[1], point))
    if abs(dot(begins, way)) < ACROSS * dot(begins, begins) ** 0.5:
        raise MotionError(f"{leaf.id}: on this edge it swings neither towards {towards} nor away from it")
    turn = opens if dot(begins, way) > 0 else -opens
    return Motion(id, "swing", (leaf.id,), axis, turn, point, held_by, tuple(cushions))


def _on(point: Vector, offset: float, normal: Vector) -> bool:
    return abs(dot(point, normal) - offset) < 1e-6


def slide(id: str, moving: Sequence[Part], towards: str | Vector, by: float, held_by: str = "") -> Motion:
    """Return the slide of some parts along a direction by so many mm."""
    axis = named_axis(towards) if isinstance(towards, str) else towards
    return Motion(id, "slide", tuple(p.id for p in moving), axis, by, held_by=held_by)


def moving_parts(parts: Iterable[str], joints: Iterable[Joint], motion: Motion) -> tuple[str, ...]:
    """Return the ids of all that moves, in the order of the piece: the motion's own parts and what is fixed to them.

    Where everything is fixed to everything, only the motion's own parts move: its hinges were told as screws.
    """
    order = tuple(parts)
    tied: dict[str, set[str]] = {}
    for joint in joints:
        if joint.kind not in FREE:
            for part in joint.parts:
                tied.setdefault(part, set()).update(joint.parts)
    found, ahead = set(motion.parts), list(motion.parts)
    while ahead:
        for other in tied.get(ahead.pop(), ()):
            if other not in found:
                found.add(other)
                ahead.append(other)
    if len(found) == len(order):
        found = set(motion.parts)
    return tuple(p for p in order if p in found)


def motion_to_plain(m: Motion) -> dict[str, Any]:
    """Return a motion as JSON members."""
    return {
        "id": m.id,
        "kind": m.kind,
        "parts": list(m.parts),
        "axis": list(m.axis),
        "travel": m.travel,
        "point_mm": list(m.point),
        "held_by": m.held_by,
        "cushions": list(m.cushions),
    }


def motion_from_plain(row: Mapping[str, Any]) -> Motion:
    """Read a motion from its JSON members (their shape checked before). Raises MotionError."""
    x, y, z = (float(v) for v in row["axis"])
    at = [float(v) for v in row.get("point_mm") or (0.0, 0.0, 0.0)]
    return Motion(
        row["id"], row["kind"], tuple(row["parts"]), (x, y, z), float(row["travel"]), (at[0], at[1], at[2]),
        row.get("held_by") or "", tuple(row.get("cushions") or ()),
    )  # fmt: skip
