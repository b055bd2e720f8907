"""Jigs, spacers, cauls and test pieces that are made from offcuts before the work begins."""

from collections.abc import Iterator
from typing import Any

from scantling.board import SawCut

from .dossier import Dossier, Piece
from .page import SMALL_MM, Column, Flow


def jigs(flow: Flow, dossier: Dossier) -> None:
    """Write what is made from offcuts first: test pieces for every angle, spacers for gaps, test fits for housings."""
    rows = [row for piece in dossier.pieces for row in _jigs(piece, dossier)]
    flow.section("Jigs, spacers and test pieces from offcuts", level=1, room=30)
    if not rows:
        flow.text("None are needed beyond the test cut for the kerf.")
        return
    flow.table([Column("for", 3, bold=True), Column("make", 5), Column("test", 6)], rows)
    kept = _offcuts(dossier)
    if kept:
        flow.text(f"There is room for them on what is left over: {'; '.join(kept)}.", size=SMALL_MM)


def _offcuts(dossier: Dossier) -> list[str]:
    """Return the largest remainders in words, one of each stock."""
    show = dossier.options.sizes.show
    largest: dict[str, tuple[float, str]] = {}
    for number, layout in enumerate(dossier.nesting["layouts"] if dossier.nesting else (), 1):
        for rest in layout["offcuts"]:
            wide = rest.get("width_mm")
            size = show(rest["length_mm"]) + (f" × {show(wide)}" if wide else "")
            words = f"layout {number}, {size} of {layout['stock']}"
            largest[layout["stock"]] = max(
                largest.get(layout["stock"], (0.0, "")), (rest["length_mm"] * (wide or 1.0), words)
            )
    return [words for _, words in largest.values()]


def _jigs(piece: Piece, dossier: Dossier) -> Iterator[list[str]]:
    show = dossier.options.sizes.show
    angles = {
        round(c.mitre or c.bevel, 2) for p in piece.assembly.parts.values() for c in p.cuts if isinstance(c, SawCut)
    }
    for angle in sorted(a for a in angles if a > 0):
        if abs(angle - 45) < 0.01:
            test = "put them together: a square shows no light inside or outside"
        else:
            test = (
                f"turn one over on the other: both together make {2 * angle:.1f}°; or check rise over run with a rule"
            )
        yield [piece.id, f"two test pieces cut at {angle:.1f}°", test]
    gaps = sorted({round(p.value, 2) for p in _promises(piece) if p.value > 0})
    for gap in gaps:
        yield [piece.id, f"two spacers {show(gap)} thick", "set the gap with them, not with the tape"]
    for depth in sorted({round(d, 2) for d in _housings(piece)}):
        yield [
            piece.id,
            f"a housing {depth:g} mm deep in an offcut",
            "the part that goes in must slide in by hand, without play",
        ]
    cauls = max((stage["cauls"] for stage in piece.answer.get("glue_ups") or ()), default=0)
    if cauls:
        yield [
            piece.id,
            f"{cauls} straight cauls",
            "as long as the joint they press; waxed or taped, so that no glue holds",
        ]
    if any(j.kind.value == "folded-mitre" for j in piece.assembly.joints.values()):
        yield [piece.id, "straight caul as long as the mitre", "tape outside, fold, the caul keeps the edge straight"]


def _promises(piece: Piece) -> Iterator[Any]:
    yield from (p for p in piece.assembly.promises if p.kind == "gap")


def _housings(piece: Piece) -> Iterator[float]:
    for part in piece.assembly.parts.values():
        for cut in part.cuts:
            if getattr(cut, "kind", "") in ("dado", "groove", "rabbet"):
                yield min(part.thickness, cut.z1) - max(0.0, cut.z0)  # type: ignore[union-attr]
