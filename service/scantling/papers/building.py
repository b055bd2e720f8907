"""The steps of assembly with pictures, screws and tools; jigs and test pieces; glue and finish; cautions; care."""

from collections.abc import Iterator, Mapping
from datetime import date, timedelta
from typing import Any

from scantling.board import SawCut
from scantling.drawing.assembling import step_pictures
from scantling.drawing.screw_map import kind_of
from scantling.tables.errors import UnknownRowError
from scantling.tables.finishing import coverages, glue_property

from .dossier import Dossier, Piece, Plain
from .page import Column, Flow

PICTURE_MM = (112.0, 72.0)
GLUE_TIMES = (("open time", "open_min"), ("closed time", ""), ("clamp time", "clamp_min"), ("full cure", ""))
DEFAULT_GLUE = "cross-linking PVA"


def assembly_steps(flow: Flow, dossier: Dossier) -> None:
    """Write the steps of every piece."""
    for piece in dossier.pieces:
        flow.new_page()
        flow.section(f"Assembly of {piece.title}", room=90)
        steps = piece.answer["steps"]
        if not steps:
            flow.text("No order of assembly was found; see the findings.")
        drawings = step_pictures(piece.assembly, piece.brings(), *PICTURE_MM)
        for number, (step, drawing) in enumerate(zip(steps, drawings, strict=True), 1):
            seen = drawing.title.partition(", ")[2]
            words = [step["text"], *_screws(step, piece, dossier), f"Seen {seen}."]
            flow.beside(drawing, [(f"Step {number}", True), *((w, False) for w in words)])


def _screws(step: Plain, piece: Piece, dossier: Dossier) -> Iterator[str]:
    """Yield the screws of a step by size, and the tool for each."""
    counts: dict[tuple[str, str], int] = {}
    for entry in step.get("fasteners", ()):
        id, tool = (entry["id"], entry.get("tool", "")) if isinstance(entry, Mapping) else (entry, "")
        f = piece.assembly.fasteners[id]
        size = f"{kind_of(f)} × {dossier.options.sizes.show(f.length)}"
        counts[size, tool] = counts.get((size, tool), 0) + 1
    for (size, tool), n in counts.items():
        yield f"{n} × {size}" + (f", with the {tool.replace('-', ' ')}" if tool else "")


def jigs(flow: Flow, dossier: Dossier) -> None:
    """Write what is made from offcuts first: test pieces for every angle, spacers for gaps, test fits for housings."""
    rows = [row for piece in dossier.pieces for row in _jigs(piece, dossier)]
    flow.section("Jigs, spacers and test pieces from offcuts", level=1, room=30)
    if not rows:
        flow.text("None are needed beyond the test cut for the kerf.")
        return
    flow.table([Column("for", 3, bold=True), Column("make", 5), Column("test", 6)], rows)


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
    if any(j.kind.value == "folded-mitre" for j in piece.assembly.joints.values()):
        yield [piece.id, "straight caul as long as the mitre", "tape outside, fold, the caul keeps the edge straight"]


def _angles(piece: Piece) -> list[float]:
    cuts = [c for p in piece.assembly.parts.values() for c in p.cuts if isinstance(c, SawCut)]
    return sorted({round(a, 2) for c in cuts for a in (c.mitre, c.bevel) if a > 0})


def _promises(piece: Piece) -> Iterator[Any]:
    yield from (p for p in piece.assembly.promises if p.kind == "gap")


def _housings(piece: Piece) -> Iterator[float]:
    for part in piece.assembly.parts.values():
        for cut in part.cuts:
            if getattr(cut, "kind", "") in ("dado", "groove", "rabbet"):
                yield min(part.thickness, cut.z1) - max(0.0, cut.z0)  # type: ignore[union-attr]


def glue_and_finish(flow: Flow, dossier: Dossier) -> None:
    """Write glue times and finish coats; generic figures, the label rules."""
    flow.section("Glue and finish", room=30)
    request = dossier.request
    glue = request.get("glue") or {}
    kind = glue.get("kind", DEFAULT_GLUE)
    flow.text(f"Glue: {kind}. The figures below are usual ones; the label on the bottle rules.")
    rows = []
    for name, member in (
        ("open time", "open_min"),
        ("closed time", ""),
        ("clamp time", "clamp_min"),
        ("full cure", ""),
    ):
        if glue.get(member):
            rows.append([name, f"{glue[member]:g} minutes", "from your label"])
            continue
        try:
            found = glue_property(kind, name)
        except (UnknownRowError, KeyError):
            continue
        rows.append([name, f"{found.least:g} to {found.most:g} {found.unit}", found.source])
    if rows:
        flow.table([Column("glue", 3, bold=True), Column("time", 3), Column("from", 6)], rows)
    _joints_to_glue(flow, dossier)
    finish = request.get("finish")
    if not finish:
        flow.text("No finish was chosen; seal end grain and the edges marked on the drawings all the same.")
        return
    known = {name: row for (name, _), row in coverages().items()}
    row = known.get(finish["kind"])
    coats = finish.get("coats") or (row.coats if row else None)
    flow.text(
        f"Finish: {finish['kind']}" + (f", {coats} coats" if coats else "") + "; wait between coats as the can says."
    )


def _joints_to_glue(flow: Flow, dossier: Dossier) -> None:
    for piece in dossier.pieces:
        glued = [j for j in piece.assembly.joints.values() if j.glued]
        if glued:
            flow.text(f"{piece.id}: {len(glued)} glued joints, in the order of the assembly steps.")


def cautions(flow: Flow, dossier: Dossier) -> None:
    """Write cautions and the findings that remain."""
    flow.section("Cautions", room=30)
    for caution in dossier.plan["cautions"]:
        flow.bullet(caution)
    flow.section("What the computation noticed", room=30)
    findings = dossier.plan["findings"]
    if not findings:
        flow.text("Nothing that stands against building it.")
    for f in findings:
        remedy = f" {f['remedy']}" if f["remedy"] else ""
        flow.bullet(f"{f['severity'].upper()}: {f['message']}{remedy}", size=3.0)


def care(flow: Flow, dossier: Dossier) -> None:
    """Write when to look after it again; practice, not a published rule."""
    flow.section("Care", room=30)
    outdoors = (dossier.request.get("place") or {}).get("exposure", "indoors") != "indoors"
    rows = [
        [_on(dossier, 30, "after one month of use"), "retighten every screw you can reach", ""],
        [_on(dossier, 365, "every year"), "retighten; look for cracks, loose joints, sharp edges", ""],
    ]
    if outdoors:
        wash = "wash; look at coating, end grain and feet; recoat where water no longer beads"
        rows.append([_on(dossier, 365, "every year"), wash, ""])
        rows.append(["before winter", "take cushions in; stand the piece where it can dry", ""])
    flow.table([Column("when", 3, bold=True), Column("what", 7), Column("done on", 3)], rows)
    flow.text("Intervals are common practice.", size=2.8)


def _on(dossier: Dossier, days: int, words: str) -> str:
    """Return when something is due, with its first date where the plan bears one."""
    try:
        first = date.fromisoformat(dossier.options.date) + timedelta(days=days)
    except (ValueError, OverflowError):
        return words
    return f"{words}, first {first.isoformat()}"
