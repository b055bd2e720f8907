"""The proof at the end of a frame: two diagonals, a gap or an overall size, and what to do if it is out.

A frame closes when a part ties two others that hang together already and can still rack against each other. Parts that
lie flat on each other cannot; what a proven frame holds cannot any more.
"""

from collections.abc import Iterator, Sequence
from itertools import combinations, pairwise

from scantling.board import Joint
from scantling.board.vector import norm, sub

from .clamping import run_of
from .order import OrderStep
from .scene import STAND_APART, Scene
from .step_words import listed

SQUARE_MM = 1.0  # how equal two diagonals shall be: practice
EVEN_MM = 0.5  # how even a gap shall be from end to end: practice
SPACER_MM = 120.0  # nobody saws a longer spacer; parts that stand further apart are measured in their frame
OVERALL_MM = 1.0  # how right an overall size shall be: practice
FLAT = ("face", "back")
LAPPED_SHARE = 0.35  # of the shorter part's length: practice


class Frames:
    """What has been proven square so far, step by step."""

    def __init__(self, scene: Scene) -> None:
        self.scene = scene
        self._root = list(range(len(scene.parts)))
        self._tied: dict[int, set[int]] = {}

    def proof(self, step: OrderStep, *, last: bool) -> str | None:
        """Return the check that ends a step, if it ends anything: what closes a frame, a gap, the whole piece."""
        made = [self.scene.assembly.joints[j] for j in step.joints]
        closed = self._closed(step, made)
        said = self._diagonals(closed) if closed else self._gap(step, made)
        return said or (self._overall() if last else None)

    # ------------------------------------------------------------------ frames that close

    def _closed(self, step: OrderStep, made: Sequence[Joint]) -> list[tuple[int, int]]:
        """Return the pairs of parts that a step ties into frames; take the step's joints in."""
        index, found = self.scene.index, []
        fixed = [j for j in made if j.kind not in STAND_APART]
        for group in self._groups([index[p] for p in step.brings]):
            names = set(self.scene.ids(*group))
            others = sorted({index[p] for j in fixed if names & set(j.parts) for p in j.parts if p not in names})
            for a, b in combinations(others, 2):
                path = self._path(a, b)
                if not path:
                    continue
                if self._find(a) != self._find(b):
                    found.append((a, b))
                for other in (*path, *group):
                    self._union(a, other)
            self._tie([j for j in fixed if names & set(j.parts)])
        self._tie(fixed)
        return found

    def _groups(self, parts: Sequence[int]) -> list[list[int]]:
        """Return the parts a step brings by what of them was built before: each such group comes as one."""
        left, groups = list(parts), []
        while left:
            group = [left.pop(0)]
            for here in group:
                near = [p for p in left if p in self._tied.get(here, ())]
                group += near
                left = [p for p in left if p not in near]
            groups.append(group)
        return groups

    def _tie(self, joints: Sequence[Joint]) -> None:
        for joint in joints:
            for one, other in zip(joint.parts, joint.parts[1:], strict=False):
                i, j = self.scene.index[one], self.scene.index[other]
                self._tied.setdefault(i, set()).add(j)
                self._tied.setdefault(j, set()).add(i)
                if self._lapped(i, j):
                    self._union(i, j)

    def _lapped(self, i: int, j: int) -> bool:
        """Whether two parts lie flat on each other over enough of their length not to pivot."""
        shorter = min(self.scene.parts[k].length for k in (i, j))
        flat = (p for p in self.scene.patches((i, j)) if p.side_a in FLAT and p.side_b in FLAT)
        return any(run_of(p) > LAPPED_SHARE * shorter for p in flat)

    def _path(self, a: int, b: int) -> list[int]:
        """Return the parts from one to another through joints already made; empty where they do not hang together."""
        came, ahead = {a: a}, [a]
        while ahead and b not in came:
            here = ahead.pop(0)
            for there in sorted(self._tied.get(here, ())):
                if there not in came:
                    came[there] = here
                    ahead.append(there)
        if b not in came:
            return []
        path = [b]
        while path[-1] != a:
            path.append(came[path[-1]])
        return path

    def _find(self, i: int) -> int:
        while self._root[i] != i:
            self._root[i] = self._root[self._root[i]]
            i = self._root[i]
        return i

    def _union(self, a: int, b: int) -> None:
        a, b = self._find(a), self._find(b)
        self._root[max(a, b)] = min(a, b)

    # ------------------------------------------------------------------ words

    def _diagonals(self, closed: Sequence[tuple[int, int]]) -> str:
        """Return the proof by diagonals, between the two parts that stand furthest apart."""
        a, b = max(closed, key=lambda pair: (round(self._apart(*pair), 3), -pair[0], -pair[1]))
        return (
            f"Measure both diagonals between {listed(self.scene.ids(a, b))}: they shall agree within"
            f" {SQUARE_MM:.0f} mm. If not, push the longer one together with a clamp before the last screw is tight or"
            " the glue sets."
        )

    def _apart(self, a: int, b: int) -> float:
        return norm(sub(self.scene.parts[a].volume_and_centre()[1], self.scene.parts[b].volume_and_centre()[1]))

    def _gap(self, step: OrderStep, made: Sequence[Joint]) -> str | None:
        """Return the proof by a gap: the play of what hangs, slides or lies loose, or the spaces of a row."""
        play = sorted({j.clearance for j in made if j.kind in STAND_APART and j.clearance > 0})
        if play:
            hung = {p for j in made if j.kind in STAND_APART and j.clearance > 0 for p in j.parts}
            names = listed([p for p in step.brings if p in hung] or step.brings)
            size = f"{play[0]:.1f} mm" if len(play) == 1 else f"{play[0]:.1f} to {play[-1]:.1f} mm"
            return (
                f"Look along the play of {names}: {size}, even within {EVEN_MM:.1f} mm, and nothing rubs. If not,"
                " shift what it hangs on or runs in, or plane the tight edge."
            )
        gaps = list(self._row(step))
        if len(gaps) > 1 and max(gaps) - min(gaps) < EVEN_MM and max(gaps) <= SPACER_MM:
            return (
                f"Try a spacer of {gaps[0]:.1f} mm in every gap of the row, at both ends. If one is tight, loosen that"
                " part and move half of the error on to its neighbour."
            )
        return None

    def _row(self, step: OrderStep) -> Iterator[float]:
        """Yield the gaps between neighbours of a row of alike parts, mm."""
        parts = [self.scene.assembly.parts[p] for p in step.brings]
        if len({p.name for p in parts}) != 1:
            return
        for a, b in pairwise(parts):
            (low_a, high_a), (low_b, high_b) = a.bounds(), b.bounds()
            gap = max(max(low_b[k] - high_a[k], low_a[k] - high_b[k]) for k in range(3))
            if gap > self.scene.settings.fit:
                yield gap

    def _overall(self) -> str:
        sizes = (h - l for l, h in zip(self.scene.low, self.scene.high, strict=True))  # noqa: E741 - low and high
        wide, deep, high = sizes
        return (
            f"Measure the piece over all: {wide:.0f} mm wide, {deep:.0f} mm deep, {high:.0f} mm high, within"
            f" {OVERALL_MM:.0f} mm. If it is out, find the joint that stands open before the glue has set."
        )
