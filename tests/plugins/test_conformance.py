"""Every shipped module keeps every rule of the test kit, at its edges and at random points."""

import pytest

from pieces import MODULES
from scantling.testkit import assert_conforms


@pytest.mark.parametrize("id", sorted(MODULES))
def test_shipped_modules_conform(id):
    assert_conforms(MODULES[id])
