"""All checks of a module of 30 parts add little: less than 15 ms where a plain loop takes 12, as a ratio in one run."""

import time

from scantling.mechanics.beams import rectangle
from scantling.mechanics.columns import Leg, check_leg
from scantling.mechanics.exposure import Outdoors, check_exposure
from scantling.mechanics.loads import seat_loads
from scantling.mechanics.members import Member, check_member
from scantling.mechanics.moisture import FixedWidth, check_width
from scantling.mechanics.racking import FrameSide, check_racking
from scantling.mechanics.seating import Seat, check_seat
from scantling.mechanics.shelves import Shelf, check_shelf, shelf_load
from scantling.mechanics.strength import wood_values
from scantling.mechanics.tipping import SeatStance, check_edge, check_rear
from yardstick import plain_loop_ms

PARTS = 30
BAR = 15.0 / 12.0  # of the plain loop of the yardstick
ROOM = 2.0  # what neighbours on the machine may add between the two measurements


def check_everything():
    found = 0
    loads = seat_loads("home", 3)
    for part in range(PARTS):
        wood = wood_values("spruce-pine-fir", 38.1, 88.9) if part % 2 else wood_values("birch-plywood", 18.0, 300.0)
        member = Member("Rail", rectangle(38, 89), 38, 1500, "uniform-simple", wood, bearing_mm=38)
        for load in loads[:3]:
            found += len(check_member(member, load, sag_ratio=300).findings())
    for _ in range(4):
        shelf = Shelf(900, 300, 18, wood_values("birch-plywood", 18.0, 300.0), "plywood")
        found += len(check_shelf(shelf, shelf_load("books", 300)).findings())
        found += len(check_leg(Leg(38, 38, 420, "cantilever", 7.9, 3516), 1500).findings())
        found += len(check_width(FixedWidth("Top", "white-oak", 400, 9, 6, 13)).findings())
        found += len(check_racking(FrameSide("The front", 900, 1800, ("shelf",))).findings())
    stance = SeatStance(300, 300, 430, 265, 700, 40)
    for result in (check_rear(stance), check_edge(stance), check_edge(stance, side=True)):
        found += len(result.findings())
    found += len(check_seat(Seat("sofa", 330, 560, 1800, 3, 127, 0.55, 110, 5, 108)).findings())
    return found + len(check_exposure(Outdoors("weather", "interior", "D2", "plain steel")).findings())


def test_all_checks_of_thirty_parts():
    assert check_everything() > 50  # findings are made and worded too: the tables are read now
    best = min(_timed() for _ in range(15))
    assert best / plain_loop_ms() < ROOM * BAR


def _timed():
    start = time.process_time()
    check_everything()
    return (time.process_time() - start) * 1000
