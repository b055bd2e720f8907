"""How a seat sits: read from its cushions, set against the household's own sitters or a stated population."""

from collections.abc import Sequence

from scantling.board import Assembly, Cushion
from scantling.findings import Finding
from scantling.mechanics.seating import Seat, SeatResult, check_seat

from .check_row import CheckRow
from .circumstances import Circumstances

OPEN = 5000.0  # mm; a band that reaches further has no upper end


def sitting_checks(assembly: Assembly, who: Circumstances) -> tuple[list[CheckRow], list[Finding]]:
    """Check the sizes of a seat with cushions for sitting and leaning; one grouped finding a piece."""
    seats = [c for c in assembly.cushions if c.kind == "seat"]
    backs = [c for c in assembly.cushions if c.kind == "back"]
    if not seats or not backs:
        return [], []
    result = check_seat(seat_of(assembly, seats, backs), who.household)
    return _rows(result), list(result.findings())


def seat_of(assembly: Assembly, seats: Sequence[Cushion], backs: Sequence[Cushion]) -> Seat:
    """Return the seat as the people checks see it, from its cushions."""
    first, back = seats[0], backs[0]
    return Seat(
        kind="lounge",
        hard_height_mm=first.origin[2],
        depth_mm=first.depth,
        width_mm=sum(s.width for s in seats),
        places=len(seats),
        cushion_mm=first.thickness,
        sink=1 - first.loaded / first.thickness,
        back_cushion_mm=back.depth,
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
