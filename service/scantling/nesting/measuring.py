"""What a nesting is like to cut and what it leaves: one measure for all plans, worked out from their cuts."""

from collections.abc import Mapping

from .cutting_findings import beyond_saws
from .nouns import Job, Layout, Measures, Nesting
from .saws import Saws
from .sequence import group_by_setting
from .stacks import in_stacks, runs_of


def measure(job: Job, nesting: Nesting, saws: Saws | None, densities: Mapping[str, float] | None = None) -> Measures:
    """Return what a nesting is chosen by: what is missing, its cost, remainder, settings, cuts, different layouts.

    Settings are changes of a saw's setting when all layouts are cut in one go, grouped as `group_by_setting` does;
    cuts are passes of the blade, a stack of sheets being one. Layouts that are cut alike count as one.
    """
    stacked = [in_stacks(layout, job, saws, densities) for layout in nesting.layouts]
    sequences = [cuts for cuts, _ in stacked]
    return Measures(
        missing=sum(u.quantity for u in nesting.unplaced),
        beyond=0 if saws is None else sum(len(beyond_saws(cuts)) for cuts in sequences),
        objective=nesting.objective,
        remainder=_largest_remainder(job, nesting),
        settings=len(group_by_setting(sequences)),
        cuts=sum(
            runs_of(layout, stack) * len(cuts) for layout, (cuts, stack) in zip(nesting.layouts, stacked, strict=True)
        ),
        layouts=len({_outline(layout) for layout in nesting.layouts}),
    )


def _largest_remainder(job: Job, nesting: Nesting) -> tuple[int, int]:
    widths = {s.id: s.board_width or 1 for s in job.stock}
    kept = [(o.along_x, o.along_y or widths[layout.stock]) for layout in nesting.layouts for o in layout.offcuts]
    return max(kept, key=lambda size: (size[0] * size[1], size), default=(0, 0))


def _outline(layout: Layout) -> tuple[str, tuple[tuple[int, int, int, int], ...]]:
    """Return where the saw cuts, whatever the pieces are called."""
    return layout.stock, tuple(sorted((p.x, p.y, p.along_x, p.along_y) for p in layout.placements))
