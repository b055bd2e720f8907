"""Tools and hands: which tool of the shop makes each cut of each part, held how, or that none does."""

from collections.abc import Iterable, Sequence
from math import cos, radians
from types import MappingProxyType

from scantling.board import Assembly, Curve, Cut, Easing, Hole, Part, Recess, SawCut
from scantling.findings import Finding, Severity
from scantling.mechanics.notice import notice
from scantling.nesting.saws import Choice, Operation, SawKind, Saws

from .check_row import CheckRow
from .circumstances import Circumstances
from .cutting import units

# Words in a tool's kind that tell what it can do. A sanding block, a rule and a square are taken as had.
_TOOLS = MappingProxyType(
    {
        "router": ("router", "trimmer", "shaper", "moulder"),
        "drill": ("drill", "brace"),
        "driver": ("driver", "drill", "brace"),
        "jigsaw": ("jigsaw", "jig saw", "scroll", "coping", "fret", "band saw"),
        "chisel": ("chisel",),
        "plane": ("hand plane", "block plane", "spokeshave", "rabbet plane", "bench plane"),
        "table saw": ("table saw",),
        "circular saw": ("circular saw", "track saw"),
    }
)
# Ways of making each operation, the best first: the tools each needs, and how it is done. Common practice.
_WAYS: MappingProxyType[str, tuple[tuple[tuple[str, ...], str], ...]] = MappingProxyType(
    {
        "groove": (
            (("router",), "router with a fence or guide"),
            (("table saw",), "table saw in several passes along the fence"),
            (("circular saw", "chisel"), "circular saw in several passes along a guide, bottom pared with a chisel"),
            (("chisel",), "two saw lines by hand, the waste taken out with a chisel"),
        ),
        "stopped groove": (
            (("router",), "router with a guide, stopped at both marks, ends squared or rounded"),
            (("chisel",), "by chisel to a knife line"),
        ),
        "notch": (
            (("jigsaw",), "jigsaw or band saw to the line"),
            (("chisel",), "hand saw to the line, the bottom with a chisel"),
            (("drill",), "hand saw to the line, the corners drilled out first"),
        ),
        "hole": ((("drill",), "drill, the face backed with scrap"),),
        "large hole": (
            (("drill",), "drill with a hole saw, half from each face"),
            (("jigsaw",), "jigsaw to a circle"),
        ),
        "small easing": ((("router",), "router with a round-over bit"), ((), "sanding block or file")),
        "easing": (
            (("router",), "router with a round-over or chamfer bit"),
            (("plane",), "hand plane to pencil lines"),
        ),
        "curve": ((("jigsaw",), "jigsaw or band saw to the line"),),
        "screws": ((("drill", "driver"), "drill for the pilot holes, driver for the screws"),),
        "dowels": ((("drill",), "drill with a guide or dowelling jig"),),
    }
)
_WHERE = MappingProxyType({"start": "the start", "end": "the end", "near": "the near edge", "far": "the far edge"})
LARGE_HOLE_MM = 35.0  # from here a hole saw and not a bit; practice
SMALL_EASING_MM = 6.0  # up to here sanding does it; practice
BY_HAND_MM = 400.0  # a sloped cut up to this length comes true by hand, to a knife line; practice


def hand_checks(assembly: Assembly, who: Circumstances) -> tuple[list[CheckRow], list[Finding]]:
    """Check every operation against the tools of the shop, and every sloped cut against its saws."""
    rows: list[CheckRow] = []
    findings: list[Finding] = []
    if who.tools is not None:
        rows, findings = _operations(assembly, who)
    if who.saws is not None:
        more, found = _slopes(assembly, who.saws)
        rows, findings = rows + more, findings + found
    return rows, findings


def _operations(assembly: Assembly, who: Circumstances) -> tuple[list[CheckRow], list[Finding]]:
    had = tools_had(who)
    rows: list[CheckRow] = []
    findings: list[Finding] = []
    for what, parts in operations_of(assembly).items():
        way = next((how for needs, how in _WAYS[what] if had.issuperset(needs)), None)
        words = what.removeprefix("small ")
        if way is not None:
            rows.append(CheckRow("made with", words, parts, basis="practice", governing=way, note=_best(what, way)))
            continue
        needed = " or ".join(" and ".join(needs) for needs, _ in _WAYS[what] if needs)
        rows.append(CheckRow("made with", words, parts, basis="practice", note=f"needs {needed}"))
        text = f"{words[:1].upper()}{words[1:]} in {_listed(parts)}: no tool listed makes it; it takes a {needed}."
        findings.append(notice("no-tool-for-it", text, parts=parts, source="practice"))
    return rows, findings


def _best(what: str, way: str) -> str:
    best = _WAYS[what][0]
    return "" if way == best[1] else f"a {' and a '.join(best[0])} would be quicker"


def tools_had(who: Circumstances) -> set[str]:
    """Return the abilities of a shop by the words its tools and saws go by."""
    kinds = [kind.replace("-", " ").replace("_", " ").casefold() for kind in who.tools or ()]
    kinds += [saw.kind.value for saw in who.saws.saws] if who.saws is not None else []
    return {tool for tool, words in _TOOLS.items() if any(word in kind for kind in kinds for word in words)}


def operations_of(assembly: Assembly) -> dict[str, tuple[str, ...]]:
    """Return what is to be done besides straight sawing, and to which parts."""
    found: dict[str, dict[str, None]] = {}
    for part in assembly.parts.values():
        for cut in part.cuts:
            what = _what(cut)
            if what is not None:
                found.setdefault(what, {})[part.id] = None
    for fastener in assembly.fasteners.values():
        what = "dowels" if fastener.kind == "dowel" else "screws"
        found.setdefault(what, {}).update(dict.fromkeys(fastener.parts))
    return {what: tuple(parts) for what, parts in sorted(found.items())}


