"""The order of cuts: nothing before its piece exists, and as few changes of setting as a look ahead of one gives."""

from collections.abc import Hashable, Sequence

# (what has to be set, level in the tree of cuts, whether it trues an edge, index of the cut before it, its length)
Wanted = tuple[Hashable, int, bool, int | None, int]


def in_order(cuts: Sequence[Wanted]) -> list[int]:
    """Return the indices of the cuts in the order to make them.

    While a cut at the present setting is free it is made. Then comes the setting of the lowest level, truing cuts
    first, then the one with the most free cuts, then the longest cut, then the one listed first.
    """
    followers: dict[int | None, list[int]] = {}
    for index, cut in enumerate(cuts):
        followers.setdefault(cut[3], []).append(index)
    free: dict[tuple[Hashable, int], list[int]] = {}
    done: list[int] = []
    _release(followers.get(None, []), cuts, free)
    while free:
        setting = min(free, key=lambda s: _rank(free[s], cuts))
        current: tuple[Hashable, int] | None = setting
        while current is not None:
            for index in free.pop(current):
                done.append(index)
                _release(followers.get(index, []), cuts, free)
            here = [key for key in free if key[0] == setting[0] and key[1] <= _lowest(free)]
            current = min(here, key=lambda s: _rank(free[s], cuts)) if here else None
    return done


def _release(indices: Sequence[int], cuts: Sequence[Wanted], free: dict[tuple[Hashable, int], list[int]]) -> None:
    for index in indices:
        free.setdefault((cuts[index][0], cuts[index][1]), []).append(index)


def _lowest(free: dict[tuple[Hashable, int], list[int]]) -> int:
    return min(level for _, level in free)


def _rank(group: list[int], cuts: Sequence[Wanted]) -> tuple[int, bool, int, int, int]:
    trues = any(cuts[i][2] for i in group)
    return cuts[group[0]][1], not trues, -len(group), -max(cuts[i][4] for i in group), min(group)
