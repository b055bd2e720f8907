"""A piece drawn apart: every group moved back the way it came until its boxes are clear of what it was brought to."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from scantling.board import Assembly
from scantling.board.vector import Vector, add, scale, sub, unit

CLEAR_MM = 40.0
FARTHEST_MM = 5000.0
Box3 = tuple[Vector, Vector]


@dataclass(frozen=True, slots=True)
class Bring:
    """One step of assembly: the parts it brings, to which parts, and the direction in which they come off again."""

    parts: tuple[str, ...]
    to: tuple[str, ...]
    off: Vector | None = None


def exploded(assembly: Assembly, steps: Sequence[Bring], clear: float = CLEAR_MM) -> dict[str, Vector]:
    """Return how far each part is moved, in mm, so that no two boxes of different groups overlap.

    Steps are read in the order of assembly; a group that was put together before it is brought moves as one. What no
    step joins is moved away from the middle of the rest.
    """
    boxes = {p.id: p.bounds() for p in assembly.parts.values()}
    moves: dict[str, Vector] = dict.fromkeys(boxes, (0.0, 0.0, 0.0))
    group_of: dict[str, tuple[str, ...]] = {id: (id,) for id in boxes}
    for step in steps:
        _bring(step, boxes, moves, group_of, clear)
    groups = list(dict.fromkeys(group_of.values()))
    groups.sort(key=lambda g: (-len(g), g))
    fixed: tuple[str, ...] = groups[0] if groups else ()
    for group in groups[1:]:
        _away(group, fixed, boxes, moves, clear)
        fixed = (*fixed, *group)
    return moves


def lifted(
    assembly: Assembly, parts: Sequence[str], to: Sequence[str], off: Vector | None, clear: float = CLEAR_MM
) -> dict[str, Vector]:
    """Return how far some parts are moved so that their boxes are clear of others that stay where they are."""
    boxes = {p.id: p.bounds() for p in assembly.parts.values()}
    moves: dict[str, Vector] = dict.fromkeys(boxes, (0.0, 0.0, 0.0))
    _move(parts, unit(off or _outwards(parts, to, boxes, moves)), to, boxes, moves, clear)
    return moves


def _bring(
    step: Bring, boxes: Mapping[str, Box3], moves: dict[str, Vector], group_of: dict[str, tuple[str, ...]], clear: float
) -> None:
    brought = tuple(dict.fromkeys(p for id in step.parts if id in group_of for p in group_of[id]))
    target = tuple(dict.fromkeys(p for id in step.to if id in group_of for p in group_of[id] if p not in brought))
    if not brought:
        return
    if target:
        way = step.off or _outwards(brought, target, boxes, moves)
        _move(brought, unit(way), target, boxes, moves, clear)
    together = (*target, *brought)
    for id in together:
        group_of[id] = together


def _away(
    group: Sequence[str], rest: Sequence[str], boxes: Mapping[str, Box3], moves: dict[str, Vector], clear: float
) -> None:
    _move(group, _outwards(group, rest, boxes, moves), rest, boxes, moves, clear)


def _move(
    group: Sequence[str],
    way: Vector,
    others: Sequence[str],
    boxes: Mapping[str, Box3],
    moves: dict[str, Vector],
    clear: float,
) -> None:
    distance = _least_clear(group, others, way, boxes, moves, clear)
    for id in group:
        moves[id] = add(moves[id], scale(way, distance))


def _outwards(
    group: Sequence[str], rest: Sequence[str], boxes: Mapping[str, Box3], moves: Mapping[str, Vector]
) -> Vector:
    """Return the axis along which a group lies farthest from the middle of the rest; up where it lies in it."""
    apart = sub(_middle(group, boxes, moves), _middle(rest, boxes, moves))
    axis = max(range(3), key=lambda i: (round(abs(apart[i]), 6), i))
    if abs(apart[axis]) < 1e-6:
        return (0.0, 0.0, 1.0)
    way = [0.0, 0.0, 0.0]
    way[axis] = 1.0 if apart[axis] > 0 else -1.0
    return (way[0], way[1], way[2])


def _middle(ids: Sequence[str], boxes: Mapping[str, Box3], moves: Mapping[str, Vector]) -> Vector:
    lows, highs = zip(*(_moved(boxes[i], moves[i]) for i in ids), strict=True)
    middle = [(min(p[k] for p in lows) + max(p[k] for p in highs)) / 2 for k in range(3)]
    return (middle[0], middle[1], middle[2])


def _moved(box: Box3, by: Vector) -> Box3:
    return add(box[0], by), add(box[1], by)


def _least_clear(
    group: Sequence[str],
    others: Sequence[str],
    way: Vector,
    boxes: Mapping[str, Box3],
    moves: Mapping[str, Vector],
    clear: float,
) -> float:
    """Return the least distance along `way` at which no box of the group overlaps one of the others, with a gap."""
    blocked: list[tuple[float, float]] = [(0.0, clear)]
    for a in group:
        for b in others:
            stretch = _overlap(_moved(boxes[a], moves[a]), _moved(boxes[b], moves[b]), way, clear)
            if stretch:
                blocked.append(stretch)
    at = 0.0
    for low, high in sorted(blocked):
        if low > at:
            break
        at = max(at, high)
    return min(at, FARTHEST_MM)


def _overlap(a: Box3, b: Box3, way: Vector, clear: float) -> tuple[float, float] | None:
    """Return the stretch of distances at which box a, moved along a way, overlaps box b grown by the gap along it."""
    low, high = 0.0, FARTHEST_MM
    for k in range(3):
        gap = clear * abs(way[k])
        near, far = b[0][k] - a[1][k] - gap, b[1][k] - a[0][k] + gap
        if abs(way[k]) < 1e-9:
            if near >= -1e-6 or far <= 1e-6:
                return None
            continue
        first, last = sorted((near / way[k], far / way[k]))
        low, high = max(low, first), min(high, last)
    return (low, high) if high > low + 1e-6 else None
