"""What stands on a piece and what passes on through it: shelves, masses, rails on the way down."""

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

from scantling.board import LoadCase, Part
from scantling.board.vector import dot
from scantling.findings import Finding
from scantling.mechanics.loads import Load, weight
from scantling.mechanics.shelves import Shelf, ShelfLoad, ShelfResult, check_shelf, shelf_load
from scantling.tables import Status, material

from .check_row import CheckRow
from .circumstances import Circumstances
from .flow import Flow, spread_flow
from .four_edges import WHOLE, Plate, rests_on_four_edges
from .joints import Demand
from .members import Pressed, checked, scaled, spread, unsupported
from .part_woods import wood_of_part
from .spans import Spans, Ways, lies_along
from .structure import Structure, depth_towards
from .surfaces import Surface

SHELVES = ("books", "library shelf", "other shelf")
STRIP_REACHES = 0.8


def shelf_checks(ways: Ways, who: Circumstances) -> tuple[list[CheckRow], list[Finding]]:
    """Check every shelf an author declared."""
    rows: list[CheckRow] = []
    findings: list[Finding] = []
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
            if key in seen:
                continue
            seen[key] = None
            alike = tuple(i for i in case.parts if ways.structure.kind(i) == kind)
            row, found = _shelf(ways.structure, spans, _shelf_load(case, part), who, alike)
            rows.append(row)
            findings += found
    return rows, findings


def _widest(spans: Spans) -> float:
    return round(max(b - a for a, b in spans.clear()), 1)


def _shelf_load(case: LoadCase, part: Part) -> ShelfLoad:
    if case.amount is not None:
        return shelf_load("own", part.width, mass_kg_per_m=case.amount)
    return shelf_load(case.kind, part.width)


def thing_flows(ways: Ways) -> list[tuple[Load, Flow]]:
    """Return what is declared to stand on shelves and tops, each load with its way down to the floor."""
    return [
        (load, spread_flow(ways, part.id, load.force_n))
        for case in ways.structure.assembly.loads
        for part, load in _things(ways.structure, case)
    ]


def _things(structure: Structure, case: LoadCase) -> list[tuple[Part, Load]]:
    """Return the load of one declared case on each of its parts, spread over them by their area."""
    parts = [structure.part(id) for id in case.parts]
    if case.kind in SHELVES:
        presets = [_shelf_load(case, part) for part in parts]
        return [
            (p, Load(s.label, s.line_n_per_mm * p.length, "service", "long", 1.0, s.source, s.status))
            for p, s in zip(parts, presets, strict=True)
        ]
    if case.kind != "mass" or case.amount is None:
        return []
    area = sum(p.length * p.width for p in parts)
    label = f"{case.amount:g} kg standing on it"
    whole = Load(label, weight(case.amount), "service", "long", 1.0, "stated by the module", Status.READ)
    return [(p, scaled(whole, p.length * p.width / area)) for p in parts]


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


def mass_checks(ways: Ways, who: Circumstances) -> tuple[list[CheckRow], list[Finding]]:
    """Check what carries a declared mass, spread over its parts by their area."""
    pressed: list[Pressed] = []
    rows: list[CheckRow] = []
    for case in ways.structure.assembly.loads:
        if case.kind != "mass":
            continue
        for part, own in _things(ways.structure, case):
            spans = ways.of(part.id)
            if spans is None:
                rows += [] if part.id in ways.structure.floor else [unsupported(part)]
            elif spans.clear() and not lies_along(spans):
                kind = ways.structure.kind(part.id)
                plate = Plate(own, WHOLE) if rests_on_four_edges(ways.structure, part.id) else None
                span = _widest(spans)
                on_span = scaled(own, share_on_span(spans, spans.size))
                pressed.append(Pressed(part, spans, span, "uniform-simple", on_span, kind, plate))
    return checked(pressed, who, rows)


def rail_checks(
    ways: Ways,
    seats: Sequence[Surface],
    flows: Sequence[Flow],
    loads: tuple[Load, Load],
    who: Circumstances,
    things: Sequence[tuple[Load, Flow]] = (),
) -> tuple[list[CheckRow], list[Finding]]:
    """Check the rails and bearers a load passes through: `loads` are one person sitting and one dropping.

    `flows` are of one newton for each place somebody sits, `things` of what is declared to stand on the piece.
    """
    bearers = {id for s in seats for id, _ in s.shares}
    bearers |= {id for case in ways.structure.assembly.loads for id in case.parts}
    pressed: list[Pressed] = []
    passed = (id for flow in (*flows, *(flow for _, flow in things)) for id in flow.on_part)
    for id in dict.fromkeys(passed):
        spans = ways.of(id)
        if id in bearers or spans is None or lies_along(spans) or not spans.clear():
            continue
        pressed += _sat_through(ways, spans, flows, loads)
        pressed += _stood_through(ways, spans, things)
    return checked(pressed, who, [])


def _sat_through(ways: Ways, spans: Spans, flows: Sequence[Flow], loads: tuple[Load, Load]) -> list[Pressed]:
    """Return a part under what sitters pass on to it: everybody sitting, one dropping."""
    id = spans.part.id
    places = [at for f in flows for at, _ in f.on_part.get(id, ())]
    if not places:
        return []
    span, over, kind = _widest(spans), max(places) - min(places), ways.structure.kind(id)
    sits = abs(sum(n for f in flows for _, n in f.on_part.get(id, ())))
    drops = max(abs(sum(n for _, n in f.on_part.get(id, ()))) for f in flows)
    return [
        Pressed(spans.part, spans, span, "uniform-simple", spread(loads[0], sits, over, span), kind),
        Pressed(spans.part, spans, span, "uniform-simple", spread(loads[1], drops, 0.0, span), kind),
    ]


def _stood_through(ways: Ways, spans: Spans, things: Sequence[tuple[Load, Flow]]) -> list[Pressed]:
    """Return a part under all that stands on the piece and is passed on to it."""
    id = spans.part.id
    got = [(load, at, newton) for load, flow in things for at, newton in flow.on_part.get(id, ())]
    if not got:
        return []
    span = _widest(spans)
    places = [at for _, at, _ in got]
    label = " and ".join(dict.fromkeys(load.label for load, _, _ in got))
    load = replace(got[0][0], label=label, force_n=abs(sum(newton for _, _, newton in got)))
    touching = min(flow.over[id] for _, flow in things if id in flow.over) if spans.axis == "length" else 0.0
    over = max(max(places) - min(places), touching)
    on_span = spread(load, share_on_span(spans, touching), over, span)
    return [Pressed(spans.part, spans, span, "uniform-simple", on_span, ways.structure.kind(id))]


def share_on_span(spans: Spans, over_mm: float) -> float:
    """Return the share of a load spread evenly over a length of a part that its widest span carries, rests and all.

    Units: mm. Valid: what lies beyond is carried by other spans or stands out; a part held at its ends gets all of it.
    Raises: nothing. Source: statics.
    """
    gaps = [(b.start - a.end, b.end - a.start) for a, b in pairwise(spans.rests)]
    reach = max(gaps, default=(0.0, over_mm))[1]
    return min(1.0, reach / over_mm) if over_mm > 0 else 1.0
