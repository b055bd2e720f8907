"""Whatever a request within its limits says, a fastener check answers with finite numbers and known codes."""

import json
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from scantling.findings import catalogue
from scantling.mechanics import fastener_checks
from scantling.tables import lag_screws, materials, screw_gauges

lengths = st.floats(0.5, 400.0)
thickness = st.one_of(
    lengths,
    st.lists(st.floats(3.0, 40.0), min_size=1, max_size=4),
    st.tuples(st.floats(3.0, 40.0), st.floats(0.0, 5.0)).map(
        lambda pair: {"status": "assumed", "least": pair[0], "most": pair[0] + pair[1]}
    ),
)
layer = st.fixed_dictionaries(
    {
        "material": st.sampled_from(sorted(materials())),
        "thickness": thickness,
        "grain": st.sampled_from(["face", "side", "edge", "end"]),
    }
)
fastener = st.one_of(
    st.fixed_dictionaries({"gauge": st.sampled_from(sorted(screw_gauges())), "length": st.floats(3.0, 200.0)}),
    st.fixed_dictionaries(
        {"kind": st.just("lag screw"), "diameter": st.sampled_from(sorted(lag_screws())), "length": st.floats(26, 300)}
    ),
    st.fixed_dictionaries(
        {
            "kind": st.just("nail"),
            "pennyweight": st.sampled_from(["6d", "8d", "10d", "16d"]),
            "style": st.just("common"),
        }
    ),
    st.fixed_dictionaries({"kind": st.just("bolt"), "diameter": st.floats(6.0, 25.0), "length": st.floats(20, 300)}),
)
dowel = st.fixed_dictionaries({"kind": st.just("dowel"), "diameter": st.floats(3, 20), "length": st.floats(10, 150)})
joint = st.fixed_dictionaries(
    {
        "id": st.just("a"),
        "layers": st.lists(layer, min_size=1, max_size=4),
        "fastener": fastener,
        "role": st.sampled_from(["holds", "clamps", "locates"]),
        "head_depth": st.floats(0.0, 0.4),
        "count": st.integers(1, 12),
        "loads": st.fixed_dictionaries({"withdrawal_n": st.floats(0, 5000), "lateral_n": st.floats(0, 5000)}),
        "service": st.sampled_from(["dry", "wet"]),
        "duration": st.sampled_from(["permanent", "long", "medium", "short", "instantaneous"]),
        "pilot": st.sampled_from([True, False, None]),
        "toe": st.booleans(),
        "load_angle": st.floats(0, 90),
        "edge_distance": st.one_of(st.none(), lengths),
        "end_distance": st.one_of(st.none(), lengths),
        "spacing": st.one_of(st.none(), lengths),
    }
)


@given(layers=st.lists(layer, min_size=2, max_size=2), fastener=dowel, role=st.sampled_from(["holds", "locates"]))
def test_any_dowel_is_answered(layers: list[Any], fastener: dict[str, Any], role: str) -> None:
    request = {"id": "a", "layers": layers, "fastener": fastener, "role": role, "loads": {"lateral_n": 10.0}}
    json.dumps(fastener_checks({"joints": [request]}), allow_nan=False)


@settings(max_examples=150, deadline=None)
@given(joint=joint, method=st.sampled_from(["nds", "eurocode5"]))
def test_any_joint_is_answered(joint: dict[str, Any], method: str) -> None:
    answer = fastener_checks({"method": method, "joints": [joint]})
    json.dumps(answer, allow_nan=False)
    checked = answer["joints"][0]
    assert {f["code"] for f in checked["findings"]} <= set(catalogue())
    window = checked["length_window"]
    if window["take"] is not None:
        taken = next(s["length_mm"] for s in window["stocked"] if s["label"] == window["take"])
        assert window["shortest_mm"] - 0.02 <= taken <= window["longest_mm"] + 0.02
    if joint["role"] != "holds":
        assert checked["ratio"] is None
