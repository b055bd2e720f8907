"""Are the promises kept? Overall sizes, faces that touch, end level or stand apart."""

from collections.abc import Callable, Iterator

from scantling.board import Part, Promise, all_promises
from scantling.findings import Finding, Severity

from .distance import parts_distance
from .scene import Scene

AXES = {"x": "wide", "y": "deep", "z": "high"}
Point = tuple[float, float, float]


def promise_findings(scene: Scene) -> Iterator[Finding]:
    """Report every promise of the assembly and of its parts that does not hold."""
    checks: dict[str, Callable[[Scene, Promise], Iterator[Finding]]] = {
        "size": _size,
        "touches": _gap,
        "gap": _gap,
        "flush": _flush,
        "clear": _clear,
        "floor": _floor,
    }
    for promise in all_promises(scene.assembly):
        # a part placed against one that was taken out of the piece again promises nothing any more
        if promise.kind in checks and all(p in scene.index for p in promise.parts):
            yield from checks[promise.kind](scene, promise)


def _size(scene: Scene, promise: Promise) -> Iterator[Finding]:
    axis = promise.sides[0]
    k = "xyz".index(axis)
    found = scene.high[k] - scene.low[k]
    if abs(found - promise.value) > scene.settings.fit:
        first = min(scene.parts, key=lambda p: p.bounds()[0][k])
        last = max(scene.parts, key=lambda p: p.bounds()[1][k])
        yield Finding(
            "size-wrong",
            Severity.ERROR,
            f"The piece is {found:.2f} mm {AXES[axis]}, promised were {promise.value:.2f} mm;"
            f" it runs from {first.id} to {last.id}.",
            (first.id, last.id),
            at_mm=scene.high,
            value=found,
            limit=promise.value,
            unit="mm",
            remedy="Derive the sizes along this line from the overall size, with one part that takes up the rest.",
        )


def _heights(scene: Scene, promise: Promise) -> tuple[list[float], Point]:
    """Return how far the corners of the first part's side stand outside the plane of the second part's side."""
    mine, other = (scene.assembly.parts[p] for p in promise.parts)
    side, target = promise.sides
    plane = other.plane(target)
    corners = _side_corners(mine, side)
    heights = [plane.height(c) for c in corners]
    worst = max(range(len(corners)), key=lambda i: abs(heights[i]))
    return heights, corners[worst]


def _side_corners(part: Part, side: str) -> list[Point]:
    corners = [c for cell in part.cells() for f in cell.faces if f.name == side for c in f.corners]
    if corners:
        return corners
    plane = part.plane(side)  # the side was cut away: what is left of the part nearest to it
    nearest = max(plane.height(c) for cell in part.cells() for c in cell.corners)
    return [c for cell in part.cells() for c in cell.corners if plane.height(c) > nearest - 1e-6]


def _gap(scene: Scene, promise: Promise) -> Iterator[Finding]:
    heights, at = _heights(scene, promise)
    off = max(heights, key=lambda h: abs(h - promise.value))
    if abs(off - promise.value) > scene.settings.fit:
        (a, b), (side, target) = promise.parts, promise.sides
        what = "touch" if promise.value == 0 else f"stand {promise.value:.2f} mm from"
        yield Finding(
            "gap-wrong", Severity.ERROR,
            f"The {side} of {a} shall {what} the {target} of {b}; it stands {off:.2f} mm from it.",
            promise.parts, at_mm=at, value=off, limit=promise.value, unit="mm",
            remedy=f"Something moved {a} or {b} after they were put against each other; move it back.",
        )  # fmt: skip


def _flush(scene: Scene, promise: Promise) -> Iterator[Finding]:
    heights, at = _heights(scene, promise)
    off = max(heights, key=lambda h: abs(h + promise.value))
    if abs(off + promise.value) > scene.settings.fit:
        (a, b), (side, target) = promise.parts, promise.sides
        where = "proud of" if off > -promise.value else "back from"
        yield Finding(
            "not-flush", Severity.ERROR,
            f"The {side} of {a} shall end {_inset(promise.value)} the {target} of {b};"
            f" it stands {abs(off + promise.value):.2f} mm {where} there.",
            promise.parts, at_mm=at, value=-off, limit=promise.value, unit="mm",
            remedy=f"Something moved or resized {a} or {b} after they were levelled; place them again.",
        )  # fmt: skip


def _inset(inset: float) -> str:
    return "level with" if inset == 0 else f"{inset:.2f} mm inside"


def _clear(scene: Scene, promise: Promise) -> Iterator[Finding]:
    a, b = (scene.assembly.parts[p] for p in promise.parts)
    gap, at = parts_distance(a, b)
    if gap < promise.value - scene.settings.fit:
        yield Finding(
            "not-clear", Severity.ERROR,
            f"{a.id} and {b.id} shall keep {promise.value:.2f} mm clear; they come within {gap:.2f} mm.",
            promise.parts, at_mm=at, value=gap, limit=promise.value, unit="mm",
            remedy=f"Move one of them by {promise.value - gap:.2f} mm or make it smaller.",
        )  # fmt: skip


def _floor(scene: Scene, promise: Promise) -> Iterator[Finding]:
    for name in promise.parts:
        low, _ = scene.assembly.parts[name].bounds()
        if abs(low[2] - promise.value) > scene.settings.fit:
            yield Finding(
                "off-the-floor", Severity.ERROR,
                f"{name} shall stand at {promise.value:.2f} mm; its lowest point is at {low[2]:.2f} mm.",
                (name,), at_mm=low, value=low[2], limit=promise.value, unit="mm",
                remedy="Cut it to length from the floor up, or move it.",
            )  # fmt: skip
