"""Where small children are about: openings between boards, and boxes a child could climb into."""

from dataclasses import dataclass

from scantling.board import Assembly, Hole, JointKind, Part, ray_through
from scantling.board.vector import Vector
from scantling.findings import Finding
from scantling.mechanics.children import Chest, Opening, check_chest, check_opening, lid_torque

from .check_row import CheckRow
from .circumstances import Circumstances
from .footprint import supports_of
from .gaps import gaps_of
from .structure import Structure

LID_COVERS = 0.6  # share of the footprint a part must lie over to be a lid; practice
VENT_MM2 = 650.0
SIDES: tuple[Vector, ...] = ((1.0, 0.0, 0.0), (-1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, -1.0, 0.0), (0.0, 0.0, -1.0))


@dataclass(frozen=True, slots=True)
class Box:
    """A box with a lid that opens: the lid, how it is held, and the inside sizes in mm (width, depth, height)."""

    lid: Part
    hinged: bool
    inside: tuple[float, float, float]

    @property
    def lid_depth(self) -> float:
        """Return the lid's depth from its hinge, mm."""
        return min(self.lid.length, self.lid.width)


def box_of(structure: Structure) -> Box | None:
    """Return the box a piece is, if a part over it opens and it is closed on five sides; else None."""
    lid = next((p for p in structure.assembly.parts.values() if _opens(structure, p)), None)
    if lid is None:
        return None
    low, _ = structure.assembly.bounds()
    middle = ((lid.x0 + lid.x1) / 2, (lid.y0 + lid.y1) / 2, (low[2] + lid.z0) / 2 + 1.0)
    others = [p for p in structure.assembly.parts.values() if p is not lid]
    reach = [_wall(others, middle, side) for side in SIDES]
    if any(r is None for r in reach):
        return None
    right, left, back, front, down = (r or 0.0 for r in reach)
    hinged = any(j.kind is JointKind.HINGED and lid.id in j.parts for j in structure.assembly.joints.values())
    return Box(lid, hinged, (right + left, back + front, lid.z0 - middle[2] + down))


def _opens(structure: Structure, part: Part) -> bool:
    """Whether a level part lies over most of the piece and is only laid or hinged on what carries it."""
    low, high = structure.assembly.bounds()
    footprint = (high[0] - low[0]) * (high[1] - low[1])
    if abs(part.frame.through[2]) < 0.95 or (part.x1 - part.x0) * (part.y1 - part.y0) < LID_COVERS * footprint:
        return False
    if part.z1 < low[2] + 0.6 * (high[2] - low[2]):
        return False
    reached = structure.reached_without(part.id)
    carried = [o for o, _ in structure.contacts.get(part.id, ()) if o in reached]
    opening = [
        j for j in structure.assembly.joints.values()
        if part.id in j.parts and j.kind in (JointKind.LOOSE, JointKind.HINGED)
    ]  # fmt: skip
    return bool(opening) and not any(structure.rigid(part.id, o) for o in carried)


def _wall(parts: list[Part], start: Vector, direction: Vector) -> float | None:
    """Return how far the nearest wall is from a point along a direction, mm; None where there is none."""
    hits = [enter for p in parts for enter, _ in ray_through(p, start, direction) if enter > 0]
    return min(hits, default=None)


def opening_checks(assembly: Assembly, who: Circumstances, names: tuple[str, ...] = ()) -> list[Finding]:
    """Check the gaps between boards for heads and fingers: for children where they are about, outdoors for anybody.

    `names` are parts whose gaps cushions cover.
    """
    if not who.children and not who.outdoor:
        return []
    found: list[Finding] = []
    for gap in gaps_of(assembly):
        opening = Opening(
            f"The gap between {gap.parts[0]} and {gap.parts[1]}", gap.clear_mm, gap.depth_mm, who.children, who.outdoor,
            parts=gap.parts,
        )  # fmt: skip
        if gap.name not in names:
            found += check_opening(opening)
    return found


def box_checks(assembly: Assembly, box: Box | None, who: Circumstances) -> tuple[list[CheckRow], list[Finding]]:
    """Check a box with a lid: what its hinged lid pulls with, and, where children are about, air and a lid that drops.

    A lid support that is bought is taken to be rated for the torque the row names.
    """
    if box is None:
        return [], []
    supports = supports_of(assembly)
    rows = [_lid_row(box, supports)] if box.hinged else []
    if not who.children:
        return rows, []
    vents = _vents(assembly)
    unheld = box.hinged and not supports
    chest = Chest(
        *box.inside,
        vents_mm2=tuple(area for area, _ in vents),
        vents_apart_mm=_apart([place for area, place in vents if area >= VENT_MM2]),
        lid_kg=box.lid.mass_kg() if unheld else None,
        lid_depth_mm=box.lid_depth if unheld else None,
        parts=(box.lid.id,),
    )
    return rows, list(check_chest(chest).findings())


def _lid_row(box: Box, supports: list[str]) -> CheckRow:
    torque = lid_torque(box.lid.mass_kg(), box.lid_depth)
    note = f"{supports[0]}: take one rated for it, both together" if supports else "no lid support is bought"
    return CheckRow(
        "lid", box.lid.name, (box.lid.id,), torque, unit="N m", load="the lid's own weight", duration="permanent",
        basis="statics", code="moments about the hinge", governing="the lid lying shut", note=note,
    )  # fmt: skip


def _vents(assembly: Assembly) -> list[tuple[float, Vector]]:
    """Return the through holes of a piece: their areas in mm2 and where they are."""
    return [
        (3.14159265 * cut.diameter**2 / 4, part.frame.point((cut.x, cut.y, 0.0)))
        for part in assembly.parts.values()
        for cut in part.cuts
        if isinstance(cut, Hole) and cut.depth is None and cut.purpose not in ("bolt", "screw")
    ]


def _apart(places: list[Vector]) -> float:
    pairs = [(a, b) for i, a in enumerate(places) for b in places[i + 1 :]]
    return max((sum((a[k] - b[k]) ** 2 for k in range(3)) ** 0.5 for a, b in pairs), default=0.0)
