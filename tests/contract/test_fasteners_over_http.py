"""What a fastener check takes over HTTP: both methods, a maker's own figures, thicknesses as ranges, dowels, nails.

The factors are those of EN 1995-1-1: Table 3.1 (kmod of solid wood and plywood), clause 8.7.2(4) and Eq. 8.40b.
"""

import pytest

FIR = {"material": "douglas-fir", "thickness": 89, "characteristic_density": 350}
SCREW = {"gauge": 10, "length": 60, "root_diameter": 3.1, "head_diameter": 9.5, "tensile_strength": 600}


def one(client, method="eurocode5", **joint):
    whole = {"id": "j", "layers": [{**FIR, "thickness": 19}, FIR], "fastener": SCREW, **joint}
    response = client.post("/v1/fastener-checks", json={"units": "mm", "method": method, "joints": [whole]})
    assert response.status_code == 200, response.text
    return response.json()["joints"][0]


@pytest.mark.parametrize(("service", "duration", "kmod"), [("dry", "long", 0.7), ("dry", "short", 0.9)])
def test_eurocode_5_is_what_its_name_says(client, service, duration, kmod):
    capacity = one(client, service=service, duration=duration)["capacity"]
    assert capacity["code"].startswith("EN 1995-1-1")
    assert capacity["factors"]["kmod"] == kmod


def test_a_makers_parameters_make_axial_values_where_there_were_none(client):
    bare = one(client)["capacity"]
    assert bare["pull_through_n"] is None and "head_parameter" in bare["missing"]["pull-through"]
    assert bare["withdrawal_n"] is None and "withdrawal_parameter" in bare["missing"]["withdrawal"]
    own = {**SCREW, "head_parameter": 12, "withdrawal_parameter": 13, "declared_density": 350}
    full = one(client, fastener=own)["capacity"]
    # Eq. 8.40b by hand: 12 N/mm2 x (9.5 mm)^2 x (350/350)^0.8, times kmod 0.7 over the partial factor 1.3
    assert full["pull_through_n"] == pytest.approx(12 * 9.5**2 * 0.7 / 1.3, abs=0.1)
    assert full["withdrawal_n"] > 0


def test_a_yield_moment_and_a_density_of_ones_own_count(client):
    weak = one(client, fastener={**SCREW, "yield_moment": 2_000})["capacity"]["lateral_n"]
    strong = one(client, fastener={**SCREW, "yield_moment": 20_000})["capacity"]["lateral_n"]
    dense = [{**FIR, "thickness": 19, "characteristic_density": 500}, {**FIR, "characteristic_density": 500}]
    assert weak < strong
    assert one(client, layers=dense)["capacity"]["lateral_n"] > one(client)["capacity"]["lateral_n"]


@pytest.mark.parametrize("method", ["nds", "eurocode5"])
def test_a_range_of_thicknesses_is_checked_at_its_worst(client, method):
    def point_out(thickness):
        receiver = {**FIR, "thickness": thickness}
        answer = one(client, method, layers=[{**FIR, "thickness": 19}, receiver], fastener={"gauge": 8, "length": 50})
        return "screw-point-out" in [finding["code"] for finding in answer["findings"]]

    assert not point_out(34)
    assert point_out({"status": "assumed", "least": 30, "most": 38})
    assert not point_out([33.9, 34.1])


def test_a_dowel_has_no_design_value_and_says_what_tests_found(client):
    layers = [{**FIR, "thickness": 60, "grain": "end"}, {**FIR, "thickness": 44}]
    answer = one(client, layers=layers, fastener={"kind": "dowel", "diameter": "3/8 in", "length": 50})
    assert answer["capacity"]["withdrawal_n"] is None
    assert answer["ultimate_withdrawal_n"] > 0
    assert answer["countersink"] is None


def test_a_countersink_is_as_wide_as_the_head(client):
    sunk = one(client)["countersink"]
    assert sunk["diameter_mm"] == pytest.approx(9.5)
    assert sunk["status"] in ("read", "derived", "memory")


@pytest.mark.parametrize("style", ["common", "box", "sinker"])
def test_a_nail_is_known_by_its_pennyweight(client, style):
    answer = one(client, "nds", fastener={"kind": "nail", "pennyweight": "8d", "style": style})
    assert f"8d {style} nail" in answer["fastener"]


@pytest.mark.parametrize(
    ("fastener", "pointer"),
    [
        ({**SCREW, "tensile_strength": 100}, "/joints/0/fastener/tensile_strength"),
        ({**SCREW, "head_parameter": "12"}, "/joints/0/fastener/head_parameter"),
        ({"kind": "rivet"}, "/joints/0/fastener/kind"),
    ],
)
def test_what_cannot_be_is_refused_with_its_place(client, fastener, pointer):
    body = {"method": "eurocode5", "joints": [{"id": "j", "layers": [FIR, FIR], "fastener": fastener}]}
    response = client.post("/v1/fastener-checks", json=body)
    assert response.status_code == 422
    assert f"#{pointer}" in [error["pointer"] for error in response.json()["errors"]]
