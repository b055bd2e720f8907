"""Case O9: outdoor bench with 5/8 in stretchers that cannot take the seat screws; no pilot holes, splits.

Source of the case: a published build (cheveedodd.com, 17 April 2016, outdoor bench): thin slats split in places, and
it was found half way that 5/8 in stock could not hold the screws; 1.5 in cleats were added.
The least bite of 6 diameters: NDS 2018 12.1.5. End distances without and with a pilot hole: its Commentary.
"""

from scantling.mechanics.fastener_check import fastener_checks

INCH = 25.4


def check(receiver_in: float, length_in: float, **more: object) -> dict:
    joint = {
        "id": "seat slat",
        "layers": [
            {"part": "slat", "material": "spruce-pine-fir", "thickness": 0.75 * INCH},
            {"part": "stretcher", "material": "spruce-pine-fir", "thickness": receiver_in * INCH},
        ],
        "fastener": {"kind": "wood screw", "gauge": 8, "length": length_in * INCH},
        **more,
    }
    return fastener_checks({"joints": [joint]})["joints"][0]


def codes(answer: dict) -> dict[str, str]:
    return {f["code"]: f["severity"] for f in answer["findings"]}


def test_five_eighths_is_too_thin_for_the_seat_screws() -> None:
    answer = check(5 / 8, 1.25)
    assert codes(answer)["receiver-too-thin"] == "warning"
    assert answer["length_window"]["empty"]
    assert answer["capacity"]["withdrawal_n"] is None


def test_it_is_an_error_where_a_load_needs_the_screw() -> None:
    answer = check(5 / 8, 1.25, loads={"withdrawal_n": 100})
    assert codes(answer)["screw-shallow"] == "error"


def test_a_cleat_behind_clears_it() -> None:
    answer = check(1.5, 2.0, loads={"withdrawal_n": 100})
    assert "receiver-too-thin" not in codes(answer)
    assert "screw-shallow" not in codes(answer)
    assert answer["length_window"]["take"] == "#8 x 2 in"
    assert 0 < answer["ratio"] < 1


def test_no_pilot_near_the_end_warns_and_a_pilot_clears_it() -> None:
    near = {"end_distance": 25.0}
    assert codes(check(1.5, 2.0, pilot=False, **near))["screw-near-end"] == "warning"
    bare = check(1.5, 2.0, pilot=False, **near)["findings"]
    assert any("Drill the pilot hole" in f["remedy"] for f in bare if f["code"] == "screw-near-end")
    assert "screw-near-end" not in codes(check(1.5, 2.0, pilot=True, **near))
