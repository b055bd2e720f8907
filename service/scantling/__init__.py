"""scantling: the computing behind furniture built alone in a home shop.

The packages below are layered; imports run downwards only (see DEVELOPERS.md).
"""

__version__ = "0.1.0"
