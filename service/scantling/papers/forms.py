"""The forms an answer can be had in: media types, file endings, and the names of the views. Light to import."""

from collections.abc import Mapping
from types import MappingProxyType
from typing import Literal

Kind = Literal["parts", "nesting", "project"]
KINDS: tuple[Kind, ...] = ("parts", "nesting", "project")
SVG, PDF, DXF = "image/svg+xml", "application/pdf", "image/vnd.dxf"
XLSX = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"
GLB, STEP, ZIP = "model/gltf-binary", "model/step", "application/zip"
FORMATS: Mapping[str, str] = MappingProxyType(
    {"svg": SVG, "pdf": PDF, "dxf": DXF, "xlsx": XLSX, "glb": GLB, "step": STEP, "zip": ZIP}
)
SUFFIXES: Mapping[str, str] = MappingProxyType({media: name for name, media in FORMATS.items()})
PACKET = "packet"

_OFFERED: Mapping[Kind, tuple[str, ...]] = MappingProxyType(
    {
        "parts": ("svg", "pdf", "dxf", "xlsx", "glb", "step", "zip"),
        "nesting": ("svg", "pdf", "dxf", "zip"),
        "project": ("svg", "pdf", "dxf", "xlsx", "zip"),
    }
)
_PIECE_VIEWS = ("isometric", "exploded", "plan", "front", "side", "drawings", "screws", "steps", "labels")
_VIEWS: Mapping[Kind, tuple[str, ...]] = MappingProxyType(
    {"parts": _PIECE_VIEWS, "nesting": ("layouts",), "project": (*_PIECE_VIEWS, "layouts", "place")}
)


def offered(kind: Kind) -> tuple[str, ...]:
    """Return the media types a kind of answer can be had as, in our order of preference."""
    return tuple(FORMATS[name] for name in _OFFERED[kind])


def views(kind: Kind, media_type: str) -> tuple[str, ...]:
    """Return the views a media type can show, the usual one first; none where there is only one way to see it."""
    if media_type == SVG:
        return _VIEWS[kind]
    if media_type == PDF:
        return _VIEWS[kind] if kind == "nesting" else (PACKET, *_VIEWS[kind])
    return ()
