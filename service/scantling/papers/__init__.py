"""Gathers a plan into papers for the shop: drawings, layouts, cut list, labels, packet, files to exchange."""

from .layouts import layout_drawing, layout_drawings, layout_svgs
from .operation import papers
from .render import FORMATS, SUFFIXES, offered, render, views

__all__ = [
    "FORMATS",
    "SUFFIXES",
    "layout_drawing",
    "layout_drawings",
    "layout_svgs",
    "offered",
    "papers",
    "render",
    "views",
]
