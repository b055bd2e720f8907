"""The factors of beams against an independent stiffness solution, and beams glued up of pieces."""

import numpy as np
import pytest

from scantling.mechanics.beams import (
    Piece,
    allowed_span,
    beam_case,
    beam_cases,
    bearing_stress,
    bending_stress,
    built_up,
    compression_amplifier,
    deflection,
    moment,
    rectangle,
    round_bar,
    shear,
    shear_stress,
)
from scantling.mechanics.validity import OutOfValidity
from scantling.tables import UnknownRowError

ELEMENTS = 48  # per span; divisible by 4 so the quarter points are nodes


def solve(spans, held_ends, loads, line):
    """Return the largest deflection and moment of a beam of spans of length 1 with E I = 1, by beam elements."""
    nodes = ELEMENTS * spans + 1
    h = 1 / ELEMENTS
    k = np.zeros((2 * nodes, 2 * nodes))
    f = np.zeros(2 * nodes)
    rows = [
        [12, 6 * h, -12, 6 * h],
        [6 * h, 4 * h**2, -6 * h, 2 * h**2],
        [-12, -6 * h, 12, -6 * h],
        [6 * h, 2 * h**2, -6 * h, 4 * h**2],
    ]
    element = np.array(rows) / h**3
    for i in range(nodes - 1):
        at = slice(2 * i, 2 * i + 4)
        k[at, at] += element
        f[at] += line * h * np.array([1 / 2, h / 12, 1 / 2, -h / 12])
    for place, force in loads:
        f[2 * round(place * ELEMENTS)] += force
    fixed = held_ends(nodes)
    free = [i for i in range(2 * nodes) if i not in fixed]
    u = np.zeros(2 * nodes)
    u[free] = np.linalg.solve(k[np.ix_(free, free)], f[free])
    ends = []
    for i in range(nodes - 1):
        at = slice(2 * i, 2 * i + 4)
        forces = element @ u[at] - line * h * np.array([1 / 2, h / 12, 1 / 2, -h / 12])
        ends += [abs(forces[1]), abs(forces[3])]
    return abs(u[::2]).max(), max(ends)


def resting(nodes):
    return {2 * i for i in range(0, nodes, ELEMENTS)}


def clamped(nodes):
    return {0, 1, 2 * nodes - 2, 2 * nodes - 1}


def wall(nodes):
    return {0, 1}


SETUPS = {
    "uniform-simple": (1, resting, (), 1.0),
    "uniform-clamped": (1, clamped, (), 1.0),
    "centre-simple": (1, resting, ((0.5, 1.0),), 0.0),
    "centre-clamped": (1, clamped, ((0.5, 1.0),), 0.0),
    "quarters-simple": (1, resting, ((0.25, 0.5), (0.75, 0.5)), 0.0),
    "quarters-clamped": (1, clamped, ((0.25, 0.5), (0.75, 0.5)), 0.0),
    "uniform-cantilever": (1, wall, (), 1.0),
    "end-cantilever": (1, wall, ((1.0, 1.0),), 0.0),
    "uniform-two-spans": (2, resting, (), 1.0),
    "uniform-three-spans": (3, resting, (), 1.0),
}


@pytest.mark.parametrize("case", sorted(SETUPS))
def test_factors_against_a_stiffness_solution(case):
    sag, bent = solve(*SETUPS[case])
    assert deflection(case, 1, 1, 1) == pytest.approx(sag, rel=0.005)
    assert moment(case, 1, 1) == pytest.approx(bent, rel=0.002)


def test_every_case_is_solved_for():
    assert set(SETUPS) == set(beam_cases())


def test_shear_of_two_spans_is_the_inner_reaction_share():
    assert shear("uniform-two-spans", 8) == 5
    assert shear("end-cantilever", 8) == 8


def test_glued_strip_is_the_parallel_axis_theorem():
    """A T of two equal rectangles 100 x 20 and 20 x 100 standing on its web: the neutral axis at 80 mm."""
    tee = built_up((Piece(20, 100, 0, 1), Piece(100, 20, 100, 1)), glued=True)
    assert tee.neutral_mm == pytest.approx(80)
    assert tee.stiffness_nmm2 == pytest.approx(20 * 100**3 / 12 + 2000 * 30**2 + 100 * 20**3 / 12 + 2000 * 30**2)
    assert tee.stresses(1e6) == pytest.approx((1e6 * 80 / tee.stiffness_nmm2, 1e6 * 40 / tee.stiffness_nmm2))


def test_two_boards_glued_are_four_times_as_stiff_as_loose():
    boards = (Piece(100, 20, 0, 9000), Piece(100, 20, 20, 9000))
    loose, glued = built_up(boards, glued=False), built_up(boards, glued=True)
    assert glued.stiffness_nmm2 == pytest.approx(4 * loose.stiffness_nmm2)
    assert loose.stresses(1e5)[0] == pytest.approx(1e5 / (2 * 100 * 20**2 / 6))


def test_stresses():
    section = rectangle(40, 60)
    assert bending_stress(24_000_0, section) == pytest.approx(10)
    assert shear_stress(1600, section) == pytest.approx(1)
    assert bearing_stress(1000, 40, 25) == 1
    assert round_bar(20).modulus_mm3 == pytest.approx(785.4, abs=0.01)
    assert compression_amplifier(500, 1000) == 2


def test_allowed_span_meets_its_limit():
    span = allowed_span("uniform-simple", 0.4, 1.5e9, 300)
    assert deflection("uniform-simple", 0.4 * span, span, 1.5e9) == pytest.approx(span / 300)
    by_moment = allowed_span("uniform-simple", 0.4, 1e15, 300, 50_000)
    assert moment("uniform-simple", 0.4 * by_moment, by_moment) == pytest.approx(50_000)


@pytest.mark.parametrize(
    "bad",
    [
        lambda: rectangle(0, 10),
        lambda: rectangle(10, float("nan")),
        lambda: deflection("uniform-simple", -1, 100, 1e6),
        lambda: deflection("uniform-simple", 1, 100, 0),
        lambda: compression_amplifier(1000, 1000),
        lambda: built_up((Piece(0, 10, 0, 9000),), glued=True),
    ],
)
def test_nothing_is_extrapolated(bad):
    with pytest.raises(OutOfValidity) as caught:
        bad()
    assert "accepted is" in str(caught.value)


def test_unknown_case_names_the_nearest():
    with pytest.raises(UnknownRowError) as caught:
        beam_case("uniform-simpel")
    assert "uniform-simple" in caught.value.nearest


def test_allowed_span_refuses_a_point_load():
    with pytest.raises(ValueError, match="line load"):
        allowed_span("centre-simple", 1, 1e9, 300)
