"""What stands on a piece and what passes on through it: shelves, masses, rails on the way down, legs."""

from collections.abc import Iterator, Sequence

from scantling.board import LoadCase, Part
from scantling.board.vector import Vector, dot
from scantling.findings import Finding
from scantling.mechanics.columns import check_leg, leg_of
from scantling.mechanics.loads import Load, weight
from scantling.mechanics.shelves import Shelf, ShelfLoad, ShelfResult, check_shelf, shelf_load
from scantling.tables import Status, material

from .check_row import CheckRow, row_of_load
from .circumstances import Circumstances
from .flow import Flow, load_flow
from .joints import Demand
from .members import Pressed, checked, scaled, spread, unsupported, wood_of_part
from .spans import Spans, Ways, lies_along
from .structure import Structure, depth_towards, upright
from .surfaces import Surface

SHELVES = ("books", "library shelf", "other shelf")
SLENDER = 5.0  # length over least thickness from which a standing part is a leg and may buckle
LEG_WIDE_MM = 150.0
STRIP_REACHES = 0.8


def shelf_checks(ways: Ways, who: Circumstances) -> tuple[list[CheckRow], list[Finding], list[Demand]]:
    """Check every shelf an author declared, and follow its load to the floor."""
    rows: list[CheckRow] = []
    findings: list[Finding] = []
    demands: list[Demand] = []
    seen: dict[tuple[object, ...], None] = {}
    for case in ways.structure.assembly.loads:
        if case.kind not in SHELVES:
            continue
        for id in case.parts:
            part, spans = ways.structure.part(id), ways.of(id)
            if spans is None or not spans.clear():
                rows += [] if spans is not None else [unsupported(part)]
                continue
            kind = ways.structure.kind(id)
            key = (kind, case.kind, case.amount)
            load = _shelf_load(case, part)
            demands += _passed_on(ways, part, load)
            if key in seen:
                continue
            seen[key] = None
            alike = tuple(i for i in case.parts if ways.structure.kind(i) == kind)
            row, found = _shelf(ways.structure, spans, load, who, alike)
            rows.append(row)
            findings += found
    return rows, findings, demands


def _widest(spans: Spans) -> float:
    return round(max(b - a for a, b in spans.clear()), 1)


def _shelf_load(case: LoadCase, part: Part) -> ShelfLoad:
    if case.amount is not None:
        return shelf_load("own", part.width, mass_kg_per_m=case.amount)
    return shelf_load(case.kind, part.width)


def _passed_on(ways: Ways, part: Part, load: ShelfLoad) -> list[Demand]:
    """Return what the joints of one loaded shelf must hold for years."""
    force = load.line_n_per_mm * part.length
    stands = Load(load.label, force, "service", "long", 1.0, load.source, load.status)
    middle = part.frame.point((part.length / 2, part.width / 2, part.thickness))
    return flow_demands(load_flow(ways, [(part.id, force, middle)]), stands)


def flow_demands(flow: Flow, load: Load) -> list[Demand]:
    """Return the demands of one flow of real newtons."""
    pairs = dict.fromkeys((*flow.sideways, *flow.pulling))
    found = [Demand(p, load, flow.sideways.get(p, 0.0), flow.pulling.get(p, 0.0), p in flow.bounds) for p in pairs]
    return found + [Demand(p, load, 0.0, 0.0, p in flow.bounds, force) for p, force in flow.pressing.items()]


def _shelf(
    structure: Structure, spans: Spans, load: ShelfLoad, who: Circumstances, alike: tuple[str, ...]
) -> tuple[CheckRow, tuple[Finding, ...]]:
    part = spans.part
    along = spans.axis == "length"
    try:
        wood = wood_of_part(part, spans.axis, "flat")
        shelf = Shelf(
            _widest(spans), part.width if along else part.length, part.thickness, wood,
            material(part.material.material).family, _strips(structure, part), service_class=who.service_class,
            parts=alike,
        )  # fmt: skip
        result = check_shelf(shelf, load)
    except (ValueError, LookupError) as error:
        return CheckRow("shelf sag", part.name, alike, note=str(error), load=load.label), ()
    return _shelf_row(result, structure.kind(part.id)), result.findings()


