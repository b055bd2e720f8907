"""The figures as a cell asks them: named texts in, one value out, every fault by name."""

import json

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scantling.measure import FIGURES, MeasureError, Parameter, RequestError, parse_angle, parse_length

SAMPLES = {
    "board-feet": {"thickness": "2", "width": "6", "length": "8"},
    "mitre-and-bevel": {},
    "sheets-needed": {"length": "700 mm", "width": "400 mm", "quantity": "50"},
    "pieces-per-board": {"board_length": "8 ft", "piece": "700 mm"},
    "equal-strips": {"width": "48 in", "count": "3"},
    "leg-splay": {"height": "45 cm", "out": "1 1/4 in"},
    "mitre-error": {"joint": "50 mm"},
    "lean": {"angle": "10"},
    "polygon": {"across": "0.5 m"},
}


def test_every_figure_is_sampled():
    assert set(SAMPLES) == set(FIGURES)


@pytest.mark.parametrize("name", sorted(FIGURES))
@pytest.mark.parametrize("units", ["mm", "in"])
def test_a_figure_answers_with_its_defaults(name, units):
    answer = FIGURES[name].answer(SAMPLES[name], units).to_plain()
    assert json.loads(json.dumps(answer)) == answer
    assert answer["rows"]
    assert answer["text"]
    assert answer["value"] == answer["rows"][0]["value"]
    assert len(FIGURES[name].sentence) > 20


@pytest.mark.parametrize("name", sorted(FIGURES))
def test_defaults_lie_within_their_own_bounds(name):
    for parameter in FIGURES[name].parameters:
        for units in ("mm", "in"):
            default = parameter.default_for(units)
            if default is not None:
                parameter.read(default, units)
        assert parameter.sentence.endswith(".")


def test_the_table_of_figures_cannot_be_changed():
    with pytest.raises(TypeError):
        FIGURES["x"] = FIGURES["lean"]


def problems(name, **given_):
    with pytest.raises(RequestError) as caught:
        FIGURES[name].answer(given_)
    return {(p.pointer, p.code) for p in caught.value.errors}


def test_every_fault_is_named_at_once():
    assert problems("board-feet", thickness="4-Mar", width="6", colour="red") == {
        ("/colour", "unknown-member"),
        ("/thickness", "spreadsheet-date"),
        ("/length", "missing"),
    }
    assert problems("mitre-and-bevel", sides="2", slope="95", slope_from="left") == {
        ("/sides", "out-of-range"),
        ("/slope", "out-of-range"),
        ("/slope_from", "out-of-range"),
    }
    assert problems("mitre-and-bevel", sides="4.5") == {("/sides", "out-of-range")}
    assert problems("equal-strips", width="0", count="0") == {("/width", "out-of-range"), ("/count", "out-of-range")}
    assert problems("lean", angle="steep") == {("/angle", "unreadable")}


def test_values_that_do_not_go_together():
    assert problems("sheets-needed", length="3000", width="100") == {("", "values-do-not-go-together")}
    assert problems("sheets-needed", length="300", width="100", grain="along", sheet_width="90") == {
        ("", "values-do-not-go-together")
    }
    assert problems("pieces-per-board", board_length="500", piece="600") == {("", "values-do-not-go-together")}
    assert problems("equal-strips", width="20", count="30") == {("", "values-do-not-go-together")}
    assert problems("sheets-needed", length="10", width="10", sheet_width="600", trim="400") == {
        ("", "values-do-not-go-together")
    }


def test_decimal_commas_and_inches():
    answer = FIGURES["equal-strips"].answer({"width": "1219,2 mm", "count": "3"}, decimal_comma=True)
    assert answer.value == pytest.approx((1219.2 - 6.35) / 3)
    in_inches = FIGURES["equal-strips"].answer({"width": "48", "count": "3"}, "in")
    assert in_inches.value == pytest.approx(answer.value)
    assert in_inches.text == '15 7/8" (exactly 404.28 mm)'  # on sixteenths, the last one below 15.9167 in


def test_sheets_needed_says_when_it_is_not_proven():
    answer = FIGURES["sheets-needed"].answer({"length": "700", "width": "400", "quantity": "50", "kerf": "3.2"})
    assert (answer.value, answer.rows[1][1], answer.rows[2][1], answer.proven) == (6, 9, 5, False)
    grained = FIGURES["sheets-needed"].answer({"length": "700", "width": "400", "quantity": "50", "grain": "along"})
    assert grained.proven
    assert grained.value == 6  # 3 x 3 on a sheet of 2440 x 1220


def test_a_parameter_must_be_of_a_known_kind():
    with pytest.raises(ValueError, match="kind"):
        Parameter("x", "colour", "No.")
    with pytest.raises(ValueError, match="choices"):
        Parameter("x", "choice", "No.")


def test_numbers_are_read_strictly():
    share = Parameter("share", "number", "A share.", most=1.0)
    assert share.read("0.5") == 0.5
    assert share.read("0,5", decimal_comma=True) == 0.5
    for bad in ("nan", "1e-3", "", "-1", "2", "0,5", "½"):
        with pytest.raises(MeasureError):
            share.read(bad)


@given(st.sampled_from(sorted(FIGURES)), st.data())
def test_any_texts_give_an_answer_or_named_problems(name, data):
    text = st.one_of(st.text(max_size=12), st.integers(0, 3000).map(str), st.sampled_from(["any", "1/16 in", "1 in 4"]))
    given_ = {p.name: data.draw(text) for p in FIGURES[name].parameters if data.draw(st.booleans())}
    try:
        FIGURES[name].answer(given_)
    except RequestError as error:
        assert all(p.detail for p in error.errors)


def test_the_lean_figure_round_trips():
    answer = FIGURES["lean"].answer({"angle": "105 mm in 600 mm"})
    assert answer.text == "105 mm in 600 mm"
    assert parse_angle(answer.text) == pytest.approx(9.926, abs=0.001)
    assert parse_length(answer.rows[0][3]) == pytest.approx(105)
