"""Views as plain shapes, and the writers that put them on paper."""

from .shapes import Drawing, Line, Rectangle, Text
from .svg import to_svg

__all__ = ["Drawing", "Line", "Rectangle", "Text", "to_svg"]
