"""Legs and standing panels: what comes down each, and whether it may buckle, free to sway at one end."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from scantling.board import Part
from scantling.findings import Finding
from scantling.mechanics.columns import check_leg, leg_of
from scantling.mechanics.loads import Load

from .check_row import CheckRow, row_of_load
from .circumstances import Circumstances
from .flow import Flow
from .part_woods import wood_of_part
from .structure import Structure, upright

SLENDER = 5.0  # height over thickness from which a standing part may buckle
UPRIGHT = 0.9  # cosine to plumb, as of `upright`
TILTED = 0.3


def leg_checks(
    structure: Structure,
    flows: Sequence[Flow],
    loads: tuple[Load, Load],
    who: Circumstances,
    things: Sequence[tuple[Load, Flow]] = (),
) -> tuple[list[CheckRow], list[Finding]]:
    """Check the legs and standing panels a load comes down: everybody sitting, one dropping, all that stands on it.

    `flows` are of one newton for each place somebody sits, `things` of what is declared to stand on the piece.
    """
    rows: list[CheckRow] = []
    findings: dict[str, tuple[float, Finding]] = {}
    for part in _legs(structure):
        twin = _twin(structure, part)
        both = (part.id,) if twin is None else (part.id, twin)
        for force, load in _on_leg(both, flows, loads, things):
            row, found, ratio = _leg(structure, part, force, load, who, twin)
            rows.append(row)
            for f in found:
                if part.name not in findings or ratio > findings[part.name][0]:
                    findings[part.name] = (ratio, f)
    return rows, [f for _, f in findings.values()]


def _on_leg(
    both: tuple[str, ...],
    flows: Sequence[Flow],
    loads: tuple[Load, Load],
    things: Sequence[tuple[Load, Flow]],
) -> Iterator[tuple[float, Load]]:
    """Yield what comes down a leg, N: the worse of everybody sitting and one dropping; all that stands on the piece."""
    got = [min(1.0, sum(f.on_floor.get(id, 0.0) for id in both)) for f in flows]
    if got and max(got) > 0:
        yield max(
            (sum(got) * loads[0].force_n, loads[0]), (max(got) * loads[1].force_n, loads[1]), key=lambda one: one[0]
        )
    stands = [(load, min(load.force_n, sum(f.on_floor.get(id, 0.0) for id in both))) for load, f in things]
    stands = [(load, newton) for load, newton in stands if newton > 0]
    if stands:
        labels = dict.fromkeys(load.label for load, _ in stands)
        first = stands[0][0]
        yield sum(newton for _, newton in stands), replace(first, label=" and ".join(labels))


def _legs(structure: Structure) -> Iterator[Part]:
    """Yield the parts that stand on the floor, slim or thin enough to buckle: legs, and panels on edge."""
    for id in sorted(structure.floor):
        part = structure.part(id)
        low, high = part.bounds()
        stands = upright(part) or abs(part.frame.across[2]) > UPRIGHT
        if stands and abs(part.frame.through[2]) < TILTED and high[2] - low[2] >= SLENDER * part.thickness:
            yield part


def _leg(
    structure: Structure, part: Part, force: float, load: Load, who: Circumstances, twin: str | None
) -> tuple[CheckRow, tuple[Finding, ...], float]:
    """Check one leg; two boards glued up to a corner are taken as one of twice the thickness, on the safe side."""
    try:
        on_end = upright(part)
        wood = wood_of_part(part, "length" if on_end else "width", "edge")
        thick = part.thickness * (1 if twin is None else 2)
        leg = leg_of(wood, part.width if on_end else part.length, thick, _clear_length(structure, part), "cantilever",
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
    base, top = part.bounds()
    whole = top[2] - base[2]
    free = min((z - base[2] for z in lows), default=whole)
    return free if free > 10.0 else whole
