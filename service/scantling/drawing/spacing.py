"""Sets labels apart along a line: as near as can be to where they want to stand, in order, none over another."""

import itertools
from collections.abc import Sequence


def spread(wanted: Sequence[float], sizes: Sequence[float], low: float, high: float) -> list[float]:
    """Return the middles of labels of some sizes, in the order given, none overlapping, inside low to high if it fits.

    The sum of squared moves is least (isotonic regression by pooling neighbours).
    """
    if not wanted:
        return []
    steps = [0.0]
    for a, b in itertools.pairwise(sizes):
        steps.append(steps[-1] + (a + b) / 2)
    pools: list[tuple[float, int]] = []  # mean, how many
    for value in (w - s for w, s in zip(wanted, steps, strict=True)):
        mean, n = value, 1
        while pools and pools[-1][0] >= mean:
            other, m = pools.pop()
            mean, n = (mean * n + other * m) / (n + m), n + m
        pools.append((mean, n))
    least, most = low + sizes[0] / 2, high - sizes[-1] / 2 - steps[-1]
    flat = [max(least, min(most, mean)) for mean, n in pools for _ in range(n)]
    return [z + s for z, s in zip(flat, steps, strict=True)]
