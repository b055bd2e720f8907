"""Loads with a name, a basis and a duration: people sitting, leaning, dropping, standing; published test loads."""

from dataclasses import dataclass

from scantling.tables import Status, UnknownRowError, load_table

from .basis import DURATIONS
from .figures import figure, weakest
from .validity import not_negative, positive

TEST_NAMES = (
    "seat static",
    "back static",
    "front edge static",
    "arm down",
    "arm sideways",
    "arm sideways, wide seat",
    "seat and back durability",
)


@dataclass(frozen=True, slots=True)
class Load:
    """A load: what it is, newtons, basis (`service` or `test`), how long it stands, share that stays, its source."""

    label: str
    force_n: float
    basis: str
    duration: str
    lasting: float
    source: str
    status: Status

    def __post_init__(self) -> None:
        if self.basis not in ("service", "test"):
            raise ValueError(f"the basis of a load is service or test, not {self.basis!r}")
        if self.duration not in DURATIONS:
            raise ValueError(f"load duration must be one of {', '.join(DURATIONS)}, not {self.duration!r}")
        not_negative(f"load {self.label!r}", self.force_n, "N")
        if not 0 <= self.lasting <= 1:
            raise ValueError(f"the lasting share of a load is 0 to 1, not {self.lasting}")


def weight(mass_kg: float) -> float:
    """Return the weight of a mass.

    Units: kg to N. Valid: masses of zero or more. Raises: OutOfValidity. Source: standard gravity 9.80665 m/s2.
    """
    return not_negative("mass", mass_kg, "kg") * figure("gravity").value


def sitter_mass(masses_kg: tuple[float, ...] = (), use: str = "home") -> tuple[float, str, Status]:
    """Return the mass to reckon with: the heaviest of the household, or the published design user where none is given.

    Units: kg. Valid: masses above zero; `use` public reckons with a heavier stranger. Raises: OutOfValidity.
    Source: EN 1022:2018 scope (users up to 110 kg; ANSUR II men, 95th percentile, 110.7 kg, agree); BIFMA X5.1-2017
    (125 kg) for public seats.
    """
    if masses_kg:
        for m in masses_kg:
            positive("sitter's mass", m, "kg")
        return max(masses_kg), "the heaviest of the household", Status.READ
    user = figure("design-user-mass-office" if use == "public" else "design-user-mass")
    return user.value, user.source, user.status


def sitting(people: int, masses_kg: tuple[float, ...] = (), use: str = "home") -> Load:
    """Return people sitting still.

    Units: kg in, N out. Valid: one person or more. Raises: ValueError for fewer, OutOfValidity.
    Source: EN 1022:2018 (110 kg) unless the household's own masses are given; duration two months in all, practice.
    """
    if people < 1:
        raise ValueError(f"at least one person sits, not {people}")
    mass, source, status = sitter_mass(masses_kg, use)
    who = "one person" if people == 1 else f"{people} people"
    return Load(f"{who} of {mass:g} kg sitting", people * weight(mass), "service", "medium", 0.0, source, status)


def dropping(masses_kg: tuple[float, ...] = (), use: str = "home") -> Load:
    """Return one person dropping onto the seat, or standing up on it at once: twice the weight.

    Units: kg in, N out. Valid: a drop from nearly nothing; from a height it is more. Raises: OutOfValidity.
    Source: statics (sudden load on a spring); mass as in `sitting`.
    """
    mass, source, status = sitter_mass(masses_kg, use)
    factor = figure("sudden-load-factor")
    label = f"one person of {mass:g} kg dropping onto it"
    return Load(
        label, weight(mass) * factor.value, "service", "instantaneous", 0.0, f"{source}; {factor.source}", status
    )


def standing_on(masses_kg: tuple[float, ...] = (), use: str = "home") -> Load:
    """Return one person standing on one piece of the seat.

    Units: kg in, N out. Valid: standing, not jumping. Raises: OutOfValidity. Source: as in `sitting`.
    """
    mass, source, status = sitter_mass(masses_kg, use)
    return Load(f"one person of {mass:g} kg standing on it", weight(mass), "service", "short", 0.0, source, status)


def climbing_child() -> Load:
    """Return a child hanging on or climbing a shelf or a drawer front.

    Units: N. Valid: children up to 72 months. Raises: UnknownRowError if the figure is missing.
    Source: ASTM F2057-23 (60 lb).
    """
    child = figure("climbing-child-mass")
    return Load("a child of 60 lb climbing on it", child.si, "service", "short", 0.0, child.source, child.status)


