"""The cut list for people: by saw and setting in the order of work, and part by part with what to look out for."""

from collections.abc import Iterator, Mapping
from typing import Any

from .dossier import CutRow, Dossier, Plain
from .page import Column, Flow

SAME_MM = 0.05
SIMILAR_MM = 12.7  # sizes nearer than 1/2 in are easily mixed up


def cutting_list(flow: Flow, dossier: Dossier) -> None:
    """Write both lists."""
    flow.section("Cut list", room=40)
    flow.text(
        "Sizes are of the long-point blank, read on the tape; in brackets what the tape rounds off. Parts that close a "
        "chain are cut last, to the work. Mark every part with its number as it comes off the saw."
    )
    for lot in dict.fromkeys(r.plain["lot"] for r in dossier.rows):
        flow.section(lot, level=1, bookmark=False, room=30)
        columns = [
            Column("no.", 1, bold=True), Column("part", 4.4), Column("off", 1, "end"), Column("length", 3.6),
            Column("width", 3.4), Column("saw and look out for", 6),
        ]  # fmt: skip
        flow.table(columns, [_row(r, dossier) for r in dossier.rows if r.plain["lot"] == lot])
    _settings(flow, dossier)


def _row(row: CutRow, dossier: Dossier) -> list[str]:
    plain = row.plain
    ids = plain["ids"]
    names = ids[0] if len(ids) == 1 else f"{ids[0]} … {ids[-1]}"
    width = "as bought" if _board(row) else plain["width_text"]
    return [
        row.mark, f"{row.piece.id}: {names}", str(plain["quantity"]), plain["length_text"], width,
        " ".join(_notes(row, dossier)),
    ]  # fmt: skip


def _board(row: CutRow) -> bool:
    width = row.part.material.width
    return width is not None and abs(width - row.part.width) < 0.05


def _notes(row: CutRow, dossier: Dossier) -> Iterator[str]:
    plain = row.plain
    yield from (f"{s['text']}." for s in plain["saw_settings"])
    yield from (f"{s['text']}." for s in plain.get("stop_marks", ()))
    if plain["hand"]:
        yield f"{plain['hand']} hand, the other is {plain['twin']}."
    if plain["closing"]:
        step = _first_step(row)
        yield f"CUT LATE, to the work, for step {step}." if step else "CUT LATE, to the work."
    if plain["waits_for"]:
        yield f"WAIT: {plain['waits_for']}."
    if plain["operations"]:
        n = len(plain["operations"])
        yield f"{n} more operation{'s' if n > 1 else ''}, see its drawing."
    others = [(_apart(row, other), other) for other in dossier.rows if other is not row]
    for words, low, high in (("Same size as", -1.0, SAME_MM), ("CLOSE in size to", SAME_MM, SIMILAR_MM)):
        found = [o.mark or o.plain["ids"][0] for apart, o in others if low < apart <= high]
        if found:
            yield f"{words} no. {', '.join(found)}."


def _first_step(row: CutRow) -> int | None:
    """Return the number of the first step that brings any of a row's parts."""
    for number, step in enumerate(row.piece.answer["steps"], 1):
        if set(row.plain["ids"]) & set(step.get("brings", step.get("parts", ()))):
            return number
    return None


def _apart(row: CutRow, other: CutRow) -> float:
    """Return by how many mm two rows from the same stock differ at most, in length or width."""
    a, b = row.plain, other.plain
    if a["lot"] != b["lot"]:
        return float("inf")
    return max(abs(float(a[k]) - float(b[k])) for k in ("length_mm", "width_mm"))


def _settings(flow: Flow, dossier: Dossier) -> None:
    """Write the cuts by saw and setting, in an order in which every piece is there when it is cut."""
    nesting = dossier.nesting
    if not nesting or not nesting.get("settings"):
        return
    flow.section("Cuts by saw and setting", level=1, room=30)
    flow.text(
        "In this order the fence and the stop are set as seldom as can be. L1: 3 is cut 3 of layout 1; tick it off "
        "there. The setting is from the edge against the fence, stop or guide to the near side of the blade."
    )
    rows = []
    for number, setting in enumerate(nesting["settings"], 1):
        saw = f"{setting['saw'] or 'any saw'}, {setting['kind']}"
        way = _METHODS.get(setting["method"], setting["method"])
        at = f"{way} {dossier.options.sizes.show(setting['setting_mm'])}"
        gives = ", ".join(_gives(setting, nesting)) or "pieces to cut on"
        at = "; ".join([at, *_slopes(setting, nesting)])
        rows.append([str(number), saw, at, _cuts(setting["cuts"]), gives])
    columns = [Column("", 1, bold=True), Column("saw", 4), Column("setting", 4), Column("cuts", 5), Column("gives", 5)]
    flow.table(columns, rows)


_METHODS = {"fence": "fence at", "stop": "stop at", "guide": "guide, line at", "line": "line at"}


def _cuts(cuts: list[Mapping[str, Any]]) -> str:
    by_layout: dict[int, list[int]] = {}
    for cut in cuts:
        by_layout.setdefault(cut["layout"], []).append(cut["cut"])
    return "; ".join(f"L{layout}: {', '.join(str(n) for n in numbers)}" for layout, numbers in by_layout.items())


def _slopes(setting: Plain, nesting: Plain) -> list[str]:
    """Return how far off square a setting is, and for which of its cuts the board or the saw goes the other way."""
    words = [
        f"{name} {setting[m]:g}°" for name, m in (("mitre", "mitre_deg"), ("bevel", "bevel_deg")) if setting.get(m)
    ]
    held: dict[str, list[Mapping[str, Any]]] = {}
    for place in setting["cuts"] if words else ():
        lie = _cut(place, nesting).get("lie")
        if lie not in (None, "as it lies"):
            held.setdefault(lie, []).append(place)
    for lie, places in held.items():
        every = len(places) == len(setting["cuts"])
        words.append(lie if every else f"{lie} for {_cuts(places)}")
    return words


def _cut(place: Plain, nesting: Plain) -> Plain:
    cuts: list[Plain] = nesting["layouts"][place["layout"] - 1]["cuts"]
    return next(c for c in cuts if c["number"] == place["cut"])


def _gives(setting: Plain, nesting: Plain) -> list[str]:
    """Return the parts that the cuts of a setting set free."""
    names: dict[str, None] = {}
    for place in setting["cuts"]:
        cut = _cut(place, nesting)
        for side in (cut["falls"], cut["rest"]):
            if side and side["kind"] == "part":
                names[side["name"]] = None
    return list(names)
