"""The kit that makes a furniture module prove itself: one line in a test, and every rule is tried at many points.

from scantling.testkit import assert_conforms

def test_my_stand():
    assert_conforms(MyStand)
"""

from .conform import Fault, assert_conforms, faults
from .points import Point, points

__all__ = ["Fault", "Point", "assert_conforms", "faults", "points"]