def _what(cut: Cut) -> str | None:
    if isinstance(cut, Hole):
        return "large hole" if cut.diameter > LARGE_HOLE_MM else "hole"
    if isinstance(cut, Easing):
        return "small easing" if cut.size <= SMALL_EASING_MM else "easing"
    if isinstance(cut, Curve):
        return "curve"
    if isinstance(cut, Recess):
        if cut.kind in ("notch", "slot"):
            return "notch"
        return "stopped groove" if cut.stopped else "groove"
    return None


def _slopes(assembly: Assembly, saws: Saws) -> tuple[list[CheckRow], list[Finding]]:
    """Choose a saw for every mitre and bevel; one finding for all that no power saw makes."""
    rows: list[CheckRow] = []
    beyond: list[tuple[Part, SawCut, str]] = []
    for (part, cut), alike in _alike_slopes(assembly.parts.values()).items():
        choice, why = _saw_for(part, cut, saws)
        words = _setting(cut)
        if choice is not None:
            rows.append(
                CheckRow("sawn with", f"{part.name}, {cut.side}", alike, basis="practice",
                         governing=f"{choice.saw.id}, {words}")
            )  # fmt: skip
            continue
        rows.append(CheckRow("sawn with", f"{part.name}, {cut.side}", alike, basis="practice", note=f"{words}: {why}"))
        beyond.append((part, cut, why))
    return rows, _beyond(beyond)


def _alike_slopes(parts: Iterable[Part]) -> dict[tuple[Part, SawCut], tuple[str, ...]]:
    """Return each sloped cut once for parts alike in name and size, with the parts it is made on."""
    first: dict[tuple[object, ...], tuple[Part, SawCut]] = {}
    alike: dict[tuple[object, ...], list[str]] = {}
    for part in parts:
        for cut in part.cuts:
            if isinstance(cut, SawCut) and (cut.mitre > 0.01 or cut.bevel > 0.01):
                size = (round(part.length), round(part.width), round(part.thickness))
                key = (part.name, *size, cut.crosscut, round(cut.mitre, 1), round(cut.bevel, 1))
                first.setdefault(key, (part, cut))
                alike.setdefault(key, []).append(part.id)
    return {first[key]: tuple(dict.fromkeys(alike[key])) for key in first}


def _saw_for(part: Part, cut: SawCut, saws: Saws) -> tuple[Choice | None, str]:
    """Return the power saw that makes a sloped cut on the piece as it is held, or why none does."""
    wide, long = (part.width, part.length) if cut.crosscut else (part.length, part.width)
    travel = wide / cos(radians(cut.mitre))
    able = Saws(tuple(s for s in saws.saws if _turns(s.kind, s.mitre_limit, cut)), saws.carry_kg, saws.people)
    operation = Operation(
        rip=not cut.crosscut, travel=units(travel), wanted=units(long), other=0, thickness=units(part.thickness),
        bevel=cut.bevel, fresh=False,
    )  # fmt: skip
    choice = able.choose(operation)
    if not choice.by_hand:
        return choice, ""
    reasons = [o.in_words() for o in choice.obstacles]
    turned = [s for s in saws.saws if cut.crosscut and s not in able.saws]
    reasons += [f"{s.id}: turns to {s.mitre_limit:g}° at most" for s in turned if s.mitre_limit is not None]
    return None, "; ".join(dict.fromkeys(reasons)) or "no power saw here makes such a cut"


def _turns(kind: SawKind, limit: float | None, cut: SawCut) -> bool:
    return kind is not SawKind.MITRE or (cut.crosscut and (limit is None or cut.mitre <= limit))


def _setting(cut: SawCut) -> str:
    words = []
    if cut.mitre > 0.01:
        words.append(f"mitre {cut.mitre:.1f}°")
    if cut.bevel > 0.01:
        words.append(f"bevel {cut.bevel:.1f}°")
    return " and ".join(words)


def _beyond(cuts: Sequence[tuple[Part, SawCut, str]]) -> list[Finding]:
    if not cuts:
        return []
    parts = tuple(part.id for part, _, _ in cuts)
    longest = max(_travel(part, cut) for part, cut, _ in cuts)
    part, cut, why = max(cuts, key=lambda c: _travel(c[0], c[1]))
    more = f" (and {len(cuts) - 1} more such cuts)" if len(cuts) > 1 else ""
    text = f"No power saw here makes the {_setting(cut)} at {_WHERE[cut.side]} of {part.id}{more}: {why}."
    remedy = "Saw the slope on a longer board before it is cut to length, or by hand to a line, and plane it."
    if not cut.crosscut:
        remedy = "Rip the slope along a longer, wider strip before it is cut to length, or plane it to a line."
    severity = Severity.NOTE if longest <= BY_HAND_MM else None
    return [
        notice(
            "angle-beyond-saws",
            text,
            severity=severity,
            parts=parts,
            value=longest,
            unit="mm",
            source="practice",
            remedy=remedy,
        )
    ]


def _travel(part: Part, cut: SawCut) -> float:
    return (part.width if cut.crosscut else part.length) / cos(radians(cut.mitre))


def _listed(parts: Sequence[str]) -> str:
    shown = ", ".join(parts[:3])
    return shown if len(parts) <= 3 else f"{shown} and {len(parts) - 3} more"
