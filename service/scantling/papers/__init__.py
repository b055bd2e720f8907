"""Gathers a plan into papers for the shop: layouts now drawn, cut list as a table."""

from .layouts import layout_drawing, layout_svgs

__all__ = ["layout_drawing", "layout_svgs"]
