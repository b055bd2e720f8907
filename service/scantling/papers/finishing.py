"""Glue times and finish coats, and when to look after the piece; generic figures, the label rules."""

from datetime import date, timedelta

from scantling.tables.errors import UnknownRowError
from scantling.tables.finishing import coverages, glue_property

from .dossier import Dossier
from .page import SMALL_MM, Column, Flow

GLUE_TIMES = (("open time", "open_min"), ("closed time", ""), ("clamp time", "clamp_min"), ("full cure", ""))
MONTH_DAYS = 30.4
DEFAULT_GLUE = "cross-linking PVA"


def glue_and_finish(flow: Flow, dossier: Dossier) -> None:
    """Write glue times and finish coats; generic figures, the label rules."""
    flow.section("Glue and finish", room=30)
    request = dossier.request
    glue = request.get("glue") or {}
    kind = glue.get("kind", DEFAULT_GLUE)
    flow.text(f"Glue: {kind}. The figures below are usual ones; the label on the bottle rules.")
    rows = []
    for name, member in GLUE_TIMES:
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
    _coats(flow, dossier)


def _coats(flow: Flow, dossier: Dossier) -> None:
    """Write when which coat goes on, or what is known of a finish without a system."""
    schedule = dossier.plan.get("finishing")
    finish = dossier.request.get("finish")
    if schedule:
        flow.text(f"Finish: {schedule['title']}, about {schedule['litres']:g} litres for {schedule['area_m2']:g} m².")
        rows = [[f"coat {c['coat']}", _hours(c["starts_h"])] for c in schedule["coats"]]
        rows += [["in use", f"{_hours(schedule['in_use_after_h'])}, at the earliest"]]
        flow.table([Column("what", 3, bold=True), Column("when, from the first coat", 9)], rows)
        flow.text(f"From {schedule['source']}; the can rules, and cold or damp air makes it longer.", size=SMALL_MM)
        return
    if not finish:
        flow.text("No finish was chosen; seal end grain and the edges marked on the drawings all the same.")
        return
    known = {name: row for (name, _), row in coverages().items()}
    row = known.get(finish["kind"])
    coats = finish.get("coats") or (row.coats if row else None)
    flow.text(
        f"Finish: {finish['kind']}" + (f", {coats} coats" if coats else "") + "; wait between coats as the can says."
    )


def _hours(hours: float) -> str:
    return f"after {hours:g} hours" if hours else "at once"


def _joints_to_glue(flow: Flow, dossier: Dossier) -> None:
    for piece in dossier.pieces:
        glued = [j for j in piece.assembly.joints.values() if j.glued]
        if glued:
            flow.text(f"{piece.id}: {len(glued)} glued joints, in the order of the assembly steps.")


def care(flow: Flow, dossier: Dossier) -> None:
    """Write when to look after it again; practice, not a published rule."""
    flow.section("Care", room=30)
    outdoors = (dossier.request.get("place") or {}).get("exposure", "indoors") != "indoors"
    rows = [
        [_on(dossier, 30, "after one month of use"), "retighten every screw you can reach", ""],
        [_on(dossier, 365, "every year"), "retighten; look for cracks, loose joints, sharp edges", ""],
    ]
    schedule = dossier.plan.get("finishing")
    if schedule and schedule["care_months"]:
        months = schedule["care_months"]
        rows.append([_on(dossier, round(months * MONTH_DAYS), f"every {months:g} months"), "renew the finish", ""])
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
