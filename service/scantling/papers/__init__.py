"""Gathers a plan into papers for the shop: drawings, layouts, cut list, labels, packet, files to exchange."""

from .layouts import layout_drawing, layout_drawings, layout_svgs

__all__ = ["layout_drawing", "layout_drawings", "layout_svgs"]
