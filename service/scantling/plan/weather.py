"""Weather and wood: panel, glue and edges against where a piece stands; how far wood moves through the year."""

from collections.abc import Iterator
from dataclasses import dataclass
from types import MappingProxyType

from scantling.board import Assembly, Hole, Part
from scantling.board.vector import dot
from scantling.findings import Finding, Severity
from scantling.mechanics.exposure import Outdoors, check_exposure
from scantling.mechanics.moisture import FixedWidth, check_gaps, check_wet_boards, check_width, equilibrium_moisture
from scantling.mechanics.notice import notice
from scantling.tables import UnknownMaterial

from .check_row import CheckRow
from .circumstances import Circumstances
from .gaps import gaps_of
from .structure import Structure, upright
from .surfaces import Surface

# Driest and dampest air of a year, degrees C and relative humidity, and the moisture of boards when cut, %; practice.
SEASONS = MappingProxyType(
    {
        "dry": ((20.0, 0.30), (20.0, 0.60), 9.0),
        "damp": ((20.0, 0.40), (20.0, 0.75), 10.0),
        "sheltered": ((20.0, 0.45), (5.0, 0.80), 12.0),
        "weather": ((20.0, 0.45), (10.0, 0.85), 12.0),
    }
)
# What a panel is sold for where its name says it; other plywood says it on its stamp.
_BONDS = MappingProxyType(
    {
        "marine-plywood": "marine", "softwood-plywood": "exposure 1", "osb": "exposure 1", "mdf": "interior",
        "particleboard": "interior", "hardboard": "interior",
    }
)  # fmt: skip
_GLUES = MappingProxyType({"PVA": "d2", "polyurethane": "d4", "epoxy": "epoxy", "resorcinol": "resorcinol"})
_FEET = ("glide", "foot", "feet", "level", "castor", "caster")
WIDE_MM = 100.0
FLAT_TOP_MM = 150.0
VENT_MM = 10.0


@dataclass(frozen=True, slots=True)
class Year:
    """The moisture content of wood in %: when cut, at the driest and at the dampest of the year."""

    made: float
    low: float
    high: float


def year_of(exposure: str, measured: float | None = None) -> Year:
    """Return the moisture content of wood through a year where a piece stands; `measured` is that when cut, %."""
    dry, damp, made = SEASONS[exposure]
    return Year(made if measured is None else measured, equilibrium_moisture(*dry), equilibrium_moisture(*damp))


def weather_checks(
    structure: Structure, seats: list[Surface], who: Circumstances, *, box: tuple[str, ...] = ()
) -> tuple[list[CheckRow], list[Finding]]:
    """Check a piece against weather and seasons; `box` names the parts of a closed box, if it is one."""
    assembly = structure.assembly
    year = year_of(who.exposure, who.moisture)
    rows, findings = _movement(structure, year)
    findings += _wet(assembly, year)
    more, found = _gaps(assembly, year)
    rows, findings = rows + more, findings + found
    if who.exposure != "dry":
        findings += _exposure(structure, seats, who, box)
    return rows, findings


def _exposure(structure: Structure, seats: list[Surface], who: Circumstances, box: tuple[str, ...]) -> list[Finding]:
    assembly = structure.assembly
    bonds = [b for p in _panels(assembly) if (b := _BONDS.get(p.material.material))]
    order = ("interior", "exposure 1", "marine")
    piece = Outdoors(
        who.exposure,
        panel_bond=min(bonds, key=order.index) if bonds else None,
        glue=_GLUES.get(who.glue or ""),
        woods=tuple(sorted({p.material.material for p in assembly.parts.values()})),
        edges_sealed=any(p.seal for p in assembly.parts.values()),
        feet_raised=_off_the_ground(structure),
        flat_tops=tuple(_flat_tops(assembly, seats)),
        closed_boxes=box[:1],
        vented=len(_vents(assembly)) >= 2,
    )
    found = list(check_exposure(piece).findings())
    if who.glue == "cross-linking PVA" and who.exposure == "weather" and any(j.glued for j in assembly.joints.values()):
        text = (
            "Cross-linking PVA is sold for damp places (Type II, D3) and for the weather (Type I, D4): take the latter."
        )
        found.append(notice("glue-too-weak", text, severity=Severity.NOTE, source="EN 204:2016 classes of use; labels"))
    return found


def _panels(assembly: Assembly) -> list[Part]:
    return [p for p in assembly.parts.values() if p.material.stock_kind == "sheet"]


def _off_the_ground(structure: Structure) -> bool:
    """Whether feet are bought, or nothing stands on its end grain."""
    words = " ".join(f"{h.what} {h.says}" for h in structure.assembly.hardware).casefold()
    boards = [structure.part(id) for id in structure.floor if structure.part(id).material.stock_kind == "board"]
    return any(word in words for word in _FEET) or not any(upright(p) for p in boards)


