"""Leaning back: the slats of a back as beams, and what comes from them on each post behind."""

from collections.abc import Mapping, Sequence
from dataclasses import replace

from scantling.board.vector import Vector, dot
from scantling.findings import Finding
from scantling.mechanics.fastener_check import FastenerCheck
from scantling.mechanics.loads import Load, test_load
from scantling.mechanics.tipping import rear_points

from .check_row import CheckRow
from .circumstances import Circumstances
from .members import Pressed, checked_towards, spread
from .posts import PostLoad, holders_of, post_checks
from .spans import Spans, lies_along, spans_of
from .structure import Structure, Support
from .surfaces import PAD, Surface, share_under

INNER_POST = 11 / 16  # of a load on each side, what the middle one of three supports gets; statics of two equal spans
NOTHING_BEHIND = "no part stands behind this cushion, so what is leant on is not known"


def lean_checks(
    structure: Structure,
    backs: Sequence[Surface],
    seat_z: float,
    who: Circumstances,
    checks: Mapping[str, FastenerCheck],
) -> tuple[list[CheckRow], list[Finding]]:
    """Check the backs: slats, posts and their joints under the published back load at the published height.

    Backs that look one way are leant on at once, those at the side of a corner by themselves. `seat_z` is the height
    somebody sits at, mm; `checks` the screw checks by joint id.
    """
    rows: list[CheckRow] = []
    findings: list[Finding] = []
    for out in dict.fromkeys(back.out for back in backs):
        more, found = _one_way(structure, [b for b in backs if b.out == out], seat_z, who, checks)
        rows += more
        findings += [f for f in found if f.message not in {g.message for g in findings}]
    return rows, findings


def _one_way(
    structure: Structure,
    backs: Sequence[Surface],
    seat_z: float,
    who: Circumstances,
    checks: Mapping[str, FastenerCheck],
) -> tuple[list[CheckRow], list[Finding]]:
    load, out = test_load(who.use, "back static"), backs[0].out
    bearers = {id: surface for surface in backs for id, _ in surface.shares}
    lost = [CheckRow("back", b.id, note=NOTHING_BEHIND) for b in backs if not b.shares]
    ways = {id: spans_of(structure, id, _behind(structure, id, set(bearers), out)) for id in bearers}
    rows, findings = _slats(structure, bearers, ways, load, who)
    rows += lost
    top = max((structure.part(id).z1 for id in bearers), default=seat_z)
    push_z = rear_points(max(seat_z, 1.0), 0.0, max(top, seat_z, 1.0))[1]
    for group in _alike(_posts(structure, backs, ways, load, push_z)):
        more, found = post_checks(structure, group, who, checks)
        rows += more
        findings += found
    return rows, findings


def _behind(structure: Structure, id: str, bearers: set[str], out: Vector) -> list[Support]:
    """Return what stands behind a part of a back, or else the rigid joints that hold its ends."""
    found = [(o, p) for o, p in structure.contacts.get(id, ()) if o not in bearers]
    behind = [Support(id, o, p, True) for o, p in found if dot(p.normal, out) > 0.5]
    fast = [s for s in behind if structure.rigid(id, s.by)]
    return fast or behind or [Support(id, o, p, False) for o, p in found if structure.rigid(id, o)]


def _slats(
    structure: Structure,
    bearers: Mapping[str, Surface],
    ways: Mapping[str, Spans | None],
    load: Load,
    who: Circumstances,
) -> tuple[list[CheckRow], list[Finding]]:
    pressed: list[Pressed] = []
    for id, surface in bearers.items():
        spans = ways[id]
        if spans is None or lies_along(spans) or not spans.clear():
            continue
        span = max(b - a for a, b in spans.clear())
        share = share_under(structure.part(id), surface, PAD, (surface.side, 2))
        pressed.append(Pressed(structure.part(id), spans, span, "uniform-simple", spread(load, share, PAD[0], span)))
    return checked_towards(pressed, who, [], next(iter(bearers.values())).out) if bearers else ([], [])


def _posts(
    structure: Structure, backs: Sequence[Surface], ways: Mapping[str, Spans | None], load: Load, push_z: float
) -> list[PostLoad]:
    """Return what each post of a back gets when everybody leans back at once."""
    force: dict[str, float] = {}
    for surface in backs:
        way = next((w for id, _ in surface.shares if (w := ways[id]) is not None and len(w.rests) > 1), None)
        if way is None:
            continue
        for place in surface.places():
            x, y, z = surface.middle
            at = way.at((place, y, z) if surface.side == 0 else (x, place, z))
            for by, part_of in _shares_of_posts(way, at):
                force[by] = force.get(by, 0.0) + part_of * load.force_n
    bearers = {id for surface in backs for id, _ in surface.shares}
    found = []
    for id, newton in force.items():
        holders, root = holders_of(structure, id, bearers)
        found.append(PostLoad(structure.part(id), replace(load, force_n=newton), push_z, holders, root, backs[0].out))
    return found


def _shares_of_posts(way: Spans, at: float) -> list[tuple[str, float]]:
    near = way.neighbours(at)
    if len(near) == 1:
        return [(near[0].by[0], 1.0)]
    a, b = near
    second = (at - a.middle) / (b.middle - a.middle)
    shares = [(a, 1 - second), (b, second)]
    inner = way.rests[1:-1]
    return [(r.by[0], max(s, INNER_POST) if r in inner else s) for r, s in shares]


def _alike(posts: Sequence[PostLoad]) -> list[PostLoad]:
    """Return the worst of each name of post."""
    worst: dict[str, PostLoad] = {}
    for one in posts:
        if one.post.name not in worst or one.load.force_n > worst[one.post.name].load.force_n:
            worst[one.post.name] = one
    return list(worst.values())