def _shelf_row(result: ShelfResult, name: str) -> CheckRow:
    return CheckRow(
        "shelf sag",
        name,
        result.shelf.parts,
        result.lasting_sag_mm,
        result.limit_mm,
        "mm",
        load=result.load.label,
        duration="permanent",
        basis="stiffness",
        code=f"{result.limit_name}; creep EN 1995-1-1 Table 3.2",
        governing=f"{result.sag_mm:.1f} mm at first over {result.shelf.span_mm:.0f} mm;"
        f" stays within it to {result.longest_span_mm:.0f} mm of span at first",
        ratio=result.lasting_sag_mm / result.limit_mm,
        status=result.status.value,
    )


def _strips(structure: Structure, shelf: Part) -> tuple[tuple[int, float, float], ...]:
    """Return the strips glued along a shelf's long edges, top edges flush: count, width and height in mm."""
    found = []
    for other, patch in structure.contacts.get(shelf.id, ()):
        strip = structure.part(other)
        edge = abs(dot(patch.normal, shelf.frame.across)) > 0.7
        glued = any(j.glued for j in structure.joined(shelf.id, other))
        runs = abs(dot(strip.frame.along, shelf.frame.along)) > 0.99 and strip.length >= STRIP_REACHES * shelf.length
        if edge and glued and runs and abs(strip.z1 - shelf.z1) <= 3.0:
            height, width, _ = depth_towards(strip, (0.0, 0.0, 1.0))
            found.append((1, width, height))
    return tuple(found)


def mass_checks(ways: Ways, who: Circumstances) -> tuple[list[CheckRow], list[Finding], list[Demand]]:
    """Check what carries a declared mass, spread over its parts by their area."""
    pressed: list[Pressed] = []
    rows: list[CheckRow] = []
    demands: list[Demand] = []
    for case in ways.structure.assembly.loads:
        if case.kind != "mass" or case.amount is None:
            continue
        parts = [ways.structure.part(id) for id in case.parts]
        area = sum(p.length * p.width for p in parts)
        load = Load(f"{case.amount:g} kg standing on it", weight(case.amount), "service", "long", 1.0,
                    "stated by the module", Status.READ)  # fmt: skip
        for part in parts:
            own, spans = scaled(load, part.length * part.width / area), ways.of(part.id)
            middle = part.frame.point((part.length / 2, part.width / 2, part.thickness))
            demands += flow_demands(load_flow(ways, [(part.id, own.force_n, middle)]), own)
            if spans is None:
                rows += [] if part.id in ways.structure.floor else [unsupported(part)]
            elif spans.clear() and not lies_along(spans):
                kind = ways.structure.kind(part.id)
                pressed.append(Pressed(part, spans, _widest(spans), "uniform-simple", own, kind))
    found_rows, findings = checked(pressed, who, rows)
    return found_rows, findings, demands


def rail_checks(
    ways: Ways, seats: Sequence[Surface], flows: Sequence[Flow], loads: tuple[Load, Load], who: Circumstances
) -> tuple[list[CheckRow], list[Finding]]:
    """Check the rails a sitter's weight passes through: `loads` are one person sitting and one dropping."""
    bearers = {id for s in seats for id, _ in s.shares}
    pressed: list[Pressed] = []
    for id in dict.fromkeys(i for f in flows for i in f.on_part):
        spans = ways.of(id)
        if id in bearers or spans is None or lies_along(spans) or not spans.clear():
            continue
        span = _widest(spans)
        places = [at for f in flows for at, _ in f.on_part.get(id, ())]
        sits = abs(sum(n for f in flows for _, n in f.on_part.get(id, ())))
        drops = max(abs(sum(n for _, n in f.on_part.get(id, ()))) for f in flows)
        over, kind = max(places) - min(places), ways.structure.kind(id)
        pressed += [
            Pressed(spans.part, spans, span, "uniform-simple", spread(loads[0], sits, over, span), kind),
            Pressed(spans.part, spans, span, "uniform-simple", spread(loads[1], drops, 0.0, span), kind),
        ]
    return checked(pressed, who, [])


