"""The part of the independent checker that looks at matched groups: on one sheet or board, in one row, in sequence.

Nothing here is shared with the search. The members of a group follow each other in the order of their ids, as many of
each as were asked for, so that the figure of the wood runs on from one to the next.
"""

from collections import defaultdict
from collections.abc import Iterable
from itertools import pairwise

from .nouns import Job, Layout, Piece, Placement


def check_groups(job: Job, layouts: Iterable[Layout]) -> list[str]:
    """Return what is wrong with the groups of a job: spread out, out of the row, out of sequence, another way round."""
    group_of = {p.id: p.group for p in job.pieces if p.group is not None}
    boards = {s.id for s in job.stock if s.width is None}
    lying: dict[str, list[Placement]] = {}
    sheets: dict[str, int] = defaultdict(int)
    on_boards: set[str] = set()
    for layout in layouts:
        for group in {group_of[p.part] for p in layout.placements if p.part in group_of}:
            sheets[group] += layout.count
            lying[group] = [p for p in layout.placements if group_of.get(p.part) == group]
            on_boards |= {group} if layout.stock in boards else set()
    faults = [f"group {group} is spread over {n} sheets" for group, n in sorted(sheets.items()) if n > 1]
    for group, found in sorted(lying.items()):
        if sheets[group] == 1:
            members = [p for p in job.pieces if p.group == group]
            faults += [f"group {group} {f}" for f in _faults_of_row(found, members, job, group in on_boards)]
    return faults


def _faults_of_row(found: list[Placement], members: list[Piece], job: Job, on_board: bool) -> list[str]:
    asked = [p.id for p in sorted(members, key=lambda p: p.id) for _ in range(p.quantity)]
    if len(found) != len(asked):
        return [f"has {len(found)} of its {len(asked)} members on the sheet"]
    if len({p.turned for p in found}) > 1:
        return ["lies partly turned"]
    along_x = len({p.x for p in found}) == len(found)
    if not along_x and len({p.y for p in found}) != len(found):
        return ["does not lie in one row"]
    row = sorted(found, key=lambda p: p.x if along_x else p.y)
    # On a board the whole group may lie turned half round; then it reads from the other end.
    if [p.part for p in row] != asked and not (on_board and [p.part for p in reversed(row)] == asked):
        return [f"lies in the sequence {', '.join(p.part for p in row)} and not {', '.join(asked)}"]
    if on_board:
        return []  # what sloped ends need between members is the board's own check
    return _faults_between(row, along_x, job.cutting.kerf)


def _faults_between(row: list[Placement], along_x: bool, kerf: int) -> list[str]:
    if len({p.y if along_x else p.x for p in row}) > 1:
        return ["does not lie along one line"]
    for left, right in pairwise(row):
        end = left.x + left.along_x if along_x else left.y + left.along_y
        gap = (right.x if along_x else right.y) - end
        if gap != kerf:
            return [f"has {gap / 100:.2f} mm between {left.part} and {right.part}, the kerf is {kerf / 100:.2f} mm"]
    return []
