"""One picture for each step of assembly: what is there already thin, what the step brings heavy and still apart."""

from collections.abc import Sequence

from scantling.board import Assembly
from scantling.board.vector import Vector

from .explode import CLEAR_MM, Bring, lifted
from .hidden import Body
from .isometric import Label, best_view, picture
from .rims import rims
from .shapes import Drawing

MOST_LABELS = 6


def step_pictures(assembly: Assembly, steps: Sequence[Bring], width: float, height: float) -> list[Drawing]:
    """Return a picture for each step, in order, of the group the step works on.

    A step that brings nothing (screws driven later) shows the whole group emphasised.
    """
    bodies = {p.id: Body.of(p.id, p.cells(), lines=rims(p)) for p in assembly.parts.values()}
    group_of: dict[str, tuple[str, ...]] = {id: (id,) for id in bodies}
    drawn = []
    for number, step in enumerate(steps, 1):
        brought = _joined(step.parts, group_of)
        target = tuple(id for id in _joined(step.to, group_of) if id not in brought)
        drawn.append(_picture(assembly, number, step, brought, target, bodies, width, height))
        together = (*target, *brought)
        for id in together:
            group_of[id] = together
    return drawn


def _joined(ids: Sequence[str], group_of: dict[str, tuple[str, ...]]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(p for id in ids if id in group_of for p in group_of[id]))


def _picture(
    assembly: Assembly,
    number: int,
    step: Bring,
    brought: Sequence[str],
    target: Sequence[str],
    bodies: dict[str, Body],
    width: float,
    height: float,
) -> Drawing:
    moves: dict[str, Vector] = {}
    if target and brought:
        moves = lifted(assembly, brought, target, step.off, CLEAR_MM * 1.5)
    order = [id for id in bodies if id in {*brought, *target}]
    scene = [bodies[id].moved(moves.get(id, (0.0, 0.0, 0.0))) for id in order]
    new = tuple(brought) or tuple(target)
    strokes = dict.fromkeys(target, "thin") | dict.fromkeys(new, "new")
    labels = [
        *_labels(assembly, step.parts or new, True),
        *_labels(assembly, [t for t in step.to if t in target], False),
    ]
    view = best_view(scene, new)
    return picture(scene, width, height, view=view, title=f"Step {number}, {view.name}", strokes=strokes, labels=labels)


def _labels(assembly: Assembly, ids: Sequence[str], bold: bool) -> list[Label]:
    """Return labels for some parts: each by its id, or by their common name where they are many."""
    known = [id for id in ids if id in assembly.parts]
    if len(known) <= MOST_LABELS:
        return [Label(id, (id,), bold) for id in known]
    names: dict[str, list[str]] = {}
    for id in known:
        names.setdefault(assembly.parts[id].name, []).append(id)
    labels = []
    for name, group in names.items():
        text = group[0] if len(group) == 1 else f"{len(group)} × {name}"
        labels.append(Label(text, tuple(group), bold))
    return labels
