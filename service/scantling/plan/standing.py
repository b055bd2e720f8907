"""How a piece stands: pushed back, sat on at its edges and ends, tilted, pulled, opened, on its feet or by the wall."""

from collections.abc import Sequence
from dataclasses import replace

from scantling.board import Assembly
from scantling.board.vector import Vector, cross
from scantling.findings import Finding
from scantling.mechanics.loads import sitting, weight
from scantling.mechanics.storage import check_fixed_to_wall, check_tall_storage
from scantling.mechanics.tipping import (
    SeatStance,
    TipResult,
    check_edge,
    check_level,
    check_overhang,
    check_rear,
    check_tilt,
    rear_points,
)

from .check_row import CheckRow
from .circumstances import Circumstances
from .opening import has_drawers, opened_results, pulled_results, wall_fixing
from .structure import Structure
from .surfaces import Surface

FEET_MM = 0.5
STANDS_OUT_MM = 60.0  # an end that stands out less is sat on over the feet: EN 1022:2018 clause 6
ADULT = (150.0, 900.0)  # loaded seat heights the rearward push is given for, EN 1022:2018
# What cannot happen to a piece that is fixed to the wall.
WALL_HOLDS = frozenset({"tips-when-pulled", "tips-on-slope", "tips-with-drawers", "tips-when-open"})
TO_THE_WALL = WALL_HOLDS - {"tips-with-drawers"}
SETTLED = "stands it once it is fixed to the wall, as the finding asks"
LEVELLING = ("level", "adjust")


def feet_of(assembly: Assembly) -> list[Vector]:
    """Return the corners that stand on the floor."""
    corners = [c for p in assembly.parts.values() if p.z0 < 5 for cell in p.cells() for c in cell.corners]
    low = min((c[2] for c in corners), default=0.0)
    return [c for c in corners if c[2] <= low + FEET_MM]


def standing_checks(
    structure: Structure, seats: Sequence[Surface], backs: Sequence[Surface], who: Circumstances, *, storage: bool
) -> tuple[list[CheckRow], list[Finding]]:
    """Check how a piece stands, with people on it and without; `storage` says that it is furniture to put things in."""
    assembly = structure.assembly
    feet = feet_of(assembly)
    if not feet:
        return [], []
    mass, centre = structure.mass_and_centre()
    heavy = weight(mass)
    results = [check_tilt(max(inside_feet(feet, centre), 0.0), max(centre[2], 1.0))]
    if seats and any(s.shares for s in seats):
        results += _sat_on(assembly, seats, backs, feet, heavy, centre, who)
    results += opened_results(assembly, lambda at: inside_feet(feet, at), mass, centre)
    if storage:
        results += pulled_results(structure, min(f[1] for f in feet), heavy, centre)
    rows, findings = by_the_wall(structure, results, mass, storage=storage)
    return rows, [*findings, *_level(structure, who)]


def by_the_wall(
    structure: Structure, results: Sequence[TipResult], mass: float, *, storage: bool
) -> tuple[list[CheckRow], list[Finding]]:
    """Return rows and findings of what was found, with one finding in place of those a wall fixing settles."""
    assembly = structure.assembly
    fixing = wall_fixing(assembly)
    tips = [r for r in results if r.code in WALL_HOLDS and not r.stands]
    rows = [tip_row(r) for r in results]
    if fixing and tips:
        note = f"stands only fixed to the wall, by {fixing}"
        rows = [replace(row, note=note) if r in tips else row for r, row in zip(results, rows, strict=True)]
        wall = check_fixed_to_wall(tips, fixing)
        return rows, [*(f for r in results if r not in tips for f in r.findings()), *wall]
    wall = _tall(structure, mass, fixing) if storage else ()
    if wall:
        settled = [r.code in TO_THE_WALL and not r.stands for r in results]
        rows = [replace(row, note=SETTLED) if s else row for s, row in zip(settled, rows, strict=True)]
    # Fixed to the wall it cannot be pulled over: one finding says it.
    return rows, [*(f for r in results for f in r.findings() if not wall or f.code not in TO_THE_WALL), *wall]


def _tall(structure: Structure, mass: float, fixing: str | None) -> tuple[Finding, ...]:
    low, high = structure.assembly.bounds()
    wide, deep, tall = (b - a for a, b in zip(low, high, strict=True))
    drawers = has_drawers(structure)
    return check_tall_storage(tall, mass, wide * deep * tall / 1e6, has_drawers=drawers, fixing=fixing)


