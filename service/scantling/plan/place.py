"""Does a piece fit its place and go in: its footprint, the way in, who carries it, where it comes apart."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from scantling.board import Assembly, Joint, JointKind, Part
from scantling.findings import Finding
from scantling.mechanics.figures import figure
from scantling.mechanics.notice import notice
from scantling.mechanics.place import Run, check_run, check_walkway, check_weight
from scantling.mechanics.way_in import Way, check_way_in

from .check_row import CheckRow
from .circumstances import Circumstances
from .standing import hull
from .structure import RIGID, Structure

NICHE_MM = 150.0  # what is left in front of a piece that fills its niche is no walkway; practice


SPLIT_FOR = ("will-not-go-in", "too-heavy-for-two")
REST_KG = 0.5  # less than this left over when the bolts are out is not worth a word; practice
UPRIGHT = 0.99  # cosine: a part whose thickness runs along x stands across the piece
TALL_SHARE = 0.4  # of the height of a piece a part must have for the piece to be parted at it; practice


@dataclass(frozen=True, slots=True)
class Split:
    """Where a piece is best built as two: the part that is doubled, the masses left and right, their sizes in mm."""

    part: str
    masses_kg: tuple[float, float]
    sizes: tuple[tuple[float, float, float], tuple[float, float, float]]


@dataclass(frozen=True, slots=True)
class Halves:
    """The pieces a piece of furniture comes apart into when its bolts are out: masses in kg and sizes in mm."""

    masses_kg: tuple[float, ...]
    sizes: tuple[tuple[float, float, float], ...] = ()


def place_checks(structure: Structure, who: Circumstances) -> tuple[list[CheckRow], list[Finding]]:
    """Check a piece in its place and on its way there."""
    assembly = structure.assembly
    low, high = assembly.bounds()
    wide, deep, tall = (b - a for a, b in zip(low, high, strict=True))
    findings: list[Finding] = []
    rows: list[CheckRow] = []
    if "width" in who.place:
        room = who.place["width"]
        findings += check_run(Run(room, room, room), wide).findings()
        rows.append(_row("place", "width of the place", wide, room))
    if "depth" in who.place:
        room = who.place["depth"]
        findings += _depth(deep, room)
        rows.append(_row("place", "depth of the place", deep, room))
    carried = _carried(structure, (wide, deep, tall), who)
    return rows, [*findings, *carried]


def _carried(structure: Structure, size: tuple[float, float, float], who: Circumstances) -> list[Finding]:
    """Check the way in and the weight, and say into what a piece is taken apart that is too big or too heavy."""
    assembly = structure.assembly
    mass = structure.mass_and_centre()[0]
    halves = halves_of(assembly)
    ways = list(who.ways)
    if "door_width" in who.place:
        height = who.place.get("door_height", figure("house-door-height").si)
        ways.append(Way("The door", who.place["door_width"], height))
    found = check_way_in(*size, tuple(ways), outline_mm=side_outline(assembly)).findings()
    kept = halves.masses_kg if len(halves.masses_kg) > 1 else ()
    heavy = check_weight(mass, kept).findings()
    if not heavy and not any(f.code == "will-not-go-in" for f in found):
        return list(found)
    split = None if kept else split_of(assembly)
    words = _in_parts(mass, halves, split, ways)
    return [_with_remedy(f, words) if words else f for f in (*found, *heavy)]


def _with_remedy(finding: Finding, words: str) -> Finding:
    if finding.code == "too-heavy-for-one":
        return replace(finding, remedy=f"Lift it with two. Or: {words[:1].lower()}{words[1:]}")
    return replace(finding, remedy=words) if finding.code in SPLIT_FOR else finding


def _row(check: str, subject: str, demand: float, room: float) -> CheckRow:
    return CheckRow(
        check, subject, demand=demand, capacity=room, unit="mm", basis="measured", code="the place as measured",
        governing="the piece with its lean", ratio=demand / room,
    )  # fmt: skip


def _depth(deep: float, room: float) -> tuple[Finding, ...]:
    if deep > room:
        text = f"The place is {room:.0f} mm deep and the piece {deep:.0f} mm with its lean."
        return (notice("does-not-fit-place", text, value=deep, limit=room, unit="mm", source="measured"),)
    left = room - deep
    return check_walkway("walkway-secondary", left).findings() if left > NICHE_MM else ()


def _in_parts(mass: float, halves: Halves, split: Split | None, ways: Sequence[Way]) -> str:
    """Return what to do with a piece that is too big or too heavy: where it comes apart and what each part weighs."""
    if split is None and len(halves.masses_kg) < 2:
        return ""
    goes = _parts_go(halves.sizes if split is None else split.sizes, ways)
    if split is None:
        words = " and ".join(f"{m:.0f} kg" for m in halves.masses_kg)
        if mass - sum(halves.masses_kg) < REST_KG:
            return f"Take out its bolts: apart it weighs {words}.{goes}"
        return f"Take out its bolts and unscrew slats and such: {words}, the rest board by board.{goes}"
    left, right = split.masses_kg
    return (
        f"Build it as two bolted together in their place, parted at {split.part} with a second one beside it: about "
        f"{left:.0f} kg and {right:.0f} kg, {split.sizes[0][0]:.0f} mm and {split.sizes[1][0]:.0f} mm wide.{goes}"
    )


def _parts_go(sizes: Sequence[tuple[float, float, float]], ways: Sequence[Way]) -> str:
    """Return in words whether all parts of a piece go through every way in; nothing where no way was measured."""
    found = {f.code for size in sizes for f in check_way_in(*size, tuple(ways)).findings()}
    if "will-not-go-in" in found:
        return " Even so they do not go in: part it in more places, or build it where it stands."
    if "goes-in-tilted" in found:
        return " All parts go in, turned or on end."
    return " All parts go in upright." if ways else ""


def split_of(assembly: Assembly) -> Split | None:
    """Return where a piece is best built as two: at the upright part across it that is nearest to half its mass.

    The part is doubled; what runs past it is cut there. None where nothing stands across between the ends.
    """
    low, high = assembly.bounds()
    mass, centre = assembly.mass_and_centre()
    across = [p for p in assembly.parts.values() if abs(p.frame.through[0]) > UPRIGHT and _tall(p, low[2], high[2])]
    inside = [p for p in across if low[0] + 1 < p.x0 and p.x1 < high[0] - 1 and _between(p, low[0], high[0])]
    standing = [p for p in inside if p.z0 <= low[2] + 1.0] or inside
    if not standing:
        return None
    best = min(standing, key=lambda p: (round(abs((p.x0 + p.x1) / 2 - centre[0]), 1), p.id))
    left = sum(_left_of(p, best.x1) for p in assembly.parts.values())
    right = mass - left + best.mass_kg()
    sizes = [
        (best.x1 - low[0], high[1] - low[1], high[2] - low[2]),
        (high[0] - best.x0, high[1] - low[1], high[2] - low[2]),
    ]
    return Split(best.id, (left, right), (sizes[0], sizes[1]))


def _tall(part: Part, low: float, high: float) -> bool:
    return part.z1 - part.z0 > TALL_SHARE * (high - low)


def _between(part: Part, low: float, high: float) -> bool:
    """Whether a part stands in the middle half of a piece."""
    return (high - low) / 4 < (part.x0 + part.x1) / 2 - low < (high - low) * 3 / 4


def _left_of(part: Part, x: float) -> float:
    """Return the mass of a part left of a place along x, by its length there."""
    if part.x1 <= x:
        return part.mass_kg()
    return part.mass_kg() * max(0.0, x - part.x0) / (part.x1 - part.x0)


def side_outline(assembly: Assembly) -> tuple[tuple[float, float], ...]:
    """Return the corners of a piece seen from its end, (y, z) in mm, as their convex outline."""
    corners = [(c[1], c[2]) for p in assembly.parts.values() for cell in p.cells() for c in cell.corners]
    return tuple(hull(corners))


def halves_of(assembly: Assembly) -> Halves:
    """Return what a piece comes apart into when its bolts are out, heaviest first."""
    fast = [j.parts for j in assembly.joints.values() if j.kind in RIGID and not _comes_out(assembly, j)]
    groups = _groups(list(assembly.parts), fast)
    bolted = {id for j in assembly.joints.values() if j.kind is JointKind.BOLTED for id in j.parts}
    carried = [[assembly.parts[id] for id in g] for g in groups if bolted & set(g)]
    rows = sorted(((sum(p.mass_kg() for p in parts), _size(parts)) for parts in carried), reverse=True)
    return Halves(tuple(mass for mass, _ in rows), tuple(size for _, size in rows))


def _comes_out(assembly: Assembly, joint: Joint) -> bool:
    """Whether a joint is taken apart again: bolts, and the screws of what is screwed on so that it can be renewed."""
    screwed = joint.kind is JointKind.SCREWS and not joint.glued
    return joint.kind is JointKind.BOLTED or (screwed and any(assembly.parts[id].wears for id in joint.parts))


def _size(parts: Sequence[Part]) -> tuple[float, float, float]:
    """Return the width, depth and height of the box round some parts, mm."""
    lows, highs = zip(*(p.bounds() for p in parts), strict=True)
    wide, deep, high = (max(h[i] for h in highs) - min(low[i] for low in lows) for i in range(3))
    return wide, deep, high


def _groups(ids: Sequence[str], ties: Sequence[Sequence[str]]) -> list[list[str]]:
    """Return the groups of ids that ties hold together, in order."""
    root = {id: id for id in ids}

    def find(id: str) -> str:
        while root[id] != id:
            id = root[id]
        return id

    for tie in ties:
        for other in tie[1:]:
            root[find(other)] = find(tie[0])
    groups: dict[str, list[str]] = {}
    for id in ids:
        groups.setdefault(find(id), []).append(id)
    return list(groups.values())
