"""What opens and what is pulled: lids, doors and drawers out, a child at the top, and the wall a piece is fixed to."""

from collections.abc import Callable, Iterable, Sequence

from scantling.board import Assembly, Hardware, JointKind, Motion, Part, moving_parts
from scantling.board.vector import Vector, add, rotate, scale, sub
from scantling.mechanics.storage import check_one_drawer, check_opened, check_top_push
from scantling.mechanics.tipping import TipResult

from .structure import Structure

TALL_MM = 685.8  # 27 in, ASTM F2057-23: what is lower is not reckoned to be climbed
UPRIGHT_AXIS = 0.7  # cosine: a hinge line this near plumb is a door's, else a lid's
FIXINGS = ("strap", "bracket", "anchor", "screw", "cleat", "batten", "hook", "plate")


def wall_fixing(assembly: Assembly) -> str | None:
    """Return the words of the list of hardware for what fixes a piece to the wall, None where it stands free."""
    return next((words_of(h) for h in assembly.hardware if _to_the_wall(h)), None)


def words_of(h: Hardware) -> str:
    """Return a line of hardware as it is said in a sentence."""
    return h.what if h.quantity == 1 else f"{h.quantity} × {h.what}"


def _to_the_wall(h: Hardware) -> bool:
    what = h.what.casefold()
    return "wall" in what and any(word in what for word in FIXINGS)


def pulled_results(structure: Structure, front: float, heavy: float, centre: Vector) -> list[TipResult]:
    """Check storage that may be climbed: pulled at the top, and with one drawer out and loaded.

    `front` is where the front feet stand in y, mm; `heavy` the weight in N.
    """
    inside = max(centre[1] - front, 0.0)
    low, high = structure.assembly.bounds()
    tall = high[2] - low[2]
    results = [check_top_push(heavy, inside, tall)] if tall >= TALL_MM else []
    out = [front - min(p.y0 for p in group) + _travel(structure.assembly, group) for group in drawers_of(structure)]
    if out:
        results.append(check_one_drawer(heavy, inside, max(*out, 0.0)))
    return results


def _travel(assembly: Assembly, group: Sequence[Part]) -> float:
    """Return how far a drawer comes out: as its motion says, else by its own depth."""
    ids = {p.id for p in group}
    told = [abs(m.travel) for m in assembly.motions if m.kind == "slide" and ids & set(m.parts)]
    return max(told) if told else max(p.y1 for p in group) - min(p.y0 for p in group)


def opened_results(
    assembly: Assembly, inside: Callable[[Vector], float], mass: float, centre: Vector
) -> list[TipResult]:
    """Check how a piece stands with all its lids open, all its doors, all its drawers: the empty piece, on a slope.

    `inside` says how far a point lies inside the feet, mm; `mass` and `centre` are of the piece as it stands shut.
    """
    results = []
    for words, motions in _alike(assembly.motions).items():
        moved = centre
        for motion in motions:
            moved = add(moved, scale(_shift(assembly, motion), 1 / mass))
        parts = tuple(p for m in motions for p in m.parts)
        results.append(check_opened(words, inside(moved), max(moved[2], 1.0), parts=parts))
    return results


def _alike(motions: Iterable[Motion]) -> dict[str, list[Motion]]:
    groups: dict[str, list[Motion]] = {}
    for motion in motions:
        if motion.kind == "slide":
            words = "its drawers out"
        else:
            words = "its doors open" if abs(motion.axis[2]) > UPRIGHT_AXIS else "its lid open"
        groups.setdefault(words, []).append(motion)
    return groups


def _shift(assembly: Assembly, motion: Motion) -> Vector:
    """Return the sum of mass times the way it moves, kg mm, of everything that hangs on a motion."""
    total: Vector = (0.0, 0.0, 0.0)
    for id in moving_parts(assembly.parts, assembly.joints.values(), motion):
        part = assembly.parts[id]
        at = part.volume_and_centre()[1]
        total = add(total, scale(sub(moved_to(motion, at), at), part.mass_kg()))
    return total


def moved_to(motion: Motion, point: Vector) -> Vector:
    """Return where a point lies when a motion has gone all its way."""
    if motion.kind == "slide":
        return add(point, scale(motion.axis, motion.travel))
    return add(motion.point, rotate(sub(point, motion.point), motion.axis, motion.travel))


def has_drawers(structure: Structure) -> bool:
    """Whether something in a piece slides."""
    return any(j.kind is JointKind.SLIDING for j in structure.assembly.joints.values())


def drawers_of(structure: Structure) -> list[list[Part]]:
    """Return the parts of each drawer: what slides, with all that is joined to it fast."""
    groups: dict[frozenset[str], None] = {}
    for joint in structure.assembly.joints.values():
        if joint.kind is JointKind.SLIDING:
            sides = [_fast_to(structure, id) for id in joint.parts]
            groups[min(sides, key=lambda g: (len(g), sorted(g)))] = None
    return [[structure.part(id) for id in sorted(group)] for group in groups]


def _fast_to(structure: Structure, id: str) -> frozenset[str]:
    seen, queue = {id}, [id]
    while queue:
        here = queue.pop()
        for pair in structure.joints:
            if here in pair and structure.rigid(*pair):
                other = pair[1] if pair[0] == here else pair[0]
                if other not in seen:
                    seen.add(other)
                    queue.append(other)
    return frozenset(seen)
