"""Every shipped module is planned through the seam: its parts lie on stock that is sold, nothing speaks against it."""

import pytest

from pieces import MODULES, build
from scantling.work import run


def stock_for(module):
    """Sheets of 2440 × 1220 and boards of 3660 mm for every role, at made-up prices."""
    stock = {}
    for role in module.roles.values():
        key = (role.material, role.thickness, role.width)
        one = {"id": " ".join(map(str, key)), "material": role.material, "thickness": role.thickness, "price": "10.00"}
        size = {"length": 2440, "width": 1220} if role.width is None else {"length": 3660, "board_width": role.width}
        stock[key] = {**one, **size}
    return list(stock.values())


@pytest.mark.parametrize("id", sorted(MODULES))
def test_it_can_be_bought_and_cut(id):
    plan = run(
        "projects",
        {
            "name": "one of each",
            "units": "mm",
            "modules": [{"id": "piece", "module": id}],
            "stock": stock_for(MODULES[id]),
            "saws": [{"id": "saw", "kind": "table saw", "kerf": 3, "trim": 5}],
            "effort": "quick",
        },
    )
    assert plan["nesting"]["unplaced"] == []
    laid = sum(layout["count"] * len(layout["placements"]) for layout in plan["nesting"]["layouts"])
    assert laid == len(build(id).parts)
    assert [f["message"] for f in plan["findings"] if f["severity"] == "error"] == []