def _flat_tops(assembly: Assembly, seats: list[Surface]) -> Iterator[str]:
    """Yield wide level parts that rain falls on: nothing lies over them, and no hole drains them."""
    covered = {id for s in seats if s.cushioned for id, _ in s.shares}
    for part in assembly.parts.values():
        level = abs(part.frame.through[2]) > 0.999
        wide = min(part.length, part.width) >= FLAT_TOP_MM
        if level and wide and part.id not in covered and part.id not in _with_holes(assembly) and _open(assembly, part):
            yield part.id


def _open(assembly: Assembly, part: Part) -> bool:
    """Whether nothing wide lies over a part."""
    for other in assembly.parts.values():
        over = min(part.x1, other.x1) - max(part.x0, other.x0), min(part.y1, other.y1) - max(part.y0, other.y0)
        if other.z0 >= part.z1 - 0.5 and min(over) > 0 and over[0] * over[1] > 0.5 * part.length * part.width:
            return False
    return True


def _with_holes(assembly: Assembly) -> set[str]:
    return {p.id for p in assembly.parts.values() for c in p.cuts if isinstance(c, Hole)}


def _vents(assembly: Assembly) -> list[float]:
    """Return the diameters of through holes air can pass, mm."""
    return [
        c.diameter
        for p in assembly.parts.values()
        for c in p.cuts
        if isinstance(c, Hole) and c.depth is None and (c.diameter >= VENT_MM or c.purpose == "drain")
    ]


def _movement(structure: Structure, year: Year) -> tuple[list[CheckRow], list[Finding]]:
    """Check wide solid wood that is held fast across its grain; one finding for each name of part."""
    rows: list[CheckRow] = []
    findings: list[Finding] = []
    done: set[str] = set()
    for part in structure.assembly.parts.values():
        if (
            part.material.stock_kind != "board"
            or part.width <= WIDE_MM
            or part.name in done
            or not _fast(structure, part)
        ):
            continue
        done.add(part.name)
        fixed = FixedWidth(
            part.id[:1].upper() + part.id[1:], part.material.material, part.width, year.made, year.low, year.high,
            parts=(part.id,),
        )  # fmt: skip
        try:
            result = check_width(fixed)
        except UnknownMaterial as error:
            rows.append(CheckRow("moves", part.name, (part.id,), note=error.message))
            continue
        findings += result.findings()
        rows.append(_row("moves", part.name, result.travel_mm, year, result.source, "held fast across its grain"))
    return rows, findings


def _wet(assembly: Assembly, year: Year) -> list[Finding]:
    """Say how far the widest board shrinks that is cut wetter than it will ever be again."""
    boards = [p for p in assembly.parts.values() if p.material.stock_kind == "board"]
    if year.made <= year.high or not boards:
        return []
    widest = max(boards, key=lambda p: p.width)
    try:
        return list(
            check_wet_boards(
                widest.material.material, widest.width, year.made, (year.low + year.high) / 2, parts=(widest.id,)
            )
        )
    except UnknownMaterial:
        return []


def _row(check: str, name: str, value: float, year: Year, source: str, note: str) -> CheckRow:
    governing = f"{year.low:.0f} to {year.high:.0f} % moisture, cut at {year.made:.0f} %"
    return CheckRow(
        check, name, demand=value, unit="mm", load="a year's weather", duration="seasons", basis="movement",
        code=source, governing=governing, note=note,
    )  # fmt: skip


def _fast(structure: Structure, part: Part) -> bool:
    """Whether a part is glued or screwed over more than 100 mm of its width to wood that does not move with it."""
    for other, patch in structure.contacts.get(part.id, ()):
        if not structure.rigid(part.id, other):
            continue
        beside = structure.part(other)
        moves_alike = beside.material.stock_kind == "board" and abs(dot(beside.frame.along, part.frame.along)) > 0.7
        if moves_alike:
            continue
        joints = structure.joined(part.id, other)
        if any(j.glued for j in joints):
            points = list(patch.corners)
        else:
            ids = {j.id for j in joints}
            points = [f.head for f in structure.assembly.fasteners.values() if f.joint in ids]
        places = [part.frame.local(p)[1] for p in points]
        if places and max(places) - min(places) > WIDE_MM:
            return True
    return False


def _gaps(assembly: Assembly, year: Year) -> tuple[list[CheckRow], list[Finding]]:
    """Check the gaps between boards of solid wood: they must not close when the boards are wet."""
    rows: list[CheckRow] = []
    findings: list[Finding] = []
    for gap in gaps_of(assembly):
        if gap.board.material.stock_kind != "board" or any(r.subject == gap.name for r in rows):
            continue
        wood = gap.board.material.material
        try:
            findings += check_gaps(gap.clear_mm, gap.board_mm, wood, year.made, year.low, year.high, parts=gap.parts)
        except UnknownMaterial as error:
            rows.append(CheckRow("gap", gap.name, gap.parts, note=error.message))
            continue
        source = "Wood Handbook, FPL-GTR-190, chapter 13"
        rows.append(_row("gap", gap.name, gap.clear_mm, year, source, "the least gap of the row as built"))
    return rows, findings
