"""Where people sit and lean on a piece, and which parts carry them: from cushions, or as the author declared."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from scantling.board import Assembly, Cushion, LoadCase, Part
from scantling.board.vector import Vector
from scantling.mechanics.loads import people_on

DOWN: Vector = (0.0, 0.0, -1.0)
BACKWARDS: Vector = (0.0, 1.0, 0.0)
LEVEL_MM = 2.0  # how near a part's top must be to the underside of a cushion to carry it
GLANCING = 0.25  # of the widest part behind a cushion; what is touched less carries nobody
BEHIND_MM = 250.0  # how far behind a back cushion the slats it leans on may stand
# The area a person bears on, mm: as wide as hips (ANSUR II, sitting, about 380), as deep as thighs bear; practice.
SITTER = (380.0, 350.0)
FOOT = (100.0, 250.0)  # a foot, toes to the front; practice
# The same through a mattress of 150 mm, which spreads a load by its thickness on every side; practice.
LYING = (600.0, 650.0)
FOOT_IN_BED = (400.0, 550.0)
PAD = (250.0, 200.0)  # what presses a back in a test, wide and high; practice


@dataclass(frozen=True, slots=True)
class Surface:
    """A place to sit or lean: its box in mm, how many people, and the parts that carry it with their shares.

    `shares` are the parts of a load spread evenly over the surface, by the area each part has under it; `tested`
    says whether the published tests of seats are meant for it (a bed is none). `out` is the way somebody presses on
    it: down on a seat, away from the seat on a back, along x or along y.
    """

    id: str
    low: Vector
    high: Vector
    people: int
    shares: tuple[tuple[str, float], ...]
    cushioned: bool
    tested: bool = True
    out: Vector = DOWN

    @property
    def side(self) -> int:
        """Return the axis people sit or lean along, side by side: 0 for x, 1 for y."""
        return 1 if abs(self.out[0]) > 0.5 else 0

    @property
    def width(self) -> float:
        """Return the width along which people sit or lean side by side, mm."""
        return self.high[self.side] - self.low[self.side]

    @property
    def middle(self) -> Vector:
        """Return the middle of the surface's box."""
        (a, b, c), (d, e, f) = self.low, self.high
        return ((a + d) / 2, (b + e) / 2, (c + f) / 2)

    def places(self) -> list[float]:
        """Return where the people are along the surface's own axis, evenly spread, mm."""
        return [self.low[self.side] + self.width * (i + 0.5) / self.people for i in range(self.people)]


def seats_of(assembly: Assembly, *, tested: bool = True) -> list[Surface]:
    """Return the surfaces somebody sits on: seat cushions with the parts under them, and what is declared."""
    parts = list(assembly.parts.values())
    seats = [_under(c, parts) for c in assembly.cushions if c.kind == "seat"]
    seats += [_declared(assembly, case, flat=True) for case in assembly.loads if case.kind == "sitter"]
    return [replace(seat, tested=tested) for seat in seats]


def backs_of(assembly: Assembly) -> list[Surface]:
    """Return the surfaces behind its sitters that somebody leans on: cushions with what is behind, what is declared."""
    return [back for back in _all_backs(assembly) if back.side == 0]


def side_backs_of(assembly: Assembly) -> list[Surface]:
    """Return the backs at a side of a seat, as the second one of a corner: pushed along x, to the left or right."""
    return [back for back in _all_backs(assembly) if back.side == 1]


def _all_backs(assembly: Assembly) -> list[Surface]:
    parts = list(assembly.parts.values())
    middle = _middle_of_seats(assembly)
    backs = [_behind(c, _out_of(c, middle), parts) for c in assembly.cushions if c.kind == "back"]
    return backs + [_leant_on(assembly, case, middle) for case in assembly.loads if case.kind == "leaning"]


def _middle_of_seats(assembly: Assembly) -> float:
    """Return the middle of all seats in x, mm, or of the piece where nobody sits."""
    seats = [s for s in seats_of(assembly) if s.shares]
    if seats:
        return sum((s.low[0] + s.high[0]) / 2 for s in seats) / len(seats)
    low, high = assembly.bounds()
    return (low[0] + high[0]) / 2


def _out_of(c: Cushion, middle: float) -> Vector:
    """Return the way somebody pushes a back cushion: along its thin side, away from the middle of the seats."""
    if c.width >= c.depth:
        return BACKWARDS
    return (1.0, 0.0, 0.0) if c.origin[0] + c.width / 2 > middle else (-1.0, 0.0, 0.0)


def _leant_on(assembly: Assembly, case: LoadCase, middle: float) -> Surface:
    surface = _declared(assembly, case, flat=False)
    sideways = sum(abs(assembly.parts[id].frame.through[0]) for id in case.parts) > 0.7 * len(case.parts)
    if not sideways:
        return surface
    out: Vector = (1.0 if surface.middle[0] > middle else -1.0, 0.0, 0.0)
    areas = [(id, _overlap(surface.low, surface.high, assembly.parts[id], (1, 2))) for id in case.parts]
    people = max(int(case.amount or 1), people_on(max(surface.high[1] - surface.low[1], 1.0)))
    return replace(surface, out=out, people=people, shares=_shares(areas))


