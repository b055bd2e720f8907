"""The kit that makes a furniture module, and a whole plugin, prove itself: one line in a test tries every rule.

from scantling.testkit import assert_conforms, assert_plugin_conforms

def test_my_stand():
    assert_conforms(MyStand)

def test_my_plugin():
    assert_plugin_conforms("my-plugin")
"""

from .conform import Fault, assert_conforms, faults
from .plugins import assert_plugin_conforms, plugin_faults
from .points import Point, points

__all__ = ["Fault", "Point", "assert_conforms", "assert_plugin_conforms", "faults", "plugin_faults", "points"]
