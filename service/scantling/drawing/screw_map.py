"""Where the screws of a part go: its face with a dot for every head, measured from the datum corner, and a table."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from scantling.board import Assembly, Fastener, Part
from scantling.board.vector import Vector

from .dimension import LETTER_MM, Sizes, meet, places_of
from .lettering import text_width, wrapped
from .running import level_run, upright_run
from .shapes import Box, Circle, Drawing, Shape, Text, rectangle

TITLE_MM = 4.4
NOTE_MM = 3.0
SIDE_MM = 26.0
SIDE_BOTH_MM = 36.0
MOST_VIEW_MM = 70.0
DOT_MM = 0.8
SAME_MM = 0.3


@dataclass(frozen=True, slots=True)
class Spot:
    """Where one screw enters a part: its place from the start and from the near edge in mm, and the face."""

    screw: Fastener
    x: float
    y: float
    z: float
    side: str


def spots_of(assembly: Assembly, part: Part) -> list[Spot]:
    """Return where screws are driven into a part from outside, in the order of the fasteners."""
    spots = []
    for screw in assembly.fasteners.values():
        if screw.parts[0] == part.id:
            x, y, z = part.frame.local(screw.head)
            spots.append(Spot(screw, x, y, z, _side(part, screw.direction)))
    return spots


def _side(part: Part, direction: Vector) -> str:
    """Return the side of a part a screw enters, given the direction it is driven."""
    origin = part.frame.origin
    dx, dy, dz = part.frame.local(tuple(a + b for a, b in zip(origin, direction, strict=True)))  # type: ignore[arg-type]
    if abs(dz) >= max(abs(dx), abs(dy)):
        return "back" if dz > 0 else "face"
    if abs(dy) >= abs(dx):
        return "near" if dy > 0 else "far"
    return "start" if dx > 0 else "end"


def screw_maps(assembly: Assembly, sizes: Sizes, parts: Sequence[str], width: float = 180.0) -> list[Drawing]:
    """Return a map for each face of some parts that screws are driven into; faces alike share one."""
    groups: dict[tuple[object, ...], list[tuple[Part, list[Spot]]]] = {}
    for id in parts:
        part = assembly.parts[id]
        by_side: dict[str, list[Spot]] = {}
        for spot in spots_of(assembly, part):
            by_side.setdefault(spot.side, []).append(spot)
        for side in sorted(by_side):
            groups.setdefault(_likeness(part, side, by_side[side]), []).append((part, by_side[side]))
    return [_map(key[0], group, sizes, width) for key, group in groups.items()]


def _likeness(part: Part, side: str, spots: Sequence[Spot]) -> tuple[object, ...]:
    """Return what makes two faces alike: side, size, and every screw's place and kind, to a tenth of a millimetre."""
    size = tuple(round(s, 1) for s in part.size)
    screws = sorted((round(s.x, 1), round(s.y, 1), round(s.z, 1), s.screw.gauge, s.screw.length) for s in spots)
    return (side, part.name, size, tuple(screws))


def _map(side: object, group: Sequence[tuple[Part, list[Spot]]], sizes: Sizes, width: float) -> Drawing:
    side = str(side)
    part, spots = group[0]
    long, wide, xs, ys = _flattened(part, side, spots)
    mirrored = side in ("back", "far", "start")
    shapes: list[Shape] = []
    names = ", ".join(p.id for p, _ in group)
    each = " each" if len(group) > 1 else ""
    kinds = {s.screw.kind for s in spots}
    noun = "screw" if kinds == {"wood screw"} else kinds.pop() if len(kinds) == 1 else "fastener"
    screws = f"1 {noun}" if len(spots) == 1 else f"{len(spots)} {noun}s"
    heading = f"{names}: {screws}{each} driven from the {side}"
    y = 0.0
    for line in wrapped(heading, width, TITLE_MM, True):
        shapes.append(Text(0, y + TITLE_MM * 0.7, line, TITLE_MM, bold=True))
        y += TITLE_MM * 1.4
    letters = _letters(spots)
    rows = [line for _, found in group for line in _rows(found, sizes, letters)]
    side_room = SIDE_MM if sizes.also is None else SIDE_BOTH_MM
    scale = min(1.0, (width - 2 * side_room) / long, MOST_VIEW_MM / wide)
    left, top = side_room, y + 3.0
    right, bottom = left + long * scale, top + wide * scale
    shapes.append(rectangle(left, top, right - left, bottom - top))

    def across(place: float) -> float:
        return top + (place if mirrored else wide - place) * scale

    dots = [(left + a * scale, across(b)) for a, b in zip(xs, ys, strict=True)]
    shapes += [Circle(x, y, DOT_MM, "none", "black") for x, y in dots]
    shapes += _lettered(dots, [letters[_place(s)] for s in spots], (left, right))
    shapes.append(Circle(left, across(0.0), 1.0, "thin", "white"))
    along = level_run(
        _near(long, xs), sizes, lambda p: left + p * scale, bottom + 4.0, bottom, room=(2.0, width - 2.0)
    )  # fmt: skip
    places = _near(wide, ys)
    reach = max(bottom - top, len(places) * 3.6) / 2
    span = ((top + bottom) / 2 - reach, (top + bottom) / 2 + reach)
    beside = upright_run(places, sizes, across, left - 4.0, left, room=span)
    shapes += [*along.shapes, *beside.shapes]
    y = max(bottom + 4.0 + along.depth, span[1]) + 4.0
    where = (
        "ring: corner start/near"
        if side in ("face", "back")
        else f"ring: the corner places are counted from, on the {side} side"
    )
    for line in [*rows, f"Dots: heads, drawn as you look at the {side}; {where}."]:
        for piece in wrapped(line, width, NOTE_MM):
            shapes.append(Text(0, y + NOTE_MM * 0.6, piece, NOTE_MM))
            y += NOTE_MM * 1.4
    return Drawing(width, y, heading, tuple(shapes))