def leg_checks(
    structure: Structure, flows: Sequence[Flow], loads: tuple[Load, Load], who: Circumstances
) -> tuple[list[CheckRow], list[Finding]]:
    """Check the legs a sitter's weight comes down: everybody sitting, or one person dropping."""
    rows: list[CheckRow] = []
    findings: dict[str, tuple[float, Finding]] = {}
    for part in _legs(structure):
        twin = _twin(structure, part)
        both = (part.id,) if twin is None else (part.id, twin)
        got = [min(1.0, sum(f.on_floor.get(id, 0.0) for id in both)) for f in flows]
        if not got or max(got) <= 0:
            continue
        force, load = max((sum(got) * loads[0].force_n, loads[0]), (max(got) * loads[1].force_n, loads[1]),
                          key=lambda one: one[0])  # fmt: skip
        row, found, ratio = _leg(structure, part, force, load, who, twin)
        rows.append(row)
        for f in found:
            if part.name not in findings or ratio > findings[part.name][0]:
                findings[part.name] = (ratio, f)
    return rows, [f for _, f in findings.values()]


def _legs(structure: Structure) -> Iterator[Part]:
    for id in sorted(structure.floor):
        part = structure.part(id)
        slim = min(part.width, part.thickness)
        if upright(part) and part.width <= LEG_WIDE_MM and part.length >= SLENDER * slim:
            yield part


def _leg(
    structure: Structure, part: Part, force: float, load: Load, who: Circumstances, twin: str | None
) -> tuple[CheckRow, tuple[Finding, ...], float]:
    """Check one leg; two boards glued up to a corner are taken as one of twice the thickness, on the safe side."""
    try:
        wood = wood_of_part(part, "length", "edge")
        thick = part.thickness * (1 if twin is None else 2)
        leg = leg_of(wood, part.width, thick, _clear_length(structure, part), "cantilever",
                     duration=load.duration, service_class=who.service_class, parts=(part.id,))  # fmt: skip
        result = check_leg(leg, force)
    except (ValueError, LookupError) as error:
        return CheckRow("leg", part.name, (part.id,), note=str(error), **row_of_load(load)), (), 0.0
    row = CheckRow(
        "leg", part.name, (part.id,), result.demand_n, result.capacity_n, "N", code=leg.source,
        governing=f"buckling of {leg.length_mm:.0f} mm, free to sway", ratio=result.ratio, status=leg.status.value,
        **row_of_load(load),
    )  # fmt: skip
    return row, result.findings(), result.ratio


def _twin(structure: Structure, part: Part) -> str | None:
    """Return the other board of a leg of two, joined fast along most of its length; None for a leg of one."""
    for other, patch in structure.contacts.get(part.id, ()):
        zs = [c[2] for c in patch.corners]
        beside = other in structure.floor and upright(structure.part(other)) and structure.rigid(part.id, other)
        if beside and max(zs) - min(zs) >= 0.7 * part.length:
            return other
    return None


def _clear_length(structure: Structure, part: Part) -> float:
    """Return how much of a leg stands free from the floor to the first part joined to it or resting on it, mm."""
    lows: list[float] = []
    for other, patch in structure.contacts.get(part.id, ()):
        if other in structure.floor:
            continue
        if structure.rigid(part.id, other) or patch.normal[2] > 0.7:
            lows.append(min(c[2] for c in patch.corners))
    base: Vector = part.bounds()[0]
    free = min((z - base[2] for z in lows), default=part.length)
    return free if free > 10.0 else part.length
