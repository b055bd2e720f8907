"""Writes a piece as binary glTF 2.0: one node a part, named by its id; metres, +Y up, as the format asks.

A mesh is in the board frame round the middle of the blank, where 32-bit numbers are exact enough for thicknesses; the
node's matrix, in the JSON part, places it. A part of several cells is their closed shells side by side.
"""

import json
from struct import pack
from typing import Any

from scantling.board import Assembly, Part
from scantling.board.vector import Vector, sub

METRE = 1000.0
FLOAT, INDEX = 5126, 5125
ARRAY_BUFFER, ELEMENT_BUFFER = 34962, 34963


def to_glb(assembly: Assembly) -> bytes:
    """Return the assembly as a GLB file; the same assembly gives the same bytes."""
    document: dict[str, Any] = {
        "asset": {"version": "2.0", "generator": "scantling"},
        "scene": 0,
        "scenes": [{"name": assembly.title or assembly.module, "nodes": list(range(len(assembly.parts)))}],
        "nodes": [],
        "meshes": [],
        "materials": [{"name": "wood", "pbrMetallicRoughness": {"metallicFactor": 0.0, "roughnessFactor": 0.9}}],
        "accessors": [],
        "bufferViews": [],
        "buffers": [{"byteLength": 0}],
    }
    data = bytearray()
    for i, part in enumerate(assembly.parts.values()):
        _mesh(part, document, data)
        extras = {"name": part.name, "material": part.material.material, "role": part.material.role}
        document["nodes"].append({"name": part.id, "mesh": i, "matrix": _matrix(part), "extras": extras})
    document["buffers"][0]["byteLength"] = len(data)
    return _container(document, bytes(data))


def _middle(part: Part) -> Vector:
    return (part.length / 2, part.width / 2, part.thickness / 2)


def _matrix(part: Part) -> list[float]:
    """Return the node's matrix, column by column: from the board frame to the world, z up turned to y up."""
    frame = part.frame
    origin = frame.point(_middle(part))
    columns = [(*_y_up(axis), 0.0) for axis in (frame.along, frame.across, frame.through)]
    place = _y_up(origin)
    columns.append((place[0] / METRE, place[1] / METRE, place[2] / METRE, 1.0))
    return [round(value, 12) + 0.0 for column in columns for value in column]


def _y_up(v: Vector) -> Vector:
    return (v[0], v[2], -v[1])


def _mesh(part: Part, document: dict[str, Any], data: bytearray) -> None:
    positions: list[Vector] = []
    normals: list[Vector] = []
    indices: list[int] = []
    for cell in part.cells_local():
        for face in cell.faces:
            first = len(positions)
            for corner in face.corners:
                local = sub(corner, _middle(part))
                positions.append((local[0] / METRE, local[1] / METRE, local[2] / METRE))
                normals.append(face.plane.normal)
            for k in range(1, len(face.corners) - 1):
                indices += [first, first + k, first + k + 1]
    low = [min(p[k] for p in positions) for k in range(3)]
    high = [max(p[k] for p in positions) for k in range(3)]
    at = _vectors(positions, document, data, {"min": low, "max": high})
    normal = _vectors(normals, document, data, {})
    view = _view(pack(f"<{len(indices)}I", *indices), ELEMENT_BUFFER, document, data)
    document["accessors"].append({"bufferView": view, "componentType": INDEX, "count": len(indices), "type": "SCALAR"})
    primitive = {
        "attributes": {"POSITION": at, "NORMAL": normal},
        "indices": len(document["accessors"]) - 1,
        "material": 0,
    }
    document["meshes"].append({"name": part.id, "primitives": [primitive]})


def _vectors(vectors: list[Vector], document: dict[str, Any], data: bytearray, more: dict[str, Any]) -> int:
    flat = [c for v in vectors for c in v]
    view = _view(pack(f"<{len(flat)}f", *flat), ARRAY_BUFFER, document, data)
    accessor = {"bufferView": view, "componentType": FLOAT, "count": len(vectors), "type": "VEC3", **more}
    document["accessors"].append(accessor)
    return len(document["accessors"]) - 1


def _view(chunk: bytes, target: int, document: dict[str, Any], data: bytearray) -> int:
    document["bufferViews"].append({"buffer": 0, "byteOffset": len(data), "byteLength": len(chunk), "target": target})
    data += chunk
    return len(document["bufferViews"]) - 1


def _container(document: dict[str, Any], data: bytes) -> bytes:
    """Return JSON and binary chunks in the GLB container (glTF 2.0, section 4.4)."""
    text = json.dumps(document, ensure_ascii=True, separators=(",", ":")).encode("ascii")
    text += b" " * (-len(text) % 4)
    data += b"\0" * (-len(data) % 4)
    total = 12 + 8 + len(text) + 8 + len(data)
    return b"".join(
        [
            pack("<4sII", b"glTF", 2, total),
            pack("<I4s", len(text), b"JSON"),
            text,
            pack("<I4s", len(data), b"BIN\0"),
            data,
        ]
    )