def kind_of(fastener: Fastener) -> str:
    """Return what a fastener is called: a wood screw by its number, anything else by its kind and diameter."""
    if fastener.kind == "wood screw":
        return f"no. {fastener.gauge}"
    return f"{fastener.kind} {fastener.diameter:g} mm"


def _flattened(part: Part, side: str, spots: Sequence[Spot]) -> tuple[float, float, list[float], list[float]]:
    """Return the size of a side and the places of the screws on it, along it and across it."""
    if side in ("face", "back"):
        return part.length, part.width, [s.x for s in spots], [s.y for s in spots]
    if side in ("near", "far"):
        return part.length, part.thickness, [s.x for s in spots], [s.z for s in spots]
    return part.width, part.thickness, [s.y for s in spots], [s.z for s in spots]


def _near(whole: float, places: Sequence[float]) -> list[float]:
    """Return the distinct places from end to end; those within 0.3 mm are one."""
    kept: list[float] = []
    for place in sorted(places):
        if not kept or place - kept[-1] > SAME_MM:
            kept.append(place)
    return places_of([0.0, whole], [p for p in kept if 0 < p < whole])


def _by_joint(spots: Sequence[Spot]) -> list[list[Spot]]:
    """Return the screws of each joint and size, in the order of the fasteners."""
    joints: dict[tuple[str, ...], list[Spot]] = {}
    for s in spots:
        key = (s.screw.joint, f"{s.screw.gauge}", f"{s.screw.length:.3f}")
        joints.setdefault(key, []).append(s)
    return list(joints.values())


def _place(spot: Spot) -> tuple[float, float, float]:
    return (round(spot.x, 1), round(spot.y, 1), round(spot.z, 1))


def _letters(spots: Sequence[Spot]) -> dict[tuple[float, float, float], str]:
    """Return a letter for the place of every screw, one for each joint; alike parts share the places."""
    return {_place(s): letter_of(i) for i, group in enumerate(_by_joint(spots)) for s in group}


def letter_of(number: int) -> str:
    """Return a, b, … z, aa, ab, … for 0, 1, …"""
    word = ""
    number += 1
    while number:
        number, rest = divmod(number - 1, 26)
        word = chr(ord("a") + rest) + word
    return word


def _lettered(dots: Sequence[tuple[float, float]], letters: Sequence[str], within: tuple[float, float]) -> list[Shape]:
    """Return the letter beside each dot where there is room for it, on a side that is free and on the part."""
    taken: list[Box] = [(x - DOT_MM, y - DOT_MM, x + DOT_MM, y + DOT_MM) for x, y in dots]
    shapes: list[Shape] = []
    for (x, y), letter in zip(dots, letters, strict=True):
        wide = text_width(letter, LETTER_MM) / 2 + DOT_MM + 0.4
        for dx, dy in ((wide, 0.0), (-wide, 0.0), (0.0, -LETTER_MM), (0.0, LETTER_MM)):
            text = Text(x + dx, y + dy, letter, LETTER_MM, "middle")
            box = text.box()
            if within[0] < box[0] and box[2] < within[1] and not any(meet(box, other) for other in taken):
                taken.append(box)
                shapes.append(text)
                break
    return shapes


def _rows(spots: Sequence[Spot], sizes: Sizes, letters: Mapping[tuple[float, float, float], str]) -> list[str]:
    """Return a line for each joint: its letter, which screws, their size, and what they hold."""
    lines = []
    for group in _by_joint(spots):
        screw = group[0].screw
        ids = [s.screw.id for s in group]
        named = ids[0] if len(ids) == 1 else f"{ids[0]} to {ids[-1]}"
        size = f"{kind_of(screw)} × {sizes.show(screw.length)}"
        letter = letters.get(_place(group[0]), "")
        lines.append(f"{letter}: {named} ({len(ids)}): {size} into {screw.parts[-1]}; {screw.role.value}.")
    return lines
