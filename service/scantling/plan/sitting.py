"""How a seat sits: read from its cushions, set against the household's own sitters or a stated population."""

from collections.abc import Sequence

from scantling.board import Assembly, Cushion
from scantling.findings import Finding
from scantling.mechanics.seating import Seat, SeatResult, check_knees, check_seat

from .check_row import CheckRow
from .circumstances import Circumstances
from .surfaces import Surface

SAT_AT = (650.0, 850.0)  # heights of tables one sits at, mm; practice
FELT_MM = 10.0  # less than this short of room nobody feels; practice
OPEN = 5000.0  # mm; a band that reaches further has no upper end


def sitting_checks(
    assembly: Assembly, seats: Sequence[Surface], backs: Sequence[Surface], who: Circumstances
) -> tuple[list[CheckRow], list[Finding]]:
    """Check the sizes of a seat with a back for sitting and leaning; one grouped finding a piece."""
    cushions = [c for c in assembly.cushions if c.kind == "seat"]
    behind = [c for c in assembly.cushions if c.kind == "back"]
    if cushions and behind:
        seat = seat_of(assembly, cushions, behind)
    elif seats and backs and not assembly.cushions:
        seat = hard_seat_of(seats, backs)
    else:
        return [], []
    result = check_seat(seat, who.household)
    return _rows(result), list(result.findings())


def hard_seat_of(seats: Sequence[Surface], backs: Sequence[Surface]) -> Seat:
    """Return a seat of bare wood with a back as the people checks see it: a dining seat."""
    first = seats[0]
    depth = min(b.low[1] for b in backs) - first.low[1]
    width = sum(s.width for s in seats)
    return Seat("dining", first.high[2], max(depth, 1.0), width, sum(s.people for s in seats))


def table_checks(assembly: Assembly) -> tuple[list[CheckRow], list[Finding]]:
    """Check the room for knees under a table high enough to sit at, from its lowest part in its upper half."""
    low, high = assembly.bounds()
    if not SAT_AT[0] <= high[2] - low[2] <= SAT_AT[1]:
        return [], []
    half = (low[2] + high[2]) / 2
    clear = min((p.z0 for p in assembly.parts.values() if p.z0 > half), default=high[2]) - low[2]
    row = CheckRow(
        "suits its sitters",
        "room for knees",
        demand=clear,
        unit="mm",
        basis="people",
        code="ANSUR II knee height, men, 95th percentile",
        governing="the lowest part over the knees",
    )
    return [row], list(check_knees(clear + FELT_MM))


def seat_of(assembly: Assembly, seats: Sequence[Cushion], backs: Sequence[Cushion]) -> Seat:
    """Return the seat as the people checks see it, from its cushions."""
    first, back = seats[0], backs[0]
    arms = [assembly.parts[id] for load in assembly.loads if load.kind == "arm" for id in load.parts]
    loaded = first.origin[2] + first.loaded
    return Seat(
        kind="lounge",
        hard_height_mm=first.origin[2],
        depth_mm=first.depth,
        width_mm=sum(s.width for s in seats),
        places=len(seats),
        cushion_mm=first.thickness,
        sink=1 - first.loaded / first.thickness,
        back_cushion_mm=back.depth,
        arm_mm=max(p.z1 for p in arms) - loaded if arms else None,
        between_arms=len(arms) > 1,
    )


def _rows(result: SeatResult) -> list[CheckRow]:
    return [
        CheckRow(
            "suits its sitters",
            band.what,
            demand=band.value,
            capacity=band.low if band.value < band.low or band.high > OPEN else band.high,
            unit=band.unit,
            basis="people",
            code=band.source,
            governing=f"{band.low:.0f} or more" if band.high > OPEN else f"{band.low:.0f} to {band.high:.0f}",
            status=band.status.value,
            note="suits" if band.suits else band.said(),
        )
        for band in result.bands
    ]
