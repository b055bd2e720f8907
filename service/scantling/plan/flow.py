"""From the person to the floor: one newton in each place followed down through parts and joints.

Where a part rests in two places the lever rule shares the load; where it rests in more, each place next to the load may
get all of it, and what follows is a bound. A load spread over a part that rests in more is shared by the stretches
between, and an inner place gets a quarter more than its stretches, as the middle of two equal spans does: a bound too.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field, replace

from scantling.board.vector import Vector
from scantling.mechanics.load_paths import lever_rule

from .spans import Rest, Spans, Ways, lies_along
from .structure import Structure
from .surfaces import Surface

HUNG = 0.7  # cosine: a side joint whose patch looks up this far is hung from, not leant on
DEEPEST = 8
PIECES = 8  # points a spread load is followed from where a part rests in more than two places
INNER = 1.25  # what the middle of three supports gets over its stretches, 10/8 of a span's load: two equal spans
NOTHING = 1e-6

Pair = tuple[str, str]


@dataclass(slots=True)
class Flow:
    """Where a load goes, N: on each joint (held, holder) sideways, pulling, pressing; on each part, on the floor.

    `lifting` is a pull on a joint where a part is levered up off what it rests on, which stands loose on the floor.
    `bounds` are the joints whose load is a bound; `lost` the parts a load came to and nothing carries further; `over`
    is how far along each part what presses on it touches it, mm: the least of all that does.
    """

    sideways: dict[Pair, float] = field(default_factory=dict)
    pulling: dict[Pair, float] = field(default_factory=dict)
    pressing: dict[Pair, float] = field(default_factory=dict)
    lifting: dict[Pair, float] = field(default_factory=dict)
    on_part: dict[str, list[tuple[float, float]]] = field(default_factory=dict)
    on_floor: dict[str, float] = field(default_factory=dict)
    bounds: set[Pair] = field(default_factory=set)
    lost: set[str] = field(default_factory=set)
    over: dict[str, float] = field(default_factory=dict)


def person_flows(ways: Ways, seats: Sequence[Surface]) -> list[Flow]:
    """Return, for each place somebody sits, where one newton of their weight goes."""
    flows = []
    for seat in seats:
        for x in seat.places():
            flow = Flow()
            for id, share in seat.shares:
                _down(ways, flow, id, share, _point(ways.structure, id, seat, x), False, ())
            flows.append(flow)
    return flows


def load_flow(ways: Ways, shares: Iterable[tuple[str, float, Vector]]) -> Flow:
    """Return where forces go that press down on parts at points, N."""
    flow = Flow()
    for id, force, point in shares:
        _down(ways, flow, id, force, point, False, ())
    return flow


def spread_flow(ways: Ways, id: str, force: float) -> Flow:
    """Return where a force goes that is spread evenly over a part, N."""
    flow, part, spans = Flow(), ways.structure.part(id), ways.of(id)
    middle = (part.length / 2, part.width / 2, part.thickness)
    if spans is None or len(spans.rests) < 3:
        _down(ways, flow, id, force, part.frame.point(middle), False, ())
        return flow
    for i in range(PIECES):
        at = spans.size * (i + 0.5) / PIECES
        local = (at, middle[1], middle[2]) if spans.axis == "length" else (middle[0], at, middle[2])
        _down(ways, flow, id, force / PIECES, part.frame.point(local), False, (), spread=True)
    return flow


def _point(structure: Structure, id: str, seat: Surface, x: float) -> Vector:
    low, high = structure.part(id).bounds()
    y0, y1 = max(low[1], seat.low[1]), min(high[1], seat.high[1])
    return (min(max(x, low[0]), high[0]), (y0 + y1) / 2, high[2])


def _down(
    ways: Ways,
    flow: Flow,
    id: str,
    force: float,
    point: Vector,
    bound: bool,
    seen: tuple[str, ...],
    spread: bool = False,
) -> None:
    """Follow a force from a part to what holds it up; a negative force lifts. `spread` is a piece of a spread load."""
    if id in ways.structure.floor:
        flow.on_floor[id] = flow.on_floor.get(id, 0.0) + force
        return
    spans = ways.of(id)
    if spans is None or id in seen or len(seen) >= DEEPEST:
        flow.lost.add(id)
        return
    spans = _without(spans, seen)
    at = spans.at(point)
    flow.on_part.setdefault(id, []).append((at, force))
    for rest, part_of_force, sure in _shared(spans, at, force, spread):
        sharers = rest.by if not lies_along(spans) else rest.by[:1]
        for by in sharers:
            unsure = bound or not sure or len(sharers) > 1
            _on_joint(ways.structure, flow, (id, by), part_of_force, unsure)
            flow.over[by] = min(flow.over.get(by, float("inf")), _touching(ways.structure, id, by))
            place = spans.part.frame.point(_local(spans, min(max(at, rest.start), rest.end)))
            _down(ways, flow, by, part_of_force, place, unsure, (*seen, id))


def _touching(structure: Structure, id: str, by: str) -> float:
    """Return how far along a part, mm, another one touches it."""
    part = structure.part(by)
    places = [part.frame.local(c)[0] for patch in structure.patches(id, by) for c in patch.corners]
    return max(places) - min(places) if places else 0.0


def _without(spans: Spans, seen: tuple[str, ...]) -> Spans:
    """Return the spans of a part without what it holds up itself on this way down."""
    if not any(by in seen for r in spans.rests for by in r.by):
        return spans
    rests = tuple(r for r in spans.rests if not set(r.by) <= set(seen))
    return replace(spans, rests=rests or spans.rests)


def _local(spans: Spans, at: float) -> Vector:
    part = spans.part
    middle = (part.length / 2, part.width / 2, part.thickness / 2)
    return (at, middle[1], middle[2]) if spans.axis == "length" else (middle[0], at, middle[2])


def _shared(spans: Spans, at: float, force: float, spread: bool) -> list[tuple[Rest, float, bool]]:
    """Return what each place a part rests in gets: by the lever rule on two, all to each neighbour on more.

    A piece of a spread load goes by the lever rule to its neighbours, with the quarter more of inner places.
    """
    rests = spans.rests
    if len(rests) == 1:
        return [(rests[0], force, True)]
    if len(rests) == 2:
        first, second = _lever(force, at, rests[0].middle, rests[1].middle)
        return [(r, f, True) for r, f in zip(rests, (first, second), strict=True) if abs(f) > NOTHING]
    near = spans.neighbours(at)
    if not spread:
        return [(r, force, len(near) == 1) for r in near]
    parts = [force] if len(near) == 1 else _lever(force, at, near[0].middle, near[1].middle)
    inner = rests[1:-1]
    return [(r, f * (INNER if r in inner else 1.0), False) for r, f in zip(near, parts, strict=True)]


def _lever(force: float, at: float, first: float, second: float) -> tuple[float, float]:
    if force >= 0:
        return lever_rule(force, at, first, second)
    a, b = lever_rule(-force, at, first, second)
    return -a, -b


def _on_joint(structure: Structure, flow: Flow, pair: Pair, force: float, bound: bool) -> None:
    """Add a force to the joint of two parts: pressed where one rests on the other, else sideways or pulled."""
    patches = structure.patches(*pair)
    looks = max((p.normal[2] for p in patches), default=0.0)
    rests = any(s.rests for s in structure.supports(pair[0]) if s.by == pair[1])
    if rests:
        if force < -NOTHING:
            flow.lifting[pair] = flow.lifting.get(pair, 0.0) - force
        elif force > NOTHING:
            flow.pressing[pair] = flow.pressing.get(pair, 0.0) + force
    elif looks > HUNG:
        flow.pulling[pair] = flow.pulling.get(pair, 0.0) + abs(force)
    else:
        flow.sideways[pair] = flow.sideways.get(pair, 0.0) + abs(force)
    if bound:
        flow.bounds.add(pair)
