"""Which saw of a shop makes a cut, set how, and what keeps the others from it."""

from dataclasses import dataclass

from .nouns import UNITS_PER_MM
from .saw_profile import GOOD_FACE, MOVES_WORK, Saw, SawKind, usual_saw

CARRY_KG = 23.0  # one person at best, NIOSH lifting equation's load constant; from memory, so it only warns
_RIPS = ("table saw", "track saw", "circular saw", "panel saw", "band saw", "jigsaw", "hand saw")
_CROSSCUTS = ("mitre saw", "table saw", "track saw", "circular saw", "panel saw", "jigsaw", "band saw", "hand saw")


@dataclass(frozen=True, slots=True)
class Operation:
    """One cut to be made. `rip`: the blade travels along the stock's length. Sizes in 0.01 mm.

    `travel` is the length of the cut, `wanted` the size of the side that is measured and kept, `other` of the other
    side of the blade; `bevel` and `mitre` are how far the cut is off square, in degrees. `fresh`: the piece is the
    whole sheet or was cut from it by the seller alone, in `seller_cuts`.
    """

    rip: bool
    travel: int
    wanted: int
    other: int
    thickness: int | None = None
    mass_kg: float | None = None
    bevel: float = 0.0
    fresh: bool = True
    seller_cuts: int = 0
    mitre: float = 0.0


@dataclass(frozen=True, slots=True)
class Obstacle:
    """Why a saw cannot make a cut: the limit, what it would have to be and what it is, in `unit` (mm, ° or cuts)."""

    saw: str
    limit: str
    needed: float
    allowed: float
    unit: str
    refuses: bool  # False where the limit is only remembered, not stated or read

    def in_words(self) -> str:
        """Return the obstacle as part of a sentence."""
        here = "this one is" if self.limit.startswith("least") else "needed"
        return f"{self.saw}: {_NAMES[self.limit]} {self.allowed:g} {self.unit}, {here} {self.needed:g} {self.unit}"


_NAMES = {
    "rip": "widest strip at the fence",
    "crosscut": "widest crosscut",
    "guide": "longest cut along the guide",
    "depth": "depth of cut",
    "bevel_limit": "farthest tilt",
    "mitre_limit": "farthest swing",
    "least_piece": "shortest piece that can be held",
    "least_width": "narrowest strip that can be held",
    "most_cuts": "the seller makes at most",
}


@dataclass(frozen=True, slots=True)
class Choice:
    """The saw that makes a cut: how it is set, why the others (or it) fall short, and whether it is too heavy there.

    `method` is fence, stop, guide or line. `setting` is measured from the fence, stop or edge to the near side of
    the blade.
    """

    saw: Saw
    method: str
    setting: int
    obstacles: tuple[Obstacle, ...] = ()
    by_hand: bool = False
    too_heavy: bool = False


@dataclass(frozen=True, slots=True)
class Saws:
    """The saws of a shop and what one person may lift; `people` share the weight of a piece."""

    saws: tuple[Saw, ...]
    carry_kg: float = CARRY_KG
    people: int = 1

    def choose(self, operation: Operation) -> Choice:
        """Return the best saw for a cut; a hand saw is always considered, so there is always one."""
        ranked = []
        refused: list[Obstacle] = []
        order = _RIPS if operation.rip else _CROSSCUTS
        for place, saw in enumerate(self._with_hand_saw()):
            method, setting, obstacles = _try(saw, operation)
            if method is None or any(o.refuses for o in obstacles):
                refused += obstacles
                continue
            heavy = self._is_heavy(saw, operation)
            hand = saw.kind is SawKind.HAND
            at_home = not (saw.kind is SawKind.PANEL and (operation.mass_kg or 0.0) > self.carry_kg * self.people)
            rank = (hand, bool(obstacles), heavy, at_home, order.index(saw.kind.value), saw.error, place)
            ranked.append((rank, Choice(saw, method, setting, tuple(obstacles), hand, heavy)))
        best = min(ranked, key=lambda r: r[0])[1]
        if best.by_hand:
            return Choice(best.saw, best.method, best.setting, tuple(refused), True)
        return best

    def _with_hand_saw(self) -> tuple[Saw, ...]:
        if any(s.kind is SawKind.HAND for s in self.saws):
            return self.saws
        return (*self.saws, usual_saw(SawKind.HAND))

    def _is_heavy(self, saw: Saw, operation: Operation) -> bool:
        if operation.mass_kg is None or saw.kind not in MOVES_WORK:
            return False
        return operation.mass_kg > self.carry_kg * self.people


