"""Costing against worked examples that others have printed, each with where it is from.

Pages that print rounded figures are held to their own rounding. "Arithmetic" marks examples made here from stated
inputs: they check the rules of rounding and adding up, not a published figure.
"""

from fractions import Fraction

import pytest

from scantling.costing import (
    Kind,
    Labour,
    MarkUp,
    Price,
    TakeOffLine,
    Tax,
    Terms,
    Waste,
    cost,
    finish_area,
    finish_line,
)
from scantling.measure import parse_money

CENTS = 100


def line(quantity, kind=Kind.OTHER, unit="piece", line_id="it"):
    return TakeOffLine(line_id, kind, line_id, Fraction(str(quantity)), unit)


def price(text, line_id="it", pack="1", unit=None):
    return Price(parse_money(text), line_id, pack=None if pack is None else Fraction(pack), unit=unit)


def total(costing):
    """Return the total in currency units."""
    return costing.as_bought.total / 10_000


def test_lumber_by_the_board_foot():
    # diybuildsnet, pricing a small table: 12 board feet at 3.25 are 39.00 (printed).
    costing = cost([line(12, Kind.BOARD, "bf")], [price("3.25", pack=None)])
    assert costing.as_bought.goods == parse_money("39.00")


def test_shop_rate_and_hours():
    # diybuildsnet: 75,000 a year over 1,920 hours is "39 per hour" (39.06 exactly); 2.5 hours at 39 are 97.50.
    yearly = cost([], [], Terms(labour=(Labour(Fraction(1, 1920), parse_money("75000.00")),)))
    assert yearly.as_bought.labour == parse_money("39.06")
    assert round(total(yearly)) == 39
    costing = cost([], [], Terms(labour=(Labour(Fraction("2.5"), parse_money("39.00")),)))
    assert costing.as_bought.labour == parse_money("97.50")


def test_overhead_then_profit():
    # diybuildsnet: (39 + 97.50) x 1.15 is printed as 157, and 157 x 1.10 as 173.
    terms = Terms(
        labour=(Labour(Fraction("2.5"), parse_money("39.00")),), mark_ups=(MarkUp("overhead", Fraction("0.15")),)
    )
    take_off, prices = [line(12, Kind.BOARD, "bf")], [price("3.25", pack=None)]
    assert total(cost(take_off, prices, terms)) == pytest.approx(156.98, abs=1e-9)
    assert round(total(cost(take_off, prices, terms))) == 157
    both = Terms(labour=terms.labour, mark_ups=(*terms.mark_ups, MarkUp("profit", Fraction("0.10"))))
    assert round(total(cost(take_off, prices, both))) == 173


@pytest.mark.parametrize(("materials", "printed"), [("100.00", 345.60), ("300.00", 633.60)])
def test_two_mark_ups_of_a_fifth(materials, printed):
    # lumberjocks thread on pricing a job: (100 + 140) x 1.2 x 1.2 = 345.60, (300 + 140) x 1.44 = 633.60 (printed).
    terms = Terms(
        labour=(Labour(Fraction(4), parse_money("35.00")),),
        mark_ups=(MarkUp("overhead", Fraction("0.2")), MarkUp("profit", Fraction("0.2"))),
    )
    assert total(cost([line(1)], [price(materials)], terms)) == printed


def test_lumber_to_buy_by_the_yield_of_its_grade():
    # Wengert, woodworkingnetwork.com: clear yield of FAS is 83 %. 40 bf needed, so 40/0.83 = 48.2 bf to buy, and not
    # 40 x 1.17 = 46.8 (arithmetic on the printed yield).
    take_off = [line(40, Kind.BOARD, "bf")]
    costing = cost(take_off, [price("4.00", pack=None)], Terms(waste={Kind.BOARD: Waste(yield_=Fraction("0.83"))}))
    assert float(costing.lines[0].needed) == pytest.approx(48.2, abs=0.05)
    assert total(costing) == 192.77


def test_screws_come_in_boxes():
    # Arithmetic: 86 screws and a tenth to spare are 94.6, in boxes of 50 two boxes (exactly 95 must not make three).
    waste = Terms(waste={Kind.SCREW: Waste(Fraction("0.1"))})
    costing = cost([line(86, Kind.SCREW)], [price("9.25", pack="50")], waste)
    assert costing.lines[0].packs == 2
    assert total(costing) == 18.50
    exact = cost([line(100, Kind.SCREW)], [price("9.25", pack="55")], waste)  # 110 = 2 x 55 to the last screw
    assert exact.lines[0].packs == 2


def test_finish_for_a_small_panel():
    # Arithmetic: a 24 x 48 x 3/4 in panel has 16.75 ft2 of surface, edges counted; three coats at 300 ft2/gal take
    # 0.1675 gal = 0.67 qt, so one quart is bought.
    inch = 25.4
    area = finish_area(24 * inch, 48 * inch, 0.75 * inch)
    assert area / (12 * inch) ** 2 == pytest.approx(16.75)
    gallons = 16.75 * 3 / 300
    costing = cost([line(gallons, Kind.FINISH, "gal")], [price("18.00", pack="1", unit="qt")])
    assert float(costing.lines[0].needed) * 4 == pytest.approx(0.67)
    assert costing.lines[0].packs == 1
    assert total(costing) == 18.00


def test_semitransparent_stain_by_the_wood_handbook():
    # Wood Handbook FPL-GTR-190 (2010) p. 16-20: 200 to 400 ft2/gal on smooth wood, two coats. 120 ft2 take 0.6 to
    # 1.2 gal; the shopping list goes by the least coverage, so two gallon cans.
    area = 120 * (12 * 25.4) ** 2
    found = finish_line("stain", area, "semitransparent stain")
    gallons = float(found.quantity) / 3.785411784
    assert gallons == pytest.approx(1.2, rel=0.005)
    assert "2 coats" in found.what
    costing = cost([found], [price("40.00", "stain", pack="1", unit="gal")])
    assert costing.lines[0].packs == 2
    one_coat_at_best = 120 / 400 * 2
    assert one_coat_at_best == pytest.approx(0.6)
    assert found.estimate and "9.8" in found.estimate  # 400 ft2/gal in m2/L, the other end of the band


def test_a_whole_job():
    # Arithmetic: sheets and boards 184.50, two boxes of screws at 9.25, finish 24.00, two cushions at 65.00; tax 7 % on
    # goods; 6.5 hours at 39.00; overhead 15 % on all of it.
    take_off = [
        line(1, Kind.SHEET, "lot", "wood"),
        line(86, Kind.SCREW, line_id="screws"),
        line("0.67", Kind.FINISH, "qt", "finish"),
        line(2, Kind.CUSHION, line_id="cushion"),
    ]
    prices = [
        price("184.50", "wood"),
        price("9.25", "screws", pack="50"),
        price("24.00", "finish"),
        price("65.00", "cushion"),
    ]
    terms = Terms(
        labour=(Labour(Fraction("6.5"), parse_money("39.00")),),
        tax=Tax(Fraction("0.07")),
        waste={Kind.SCREW: Waste(Fraction("0.1"))},
        mark_ups=(MarkUp("overhead", Fraction("0.15")),),
    )
    bought = cost(take_off, prices, terms).as_bought
    assert bought.goods == parse_money("357.00")
    assert bought.tax == parse_money("24.99")
    assert bought.labour == parse_money("253.50")
    assert bought.mark_ups == (("overhead", parse_money("95.32")),)
    assert bought.total == parse_money("730.81")
    assert bought.total % CENTS == 0
