"""Layouts that leave less than the cuts may be off and the panel may be short."""

from dataclasses import replace

import pytest

from scantling.findings import catalogue
from scantling.nesting.boards import nest_boards
from scantling.nesting.exact_fit import find_exact_fits, panel_shortfall, tight_axes, with_margin
from scantling.nesting.nouns import Cutting, Job, Layout, Nesting, Node, Piece, Placement, Stock, StoppedBy, Trim

INCH = 2540


def strips(width: int, kerf: int = 318, **stock: object) -> tuple[Job, Nesting]:
    """Three strips of a width along a sheet of 96 × 48 in, as in the shelves of nikinnaird.com/kitchen-shelves."""
    ys = [i * (width + kerf) for i in range(3)]
    leaves = tuple(Node(0, y, 96 * INCH, width, part="strip") for y in ys)
    used = ys[-1] + width
    rest = 48 * INCH - used - kerf
    waste = (Node(0, used + kerf, 96 * INCH, rest),) if rest > 0 else ()
    tree = Node(0, 0, 96 * INCH, 48 * INCH, "y", leaves + waste)
    placements = tuple(Placement("strip", 0, y, 96 * INCH, width) for y in ys)
    job = Job(
        (Piece("strip", 96 * INCH, width, 3),),
        (Stock("sheet", 96 * INCH, 48 * INCH, price=1, **stock),),  # type: ignore[arg-type]
        Cutting(kerf),
        1,
    )
    layout = Layout("sheet", 1, placements, (), tree)
    return job, Nesting((layout,), (), 1, 1, True, 0, StoppedBy.PROOF, (), 1, 1)


def test_a_panel_may_be_a_sixteenth_of_an_inch_short() -> None:
    assert panel_shortfall() == 159  # PS 1: 0.0625 in = 1.5875 mm


def test_three_strips_of_15_and_29_32_are_an_exact_fit_and_of_15_3_4_are_not() -> None:
    """48 in less two kerfs of 1/8 in is 47.75; 3 × 15 29/32 leaves 1/32 in, two cuts may be 1 mm off, the panel 1.6."""
    job, nesting = strips(round(15.90625 * INCH))
    across = [t for t in tight_axes(nesting.layouts[0], job.stock[0], job.cutting) if t.axis == "y"]
    assert [(t.cuts, t.margin) for t in across] == [(2, 100 + 159)]
    assert across[0].left == pytest.approx(INCH / 32, abs=3)
    loose, roomy = strips(round(15.75 * INCH))
    assert not [t for t in tight_axes(roomy.layouts[0], loose.stock[0], loose.cutting) if t.axis == "y"]


def test_the_smallest_change_of_one_part_is_named() -> None:
    job, nesting = strips(round(15.90625 * INCH), offcut=True)
    findings = [f for f in find_exact_fits(job, nesting) if "width" in f.message]
    (finding,) = findings
    assert finding.code in catalogue()
    assert finding.limit == 1.0
    wanting = round((finding.limit - (finding.value or 0)) * 100)
    assert f"make strip {-(-wanting // 3) / 100:g} mm smaller" in (finding.remedy or "")
    smaller = round(15.90625 * INCH) - -(-wanting // 3)
    again, fits = strips(smaller, offcut=True)
    assert not [t for t in tight_axes(fits.layouts[0], again.stock[0], again.cutting) if t.axis == "y"]


def test_what_is_on_hand_was_measured_and_trim_makes_up_for_a_short_panel() -> None:
    job, nesting = strips(round(15.9 * INCH))
    new = tight_axes(nesting.layouts[0], job.stock[0], job.cutting)
    assert {t.axis for t in new} == {"x", "y"}
    offcut = replace(job.stock[0], offcut=True)
    assert tight_axes(nesting.layouts[0], offcut, job.cutting) == []
    trimmed = replace(job.cutting, trim=Trim(end=200))
    short = {t.axis: t.margin for t in tight_axes(nesting.layouts[0], job.stock[0], trimmed)}
    assert short["x"] == 0, "the trim is wider than the shortfall, but the strips are as long as the sheet"


def test_boards_are_told_what_the_margin_costs() -> None:
    """Four of 500 mm from 2009 mm: exactly 3 kerfs of 3 mm; with half a millimetre more a cut it takes two boards."""
    job = Job((Piece("p", 50_000, quantity=4),), (Stock("b", 200_900, price=5),), Cutting(kerf=300), 10_000)
    nesting = nest_boards(job)
    assert nesting.cost == 5
    (finding,) = find_exact_fits(job, nesting, nest_boards)
    assert "it takes 2 instead of 1, proved" in finding.message
    assert (finding.value, finding.limit) == (0.0, 1.5)
    assert "make p 0.38 mm smaller" in (finding.remedy or "")
    loose = replace(job, stock=(Stock("b", 201_050, price=5),))
    assert find_exact_fits(loose, nest_boards(loose)) == []


def test_a_margin_that_costs_nothing_is_offered() -> None:
    """Tight because the filling is as full as it can be, though the second board has room enough."""
    job = Job(
        (Piece("a", 100_000, quantity=2), Piece("b", 50_000)),
        (Stock("s", 200_300, price=5),),
        Cutting(kerf=300),
        10_000,
    )
    nesting = nest_boards(job)
    assert nesting.cost == 10
    findings = find_exact_fits(job, nesting, nest_boards)
    assert len(findings) == 1
    assert "as much stock (2, proved)" in findings[0].message


def test_keeping_the_margin_widens_the_kerf_and_shortens_new_panels() -> None:
    job, _ = strips(10_000)
    safe = with_margin(job)
    assert safe.cutting.kerf == 318 + 50
    assert (safe.stock[0].length, safe.stock[0].width) == (96 * INCH - 159, 48 * INCH - 159)
