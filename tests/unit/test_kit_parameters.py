"""Parameters: what a caller writes is read with units and ranges, and what is wrong comes back by name."""

from dataclasses import dataclass

import jsonschema
import pytest

from pieces import MODULES
from scantling.kit import CushionSize, Parameters, angle, choice, count, cushion, flag, length, ratio
from scantling.measure import RequestError


@dataclass(frozen=True)
class Bench(Parameters):
    seats: int = count(2, least=1, most=6, says="Seats.")
    height: float = length(430, least=300, most=600, says="Height.")
    lean: float = angle(12, least=0, most=30, says="Lean.")
    share: float = ratio(0.5, least=0, most=1, says="Share.")
    arms: str = choice("both", "both", "none", says="Arms.")
    drawer: bool = flag(False, says="Drawer.")
    pad: CushionSize = cushion(500, 450, 100, says="Cushion.")


def faults(plain, unit="mm"):
    with pytest.raises(RequestError) as caught:
        Bench.read(plain, unit)
    return {e.pointer: e.detail for e in caught.value.errors}


def test_defaults_build_without_a_word():
    bench = Bench.read({})
    assert (bench.seats, bench.height, bench.arms, bench.drawer) == (2, 430, "both", False)
    assert bench.pad.assumed


def test_lengths_are_text_or_numbers_in_the_requests_unit():
    assert Bench.read({"height": '17 1/2"'}).height == pytest.approx(444.5)
    assert Bench.read({"height": 17.5}, "in").height == pytest.approx(444.5)
    assert Bench.read({"height": "45 cm"}, "in").height == pytest.approx(450)


def test_a_length_that_may_be_negative_is_read_with_its_sign():
    """Soft cushions may be squeezed: their gap has a least below nothing."""
    gap = MODULES["leaning-seat"].parameters.read({"cushion_gap": "-1/4 in"}).cushion_gap
    assert gap == pytest.approx(-6.35)
    assert MODULES["leaning-seat"].parameters.read({"cushion_gap": -5}).cushion_gap == -5
    with pytest.raises(RequestError, match="seat_height"):
        MODULES["leaning-seat"].parameters.read({"seat_height": -430})


def test_an_angle_may_be_rise_over_run():
    assert Bench.read({"lean": "1 in 5"}).lean == pytest.approx(11.3099, abs=1e-4)


def test_a_measured_cushion_keeps_its_extremes():
    pad = Bench.read({"pad": {"width": [498, 503], "depth": 450, "thickness": 100, "loaded": [70, 74]}}).pad
    assert (pad.width.least, pad.width.most, pad.loaded.typical, pad.assumed) == (498, 503, 72, False)


def test_a_cushion_nobody_sat_on_is_assumed_as_a_band():
    pad = Bench.read({"pad": {"width": 500, "depth": 450, "thickness": 100}}).pad
    assert pad.loaded.status == "assumed"
    assert pad.loaded.least < pad.loaded.most < 100


@pytest.mark.parametrize(
    ("plain", "pointer", "words"),
    [
        ({"seat": 3}, "/parameters/seat", "not a parameter"),
        ({"seats": 2.5}, "/parameters/seats", "whole number"),
        ({"seats": True}, "/parameters/seats", "not a number"),
        ({"seats": 0}, "/parameters/seats", "outside 1 to 6"),
        ({"height": 46085}, "/parameters/height", "date"),
        ({"height": "4-Mar"}, "/parameters/height", "date"),
        ({"height": 200}, "/parameters/height", "outside 300 to 600 mm"),
        ({"height": None}, "/parameters/height", "length"),
        ({"lean": 45}, "/parameters/lean", "outside 0 to 30 degrees"),
        ({"arms": "left"}, "/parameters/arms", "choose both, none"),
        ({"drawer": "yes"}, "/parameters/drawer", "neither true nor false"),
        ({"share": "half"}, "/parameters/share", "not a number"),
        ({"pad": 500}, "/parameters/pad", "a cushion is an object"),
        ({"pad": {"width": 500, "depth": 450}}, "/parameters/pad", "lacks thickness"),
        ({"pad": {"width": 5, "depth": 450, "thickness": 100}}, "/parameters/pad", "outside 20 to 2500"),
        ({"pad": {"width": 500, "depth": 450, "thickness": 90, "loaded": 95}}, "/parameters/pad", "cannot exceed"),
    ],
)
def test_bad_values_name_the_member_and_what_would_be_accepted(plain, pointer, words):
    found = faults(plain)
    assert list(found) == [pointer]
    assert words in found[pointer]


def test_all_faults_come_back_at_once():
    assert set(faults({"seats": 9, "height": "x", "arms": 1})) == {
        "/parameters/seats",
        "/parameters/height",
        "/parameters/arms",
    }


@pytest.mark.parametrize("module", [Bench, *(m.parameters for m in MODULES.values())])
def test_the_schema_is_valid_describes_everything_and_takes_the_defaults(module):
    schema = module.schema()
    jsonschema.Draft202012Validator.check_schema(schema)
    assert all(member["description"] and "default" in member for member in schema["properties"].values())
    defaults = {name: member["default"] for name, member in schema["properties"].items()}
    jsonschema.validate(defaults, schema)
    assert module.read(defaults) == module.read({})
