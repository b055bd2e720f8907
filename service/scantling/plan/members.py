"""Boards and panels that carry people or things, checked as members: spans read from the placed parts."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from scantling.board import Part
from scantling.board.vector import Vector
from scantling.findings import Finding, Severity
from scantling.mechanics.beams import rectangle
from scantling.mechanics.loads import Load, dropping, sitting, standing_on, test_load
from scantling.mechanics.members import Member, MemberResult, check_member, fixes

from .check_row import CheckRow, row_of_load
from .circumstances import Circumstances
from .four_edges import Plate, plate_result, rests_on_four_edges
from .part_woods import wood_of_part
from .spans import Spans, Ways, lies_along
from .structure import depth_towards
from .surfaces import FOOT, FOOT_IN_BED, LYING, SITTER, Surface, share_under

UP: Vector = (0.0, 0.0, 1.0)
FRONT = (380.0, 200.0)  # what presses a front edge in a test, wide and deep; practice
EDGE_MM = 60.0  # how far inside an end somebody sits: EN 1022:2018 clause 6
ALL_ROUND = ", resting on four edges"
SHORT_MM = 60.0  # an overhang up to this carries nobody


@dataclass(frozen=True, slots=True)
class Pressed:
    """A part under a load: the span mm, its load case, and the load as it acts there (share and spread reckoned in).

    `plate` is the load on a panel that rests on four edges, None for a strip or a board.
    """

    part: Part
    spans: Spans
    span_mm: float
    case: str
    load: Load
    kind: str = ""
    plate: Plate | None = None

    @property
    def weight(self) -> float:
        """Return what tells the worst of several alike parts: the moment over the section modulus."""
        depth, width, _ = depth_towards(self.part, UP)
        lever = 1.0 if self.case == "end-cantilever" else 0.125
        return self.load.force_n * self.span_mm * lever / (width * depth**2)


def spread(load: Load, share: float, over_mm: float, span_mm: float) -> Load:
    """Return a load on a stretch of a span as the spread load of the same greatest moment, W (2 - c/L).

    Units: N, mm. Valid: a load in the middle of a simple span; sag and shear come out a little large. Raises: nothing.
    Source: statics, M = W L/4 (1 - c/(2 L)).
    """
    r = min(1.0, over_mm / span_mm)
    return replace(load, force_n=load.force_n * share * (2 - r))


def seat_members(ways: Ways, seats: Sequence[Surface], who: Circumstances) -> tuple[list[CheckRow], list[Finding]]:
    """Check every part somebody sits on: sitting, dropping, standing, and the published test loads."""
    pressed: list[Pressed] = []
    rows: list[CheckRow] = []
    for surface in seats:
        if not surface.shares:
            rows.append(CheckRow("seat", surface.id, note="no part lies under it, so what carries it is not known"))
        for id, _ in surface.shares:
            spans = ways.of(id)
            if spans is None:
                if id not in ways.structure.floor:
                    rows.append(unsupported(ways.structure.part(id)))
                continue
            if not lies_along(spans):
                kind = ways.structure.kind(id)
                pressed += [replace(one, kind=kind) for one in _on_part(ways, spans, surface, seats, who)]
    return checked(pressed, who, rows)


def unsupported(part: Part) -> CheckRow:
    """Return the row of a part whose supports cannot be read."""
    note = "nothing that reaches the floor is joined to it or lies under it: declare the joint that carries it"
    return CheckRow("bending", part.name, (part.id,), note=note)


def _on_part(ways: Ways, spans: Spans, surface: Surface, seats: Sequence[Surface], who: Circumstances) -> list[Pressed]:
    part = spans.part
    found: list[Pressed] = []
    clear = max(spans.clear(), key=lambda s: s[1] - s[0], default=None)
    loads = _loads(part, surface, who)
    i = 0 if abs(spans.direction[0]) > 0.7 else 1
    if clear is not None:
        span, all_round = clear[1] - clear[0], rests_on_four_edges(ways.structure, part.id)
        for w, s, z in loads:
            plate = Plate(scaled(w, s), z if abs(part.frame.along[0]) > 0.7 else z[::-1]) if all_round else None
            found.append(Pressed(part, spans, span, "uniform-simple", spread(w, s, z[i], span), plate=plate))
        found.append(_all_sitting(spans, clear, seats, who))
    out = max(spans.overhangs())
    if out > SHORT_MM:
        lever = out - EDGE_MM
        loads = [one for one in loads if one[0].duration != "medium" or len(spans.rests) > 1]
        found += [Pressed(part, spans, lever, "end-cantilever", scaled(w, s)) for w, s, _ in loads]
    return found


def _loads(part: Part, surface: Surface, who: Circumstances) -> list[tuple[Load, float, tuple[float, float]]]:
    """Return each load on a seat, the share a part may get of it, and the area it presses on."""
    sitter, foot = (SITTER, FOOT) if surface.tested else (LYING, FOOT_IN_BED)
    sits, stands = (share_under(part, surface, size, (0, 1)) for size in (sitter, foot))
    loads = [
        (sitting(1, who.masses_kg, who.use), sits, sitter),
        (standing_on(who.masses_kg, who.use), stands, foot),
    ]
    if not surface.tested:
        return loads
    loads += [
        (dropping(who.masses_kg, who.use), sits, SITTER),
        (test_load(who.use, "seat static"), sits, SITTER),
    ]
    if part.y0 < surface.low[1] + FRONT[1]:
        loads.append((test_load(who.use, "front edge static"), share_under(part, surface, FRONT, (0, 1)), FRONT))
    return loads


def scaled(load: Load, share: float) -> Load:
    """Return the part of a load that comes on one piece."""
    return replace(load, force_n=load.force_n * share)


def _all_sitting(spans: Spans, clear: tuple[float, float], seats: Sequence[Surface], who: Circumstances) -> Pressed:
    """Return everybody sitting at once on one span of a part, each spread over their own seat."""
    part, people, force = spans.part, 0, 0.0
    one = sitting(1, who.masses_kg, who.use)
    for seat in seats:
        share = dict(seat.shares).get(part.id)
        if share is None:
            continue
        ends = sorted(spans.at(corner) for corner in (seat.low, seat.high))
        lies = max(0.0, min(ends[1], clear[1]) - max(ends[0], clear[0]))
        if lies > 0 and ends[1] > ends[0]:
            people += seat.people
            force += one.force_n * seat.people * share * min(1.0, lies / (ends[1] - ends[0]))
    load = replace(sitting(max(people, 1), who.masses_kg, who.use), force_n=force)
    return Pressed(part, spans, clear[1] - clear[0], "uniform-simple", load)


def checked(
    pressed: Sequence[Pressed], who: Circumstances, rows: list[CheckRow]
) -> tuple[list[CheckRow], list[Finding]]:
    """Check parts pressed from above: the worst of each name and load; one finding a name, for its worst load."""
    return checked_towards(pressed, who, rows, UP)


def checked_towards(
    pressed: Sequence[Pressed], who: Circumstances, rows: list[CheckRow], direction: Vector
) -> tuple[list[CheckRow], list[Finding]]:
    """Check parts pressed from a direction: the worst of each name and load; one finding a name."""
    groups: dict[tuple[str, str], Pressed] = {}
    pressed = [one if one.kind else replace(one, kind=one.part.name) for one in pressed]
    alike: dict[str, dict[str, None]] = {}
    for one in pressed:
        alike.setdefault(one.kind, {})[one.part.id] = None
        key = (one.kind, one.load.label)
        if key not in groups or one.weight > groups[key].weight:
            groups[key] = one
    findings: dict[str, tuple[tuple[bool, float], Finding]] = {}
    for (name, _), one in groups.items():
        result = member_result(one, who, tuple(alike[name]), direction)
        if isinstance(result, CheckRow):
            rows.append(result)
            continue
        rows.append(member_row(result, name))
        for finding in one_finding(result):
            worse = (finding.severity is not Severity.NOTE, result.worst.ratio)
            if name not in findings or worse > findings[name][0]:
                findings[name] = (worse, finding)
    return _once(rows), [finding for _, finding in findings.values()]


def _once(rows: Iterable[CheckRow]) -> list[CheckRow]:
    return list(dict.fromkeys(rows))


def one_finding(result: MemberResult) -> tuple[Finding, ...]:
    """Return the worst of what a member check noticed, with the depth or span that would do.

    Standing on a seat is no more than a note.
    """
    found = sorted(result.findings(), key=lambda f: -(f.value or 0.0) / (f.limit or 1.0))[:1]
    if result.worst.what == "bending":
        depth, span = fixes(result)
        would = f"Here {depth:.0f} mm of depth, or a span of {span:.0f} mm, would do."
        found = [replace(f, remedy=f"{would} {f.remedy}") for f in found if f.code == "member-over-strength"] or found
    if "standing on it" not in result.load.label or result.load.lasting > 0:
        return tuple(found)
    return tuple(replace(f, severity=Severity.NOTE, message=f"{f.message} It is not made to stand on.") for f in found)


def member_result(
    one: Pressed, who: Circumstances, parts: tuple[str, ...], direction: Vector = UP
) -> MemberResult | CheckRow:
    """Return a member check, or a row that says why the wood or the size cannot be checked."""
    try:
        strip = check_member(member_of(one, who, parts, direction), one.load)
        if one.plate is None:
            return strip
        # Either way of carrying it is one the panel may take: what it holds is the better of the two.
        plate = plate_result(one.part, one.plate, who.service_class, parts)
        return min(strip, plate, key=lambda result: result.worst.ratio)
    except (ValueError, LookupError) as error:
        return CheckRow("bending", one.kind, parts, note=str(error), **row_of_load(one.load))


def member_of(one: Pressed, who: Circumstances, parts: tuple[str, ...], direction: Vector = UP) -> Member:
    """Return the member a part is under a load from a direction. Raises ValueError or LookupError for its wood."""
    part = one.part
    depth, width, way = depth_towards(part, direction)
    if one.spans.axis == "width":
        depth, width = part.thickness, part.length
    if width > SITTER[0] and "person" in one.load.label:
        width = min(width, SITTER[0] + one.span_mm / 2)  # a wide panel bends where somebody sits; practice
    rest = min((r.end - r.start for r in one.spans.rests), default=0.0)
    return Member(
        part.id[:1].upper() + part.id[1:],
        rectangle(width, depth),
        width,
        one.span_mm,
        one.case,
        wood_of_part(part, one.spans.axis, way),
        bearing_mm=rest if one.spans.lies and rest > 5.0 else None,
        held_mm=0.0 if way == "flat" else None,
        service_class=who.service_class,
        parts=parts,
    )


def member_row(result: MemberResult, name: str) -> CheckRow:
    """Return a member check as a row."""
    worst = result.worst
    return CheckRow(
        worst.what,
        name,
        result.member.parts,
        worst.demand,
        worst.allowed,
        "N/mm2",
        code=f"{result.strength.code}; {result.member.wood.source}",
        governing=f"{worst.what} over {result.member.span_mm:.0f} mm{ALL_ROUND if result.edges == 4 else ''}; "
        f"it sags {result.sag_mm:.1f} mm",
        ratio=worst.ratio,
        status=worst.status.value,
        note=result.member.wood.note,
        **row_of_load(result.load),
    )
