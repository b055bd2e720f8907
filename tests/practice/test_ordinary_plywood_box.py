"""Common practice: a glued and screwed box of 18 mm plywood is sound, so a check of it must not cry error.

No published source: this is what shops build. Screws pull up the glue (role clamps), #8, heads a little below the face.
"""

import pytest

from scantling.mechanics.fastener_check import fastener_checks


def joint(name: str, gauge: int, length_in: float, material: str, pilot: bool | None, thickness: float) -> dict:
    return {
        "id": name,
        "layers": [
            {"part": "top", "material": material, "thickness": thickness, "grain": "face"},
            {"part": "side", "material": material, "thickness": 300.0, "grain": "edge"},
        ],
        "fastener": {"kind": "wood screw", "gauge": gauge, "length": length_in * 25.4},
        "role": "clamps",
        "head_depth": 1.0,
        "count": 4,
        "edge_distance": thickness / 2,
        "end_distance": 50.0,
        "pilot": pilot,
    }


@pytest.mark.parametrize("material", ["birch-plywood", "softwood-plywood", "marine-plywood"])
@pytest.mark.parametrize("pilot", [None, True, False])
@pytest.mark.parametrize("thickness", [17.3, 18.0, 18.7])
@pytest.mark.parametrize(("gauge", "length_in"), [(6, 1.5), (8, 1.25), (8, 1.5), (8, 2.0), (10, 2.0)])
def test_no_error_in_an_ordinary_box(
    material: str, pilot: bool | None, thickness: float, gauge: int, length_in: float
) -> None:
    answer = fastener_checks({"joints": [joint("corner", gauge, length_in, material, pilot, thickness)]})["joints"][0]
    assert [f["code"] for f in answer["findings"] if f["severity"] == "error"] == []
    assert answer["length_window"]["shortest_mm"] <= length_in * 25.4 <= answer["length_window"]["longest_mm"]


def test_two_sheets_face_to_face_take_a_stocked_screw() -> None:
    """18 mm on 18 mm: a #8 x 1-1/4 in is what a shop reaches for."""
    layer = {"material": "birch-plywood", "thickness": 18.0, "grain": "face"}
    answer = fastener_checks(
        {
            "joints": [
                {
                    "id": "doubled",
                    "layers": [layer, layer],
                    "fastener": {"kind": "wood screw", "gauge": 8, "length": 31.75},
                    "role": "clamps",
                }
            ]
        }
    )["joints"][0]
    assert answer["length_window"]["take"] == "#8 x 1-1/4 in"
    assert [f["severity"] for f in answer["findings"]] == ["note"]
