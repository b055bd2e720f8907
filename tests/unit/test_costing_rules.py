"""Rules of a costing: which price rules, packs and units, what is on hand, what is refused and where."""

from fractions import Fraction

import pint
import pytest

from scantling.costing import (
    Kind,
    Price,
    TakeOffLine,
    UnitMismatchError,
    box_of,
    cost,
    costings,
    finish_area,
    finish_line,
    glue_line,
    screw_lines,
)
from scantling.costing.units import COUNTED, UNITS, in_unit
from scantling.findings import catalogue
from scantling.measure import RequestError


def one_line(**members):
    return {"id": "a", "kind": "screw", "quantity": 10, **members}


def ask(take_off=None, prices=(), **more):
    return costings({"take_off": [one_line()] if take_off is None else take_off, "prices": list(prices), **more})


def only(answer, column):
    return answer["lines"][0][column]


def test_a_price_for_the_line_rules_over_one_for_its_kind():
    both = [{"kind": "screw", "price": "1.00"}, {"id": "a", "price": "2.00"}]
    answer = ask(prices=both)
    assert only(answer, "as_bought") == "20.00"
    assert [f["code"] for f in answer["findings"]] == ["price-unused"]
    assert answer["findings"][0]["pointer"] == "/prices/0"


def test_a_price_of_nothing_is_a_price():
    answer = ask(prices=[{"id": "a", "price": "0"}])
    assert answer["total"] == {"amount": "0.00", "lower_bound": False, "text": "0.00 USD"}


def test_whole_pieces_are_bought_unless_it_is_sold_loose():
    take_off = [one_line(kind="board", quantity=2.5, unit="m")]
    assert only(ask(take_off, [{"id": "a", "price": "4.00"}]), "as_bought") == "12.00"
    loose = ask(take_off, [{"id": "a", "price": "4.00", "pack": None}])
    assert only(loose, "as_bought") == only(loose, "as_used") == "10.00"
    assert only(loose, "packs") is None


def test_what_is_on_hand_is_not_bought_but_is_used():
    answer = ask([one_line(quantity=86, on_hand=40)], [{"id": "a", "price": "9.25", "pack": 50}])
    line = answer["lines"][0]
    assert (line["packs"], line["bought"], line["left_over"]) == (1, 50, 4)
    assert (line["as_bought"], line["as_used"]) == ("9.25", "15.91")  # 86 of 50 at 9.25
    assert line["left_over_value"] == "0.74"  # 40 on hand are worth 7.40; 7.40 + 9.25 - 15.91
    enough = ask([one_line(quantity=10, on_hand=40)], [{"id": "a", "price": "9.25", "pack": 50}])
    assert (only(enough, "packs"), only(enough, "as_bought")) == (0, "0.00")


def test_sheets_are_bought_whole_and_used_in_part():
    take_off = [{"id": "a", "kind": "sheet", "quantity": 3, "unit": "sheet", "used": 2.4}]
    answer = ask(take_off, [{"id": "a", "price": "62.00"}])
    assert (only(answer, "as_bought"), only(answer, "as_used")) == ("186.00", "148.80")
    assert answer["left_over"]["lines"] == [
        {"id": "a", "what": "a", "quantity": 0.6, "unit": "sheet", "value": "37.20"}
    ]


def test_units_agree_with_pint():
    # pint (its default registry) is the outside source for what the units mean.
    registry = pint.UnitRegistry()
    names = {"mL": "mL", "L": "L", "fl oz": "US_fluid_ounce", "qt": "quart", "gal": "gallon", "g": "g"}
    names |= {"kg": "kg", "oz": "oz", "lb": "lb", "mm": "mm", "m": "m", "in": "inch", "ft": "ft", "m2": "m**2"}
    names |= {"ft2": "ft**2", "bf": "FBM", "m3": "m**3"}
    assert set(names) == set(UNITS) - set(COUNTED)
    for one, name in names.items():
        for other, other_name in names.items():
            if registry.Unit(name).dimensionality != registry.Unit(other_name).dimensionality:
                assert in_unit(Fraction(1), one, other) is None
            elif (one in ("bf", "m3")) == (other in ("bf", "m3")):  # timber is not sold by the litre
                ours = float(in_unit(Fraction(3), one, other))
                assert ours == pytest.approx(registry.Quantity(3.0, name).to(other_name).magnitude, rel=1e-9)


def test_glue_by_weight_is_bought_by_the_bottle():
    # Common practice: a wood glue is a little heavier than water, so 1 mL counted as 1 g errs on the safe side.
    line = TakeOffLine("glue", Kind.GLUE, "glue", Fraction(480), "g")
    assert cost([line], [Price(99_900, "glue", pack=Fraction(473), unit="mL")]).lines[0].packs == 2
    stain = TakeOffLine("stain", Kind.FINISH, "stain", Fraction(480), "g")
    with pytest.raises(UnitMismatchError):
        cost([stain], [Price(99_900, "stain", pack=Fraction(473), unit="mL")])


def test_glue_and_finish_from_areas():
    glue = glue_line("glue", 2_000_000, "PVA")  # 2 m2 at the table's 200 g/m2
    assert (glue.quantity, glue.unit) == (400, "g")
    assert glue.estimate is not None
    assert "150 to 200 g/m2" in glue.estimate
    area = finish_area(1000, 500, 18)
    assert area == 2 * 1000 * 500 + 2 * 18 * 1500
    twice = finish_line("oil", area, "oil", coats=2).quantity
    assert float(twice) == pytest.approx(float(finish_line("oil", area, "oil", coats=1).quantity) * 2, abs=0.002)


