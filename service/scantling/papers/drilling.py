"""The bits to drill with: clearance hole and pilot for every size of screw and wood, as the checks have them."""

from scantling.board import Fastener, Part
from scantling.mechanics.holes import clearance_hole, pilot_hole
from scantling.mechanics.validity import OutOfValidity
from scantling.tables import materials
from scantling.tables.errors import UnknownGauge
from scantling.tables.screws import screw_gauge

from .dossier import Dossier
from .page import Column, Flow


def drilling(flow: Flow, dossier: Dossier) -> None:
    """Write the table of bits, one row a screw size and wood."""
    rows: dict[tuple[str, str], list[str]] = {}
    for piece in dossier.pieces:
        for f in piece.assembly.fasteners.values():
            if f.kind == "wood screw":
                holding = piece.assembly.parts[f.parts[-1]]
                key = (f"{f.gauge:>2}", holding.material.material)
                if key not in rows:
                    rows[key] = _row(f, holding, dossier)
    if not rows:
        return
    flow.text("Drill the upper part first, clamp, then the pilot through it. Try both in an offcut of the same wood.")
    columns = [Column("screw", 2, bold=True), Column("into", 3), Column("upper part: clearance", 4), Column("pilot", 4)]
    flow.table(columns, [rows[key] for key in sorted(rows)])


def _row(screw: Fastener, holding: Part, dossier: Dossier) -> list[str]:
    inch = dossier.options.sizes.tape.denominator > 0
    clear = clearance_hole(screw.diameter)
    bit = clear.bit_inch if inch else clear.bit_metric
    return [f"no. {screw.gauge}", holding.material.material, bit.label, _pilot(screw, holding, inch)]


def _pilot(screw: Fastener, holding: Part, inch: bool) -> str:
    wood = materials().get(holding.material.material)
    gravity = None if wood is None else wood.specific_gravity_nds or wood.specific_gravity_wh
    if gravity is None:
        return "try in an offcut"
    try:
        hole = pilot_hole(screw.diameter, screw_gauge(screw.gauge).root_mm, gravity, False)
    except (OutOfValidity, UnknownGauge):
        return "try in an offcut"
    bit = hole.bit_inch if inch else hole.bit_metric
    return bit.label + ("" if hole.needed else " (may be left out)")
