"""What is to be said about cutting the layouts on these saws: what cannot be cut, what is heavy, what needs care."""

from collections.abc import Iterable, Sequence

from scantling.findings import Finding, Severity

from .nouns import Job, Layout
from .saws import Obstacle, Saws
from .sequence import Cut

_LONG_BY_HAND = 60_000  # a hand cut longer than this in sheet goods does not come out true; common practice
_PUSH_STICK = 15_240  # 6 in, owners' manuals of table saws
_PUSH_BLOCK = 5_080  # 2 in, school shop rules
_HELP = {
    "rip": "clamp a straight strip as a guide and cut with a circular saw, or let the seller make this rip",
    "crosscut": "clamp a straight strip as a guide and cut with a circular saw, or crosscut with a sled",
    "guide": "use a longer guide (two rails joined, or a straight strip), or let the seller make this cut",
    "depth": "cut from both faces, or saw it by hand",
    "bevel_limit": "saw the slope by hand to a line, or cut it against a tilted fence",
    "mitre_limit": "saw the slope by hand to a line, or with a guide laid across the board",
    "least_piece": "cut it along a guide or to a stop while it is still part of a longer piece, or saw it by hand",
    "least_width": "cut it along a guide while it is still part of a wider piece, or saw it by hand",
    "most_cuts": "choose which cuts the seller makes",
}


def find_cutting(
    layouts: Sequence[Layout], sequences: Sequence[Sequence[Cut]], job: Job, saws: Saws
) -> tuple[Finding, ...]:
    """Return the findings about cutting each layout by its sequence; layouts are numbered from 1 in the messages."""
    findings: list[Finding] = []
    for number, (layout, cuts) in enumerate(zip(layouts, sequences, strict=True), start=1):
        findings += _beyond(number, layout, cuts)
        findings += _unknown(number, layout, cuts)
        findings += _heavy(number, layout, cuts, saws)
    every = [cut for cuts in sequences for cut in cuts]
    findings += _kerfs(every, job, saws)
    findings += _narrow(every)
    findings += _rough(every, job, saws)
    return tuple(findings)


def beyond_saws(cuts: Iterable[Cut]) -> tuple[Cut, ...]:
    """Return the cuts no power saw of the shop can make and that are too long to be left to the hand saw."""
    return tuple(c for c in cuts if c.by_hand and c.travel > _LONG_BY_HAND)


def _beyond(number: int, layout: Layout, cuts: Sequence[Cut]) -> list[Finding]:
    findings = []
    for cut in beyond_saws(cuts):
        parts = _parts_of(cut, layout)
        stated = bool(cut.obstacles)
        what = f"{cut.kind} of {cut.travel / 100:g} mm (cut {cut.number} of layout {number})"
        findings.append(
            Finding(
                "cut-beyond-saws",
                Severity.ERROR if stated else Severity.WARNING,
                f"No saw here can make the {what} for {_listed(parts)}: {_why(cut.obstacles)}.",
                parts=parts,
                value=cut.travel / 100,
                unit="mm",
                remedy=_help(cut.obstacles),
            )
        )
    short = [c for c in cuts if c.by_hand and c.travel <= _LONG_BY_HAND]
    if short:
        numbers = ", ".join(str(c.number) for c in short)
        findings.append(
            Finding(
                "cut-by-hand",
                Severity.NOTE,
                f"Left to the hand saw in layout {number}: cut {numbers}. {_why(short[0].obstacles)}.",
                parts=tuple(sorted({p for c in short for p in _parts_of(c, layout)})),
                remedy=_help(short[0].obstacles),
            )
        )
    return findings


def _unknown(number: int, layout: Layout, cuts: Sequence[Cut]) -> list[Finding]:
    """One finding for each limit that was only remembered and would be exceeded."""
    first: dict[tuple[str, str], tuple[Cut, Obstacle]] = {}
    for cut in cuts:
        if cut.by_hand:
            continue
        for obstacle in cut.obstacles:
            known = first.get((obstacle.saw, obstacle.limit))
            if known is None or abs(obstacle.needed - obstacle.allowed) > abs(known[1].needed - known[1].allowed):
                first[obstacle.saw, obstacle.limit] = (cut, obstacle)
    return [
        Finding(
            "cut-limit-unknown",
            Severity.WARNING,
            f"Cut {cut.number} of layout {number} is beyond what such a saw usually does: {obstacle.in_words()}.",
            parts=_parts_of(cut, layout),
            value=obstacle.needed,
            limit=obstacle.allowed,
            unit=obstacle.unit,
            source="practice, not this saw's own figure",
            remedy=f"State the limit of {obstacle.saw}; if it is less, {_HELP[obstacle.limit]}.",
        )
        for (_, _), (cut, obstacle) in sorted(first.items())
    ]


