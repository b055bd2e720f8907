"""Views as plain shapes, and the writers that put them on paper."""

from .shapes import Circle, Drawing, DrawnChain, Path, Segments, Shape, Text
from .svg import to_svg

__all__ = ["Circle", "Drawing", "DrawnChain", "Path", "Segments", "Shape", "Text", "to_svg"]