def tip_row(result: TipResult) -> CheckRow:
    """Return a tipping check as a row: what is asked for over what it stands."""
    return CheckRow(
        "stands",
        result.title,
        result.parts,
        result.needed,
        result.holds,
        result.unit,
        load=result.title.lower(),
        duration="instantaneous",
        basis="statics",
        code=result.source,
        governing=result.title,
        ratio=result.needed / result.holds if result.holds > 0 else None,
        status=result.status.value,
        note="" if result.holds > 0 else "it stands nothing: it falls over by itself",
    )


def inside_feet(feet: Sequence[Vector], centre: Vector) -> float:
    """Return how far a point lies inside the line round the feet, mm; negative where it lies outside."""
    ring = hull([(f[0], f[1]) for f in feet])
    if len(ring) < 3:
        return 0.0
    inside = float("inf")
    for (x0, y0), (x1, y1) in zip(ring, [*ring[1:], ring[0]], strict=True):
        length = ((x1 - x0) ** 2 + (y1 - y0) ** 2) ** 0.5
        inside = min(inside, ((x1 - x0) * (centre[1] - y0) - (y1 - y0) * (centre[0] - x0)) / length)
    return inside


def hull(points: Sequence[tuple[float, float]]) -> list[tuple[float, float]]:
    """Return the convex outline of points, anticlockwise (Andrew's monotone chain)."""
    ordered = sorted({(round(x, 3), round(y, 3)) for x, y in points})
    half: list[list[tuple[float, float]]] = []
    for run in (ordered, ordered[::-1]):
        chain: list[tuple[float, float]] = []
        for p in run:
            while len(chain) > 1 and _turn(chain[-2], chain[-1], p) <= 0:
                chain.pop()
            chain.append(p)
        half.append(chain[:-1])
    return half[0] + half[1]


def _turn(a: tuple[float, float], b: tuple[float, float], c: tuple[float, float]) -> float:
    return cross((b[0] - a[0], b[1] - a[1], 0.0), (c[0] - a[0], c[1] - a[1], 0.0))[2]


def _sat_on(
    assembly: Assembly,
    seats: Sequence[Surface],
    backs: Sequence[Surface],
    feet: Sequence[Vector],
    heavy: float,
    centre: Vector,
    who: Circumstances,
) -> list[TipResult]:
    """Check a seat with somebody on its front, its sides, its very ends, and pushed back."""
    carriers = [assembly.parts[id] for s in seats for id, _ in s.shares]
    front, rear = min(f[1] for f in feet), max(f[1] for f in feet)
    left, right = min(f[0] for f in feet), max(f[0] for f in feet)
    low_x = min(max(p.x0, s.low[0]) for s in seats for p in carriers)
    high_x = max(min(p.x1, s.high[0]) for s in seats for p in carriers)
    low_y = min(p.y0 for p in carriers)
    height = max(seat_height(assembly, seats), 1.0)
    base = SeatStance(heavy, centre[1] - front, height, edge_mm=front - low_y)
    ends = (left - low_x, high_x - right)
    side = replace(base, centre_mm=min(centre[0] - left, right - centre[0]), edge_mm=max(ends))
    results = [
        check_edge(replace(base, centre_mm=max(base.centre_mm, 0.0))),
        check_edge(replace(side, centre_mm=max(side.centre_mm, 0.0)), side=True),
    ]
    if max(ends) > STANDS_OUT_MM and right > left:
        person = sitting(1, who.masses_kg, who.use)
        results.append(check_overhang(right - left, max(ends), heavy, person.force_n))
    if ADULT[0] <= height <= ADULT[1] and any(b.shares for b in backs):
        top = assembly.bounds()[1][2]
        junction = rear - max(min(b.low[1] for b in backs), *(s.high[1] for s in seats))
        load, push = rear_points(height, junction, max(top, height))
        results.append(check_rear(SeatStance(heavy, max(rear - centre[1], 0.0), height, load_mm=load, push_mm=push)))
    return results


def seat_height(assembly: Assembly, seats: Sequence[Surface]) -> float:
    """Return the height somebody sits at, mm: the cushion pressed down, or the bare seat."""
    loaded = {c.id: c.loaded for c in assembly.cushions}
    return max(s.low[2] + loaded.get(s.id, 0.0) if s.cushioned else s.high[2] for s in seats)


def _level(structure: Structure, who: Circumstances) -> tuple[Finding, ...]:
    """Say whether the saws of the shop cut legs of one length well enough to stand firm."""
    if who.saws is None:
        return ()
    error = min(saw.error for saw in who.saws.saws) / 100
    words = [h.what.casefold() for h in structure.assembly.hardware]
    levelled = any(mark in word for word in words for mark in LEVELLING)
    feet = sum(1 for id in structure.floor if abs(structure.part(id).frame.along[2]) > 0.9)
    return check_level(2 * error, 0.0, feet=feet, levelled=levelled)