def test_screws_by_size():
    lines = screw_lines({(8, 38.1): 40, (8, 31.75): 12, (6, 31.75): 3})
    assert [(line.id, line.quantity) for line in lines] == [
        ("screw 6 x 31.75 mm", 3),
        ("screw 8 x 31.75 mm", 12),
        ("screw 8 x 38.1 mm", 40),
    ]
    assert lines[2].what == "wood screw #8 x 1-1/2 in"
    assert box_of(8, 38.1) == 100
    assert box_of(8, 41) is None


def test_an_estimate_says_so():
    answer = ask([one_line(kind="glue", unit="g", estimate="spread from a table")], [{"id": "a", "price": "1.00"}])
    assert [f["code"] for f in answer["findings"]] == ["quantity-estimated"]
    assert answer["summary"][-1].startswith("Some quantities are estimates")


def test_work_without_a_rate_is_unknown():
    answer = ask([], labour={"hours": 6, "what": "making"})
    assert answer["unknown"] == [
        {"id": "making", "kind": "labour", "what": "making", "quantity": 6, "unit": "h", "reason": "no rate"}
    ]
    assert answer["total"]["lower_bound"]


def test_every_finding_is_in_the_catalogue():
    assert {code for code, entry in catalogue().items() if entry.subject == "costing"} == {
        "price-missing",
        "price-unused",
        "quantity-estimated",
        "mostly-left-over",
    }


@pytest.mark.parametrize(
    ("change", "pointer", "code"),
    [
        ({"take_off": None}, "/take_off", "wrong-type"),
        ({"take_off": [{}]}, "/take_off/0", "missing-member"),
        ({"take_off": ["a"]}, "/take_off/0", "wrong-type"),
        ({"take_off": [one_line(quantity=0)]}, "/take_off/0/quantity", "out-of-range"),
        ({"take_off": [one_line(quantity=-1)]}, "/take_off/0/quantity", "out-of-range"),
        ({"take_off": [one_line(quantity=float("nan"))]}, "/take_off/0/quantity", "out-of-range"),
        ({"take_off": [one_line(quantity=True)]}, "/take_off/0/quantity", "wrong-type"),
        ({"take_off": [one_line(kind="timber")]}, "/take_off/0/kind", "not-one-of"),
        ({"take_off": [one_line(unit="furlong")]}, "/take_off/0/unit", "not-one-of"),
        ({"take_off": [one_line(colour="red")]}, "/take_off/0/colour", "unknown-member"),
        ({"take_off": [one_line(id="=1+1")]}, "/take_off/0/id", "bad-id"),
        ({"take_off": [one_line(used=11)]}, "/take_off/0/used", "used-above-quantity"),
        ({"take_off": [one_line(), one_line()]}, "/take_off/1/id", "id-repeated"),
        ({"prices": [{"id": "a", "price": 9.25}]}, "/prices/0/price", "wrong-type"),
        ({"prices": [{"id": "a", "price": "9,25"}]}, "/prices/0/price", "unreadable"),
        ({"prices": [{"id": "a", "price": "-1"}]}, "/prices/0/price", "negative"),
        ({"prices": [{"id": "a"}]}, "/prices/0", "missing-member"),
        ({"prices": [{"price": "1"}]}, "/prices/0", "id-or-kind"),
        ({"prices": [{"id": "a", "kind": "screw", "price": "1"}]}, "/prices/0", "id-or-kind"),
        ({"prices": [{"id": "a", "price": "1"}] * 2}, "/prices/1", "id-repeated"),
        ({"prices": [{"id": "a", "price": "1", "pack": 0}]}, "/prices/0/pack", "out-of-range"),
        ({"prices": [{"kind": "screw", "price": "1", "unit": "kg"}]}, "/prices/0/unit", "unit-mismatch"),
        ({"labour": {"rate": "39.00"}}, "/labour", "missing-member"),
        ({"labour": {"hours": -1}}, "/labour/hours", "out-of-range"),
        ({"tax": 7}, "/tax", "wrong-type"),
        ({"tax": {"percent": "7"}}, "/tax/percent", "wrong-type"),
        ({"waste": {"timber": 10}}, "/waste/timber", "unknown-member"),
        ({"waste": {"board": {"yield": 0}}}, "/waste/board/yield", "out-of-range"),
        ({"mark_ups": [{"what": "overhead"}]}, "/mark_ups/0", "missing-member"),
        ({"currency": "dollars"}, "/currency", "unknown-currency"),
        ({"units": "cm"}, "/units", "not-one-of"),
        ({"discount": 5}, "/discount", "unknown-member"),
    ],
)
def test_bad_input_is_pointed_at(change, pointer, code):
    request = {"take_off": [one_line()], "prices": [], **change}
    with pytest.raises(RequestError) as caught:
        costings(request)
    assert {(e.pointer, e.code) for e in caught.value.errors} == {(pointer, code)}
    assert caught.value.errors[0].detail.endswith(".")


def test_all_faults_come_at_once():
    with pytest.raises(RequestError) as caught:
        costings({"take_off": [one_line(quantity=0), {"id": "b", "kind": "x", "quantity": 1}], "tax": {"percent": -1}})
    assert [e.pointer for e in caught.value.errors] == ["/take_off/0/quantity", "/take_off/1/kind", "/tax/percent"]
