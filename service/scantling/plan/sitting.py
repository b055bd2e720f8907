"""How a seat sits: read from its cushions, set against the household's own sitters or a stated population."""

from collections.abc import Sequence
from dataclasses import replace
from math import atan2, degrees

from scantling.board import Assembly, Cushion
from scantling.findings import Finding
from scantling.mechanics.seating import Seat, SeatResult, check_knees, check_seat, check_table, knee_room
from scantling.mechanics.upholstery import loaded_height

from .building import Built
from .check_row import CheckRow
from .circumstances import Circumstances
from .surfaces import Surface, backs_of, seats_of

SAT_AT = (650.0, 850.0)  # heights of tables one sits at, mm; practice
FELT_MM = 10.0  # less than this short of room nobody feels; practice
NOBODY_NAMED = Circumstances()
OPEN = 5000.0  # mm; a band that reaches further has no upper end


def sitting_checks(
    assembly: Assembly, seats: Sequence[Surface], backs: Sequence[Surface], who: Circumstances, *, meant: bool = False
) -> tuple[list[CheckRow], list[Finding]]:
    """Check the sizes of a seat for sitting and leaning; one grouped finding a piece.

    A seat without a back is checked where it is `meant` as one: a chest or a footstool is not.
    """
    seat = seat_read(assembly, seats, backs, who.sits, meant=meant)
    if seat is None:
        return [], []
    result = check_seat(seat, who.household)
    return _rows(result), list(result.findings())


def seat_read(
    assembly: Assembly,
    seats: Sequence[Surface],
    backs: Sequence[Surface],
    sits: str | None = None,
    *,
    meant: bool = False,
) -> Seat | None:
    """Return the seat of a piece as the people checks see it; its angles only where the caller said how one sits."""
    cushions = [c for c in assembly.cushions if c.kind == "seat"]
    behind = [c for c in assembly.cushions if c.kind == "back"]
    if cushions and behind:
        seat = seat_of(assembly, cushions, behind)
    elif seats and not assembly.cushions and (backs or meant):
        seat = hard_seat_of(seats, backs)
    else:
        return None
    if sits is None:
        return seat
    tilt = _slope(assembly, seats)
    lean = None if not backs else _lean(assembly, backs)
    angle = None if lean is None or tilt is None else 90.0 + lean - tilt
    return replace(seat, kind=sits, tilt_deg=tilt, seat_to_back_deg=angle)


def _slope(assembly: Assembly, seats: Sequence[Surface]) -> float | None:
    """Return how far a seat falls to the rear, degrees, from the part that carries most of it."""
    shares = [share for seat in seats for share in seat.shares]
    if not shares:
        return None
    _, y, z = assembly.parts[max(shares, key=lambda s: s[1])[0]].frame.through
    return round(degrees(atan2(y, z) if z > 0 else atan2(-y, -z)), 3)


def _lean(assembly: Assembly, backs: Sequence[Surface]) -> float | None:
    """Return how far a back leans from upright, degrees, from the part that carries most of it."""
    shares = [share for back in backs for share in back.shares]
    if not shares:
        return None
    _, y, z = assembly.parts[max(shares, key=lambda s: s[1])[0]].frame.through
    return round(degrees(atan2(z, -y) if y < 0 else atan2(-z, y)), 3)


def hard_seat_of(seats: Sequence[Surface], backs: Sequence[Surface]) -> Seat:
    """Return a seat of bare wood as the people checks see it: a dining seat."""
    first = seats[0]
    depth = min((b.low[1] for b in backs), default=first.high[1]) - first.low[1]
    width = sum(s.width for s in seats)
    people = sum(s.people for s in seats)
    return Seat("dining", first.high[2], max(depth, 1.0), width, people, has_back=bool(backs))


def table_checks(assembly: Assembly, who: Circumstances = NOBODY_NAMED) -> tuple[list[CheckRow], list[Finding]]:
    """Check the room for knees under a table high enough to sit at, from its lowest part in its upper half."""
    clear = under_table(assembly)
    if clear is None:
        return [], []
    wanted, whose = knee_room(who.household)
    own = any(s.knee_mm is not None for s in who.household)
    row = CheckRow(
        "suits its sitters", "room for knees", demand=clear, capacity=wanted, unit="mm", basis="people",
        code="the household's own sizes" if own else "ANSUR II knee height, men, 95th percentile",
        governing="the lowest part over the knees", note=f"{wanted:.0f} mm suit {whose}",
    )  # fmt: skip
    return [row], list(check_knees(clear, who.household)) if clear + FELT_MM < wanted else []


def under_table(assembly: Assembly) -> float | None:
    """Return the height clear under a table that one sits at, mm; None where it is too low or too high for that."""
    low, high = assembly.bounds()
    if not SAT_AT[0] <= high[2] - low[2] <= SAT_AT[1]:
        return None
    half = (low[2] + high[2]) / 2
    return min((p.z0 for p in assembly.parts.values() if p.z0 > half), default=high[2]) - low[2]


def seats_at_tables(pieces: Sequence[Built], who: Circumstances) -> list[Finding]:
    """Check the room for thighs between the seats and the tables of one project that one sits at."""
    tables = [(p.id, under_table(p.assembly)) for p in pieces if p.module.family == "tables" and p.assembly.parts]
    found: list[Finding] = []
    for piece in pieces:
        if piece.module.family != "seating" or not piece.assembly.parts:
            continue
        seat = seat_read(piece.assembly, seats_of(piece.assembly), backs_of(piece.assembly), meant=True)
        if seat is None or seat.back_cushion_mm:
            continue  # one does not dine in a seat with back cushions
        loaded = loaded_height(seat.hard_height_mm, seat.cushion_mm, seat.sink)
        for id, clear in tables:
            if clear is not None:
                said = check_table(clear, loaded, who.household, parts=(id, piece.id))
                found += [replace(f, message=f"{piece.id} at {id}: {f.message}") for f in said]
    return found


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