def _heavy(number: int, layout: Layout, cuts: Sequence[Cut], saws: Saws) -> list[Finding]:
    heavy = [c for c in cuts if c.too_heavy and c.held.mass_kg is not None]
    if not heavy:
        return _on_the_floor(number, layout, cuts, saws)
    worst = max(heavy, key=lambda c: (c.held.mass_kg or 0.0, -c.number))
    limit = saws.carry_kg * saws.people
    return [
        Finding(
            "piece-too-heavy",
            Severity.WARNING,
            f"Cut {worst.number} of layout {number} moves {worst.held.mass_kg:.0f} kg over {worst.saw}.",
            parts=_parts_of(worst, layout),
            value=worst.held.mass_kg,
            limit=limit,
            unit="kg",
            source="23 kg for one person at best, NIOSH lifting equation (from memory), unless stated",
            remedy="Take a second person, cut it along a guide on the floor, or let the seller make it smaller.",
        )
    ]


def _on_the_floor(number: int, layout: Layout, cuts: Sequence[Cut], saws: Saws) -> list[Finding]:
    """Say that what is too heavy to be lifted is cut lying on the floor."""
    heavy = [c for c in cuts if c.support == "floor" and c.held.mass_kg is not None]
    if not heavy:
        return []
    worst = max(heavy, key=lambda c: (c.held.mass_kg or 0.0, -c.number))
    return [
        Finding(
            "cut-on-the-floor",
            Severity.NOTE,
            f"Make cut {worst.number} of layout {number} on the floor: the piece weighs {worst.held.mass_kg:.0f} kg.",
            parts=_parts_of(worst, layout),
            value=worst.held.mass_kg,
            limit=saws.carry_kg * saws.people,
            unit="kg",
            source="23 kg for one person at best, NIOSH lifting equation (from memory), unless stated",
            remedy="Slide it, do not lift it: lay it flat on battens or a foam board, the blade set just through.",
        )
    ]


def _kerfs(cuts: Sequence[Cut], job: Job, saws: Saws) -> list[Finding]:
    used = {c.saw for c in cuts}
    return [
        Finding(
            "kerf-wider-than-layout",
            Severity.ERROR,
            f"{saw.id} takes a kerf of {saw.kerf / 100:g} mm; the layouts leave {job.cutting.kerf / 100:g} mm.",
            value=saw.kerf / 100,
            limit=job.cutting.kerf / 100,
            unit="mm",
            remedy="Nest again with the widest kerf of the saws.",
        )
        for saw in saws.saws
        if saw.id in used and saw.kerf > job.cutting.kerf and saw.is_stated("kerf")
    ]


def _narrow(cuts: Sequence[Cut]) -> list[Finding]:
    narrow = [c for c in cuts if c.method == "fence" and c.axis == "y" and c.setting < _PUSH_STICK and not c.by_hand]
    if not narrow:
        return []
    least = min(c.setting for c in narrow)
    tool = "push block" if least < _PUSH_BLOCK else "push stick"
    return [
        Finding(
            "push-stick",
            Severity.NOTE,
            f"{len(narrow)} rips are narrower than 152 mm, the narrowest {least / 100:g} mm: use a {tool}.",
            value=least / 100,
            limit=(_PUSH_BLOCK if least < _PUSH_BLOCK else _PUSH_STICK) / 100,
            unit="mm",
            source="owner's manuals of table saws (6 in); school shop rules (2 in)",
            remedy="Keep riving knife and guard on; follow the saw's manual.",
        )
    ]


def _rough(cuts: Sequence[Cut], job: Job, saws: Saws) -> list[Finding]:
    findings = []
    for saw in saws.saws:
        edges = [c for c in cuts if c.saw == saw.id and not c.allowance and _makes_part(c)]
        if not edges or saw.error <= job.cutting.cutting_error:
            continue
        findings.append(
            Finding(
                "rough-cut",
                Severity.NOTE,
                f"{saw.id} may be {saw.error / 100:g} mm off its line and makes {len(edges)} cuts at finished sizes.",
                parts=tuple(sorted({f.name or "" for c in edges for f in (c.falls, c.rest) if f and f.kind == "part"})),
                value=saw.error / 100,
                limit=job.cutting.cutting_error / 100,
                unit="mm",
                source="stated" if saw.is_stated("error") else "practice",
                remedy="Give these parts an oversize and trim them to size, or cut with care to a knife line.",
            )
        )
    return findings


def _makes_part(cut: Cut) -> bool:
    return any(f is not None and f.kind == "part" for f in (cut.falls, cut.rest))


def _parts_of(cut: Cut, layout: Layout) -> tuple[str, ...]:
    """Return the parts this cut frees or, where it frees none, those inside what it cuts off."""
    freed = [f for f in (cut.falls, cut.rest) if f is not None]
    named = {f.name for f in freed if f.kind == "part" and f.name}
    if not named:
        held = cut.held
        named = {
            p.part
            for p in layout.placements
            if held.x <= p.x < held.x + held.along_x and held.y <= p.y < held.y + max(held.along_y, 1)
        }
    return tuple(sorted(named))


def _why(obstacles: Sequence[Obstacle]) -> str:
    if not obstacles:
        return "no saw of the shop makes such a cut"
    return "; ".join(dict.fromkeys(o.in_words() for o in obstacles))


def _help(obstacles: Sequence[Obstacle]) -> str:
    ways = list(dict.fromkeys(_HELP[o.limit] for o in obstacles)) or [_HELP["rip"]]
    text = "; or ".join(ways)
    return text[0].upper() + text[1:] + "."


def _listed(parts: Sequence[str]) -> str:
    return ", ".join(parts) if parts else "this sheet"