def test_load(use: str, test: str) -> Load:
    """Return a published seating test load; it is compared with test strength, never with a design value.

    Units: N. Valid: use camping, home or public; the tests of the table. Raises: UnknownRowError.
    Source: EN 581-2 (2009 text), table of loads.
    """
    for row in load_table("seat_tests").rows:
        if row.text("use") == use and row.text("test") == test:
            label = f"test load, {test}, {use}"
            return Load(label, row.number("force"), "test", "instantaneous", 0.0, row.source, row.status)
    names = sorted(f"{r.text('use')}, {r.text('test')}" for r in load_table("seat_tests").rows)
    raise UnknownRowError("seating test", f"{use}, {test}", names)


def lean_back_moment(use: str, masses_kg: tuple[float, ...] = (), lever_mm: float = 300.0) -> tuple[float, Load]:
    """Return the moment on the joint of seat and back when a sitter leans back, and the load it comes from.

    Units: mm and N; moment in N mm. Valid: `lever_mm` above the joint, 300 mm where the standard pushes.
    Raises: UnknownRowError for the use, OutOfValidity. Source: EN 581-2 (2009 text), back static load at 300 mm
    (EN 1022:2018 6.2, point B); the back column of the copy is likely, not certain, so it only warns.
    """
    load = test_load(use, "back static")
    return load.force_n * positive("lever", lever_mm, "mm"), load


def seat_loads(use: str, places: int, masses_kg: tuple[float, ...] = ()) -> tuple[Load, ...]:
    """Return every load a seat is checked for: people sitting, one dropping, one standing, and the published tests.

    Units: N. Valid: use home or public (or camping); each load goes to the parts that carry it, service loads against
    design values and test loads against test strength. Raises: UnknownRowError for the use, ValueError, OutOfValidity.
    Source: as each load says: EN 1022:2018, BIFMA X5.1-2017, EN 581-2 (2009 text).
    """
    service = (sitting(places, masses_kg, use), dropping(masses_kg, use), standing_on(masses_kg, use))
    return (*service, test_load(use, "seat static"), test_load(use, "front edge static"))


def arm_load(use: str) -> Load:
    """Return the published test load pressing an arm down.

    Units: N. Valid: home or public. Raises: UnknownRowError for another use. Source: EN 581-2 (2009 text).
    """
    return test_load(use, "arm down")


def arm_side_load(use: str, between_mm: float) -> Load:
    """Return the published test load pushing an arm level, away from the seat or towards it.

    Units: mm between the arms, N out. Valid: home or public; seats wider than 35 in between the arms get the larger.
    Raises: UnknownRowError for another use, OutOfValidity. Source: ANSI/BIFMA X5.4-2012 section 9, functional load, as
    a test house describes it (100 lbf, 133 lbf); meant for lounge and public seats, a screening for those at home.
    """
    wide = positive("width between the arms", between_mm, "mm") > figure("wide-arm-seat").si
    return test_load(use, "arm sideways, wide seat" if wide else "arm sideways")


def accessible_bench() -> Load:
    """Return the load an accessible bench must hold at any point, down or sideways.

    Units: N. Valid: fixed benches that are meant to be accessible. Raises: UnknownRowError if the figure is missing.
    Source: ADA Standards (2010) 903.6, 250 lbf, as allowable load.
    """
    f = figure("accessible-bench-load")
    return Load("250 lbf at any point of an accessible bench", f.si, "service", "short", 0.0, f.source, f.status)


def people_on(length_mm: float) -> int:
    """Return how many seats a bench counts as for loads, a half counted up.

    Units: mm. Valid: lengths above zero. Raises: OutOfValidity.
    Source: EN 1022:2018 6.2 (length over 600 mm, to the nearest whole number; a half goes up here, on the safe side).
    """
    return max(1, int(positive("seat length", length_mm, "mm") / figure("en-seat-count").value + 0.5))


def worst(loads: tuple[Load, ...]) -> Load:
    """Return the largest load of one basis.

    Units: N. Valid: loads of the same basis. Raises: ValueError for none, or for service and test mixed.
    Source: rule of the house: service and test loads are never crossed.
    """
    if not loads or len({load.basis for load in loads}) > 1:
        raise ValueError("give at least one load, all of them service or all of them test")
    return max(loads, key=lambda load: load.force_n)


def known(*statuses: Status) -> Status:
    """Return how well a sum of loads is known: as well as the least known of them.

    Units: no unit (N keep theirs). Valid: any number. Raises: nothing. Source: rule of the house.
    """
    return weakest(statuses)
