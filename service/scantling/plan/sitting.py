"""How a piece with cushions sits and stands: read from where its cushions lie and where it touches the floor."""

from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from scantling.board import Assembly, Cushion
from scantling.findings import Finding
from scantling.mechanics.place import check_weight
from scantling.mechanics.seating import Seat, Sitter, check_seat
from scantling.mechanics.tipping import SeatStance, TipResult, check_edge, check_rear

GRAVITY = 9.80665
ON_FLOOR_MM = 0.5
LOAD_AHEAD_MM = 175.0  # of the seat/back junction, EN 1022:2018 6.2 and ISO 7174-1
PUSH_ABOVE_SEAT_MM = 300.0  # EN 1022:2018 6.2


def sitters(people: Iterable[Mapping[str, Any]]) -> tuple[Sitter, ...]:
    """Return the household's own sitters from a request (sizes in mm, mass in kg)."""
    return tuple(
        Sitter(p["id"], p.get("knee_back_height"), p.get("seat_depth"), p.get("hip"), p.get("elbow"), p.get("mass"))
        for p in people
    )


def check_sitting(assembly: Assembly, household: Sequence[Sitter]) -> list[Finding]:
    """Return what is noticed about the weight of a piece and, where it has cushions, about sitting and tipping."""
    seats = [c for c in assembly.cushions if c.kind == "seat"]
    backs = [c for c in assembly.cushions if c.kind == "back"]
    mass, _ = assembly.mass_and_centre()
    findings = list(check_weight(mass).findings())
    if not seats:
        return findings
    if backs:
        findings += check_seat(_seat(assembly, seats, backs), tuple(household)).findings()
    return findings + [f for result in tip_results(assembly, seats, backs) for f in result.findings()]


def _seat(assembly: Assembly, seats: Sequence[Cushion], backs: Sequence[Cushion]) -> Seat:
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


def tip_results(assembly: Assembly, seats: Sequence[Cushion], backs: Sequence[Cushion]) -> list[TipResult]:
    """Return how a seat stands against being pushed back and against somebody on its front and side edges."""
    floor = [c for p in assembly.parts.values() for cell in p.cells() for c in cell.corners if c[2] <= ON_FLOOR_MM]
    if not floor:
        return []
    front, rear = min(c[1] for c in floor), max(c[1] for c in floor)
    left, right = min(c[0] for c in floor), max(c[0] for c in floor)
    mass, centre = assembly.mass_and_centre()
    weight, seat = mass * GRAVITY, seats[0]
    height = seat.origin[2] + seat.loaded
    edges = {
        False: SeatStance(weight, centre[1] - front, height, edge_mm=front - seat.origin[1]),
        True: SeatStance(
            weight,
            min(centre[0] - left, right - centre[0]),
            height,
            edge_mm=max(left - min(s.origin[0] for s in seats), max(s.origin[0] + s.width for s in seats) - right),
        ),
    }
    results = [check_edge(stance, side=side) for side, stance in edges.items()]
    if backs:
        push = min(height + PUSH_ABOVE_SEAT_MM, assembly.bounds()[1][2])
        load = rear - (seat.origin[1] + seat.depth - LOAD_AHEAD_MM)
        results.append(check_rear(SeatStance(weight, rear - centre[1], height, load_mm=load, push_mm=push)))
    return results
