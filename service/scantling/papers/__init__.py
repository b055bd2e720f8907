"""Gathers a plan into papers for the shop: drawings, layouts, cut list, labels, packet, files to exchange.

What only names the forms is imported at once; what draws is imported when it is first asked for.
"""

from importlib import import_module
from typing import TYPE_CHECKING, Any

from .forms import FORMATS, SUFFIXES, Kind, offered, views

if TYPE_CHECKING:
    from .layouts import layout_drawing, layout_drawings, layout_svgs
    from .operation import papers
    from .registry import render

__all__ = [
    "FORMATS",
    "SUFFIXES",
    "Kind",
    "layout_drawing",
    "layout_drawings",
    "layout_svgs",
    "offered",
    "papers",
    "render",
    "views",
]

_WHERE = {
    "layout_drawing": "layouts",
    "layout_drawings": "layouts",
    "layout_svgs": "layouts",
    "papers": "operation",
    "render": "registry",
}


def __getattr__(name: str) -> Any:  # noqa: ANN401 - any of the names above
    if name not in _WHERE:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    return getattr(import_module(f".{_WHERE[name]}", __name__), name)
