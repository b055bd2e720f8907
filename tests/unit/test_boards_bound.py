"""Bounds of the board search in exact arithmetic, and rounding up to costs that can occur."""

from fractions import Fraction

from scantling.nesting.boards_bound import WORTH_UNIT, PossibleCosts, dual_bound
from scantling.nesting.boards_problem import Bin, Kind, Problem


def problem(*bins: tuple[int, int, int | None]) -> Problem:
    """Lengths of 40 and 30 (five and four of them) and boards as (room, cost, limit)."""
    kinds = (Kind(40, 5, tuple(range(len(bins)))), Kind(30, 4, tuple(range(len(bins)))))
    return Problem(kinds, tuple(Bin(f"b{i}", cost, limit, ((0, r),), r) for i, (r, cost, limit) in enumerate(bins)))


def test_worths_in_proportion_to_length_give_the_plain_bound() -> None:
    """320 of length on boards of 100 at 7: never below 320/100 × 7 = 22.4."""
    p = problem((100, 7, None))
    worth = [40 * WORTH_UNIT // 100, 30 * WORTH_UNIT // 100]
    assert dual_bound(p, p.demand, [None], worth, [WORTH_UNIT], 7) == Fraction(224, 10)


def test_worths_that_promise_too_much_are_shrunk() -> None:
    p = problem((100, 7, None))
    worth = [80 * WORTH_UNIT // 100, 60 * WORTH_UNIT // 100]
    assert dual_bound(p, p.demand, [None], worth, [2 * WORTH_UNIT], 7) == Fraction(224, 10)


def test_a_board_in_short_supply_gains_at_most_its_number_times_the_excess() -> None:
    """One free board of 100 takes at most 7 off what the others have to cost."""
    p = problem((100, 0, 1), (100, 7, None))
    worth = [40 * WORTH_UNIT // 100, 30 * WORTH_UNIT // 100]
    assert dual_bound(p, p.demand, [1, None], worth, [WORTH_UNIT, WORTH_UNIT], 7) == Fraction(154, 10)


def test_boards_that_must_be_used_cost_what_they_do_not_hold() -> None:
    p = problem((100, 7, None), (50, 7, None))
    worth = [40 * WORTH_UNIT // 100, 30 * WORTH_UNIT // 100]
    plain = dual_bound(p, p.demand, [None, None], worth, [WORTH_UNIT, WORTH_UNIT // 2], 7)
    forced = dual_bound(p, p.demand, [None, None], worth, [WORTH_UNIT, WORTH_UNIT // 2], 7, [0, 2])
    assert forced - plain == 7


def test_a_bound_is_rounded_up_to_what_boards_can_cost() -> None:
    """Boards at 9 (three of them) and 15: 24 is possible, 25 to 26 is not, 27 is three of 9."""
    costs = PossibleCosts(problem((100, 9, 3), (200, 15, None)), most=60)
    assert costs.round_up(Fraction(241, 10)) == 27
    assert costs.round_up(Fraction(24)) == 24
    assert costs.round_up(Fraction(275, 10)) == 30
    assert costs.round_up(Fraction(0)) == 0
    assert PossibleCosts(problem((100, 0, None)), most=0).round_up(Fraction(0)) == 0