def _under(c: Cushion, parts: Sequence[Part]) -> Surface:
    low = c.origin
    high = (low[0] + c.width, low[1] + c.depth, low[2])
    areas = [
        (p.id, _overlap(low, high, p, (0, 1)))
        for p in parts
        if abs(p.z1 - low[2]) <= LEVEL_MM and p.z1 - p.z0 < 0.9 * max(p.x1 - p.x0, p.y1 - p.y0)
    ]
    return Surface(c.id, low, high, people_on(c.width), _shares(areas), True)


def _behind(c: Cushion, out: Vector, parts: Sequence[Part]) -> Surface:
    low = (c.origin[0], c.origin[1], c.origin[2])
    high = (low[0] + c.width, low[1] + c.depth, low[2] + c.thickness)
    push, side = (0, 1) if abs(out[0]) > 0.5 else (1, 0)
    spots = [(p, _reach(p, out)) for p in parts if abs(p.frame.through[push]) > 0.7]
    behind = max(high[push] * out[push], low[push] * out[push])
    facing = [(p, near) for p, near in spots if _near_behind(p, near, behind, low, high)]
    areas = []
    for p, (start, _) in sorted(facing, key=lambda f: (round(f[1][0], 3), f[0].id)):
        area = _overlap(low, high, p, (side, 2))
        before = [q for q, (_, end) in facing if end <= start + 1]
        hidden = any(_overlap(q.bounds()[0], q.bounds()[1], p, (side, 2)) > 0.5 * area for q in before)
        if area > 0 and not hidden:
            areas.append((p.id, area))
    most = max((area for _, area in areas), default=0.0)
    areas = [(id, area) for id, area in areas if area >= GLANCING * most]
    return Surface(c.id, low, high, people_on(high[side] - low[side]), _shares(areas), True, out=out)


def _reach(p: Part, out: Vector) -> tuple[float, float]:
    """Return where a part begins and ends along a direction, mm."""
    low, high = p.bounds()
    ends = sorted(sum(v[i] * out[i] for i in (0, 1)) for v in (low, high))
    return ends[0], ends[1]


def _near_behind(p: Part, near: tuple[float, float], behind: float, low: Vector, high: Vector) -> bool:
    start, end = near
    return behind - 60 <= end and start <= behind + BEHIND_MM and p.z1 > low[2] and p.z0 > low[2] - 400


def _declared(assembly: Assembly, case: LoadCase, *, flat: bool) -> Surface:
    parts = [assembly.parts[id] for id in case.parts]
    low: Vector = (min(p.x0 for p in parts), min(p.y0 for p in parts), min(p.z0 for p in parts))
    high: Vector = (max(p.x1 for p in parts), max(p.y1 for p in parts), max(p.z1 for p in parts))
    people = max(int(case.amount or 1), people_on(max(high[0] - low[0], 1.0)))
    axes = (0, 1) if flat else (0, 2)
    areas = [(p.id, _overlap(low, high, p, axes)) for p in parts]
    top = (low[0], low[1], high[2]) if flat else low
    out = DOWN if flat else BACKWARDS
    return Surface(f"{case.kind} on {case.parts[0]}", top, high, people, _shares(areas), False, out=out)


def _overlap(low: Vector, high: Vector, p: Part, axes: tuple[int, int]) -> float:
    mine_low, mine_high = p.bounds()
    sides = [max(0.0, min(high[i], mine_high[i]) - max(low[i], mine_low[i])) for i in axes]
    return sides[0] * sides[1]


def _shares(areas: Sequence[tuple[str, float]]) -> tuple[tuple[str, float], ...]:
    total = sum(a for _, a in areas)
    return tuple((id, a / total) for id, a in areas if a > 0) if total > 0 else ()


def share_under(part: Part, surface: Surface, size: tuple[float, float], axes: tuple[int, int]) -> float:
    """Return the most one part may get of a load pressing on a rectangle that may lie anywhere on a surface.

    `size` is the rectangle along the two world axes, mm. Gaps between parts carry nothing, so that what the rectangle
    covers of wood takes the whole load.
    """
    low, high = part.bounds()
    span = [high[i] - low[i] for i in axes]
    whole = [surface.high[i] - surface.low[i] for i in axes]
    if axes[1] == 2 and abs(part.frame.through[1 - axes[0]]) > 0.7:
        span[1] = max(span[1] - part.thickness * abs(part.frame.through[2]), 1.0)
    fraction = dict(surface.shares).get(part.id, 1.0)
    mine = min(1.0, min(span[0], whole[0]) / min(size[0], whole[0])) * min(
        1.0, span[1] / min(size[1], max(whole[1], 1))
    )
    wood = _wood_share(part, surface, axes, fraction)
    return min(1.0, max(mine / wood, fraction))


def _wood_share(part: Part, surface: Surface, axes: tuple[int, int], fraction: float) -> float:
    """Return how much of a surface is wood and not gap, from one part's own area and its share of all wood."""
    whole = (surface.high[axes[0]] - surface.low[axes[0]]) * (surface.high[axes[1]] - surface.low[axes[1]])
    own = _overlap(surface.low, surface.high, part, axes)
    return min(1.0, max(0.2, own / fraction / whole)) if whole > 0 and fraction > 0 else 1.0
