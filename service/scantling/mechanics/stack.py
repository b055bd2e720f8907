"""What a screw passes on its way: bite, thread and turns in every part, and where the point ends.

One function reads a stack along a screw's axis. It is fed by a list of layers in a request, or by the intervals a
ray cuts out of placed parts: the same answer either way. Positions are measured from the surface the head sits on.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from .validity import not_negative, positive

GUARD_MM = 0.01
GRAINS = ("face", "side", "edge", "end")


@dataclass(frozen=True, slots=True)
class Interval:
    """A stretch of one part along the axis, mm from the surface; grain met there: face, side, edge or end."""

    part: str
    material: str
    entry_mm: float
    exit_mm: float
    grain: str


@dataclass(frozen=True, slots=True)
class Bite:
    """One part as the screw meets it, mm: screw in it, thread in it, turns of thread (None: pitch unknown)."""

    part: str
    material: str
    grain: str
    entry_mm: float
    exit_mm: float
    bite_mm: float
    thread_mm: float
    threads: float | None

    @property
    def thickness_mm(self) -> float:
        """Return how much of the part lies along the axis, mm."""
        return self.exit_mm - self.entry_mm

    def to_plain(self) -> dict[str, object]:
        """Return the bite as JSON members."""
        return {
            "part": self.part,
            "material": self.material,
            "grain": self.grain,
            "entry_mm": round(self.entry_mm, 2),
            "exit_mm": round(self.exit_mm, 2),
            "bite_mm": round(self.bite_mm, 2),
            "thread_mm": round(self.thread_mm, 2),
            "threads": None if self.threads is None else round(self.threads, 1),
        }


@dataclass(frozen=True, slots=True)
class Stack:
    """A read stack. The last layer is the receiver; `ends_in` is the part the point stands in, None in the open."""

    layers: tuple[Bite, ...]
    head_mm: float
    point_mm: float
    ends_in: str | None
    protrusion_mm: float

    @property
    def receiver(self) -> Bite:
        """Return the last layer, the one meant to hold the screw."""
        return self.layers[-1]

    @property
    def head_layers_mm(self) -> float:
        """Return how far it is from the surface to the receiver, gaps included, mm."""
        return self.receiver.entry_mm

    @property
    def left_mm(self) -> float:
        """Return the wood left between the point and the far side of the receiver, mm; negative when it comes out."""
        return self.receiver.exit_mm - self.point_mm

    @property
    def thread_holder(self) -> Bite | None:
        """Return the layer with the longest thread in it, None when the thread meets no wood."""
        best = max(self.layers, key=lambda bite: bite.thread_mm)
        return best if best.thread_mm > 0 else None


def read_stack(
    intervals: Sequence[Interval],
    *,
    length_mm: float,
    head_depth_mm: float,
    thread_mm: float,
    threads_per_inch: float | None = None,
) -> Stack:
    """Read a stack along a fastener of a length whose head sits `head_depth_mm` below the surface.

    Units: mm from the surface; result in mm and turns. Valid: at least one interval, each longer than nothing, in order
    and not overlapping; length above zero; head depth zero or more; thread no longer than the fastener.
    Raises: OutOfValidity for a length out of range, ValueError for intervals out of order.
    Source: geometry; the thread length of wood screws is NDS 2018 Appendix Table L3, footnotes 2 and 3.
    """
    _check(intervals)
    positive("length", length_mm, "mm")
    not_negative("head depth", head_depth_mm, "mm")
    point = head_depth_mm + length_mm
    thread_start = point - min(not_negative("thread", thread_mm, "mm"), length_mm)
    pitch = None if threads_per_inch is None else 25.4 / threads_per_inch
    layers = tuple(_bite(one, head_depth_mm, thread_start, point, pitch) for one in intervals)
    inside = next((one.part for one in intervals if one.entry_mm < point <= one.exit_mm + GUARD_MM), None)
    left = max((one.exit_mm for one in intervals if one.entry_mm < point), default=0.0)
    protrusion = 0.0 if inside is not None else max(0.0, point - left)
    return Stack(layers, head_depth_mm, point, inside, protrusion)


def layers_to_intervals(layers: Sequence[tuple[str, str, float, str]]) -> tuple[Interval, ...]:
    """Lay parts (part, material, thickness, grain) one against the other from the surface down.

    Units: mm. Valid: thicknesses above zero. Raises: OutOfValidity otherwise. Source: geometry.
    """
    intervals, depth = [], 0.0
    for part, material, thickness, grain in layers:
        end = depth + positive("thickness", thickness, "mm")
        intervals.append(Interval(part, material, depth, end, grain))
        depth = end
    return tuple(intervals)


def _bite(one: Interval, head: float, thread_start: float, point: float, pitch: float | None) -> Bite:
    bite = max(0.0, min(one.exit_mm, point) - max(one.entry_mm, head))
    thread = max(0.0, min(one.exit_mm, point) - max(one.entry_mm, thread_start, head))
    turns = None if pitch is None else thread / pitch
    return Bite(one.part, one.material, one.grain, one.entry_mm, one.exit_mm, bite, thread, turns)


def _check(intervals: Sequence[Interval]) -> None:
    if not intervals:
        raise ValueError("a stack needs at least one part")
    for one in intervals:
        if one.exit_mm - one.entry_mm <= 0:
            raise ValueError(f"{one.part} has no length along the screw")
        if one.grain not in GRAINS:
            raise ValueError(f"grain {one.grain!r} is none of {', '.join(GRAINS)}")
    for before, after in pairwise(intervals):
        if after.entry_mm < before.exit_mm - GUARD_MM:
            raise ValueError(f"{after.part} begins before {before.part} ends")
