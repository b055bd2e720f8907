"""One long offcut instead of many short ones: pieces are moved out of the emptiest board while the cost stays."""

from collections import Counter

from .boards_problem import Pattern, Problem, Solution

_MOST_MOVES = 60

_Board = tuple[int, Pattern]


def gather_remainder(problem: Problem, solution: Solution, least: int) -> Solution:
    """Return a solution of the same boards (or fewer) whose longest remainder is as long as single moves make it.

    A move puts one length of the emptiest board into another board's remainder, or swaps it for a shorter one there.
    The solution comes back unchanged where no remainder of at least `least` (one kerf included) comes of it. Boards
    with defects stay as they are.
    """
    boards: Counter[_Board] = Counter(dict(solution.boards))
    whole = [board for board in boards if len(board[1]) == 1]
    if not whole:
        return solution
    target = max(sorted(whole), key=lambda board: _room_left(problem, board))
    others = boards - Counter([target])
    for _ in range(_MOST_MOVES):
        move = _best_move(problem, target, others)
        if move is None:
            break
        old, new, target = move
        others[old] -= 1
        others[new] += 1
        others += Counter()  # drops what has come to nothing
        if not target[1][0]:
            return Solution(tuple(sorted(others.items())), solution.missing)
    if _room_left(problem, target) < least:
        return solution
    return Solution(tuple(sorted((others + Counter([target])).items())), solution.missing)


def _room_left(problem: Problem, board: _Board) -> int:
    b, pattern = board
    return problem.bins[b].stretches[0][1] - problem.used(b, pattern[0])


def _best_move(problem: Problem, target: _Board, others: Counter[_Board]) -> tuple[_Board, _Board, _Board] | None:
    """Return (board changed, what it becomes, what the target becomes) of the move that frees most, or None."""
    best: tuple[int, _Board, int, int | None] | None = None
    for other in sorted(others):
        if len(other[1]) != 1:
            continue
        room = _room_left(problem, other)
        sloped = problem.bins[other[0]].rows is not None or problem.bins[target[0]].rows is not None
        for mine, _ in target[1][0]:
            if other[0] not in problem.kinds[mine].bins:
                continue
            weight = problem.kinds[mine].weight
            theirs: list[int | None] = [None, *(k for k, _ in other[1][0] if target[0] in problem.kinds[k].bins)]
            for swapped in theirs:
                back = 0 if swapped is None else problem.kinds[swapped].weight
                gain = weight - back
                fits = gain <= room
                if sloped:
                    gain, fits = _gain_sloped(problem, target, other, mine, swapped), True
                if gain > 0 and fits and (best is None or gain > best[0]):
                    best = (gain, other, mine, swapped)
    if best is None:
        return None
    _, other, mine, swapped = best
    return other, _exchanged(other, mine, swapped), _exchanged(target, swapped, mine)


def _gain_sloped(problem: Problem, target: _Board, other: _Board, mine: int, swapped: int | None) -> int:
    """Return what a move frees on the target, cuts shared where ends agree; 0 where the other board cannot take it."""
    if _room_left(problem, _exchanged(other, mine, swapped)) < 0:
        return 0
    return _room_left(problem, _exchanged(target, swapped, mine)) - _room_left(problem, target)


def _exchanged(board: _Board, added: int | None, taken: int | None) -> _Board:
    counts = dict(board[1][0])
    if added is not None:
        counts[added] = counts.get(added, 0) + 1
    if taken is not None:
        counts[taken] -= 1
    return board[0], (tuple(sorted((k, n) for k, n in counts.items() if n)),)
