"""Every shipped module goes together whatever the sheets and boards measure within what a shop may sell."""

import pytest

from pieces import MODULES, build
from scantling.dryfit import verify
from scantling.findings import Severity
from scantling.kit import AssemblyError
from scantling.testkit import points


def thicknesses():
    for id, module in sorted(MODULES.items()):
        for label in ("least", "most"):
            yield pytest.param(id, {n: getattr(r, label) for n, r in module.roles.items()}, id=f"{id} {label}")
        for name, role in module.roles.items():
            if len(module.roles) > 1:
                yield pytest.param(id, {name: role.most}, id=f"{id} {name} thick")
                yield pytest.param(id, {name: role.least}, id=f"{id} {name} thin")


@pytest.mark.parametrize(("id", "thickness"), list(thicknesses()))
def test_it_goes_together(id, thickness):
    found = verify(build(id, **thickness)).findings
    assert [f.message for f in found if f.severity is Severity.ERROR] == []


@pytest.mark.parametrize("id", sorted(MODULES))
def test_no_part_is_wider_than_the_board_it_is_cut_from(id):
    """A blank wider than its board can be bought nowhere; tried at the defaults, the edges and ten random points."""
    module = MODULES[id]
    for point in points(module, 10):
        try:
            parts = build(id, point.values).parts.values()
        except AssemblyError:
            continue
        wide = [p.id for p in parts if p.material.width is not None and p.width > p.material.width + 0.01]
        assert wide == [], point.name
