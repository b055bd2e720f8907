"""The words of a step of assembly, as one person would tell another."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from scantling.board import JointKind

from .scene import Scene
from .sliding import Direction

if TYPE_CHECKING:
    from .attitude import Attitude
    from .order import OrderStep

FROM = (("from the left", "from the right"), ("from the front", "from behind"), ("from below", "from above"))

OWN_SIDES = (("left side", "right side"), ("front", "back"), ("underside", "top"))
UPRIGHT = (0.0, 0.0, -1.0)
SIDE_WORDS = {
    "start": "start end", "end": "other end", "near": "near edge", "far": "far edge", "back": "back", "face": "face",
}  # fmt: skip
STEEP = 0.7  # a direction nearer to the upright than this is from above or below
SLANTED = 0.5  # a direction more than 30° off its leading axis is told by two words


def came_from(off: Direction | None, lies: Attitude | None = None) -> str:
    """Return where a part arrives from, given the direction in which it would come off again.

    Work that `lies` on the bench another way than it will stand is told by the bench: above, below, and its own sides.
    """
    if off is None:
        return "into its place"
    if lies is not None and lies.down != UPRIGHT:
        return _from_the_bench(off, lies.down)
    leading = sorted(range(3), key=lambda k: (-round(abs(off[k]), 6), k))
    first = FROM[leading[0]][1 if off[leading[0]] > 0 else 0]
    second = leading[1]
    if abs(off[second]) < SLANTED:
        return first
    return f"{first} and {FROM[second][1 if off[second] > 0 else 0].removeprefix('from ')}"


def _from_the_bench(off: Direction, down: Direction) -> str:
    comes_down = -sum(a * b for a, b in zip(off, down, strict=True))
    if abs(comes_down) > STEEP:
        return "from above" if comes_down > 0 else "from below"
    level = [0.0 if abs(down[k]) > STEEP else off[k] for k in range(3)]
    k = max(range(3), key=lambda i: (round(abs(level[i]), 6), -i))
    side = f"from the {OWN_SIDES[k][1 if level[k] > 0 else 0]} of the work"
    return side if abs(comes_down) < SLANTED else f"{side} and {'above' if comes_down > 0 else 'below'}"


def largest(scene: Scene, ids: Sequence[str]) -> str:
    """Return the largest of some parts."""
    return max(ids, key=lambda p: (round(scene.assembly.parts[p].volume_and_centre()[0], 3), p))


def brought(step: OrderStep, scene: Scene) -> str:
    """Return what a step brings: parts by their names, or what was built before of them by its largest."""
    names = {scene.assembly.parts[p].name for p in step.brings}
    if len(step.brings) < 4 or len(names) == 1:
        return listed(step.brings)
    return f"what was built round {largest(scene, step.brings)}"


def eased_words(edges: Sequence[str]) -> str:
    """Return eased edges as people say them: by the face they border, both faces at once where they are alike."""
    by_face: dict[str, list[str]] = {}
    for edge in edges:
        side, _, face = edge.partition("/")
        by_face.setdefault(face, []).append(side)
    rows: dict[tuple[str, ...], list[str]] = {}
    for face, edged in by_face.items():
        rows.setdefault(tuple(s for s in SIDE_WORDS if s in edged), []).append(face)
    said = []
    for sides, faces in rows.items():
        of = "both faces" if set(faces) == {"face", "back"} else "its " + " and ".join(faces)
        said.append(f"{'all round' if len(sides) == 4 else 'the ' + listed([SIDE_WORDS[s] for s in sides])} on {of}")
    return "; ".join(said)


def step_text(step: OrderStep, scene: Scene, lies: Attitude | None = None) -> str:
    """Return the step in plain words, of a piece that stands, or as it `lies` on the bench."""
    if not step.brings:
        return f"Now drive {_screws(step, scene)}."
    glued = [j for j in step.joints if scene.assembly.joints[j].glued]
    kinds = {scene.assembly.joints[j].kind for j in step.joints}
    loose, clipped = kinds == {JointKind.LOOSE}, kinds == {JointKind.CLIPPED}
    folded = JointKind.FOLDED_MITRE in kinds
    verb = "Lay" if loose or clipped else "Fold" if folded else "Bring"
    words = [f"{verb} {brought(step, scene)} {came_from(step.off, lies)} to {listed(step.to)}"]
    if glued:
        words.append("glue where they meet")
    if step.fasteners:
        words.append(f"drive {_screws(step, scene)}")
    if folded and not step.fasteners:
        words.append("hold the mitre with tape until the glue has set")
    if loose:
        words.append("it stays loose")
    if clipped:
        words.append("screw the clips to it from below, no glue, so that it stays free to move across its grain")
    return ", ".join(words) + "."


def _screws(step: OrderStep, scene: Scene) -> str:
    kinds = {scene.assembly.fasteners[f].kind for f in step.fasteners}
    noun = {"nail": "nail", "bolt": "bolt"}.get(kinds.pop(), "screw") if len(kinds) == 1 else "fastener"
    n = len(step.fasteners)
    text = f"{n} {noun}{'s' if n > 1 else ''} ({spanned(step.fasteners)})"
    tools = {t.id: t for t in scene.settings.tools}
    other = sorted({t for t in step.tools if t != scene.settings.tools[0].id})
    if other:
        text += " with the " + " and the ".join(tools[t].title for t in other)
    return text


def listed(ids: Sequence[str]) -> str:
    """Return ids as people list them, long lists cut short."""
    if len(ids) > 6:
        return f"{', '.join(ids[:5])} and {len(ids) - 5} more"
    return ids[0] if len(ids) == 1 else f"{', '.join(ids[:-1])} and {ids[-1]}" if ids else "the piece"


def spanned(ids: Sequence[str]) -> str:
    """Return fastener ids with runs of numbers shortened: S1–S4, S9."""
    runs: list[list[str]] = []
    for i in ids:
        if runs and _follows(runs[-1][-1], i):
            runs[-1].append(i)
        else:
            runs.append([i])
    return ", ".join(r[0] if len(r) == 1 else f"{r[0]}–{r[-1]}" for r in runs)


def _follows(a: str, b: str) -> bool:
    head_a, head_b = a.rstrip("0123456789"), b.rstrip("0123456789")
    na, nb = a[len(head_a) :], b[len(head_b) :]
    return head_a == head_b and na.isascii() and nb.isascii() and na != "" and nb != "" and int(nb) == int(na) + 1
