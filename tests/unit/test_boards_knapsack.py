"""The knapsack behind the board search, both of its methods, against the plain table of the textbooks."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from scantling.nesting import boards_knapsack
from scantling.nesting.boards_knapsack import best_filling

items = st.lists(st.tuples(st.integers(1, 40), st.integers(0, 60), st.integers(0, 5)), min_size=1, max_size=9)


def by_the_book(weights: list[int], values: list[int], limits: list[int], capacity: int) -> int:
    """Greatest value of a bounded knapsack, one copy at a time (Bellman's recursion, Martello and Toth 1990, ch. 3)."""
    best = [0] * (capacity + 1)
    for weight, value, limit in zip(weights, values, limits, strict=True):
        for _ in range(limit):
            for room in range(capacity, weight - 1, -1):
                best[room] = max(best[room], best[room - weight] + value)
    return best[capacity]


@pytest.mark.parametrize("table_limit", [0, 10_000])
@settings(max_examples=150, deadline=None)
@given(items, st.integers(1, 150), st.booleans())
def test_both_methods_find_the_greatest_value(table_limit, items, capacity, subset_sum) -> None:
    weights = [w for w, _, _ in items]
    values = weights if subset_sum else [v for _, v, _ in items]
    limits = [n for _, _, n in items]
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(boards_knapsack, "_TABLE_LIMIT", table_limit)
        filling = best_filling(weights, values, limits, capacity)
    assert filling.exact
    assert filling.value == by_the_book(weights, values, limits, capacity)
    assert filling.value == sum(values[i] * n for i, n in filling.counts)
    assert sum(weights[i] * n for i, n in filling.counts) <= capacity
    assert all(0 < n <= limits[i] for i, n in filling.counts)


def test_a_thinned_search_says_that_it_may_have_missed_the_best() -> None:
    """Three-item fillings of a long board out of many near-equal lengths, looked at with ten states only."""
    weights = [33_331 + 7 * i * i for i in range(40)]
    values = [w + (i * 37) % 11 for i, w in enumerate(weights)]
    quick = best_filling(weights, values, [1] * 40, 100_000, states=10)
    close = best_filling(weights, values, [1] * 40, 100_000)
    assert close.exact
    assert quick.value <= close.value
    assert quick.exact is False or quick.value == close.value


def test_nothing_useful_fills_nothing() -> None:
    assert best_filling([10, 20], [0, 5], [3, 0], 100).counts == ()
    assert best_filling([200], [5], [1], 100).counts == ()


def test_values_too_large_for_whole_products_are_filled_and_not_called_exact(monkeypatch):
    monkeypatch.setattr(boards_knapsack, "_BRANCHING_STEPS", 0)
    weights = [700_001, 600_003, 500_007]
    filling = best_filling(weights, [10**13, 9 * 10**12, 8 * 10**12], [9, 9, 9], 5_000_000)
    assert not filling.exact
    assert 0 < sum(weights[i] * n for i, n in filling.counts) <= 5_000_000


def test_states_come_in_the_same_order_by_one_number_and_by_two():
    random = np.random.default_rng(4)
    weight, value = random.integers(0, 60, 500), random.integers(0, 40, 500)
    by_one = boards_knapsack._by_weight(weight, value, 60, 40)
    by_two = boards_knapsack._by_weight(weight, value, 60, 2**60)
    assert by_one.tolist() == by_two.tolist()
    ordered = list(zip(weight[by_one].tolist(), (-value[by_one]).tolist(), strict=True))
    assert ordered == sorted(ordered)