def _try(saw: Saw, op: Operation) -> tuple[str | None, int, list[Obstacle]]:
    """Return how a saw would make a cut (None: not at all), the setting, and the limits it would break."""
    obstacles = [*_depth_obstacles(saw, op), *_hold_obstacles(saw, op)]
    if saw.kind is SawKind.MITRE:
        if op.rip:
            return None, 0, []
        return "stop", op.wanted, obstacles + _over(saw, "crosscut", op.travel) + _swung(saw, op)
    if op.mitre and saw.kind in (SawKind.BAND, SawKind.PANEL):
        return ("line", op.wanted, obstacles) if saw.kind is SawKind.BAND else (None, 0, [])
    if saw.kind is SawKind.TABLE:
        return _on_table_saw(saw, op, obstacles)
    if saw.kind is SawKind.BAND:
        side = _fence_side(saw, op)
        return "fence", side, obstacles + _over(saw, "rip", side)
    if saw.kind is SawKind.PANEL:
        if not op.fresh:
            return None, 0, []
        if saw.most_cuts is not None and op.seller_cuts >= saw.most_cuts:
            obstacles.append(Obstacle(saw.id, "most_cuts", op.seller_cuts + 1, saw.most_cuts, "cuts", True))
        return "fence", op.wanted, obstacles
    if saw.kind in (SawKind.TRACK, SawKind.CIRCULAR):
        return "guide", op.wanted, obstacles + _over(saw, "guide", op.travel)
    return "line", op.wanted, obstacles


def _on_table_saw(saw: Saw, op: Operation, obstacles: list[Obstacle]) -> tuple[str, int, list[Obstacle]]:
    """A table saw cuts along its fence, or, short cuts, with a mitre gauge or sled and a stop.

    A piece wider at the fence than it is long along it twists and kicks back (practice), so that takes the gauge.
    """
    side = _fence_side(saw, op)
    along_fence = _over(saw, "rip", side)
    by_gauge = _over(saw, "crosscut", op.travel)
    if op.mitre:  # only the gauge goes along at an angle
        return "stop", op.wanted, obstacles + by_gauge
    if op.travel >= side and not along_fence:
        return "fence", side, obstacles + _under(saw, "least_width", side)
    if not by_gauge:
        return "stop", op.wanted, obstacles
    if op.rip or op.travel >= side:
        return "fence", side, obstacles + along_fence
    return "stop", op.wanted, obstacles + by_gauge


def _fence_side(saw: Saw, op: Operation) -> int:
    """Return which side goes against the fence: the wanted one, unless only the other is narrow enough."""
    if saw.rip is not None and op.wanted > saw.rip and op.other >= (saw.least_width or 1):
        return min(op.wanted, op.other)
    return op.wanted


def _depth_obstacles(saw: Saw, op: Operation) -> list[Obstacle]:
    obstacles = []
    if op.bevel and saw.bevel_limit is not None and op.bevel > saw.bevel_limit:
        refuses = saw.may_refuse("bevel_limit")
        obstacles.append(Obstacle(saw.id, "bevel_limit", op.bevel, saw.bevel_limit, "°", refuses))
    depth = saw.depth_at(op.bevel)
    if op.thickness is not None and depth is not None and op.thickness > depth:
        obstacles.append(_in_mm(saw, "depth", op.thickness, depth))
    return obstacles


def _hold_obstacles(saw: Saw, op: Operation) -> list[Obstacle]:
    """What the piece that is held lacks: length on any power saw, width under a guide or at the seller's."""
    across = op.wanted + op.other
    if saw.kind is SawKind.MITRE:
        return _under(saw, "least_piece", across)
    obstacles = _under(saw, "least_piece", max(op.travel, across))
    if saw.kind in (SawKind.TRACK, SawKind.CIRCULAR):
        obstacles += _under(saw, "least_width", across)
    if saw.kind is SawKind.PANEL:
        obstacles += _under(saw, "least_width", op.wanted)
    return obstacles


def _swung(saw: Saw, op: Operation) -> list[Obstacle]:
    if saw.mitre_limit is None or op.mitre <= saw.mitre_limit:
        return []
    return [Obstacle(saw.id, "mitre_limit", op.mitre, saw.mitre_limit, "°", saw.may_refuse("mitre_limit"))]


def _over(saw: Saw, limit: str, needed: int) -> list[Obstacle]:
    allowed = getattr(saw, limit)
    return [] if allowed is None or needed <= allowed else [_in_mm(saw, limit, needed, allowed)]


def _under(saw: Saw, limit: str, present: int) -> list[Obstacle]:
    allowed = getattr(saw, limit)
    return [] if allowed is None or present >= allowed else [_in_mm(saw, limit, present, allowed)]


def _in_mm(saw: Saw, limit: str, needed: int, allowed: int) -> Obstacle:
    return Obstacle(saw.id, limit, needed / UNITS_PER_MM, allowed / UNITS_PER_MM, "mm", saw.may_refuse(limit))


def good_face(saw: Saw) -> str | None:
    """Return which way the good face lies for a clean cut, up or down; None where it depends (ask the seller)."""
    return GOOD_FACE.get(saw.kind)
