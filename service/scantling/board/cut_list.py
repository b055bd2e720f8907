"""The cut list: alike parts gathered into rows, with blank sizes, saw settings and what a maker must know of each."""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

from scantling.measure import Tape

from .alike import alike
from .assembly import Assembly
from .cuts import Curve, Easing, Hole, Recess
from .part import Part
from .saw_settings import SawSetting, point_lengths, saw_settings


@dataclass(frozen=True, slots=True)
class CutListRow:
    """Alike parts cut from one setting. Sizes are of the long-point blank, in mm.

    `hand` is "left", "right" or "" ; a handed row names its `twin`. `closing` parts are cut to the work. `waits` says
    why a part must not be cut before the sheet has met a caliper.
    """

    parts: tuple[str, ...]
    name: str
    role: str
    material: str
    thickness: float
    length: float
    width: float
    short_length: float
    grain: str
    shows: str
    hand: str
    twin: str | None
    closing: bool
    waits: str | None
    settings: tuple[SawSetting, ...]
    operations: tuple[str, ...]
    seal: tuple[str, ...]

    def to_plain(self, tape: Tape) -> dict[str, Any]:
        """Return the row as JSON members, with the sizes as read on a tape beside the exact ones."""
        return {
            "id": self.parts[0],
            "ids": list(self.parts),
            "name": self.name,
            "quantity": len(self.parts),
            "role": self.role,
            "material": self.material,
            "thickness_mm": round(self.thickness, 2),
            "length_mm": round(self.length, 2),
            "width_mm": round(self.width, 2),
            "length_text": _shown(self.length, tape, self.closing),
            "width_text": tape.show_with_error(self.width),
            "rounding_length_mm": round(tape.error(self.length), 2),
            "rounding_width_mm": round(tape.error(self.width), 2),
            "long_point_mm": round(self.length, 2),
            "short_point_mm": round(self.short_length, 2),
            "saw_settings": [
                {
                    "side": s.side,
                    "mitre_deg": round(s.mitre, 3),
                    "bevel_deg": round(s.bevel, 3),
                    "long_edge": s.long_edge,
                    "long_face": s.long_face,
                    "rise_mm": round(s.rise, 2),
                    "run_mm": round(s.run, 2),
                    "text": s.text(),
                }
                for s in self.settings
            ],
            "operations": list(self.operations),
            "grain": self.grain,
            "shows": self.shows,
            "hand": self.hand,
            "twin": self.twin,
            "closing": self.closing,
            "waits_for": self.waits,
            "seal": list(self.seal),
        }


def _shown(length: float, tape: Tape, closing: bool) -> str:
    return f"fit to the work, about {tape.show(length)}" if closing else tape.show_with_error(length)


def cut_list(assembly: Assembly) -> list[CutListRow]:
    """Return the cut list of an assembly: widest and longest first within a material, handed pairs told apart."""
    rows = [_row(assembly.parts[g.parts[0]], g.parts, g.hand, g.twin) for g in alike(list(assembly.parts.values()))]
    return sorted(rows, key=lambda r: (r.material, -r.thickness, -r.width, -r.length, r.parts))


def _row(part: Part, ids: tuple[str, ...], hand: str, twin: str | None) -> CutListRow:
    long, short = point_lengths(part)
    waits = None
    if part.material.assumed and any(isinstance(c, Recess) for c in part.cuts):
        waits = "its joint depends on a thickness nobody has measured yet"
    return CutListRow(
        ids,
        part.name,
        part.material.role,
        part.material.material,
        part.thickness,
        part.length,
        part.width,
        min(short, long),
        part.grain,
        part.shows,
        hand,
        twin,
        part.closing,
        waits,
        tuple(saw_settings(part)),
        tuple(operations(part)),
        part.seal,
    )


def operations(part: Part) -> Iterable[str]:
    """Return the cuts of a part other than saw cuts, in words with mm."""
    for cut in part.cuts:
        if isinstance(cut, Recess):
            size = part.size
            (x0, x1), (y0, y1) = (max(0.0, cut.x0), min(size[0], cut.x1)), (max(0.0, cut.y0), min(size[1], cut.y1))
            depth = min(size[2], cut.z1) - max(0.0, cut.z0)
            words = f"{cut.kind} {x1 - x0:.1f} × {y1 - y0:.1f} mm, {x0:.1f} mm from start, {y0:.1f} mm from near"
            side = "back" if cut.z0 <= 0 else "face"
            yield words if cut.kind in ("notch", "slot") else f"{words}, {depth:.1f} mm deep in the {side}"
        elif isinstance(cut, Hole):
            depth_words = "through" if cut.depth is None else f"{cut.depth:.1f} mm deep in the {cut.side}"
            yield f"{cut.purpose} {cut.diameter:.1f} mm at {cut.x:.1f} from start, {cut.y:.1f} from near, {depth_words}"
        elif isinstance(cut, Easing):
            yield f"{cut.kind} {cut.size:.1f} mm on {cut.edge}"
        elif isinstance(cut, Curve):
            yield f"curve {cut.rise:.1f} mm on the {cut.side} side"
