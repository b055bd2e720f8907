"""An assembly laid out for checking: its arrays, who is near whom, and where they touch."""

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from scantling.board import Assembly, Fastener, Joint, JointKind, Part, Patch

from .arrays import Floats, Ints, Soup, soup
from .contacts import Pair, contacts
from .overlap import Overlap, deepest_pairs, described, near_pairs, penetrations
from .settings import DryfitSettings

MOST_OVERLAPS = 40  # more of them are counted, not told one by one
GUARD = 0.01  # mm; a limit compared with arithmetic noise on it is not a limit


@dataclass(frozen=True)
class Scene:
    """What every check reads. Parts are known by their index in `parts`; fasteners by theirs in `fasteners`."""

    assembly: Assembly
    settings: DryfitSettings
    soup: Soup

    @classmethod
    def of(cls, assembly: Assembly, settings: DryfitSettings) -> "Scene":
        """Lay out an assembly. Raises CutError when a cut leaves nothing of a part."""
        return cls(assembly, settings, soup(list(assembly.parts.values())))

    @property
    def parts(self) -> tuple[Part, ...]:
        """The parts, in the order of the assembly."""
        return self.soup.parts

    @cached_property
    def index(self) -> dict[str, int]:
        """Index of each part by its id."""
        return {p.id: i for i, p in enumerate(self.parts)}

    @cached_property
    def fasteners(self) -> tuple[Fastener, ...]:
        """The fasteners, in the order of the assembly."""
        return tuple(self.assembly.fasteners.values())

    @cached_property
    def reach(self) -> float:
        """How near faces must come to be looked at, in mm: the near-miss band, or the widest declared clearance."""
        widest = max((j.clearance for j in self.assembly.joints.values()), default=0.0)
        return max(self.settings.near, widest + 2 * self.settings.fit)

    @cached_property
    def near(self) -> tuple[Ints, Ints]:
        """Pairs of cells whose boxes come within reach."""
        return near_pairs(self.soup, self.reach)

    @cached_property
    def gaps(self) -> Floats:
        """How far the pairs of cells in `near` are apart; negative is the depth of an overlap."""
        return penetrations(self.soup, *self.near, self.settings.fit)

    @cached_property
    def contacts(self) -> dict[Pair, list[Patch]]:
        """Patches of every pair of parts within reach, by their indexes, the lower one first."""
        a, b = self.near
        shallow = self.gaps > -self.reach  # what stands deeper in each other does not touch, it collides
        return contacts(self.soup, a[shallow], b[shallow], self.reach)

    @cached_property
    def colliding(self) -> list[tuple[int, int, float, int]]:
        """Pairs of parts that share space: their indexes, the depth, and which pair of near cells is deepest."""
        return deepest_pairs(self.soup, *self.near, self.gaps, self.settings.fit)

    @cached_property
    def overlaps(self) -> list[Overlap]:
        """The deepest of the pairs that share space, with volume and place; by their parts."""
        a, b = self.near
        deepest = sorted(self.colliding, key=lambda c: (-c[2], c[0], c[1]))[:MOST_OVERLAPS]
        return [described(self.soup, i, j, depth, int(a[k]), int(b[k])) for i, j, depth, k in sorted(deepest)]

    @cached_property
    def low(self) -> tuple[float, float, float]:
        """Least corner of the box round everything."""
        x, y, z = (float(v) for v in np.min(self.soup.low, axis=0))
        return (x, y, z)

    @cached_property
    def high(self) -> tuple[float, float, float]:
        """Greatest corner of the box round everything."""
        x, y, z = (float(v) for v in np.max(self.soup.high, axis=0))
        return (x, y, z)

    @cached_property
    def meetings(self) -> list[tuple[Joint, Pair]]:
        """Every pair of parts a joint says shall meet: neighbours in the order the joint names them."""
        found = []
        for joint in self.assembly.joints.values():
            for one, other in zip(joint.parts, joint.parts[1:], strict=False):
                i, j = self.index[one], self.index[other]
                if i != j:
                    found.append((joint, (min(i, j), max(i, j))))
        return found

    def patches(self, pair: Pair) -> list[Patch]:
        """Return the patches of a pair of parts, largest first; none where they are not within reach."""
        return self.contacts.get((min(pair), max(pair)), [])

    def ids(self, *indexes: int) -> tuple[str, ...]:
        """Return the ids of parts."""
        return tuple(self.parts[i].id for i in indexes)


STAND_APART = (JointKind.LOOSE, JointKind.SLIDING, JointKind.HINGED)
