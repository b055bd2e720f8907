"""What every screw does: the parts it passes, its bite, where its point ends, and what hides its head."""

from dataclasses import dataclass
from typing import Any

from scantling.board import Fastener
from scantling.board.vector import Vector, along

from .rays import Passage, axes_of, passages
from .scene import Scene

HIDDEN_MM = 1.0  # a part this close in front of a head hides it
SLIVER_MM = 0.05


@dataclass(frozen=True, slots=True)
class ScrewFit:
    """One fastener in the finished piece; lengths in mm along its axis from the surface its head sits on.

    `stack` are the stretches inside parts between head and point, in order. `bite` is what the last named part holds,
    `ahead` the wood between the point and where the axis leaves that part (negative: the point is out by so much, at
    `out_at`). `grain` is what the point enters: face, edge or end of that part. `hidden_by` lie over the head.
    """

    fastener: Fastener
    stack: tuple[Passage, ...]
    met: tuple[str, ...]
    bite: float
    ahead: float
    point_at: Vector
    out_at: Vector | None
    grain: str
    hidden_by: tuple[str, ...]
    edge_gap: float
    edge: str

    @property
    def holder(self) -> str:
        """The part that shall hold the point."""
        return self.fastener.parts[-1]

    def to_plain(self) -> dict[str, Any]:
        """Return the screw as JSON members."""
        return {
            "fastener": self.fastener.id,
            "joint": self.fastener.joint,
            "passes": [
                {
                    "part": name,
                    "enters_mm": round(max(0.0, p.enter), 2),
                    "leaves_mm": round(p.leave, 2),
                    "to_end_mm": _known(p.end_gap),
                    "to_edge_mm": _known(p.edge_gap),
                    "edge": p.edge,
                }
                for name, p in zip(self.met, self.stack, strict=True)
            ],
            "bite_mm": round(self.bite, 2),
            "wood_ahead_mm": round(self.ahead, 2),
            "point_mm": [round(c, 2) for c in self.point_at],
            "enters_grain": self.grain,
            "nearest_edge_mm": _known(self.edge_gap),
            "nearest_edge": self.edge,
            "head_hidden_by": list(self.hidden_by),
        }


def _known(gap: float) -> float | None:
    """Return a distance to a side, or None where no side lies that way."""
    return None if gap == float("inf") else round(gap, 2)


def screw_fits(scene: Scene) -> list[ScrewFit]:
    """Return what every fastener of the scene does, in order."""
    axes = axes_of(scene.fasteners)
    found = passages(scene.soup, scene.fasteners, axes)
    return [_fit(scene, f, found[i]) for i, f in enumerate(scene.fasteners)]


def _fit(scene: Scene, f: Fastener, passed: list[Passage]) -> ScrewFit:
    point = f.head_depth + f.length
    stack = tuple(p for p in passed if min(p.leave, point) - max(p.enter, 0.0) > SLIVER_MM)
    met = scene.ids(*(p.part for p in stack))
    holder = scene.index[f.parts[-1]]
    held = [p for p in stack if p.part == holder]
    bite = sum(min(p.leave, point) - max(p.enter, 0.0) for p in held)
    ahead = held[-1].leave - point if held else 0.0
    out_at = along(f.head, f.direction, held[-1].leave) if held and ahead < 0 else None
    head_part = scene.index[f.parts[0]]
    hidden = tuple(
        scene.parts[p.part].id
        for p in passed
        if p.part != head_part and p.enter < -SLIVER_MM and p.leave > -HIDDEN_MM and p.leave < SLIVER_MM
    )
    nearest = min(stack, key=lambda p: min(p.edge_gap, p.end_gap), default=None)
    gap, edge = float("inf"), ""
    if nearest is not None:
        is_end = nearest.end_gap < nearest.edge_gap
        gap = min(nearest.edge_gap, nearest.end_gap)
        edge = f"{'end' if is_end else nearest.edge} of {scene.parts[nearest.part].id}"
    return ScrewFit(
        f, stack, met, bite, ahead, along(f.head, f.direction, point), out_at,
        scene.parts[holder].grain_angle(f.direction), hidden, gap, edge,
    )  # fmt: skip
