"""The reference values of a placed part: its wood, the way it spans, and how the load presses on it."""

from dataclasses import replace

from scantling.board import Part
from scantling.mechanics.basis import WoodValues
from scantling.mechanics.strength import wood_values

EDGE_SHEAR = 9.5 / 2.67  # panel over planar shear, European plywood: Structural Engineer's Pocket Book p. 266


def wood_of_part(part: Part, axis: str, way: str) -> WoodValues:
    """Return the reference values of a part spanning along an axis. Raises ValueError or LookupError."""
    along = (part.grain != "across") if axis == "length" else (part.grain == "across")
    along = along or not part.material.has_grain
    solid = part.material.stock_kind == "board"
    wide = part.width if solid else 300.0
    values = wood_values(
        part.material.material, round(part.thickness, 2), round(wide, 2), along=along, flat=way == "flat"
    )
    if solid or way == "flat":
        return values
    # On edge a panel is sheared through its thickness, not between its plies, and bent as a deep thin beam.
    edge_bending = min(values.bending, values.compression)
    return replace(values, bending=edge_bending, shear=values.shear * EDGE_SHEAR)
