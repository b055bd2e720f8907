"""A piece read as a structure: who touches whom, who is held by whom, and who stands on the floor.

Everything comes from the placed parts, the joints and the patches where parts touch; nothing is guessed from names.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace

from scantling.board import Assembly, Joint, JointKind, Part, Patch
from scantling.board.vector import Vector, dot, scale

TIGHT_MM = 0.6
ON_FLOOR_MM = 0.5
LOOKS_DOWN = -0.7  # cosine: a patch whose normal points this far down is rested on
RIGID = frozenset(
    {
        JointKind.GLUE, JointKind.SCREWS, JointKind.NAILS, JointKind.DOWELS, JointKind.FOLDED_MITRE, JointKind.HOUSED,
        JointKind.BOLTED,
    }
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Support:
    """What holds a part up in one place: the other part, the patch out of the held part, and whether it rests there."""

    held: str
    by: str
    patch: Patch
    rests: bool


@dataclass(frozen=True)
class Structure:
    """A piece with its contacts and joints by part; build it with `structure_of`."""

    assembly: Assembly
    contacts: Mapping[str, tuple[tuple[str, Patch], ...]]
    joints: Mapping[tuple[str, str], tuple[Joint, ...]]
    floor: frozenset[str]
    _edges: Mapping[str, tuple[tuple[str, bool], ...]] = field(default_factory=dict)
    _reached: dict[str, frozenset[str]] = field(default_factory=dict)
    _held: dict[str, tuple[Support, ...]] = field(default_factory=dict)
    _levels: dict[str, int] = field(default_factory=dict)
    _kinds: dict[str, str] = field(default_factory=dict)
    _mass: list[tuple[float, Vector]] = field(default_factory=list)

    def part(self, id: str) -> Part:
        """Return a part by its id."""
        return self.assembly.parts[id]

    def joined(self, a: str, b: str) -> tuple[Joint, ...]:
        """Return the joints between two parts."""
        return self.joints.get((min(a, b), max(a, b)), ())

    def rigid(self, a: str, b: str) -> bool:
        """Whether two parts are joined so that one cannot move against the other."""
        return any(j.kind in RIGID for j in self.joined(a, b))

    def patches(self, a: str, b: str) -> tuple[Patch, ...]:
        """Return the tight patches out of one part into another."""
        return tuple(patch for other, patch in self.contacts.get(a, ()) if other == b)

    def supports(self, id: str) -> tuple[Support, ...]:
        """Return what holds a part up: what it rests on, or else the rigid joints that carry it at its sides.

        Only parts count that reach the floor without this one, and at its sides only those nearer the floor. A part
        that stands on the floor needs none.
        """
        if id not in self._held:
            self._held[id] = self._supports(id)
        return self._held[id]

    def _supports(self, id: str) -> tuple[Support, ...]:
        reached = self.reached_without(id)
        found = [(other, patch) for other, patch in self.contacts.get(id, ()) if other in reached]
        below = [Support(id, other, p, True) for other, p in found if p.normal[2] < LOOKS_DOWN]
        if below:
            return tuple(below)
        mine = self.level(id)
        return tuple(
            Support(id, other, p, False) for other, p in found if self.rigid(id, other) and self.level(other) < mine
        )

    def mass_and_centre(self) -> tuple[float, Vector]:
        """Return the mass of the wood in kg and its centre of gravity, worked out once."""
        if not self._mass:
            self._mass.append(self.assembly.mass_and_centre())
        return self._mass[0]

    def level(self, id: str) -> int:
        """Return how many joints or rests lie between a part and the floor; a part is held by one of a lower level."""
        if not self._levels:
            self._levels.update(dict.fromkeys(self.floor, 0))
            queue = sorted(self.floor)
            while queue:
                after = {o for here in queue for o, _ in self._edges.get(here, ()) if o not in self._levels}
                self._levels.update(dict.fromkeys(after, self._levels[queue[0]] + 1))
                queue = sorted(after)
        return self._levels.get(id, len(self.assembly.parts))

    def kind(self, id: str) -> str:
        """Return the word for parts alike: the name several share, or that of the first of one size and role."""
        if not self._kinds:
            self._kinds.update(_kinds_of(self.assembly))
        return self._kinds[id]

    def reached_without(self, id: str) -> frozenset[str]:
        """Return the parts that are held up by the floor when one part is taken away."""
        if id not in self._reached:
            seen = set(self.floor - {id})
            queue = sorted(seen)
            while queue:
                here = queue.pop()
                for other, _ in self._edges.get(here, ()):
                    if other != id and other not in seen:
                        seen.add(other)
                        queue.append(other)
            self._reached[id] = frozenset(seen)
        return self._reached[id]


def structure_of(assembly: Assembly, touching: Mapping[tuple[str, str], Iterable[Patch]]) -> Structure:
    """Read a piece: `touching` holds the patches of every two parts near each other, as the dry fit found them."""
    contacts: dict[str, list[tuple[str, Patch]]] = {}
    for (a, b), patches in touching.items():
        for patch in patches:
            if abs(patch.least_gap) <= TIGHT_MM and patch.greatest_gap <= 2 * TIGHT_MM:
                contacts.setdefault(a, []).append((b, patch))
                contacts.setdefault(b, []).append((a, replace(patch, a=b, b=a, normal=scale(patch.normal, -1.0))))
    joints: dict[tuple[str, str], list[Joint]] = {}
    for joint in assembly.joints.values():
        for a, b in zip(joint.parts, joint.parts[1:], strict=False):
            joints.setdefault((min(a, b), max(a, b)), []).append(joint)
    low = min((p.z0 for p in assembly.parts.values()), default=0.0)
    floor = frozenset(p.id for p in assembly.parts.values() if p.z0 <= low + ON_FLOOR_MM)
    held = {pair: tuple(js) for pair, js in joints.items()}
    return Structure(assembly, {k: tuple(v) for k, v in contacts.items()}, held, floor, _edges_of(contacts, held))


def _edges_of(
    contacts: Mapping[str, list[tuple[str, Patch]]], joints: Mapping[tuple[str, str], tuple[Joint, ...]]
) -> dict[str, tuple[tuple[str, bool], ...]]:
    """Return, for each part, those it holds up if it is held up itself: what rests on it, what is joined to it."""
    edges: dict[str, dict[str, bool]] = {}
    for (a, b), between in joints.items():
        if any(j.kind in RIGID for j in between):
            edges.setdefault(a, {})[b] = True
            edges.setdefault(b, {})[a] = True
    for id, found in contacts.items():
        for other, patch in found:
            if patch.normal[2] < LOOKS_DOWN:
                edges.setdefault(other, {}).setdefault(id, False)
    return {id: tuple(sorted(others.items())) for id, others in edges.items()}


def _kinds_of(assembly: Assembly) -> dict[str, str]:
    names: dict[str, int] = {}
    for part in assembly.parts.values():
        names[part.name] = names.get(part.name, 0) + 1
    first: dict[tuple[object, ...], str] = {}
    kinds = {}
    for part in assembly.parts.values():
        size = (part.material.role, round(part.length), round(part.width), round(part.thickness))
        kinds[part.id] = part.name if names[part.name] > 1 else first.setdefault(size, part.name)
    return kinds


def upright(part: Part) -> bool:
    """Whether a part stands on end, its length within about 25° of plumb."""
    return abs(part.frame.along[2]) > 0.9


def depth_towards(part: Part, direction: Vector) -> tuple[float, float, str]:
    """Return how a part stands to a load: its size along the load, its size across it, mm, and which way is up.

    The way is `flat` where the load presses on the wide face, else `edge`. Only the section across the length counts.
    """
    across, through = abs(dot(part.frame.across, direction)), abs(dot(part.frame.through, direction))
    if through >= across:
        return part.thickness, part.width, "flat"
    return part.width, part.thickness, "edge"
