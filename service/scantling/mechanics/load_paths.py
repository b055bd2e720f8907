"""From the person to the floor: what each support and each joint gets, by the lever rule or as a bound."""

from collections.abc import Mapping
from dataclasses import dataclass

from .loads import Load
from .validity import not_negative, positive


@dataclass(frozen=True, slots=True)
class Reaction:
    """What one support carries: its name, N, and whether that is a bound because statics cannot share the load."""

    support: str
    force_n: float
    bound: bool


@dataclass(frozen=True, slots=True)
class Path:
    """One way a load may take to the floor: the joints on it in order, and the part of the load that goes this way."""

    joints: tuple[str, ...]
    share: float = 1.0


def lever_rule(force_n: float, at_mm: float, first_mm: float, second_mm: float) -> tuple[float, float]:
    """Return what two supports carry of a load between or beyond them; a negative answer is a lift.

    Units: N and mm along the member; answers in N. Valid: a straight member on two supports.
    Raises: OutOfValidity for a negative load or supports at one place. Source: statics, moments about each support.
    """
    span = positive("distance of the supports", second_mm - first_mm, "mm")
    force = not_negative("load", force_n, "N")
    second = force * (at_mm - first_mm) / span
    return force - second, second


def shared(force_n: float, at_mm: float, supports: Mapping[str, float]) -> tuple[Reaction, ...]:
    """Return what each support of a member carries: shared by the lever rule on two supports, as a bound on more.

    Units: N, supports as name to position in mm; answers in N, a lift is negative. Valid: straight members. On three
    supports and more statics does not decide (a leg may be short, a joint may give): each support next to the load is
    taken to carry all of it, every other what it would get with one partner beyond the load.
    Raises: OutOfValidity, ValueError for no support. Source: statics; bounds are practice on the safe side.
    """
    if not supports:
        raise ValueError("a member needs at least one support")
    force = not_negative("load", force_n, "N")
    places = sorted(supports.items(), key=lambda item: (item[1], item[0]))
    if len(places) == 1:
        return (Reaction(places[0][0], force, bound=True),)
    if len(places) == 2:
        (a, first), (b, second) = places
        left, right = lever_rule(force, at_mm, first, second)
        return (Reaction(a, left, bound=False), Reaction(b, right, bound=False))
    return tuple(Reaction(name, _worst_of_many(force, at_mm, place, places), bound=True) for name, place in places)


def on_each_joint(load: Load, paths: tuple[Path, ...], *, shares_known: bool) -> dict[str, float]:
    """Return the force each joint must hold when a load may take several paths.

    Units: N. Valid: where `shares_known` the shares of the paths add up to one; else each path carries the whole load
    alone and every joint gets the worst of the paths through it. Raises: ValueError for no path or shares that do not
    add up. Source: statics where the shares are known; else a bound, practice on the safe side.
    """
    if not paths:
        raise ValueError("a load needs at least one path to the floor")
    if shares_known and abs(sum(p.share for p in paths) - 1) > 1e-6:
        raise ValueError(f"the shares of the paths add up to {sum(p.share for p in paths):g}, not to 1")
    force: dict[str, float] = {}
    for path in paths:
        for joint in path.joints:
            part = load.force_n * (path.share if shares_known else 1.0)
            before = force.get(joint, 0.0)
            force[joint] = before + part if shares_known else max(before, part)
    return dict(sorted(force.items()))


def _worst_of_many(force: float, at_mm: float, place: float, places: list[tuple[str, float]]) -> float:
    """Return the most one of several supports may get: all of it next to the load, else its share with any partner."""
    xs = [x for _, x in places]
    before = max((x for x in xs if x <= at_mm), default=None)
    after = min((x for x in xs if x >= at_mm), default=None)
    if place in (before, after):
        return force
    shares = [(at_mm - x) / (place - x) for x in xs if (x - at_mm) * (place - at_mm) < 0]
    return force * max(shares, default=0.0)
