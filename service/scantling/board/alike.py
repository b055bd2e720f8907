"""Parts that are alike, as a shop would say: cut from one setting, turned over or not; and those of the other hand.

Two parts are alike when a turn of one board lays all its corners and holes on the other's: four turns keep the hand,
four more mirror it. Turning over swaps the faces, so it counts only where both faces may show or neither does. A
mirrored match is the other hand, never alike. Corners are compared pair by pair, since hashing rounded corners splits
parts that are equal.
"""

from dataclasses import dataclass
from itertools import product

from .cuts import Curve, Easing, Hole
from .part import Part
from .vector import Vector

SAME_MM = 0.02


@dataclass(frozen=True, slots=True)
class Group:
    """Parts cut alike. `hand` is "" for parts without a mirrored twin group, else "left" or "right" with `twin` its id.

    Which of two hands is called left is by the order of the parts: the first group met is the left one.
    """

    id: str
    parts: tuple[str, ...]
    hand: str = ""
    twin: str | None = None


def alike(parts: list[Part]) -> list[Group]:
    """Return the groups of alike parts, in the order of their first part."""
    groups: list[list[Part]] = []
    for part in parts:
        for group in groups:
            if _match(group[0], part, mirrored=False):
                group.append(part)
                break
        else:
            groups.append([part])
    hands = _hands(groups)
    return [
        Group(g[0].id, tuple(p.id for p in g), *hands.get(i, ("", None)))
        for i, g in enumerate(groups)
    ]  # fmt: skip


def _hands(groups: list[list[Part]]) -> dict[int, tuple[str, str | None]]:
    hands: dict[int, tuple[str, str | None]] = {}
    for i, first in enumerate(groups):
        if i in hands:
            continue
        for j in range(i + 1, len(groups)):
            if j not in hands and _match(first[0], groups[j][0], mirrored=True):
                hands[i], hands[j] = ("left", groups[j][0].id), ("right", first[0].id)
                break
    return hands


def _match(a: Part, b: Part, *, mirrored: bool) -> bool:
    if not _same_blank(a, b):
        return False
    corners_a, corners_b = _labelled_points(a), _labelled_points(b)
    if len(corners_a) != len(corners_b):
        return False
    for flips in product((1.0, -1.0), repeat=3):
        hand = flips[0] * flips[1] * flips[2]
        if (hand < 0) is not mirrored:
            continue
        if flips[2] < 0 and not mirrored and a.shows == "face":
            continue
        if _covers(corners_a, corners_b, flips):
            return True
    return False


def _same_blank(a: Part, b: Part) -> bool:
    return (
        a.material.material == b.material.material
        and a.material.role == b.material.role
        and a.shows == b.shows
        and a.grain == b.grain
        and all(abs(x - y) <= SAME_MM for x, y in zip(a.size, b.size, strict=True))
    )


def _labelled_points(part: Part) -> list[tuple[str, Vector]]:
    """Return the part's corners and holes about the middle of its blank, with what each is."""
    half = tuple(s / 2 for s in part.size)
    points: list[tuple[str, Vector]] = [
        ("corner", (c[0] - half[0], c[1] - half[1], c[2] - half[2]))
        for cell in part.cells_local()
        for c in cell.corners
    ]
    for cut in part.cuts:
        if isinstance(cut, Hole):
            z = half[2] if cut.side == "face" or cut.depth is None else -half[2]
            label = f"hole {cut.purpose} {cut.diameter:.2f} {cut.depth}"
            points.append((label, (cut.x - half[0], cut.y - half[1], z if cut.depth is not None else 0.0)))
        elif isinstance(cut, Easing | Curve):
            points.append((f"{cut}" if isinstance(cut, Curve) else f"{cut.kind} {cut.size}", (0.0, 0.0, 0.0)))
    return points


def _covers(a: list[tuple[str, Vector]], b: list[tuple[str, Vector]], flips: tuple[float, ...]) -> bool:
    left = list(b)
    for label, p in a:
        q = (p[0] * flips[0], p[1] * flips[1], p[2] * flips[2])
        for i, (other, r) in enumerate(left):
            if label == other and max(abs(q[0] - r[0]), abs(q[1] - r[1]), abs(q[2] - r[2])) <= SAME_MM:
                del left[i]
                break
        else:
            return False
    return True
