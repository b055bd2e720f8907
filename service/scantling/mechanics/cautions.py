"""Short cautions where they apply: dust, noise, kickback, rags, treated wood, small pieces, lids, tip-over, loads."""

from dataclasses import dataclass

from scantling.findings import Finding, entry

from .figures import figure
from .notice import notice
from .validity import positive, within


@dataclass(frozen=True, slots=True)
class Work:
    """What the job does: tools, woods and panels, narrowest rip and shortest held piece in mm, finish, kind."""

    tools: tuple[str, ...] = ()
    materials: tuple[str, ...] = ()
    treated: bool = False
    narrowest_rip_mm: float | None = None
    shortest_held_mm: float | None = None
    oil_finish: bool = False
    lids: bool = False
    tall_mm: float = 0.0
    carries_people: bool = False
    parts: tuple[str, ...] = ()


_LOUD = ("table saw", "circular saw", "track saw", "mitre saw", "router", "planer", "jointer", "band saw", "jigsaw")
_RIPS = ("table saw", "circular saw", "band saw")


def noise_minutes(level_dba: float) -> float:
    """Return how long a day one may stay in a noise without protection.

    Units: dBA in, minutes out; no mm or N. Valid: 80 to 140 dBA. Raises: OutOfValidity.
    Source: NIOSH criteria, 85 dBA for 8 hours, halved for each 3 dB.
    """
    base, exchange = figure("noise-base").value, figure("noise-exchange").value
    level = within("noise level", level_dba, 80, 140, "dBA", "NIOSH criteria table")
    return float(480 / 2 ** ((level - base) / exchange))


def noise_minutes_osha(level_dba: float) -> float:
    """Return the time the American limit allows in a noise; the shorter of the two rules is the one to keep.

    Units: dBA in, minutes out; no mm or N. Valid: 80 to 130 dBA. Raises: OutOfValidity.
    Source: OSHA 29 CFR 1910.95, 90 dBA for 8 hours, halved for each 5 dB (from memory).
    """
    base, exchange = figure("osha-noise-base").value, figure("osha-noise-exchange").value
    level = within("noise level", level_dba, 80, 130, "dBA", "29 CFR 1910.95 Table G-16")
    return float(480 / 2 ** ((level - base) / exchange))


def rip_help(width_mm: float) -> str:
    """Return what a rip of this width asks for: nothing, push stick, push block, or never.

    Units: mm. Valid: widths above zero. Raises: OutOfValidity.
    Source: owner's manuals of table saws (push stick below 6 in); school shop rules (push block below 2 in, never
    below 1/2 in).
    """
    width = positive("rip width", width_mm, "mm")
    if width < figure("rip-least").si:
        return "never"
    if width < figure("push-block-width").si:
        return "push block"
    return "push stick" if width < figure("push-stick-width").si else "nothing"


def held_long_enough(length_mm: float) -> bool:
    """Return whether a piece is long enough to be held by hand at a powered saw.

    Units: mm. Valid: lengths above zero; it is the piece being held that counts, not the finished part.
    Raises: OutOfValidity. Source: Popular Woodworking, November 2007, p. 55 (12 in).
    """
    return positive("held length", length_mm, "mm") >= figure("held-length-least").si


def check_work(work: Work) -> tuple[Finding, ...]:
    """Return the cautions that apply to a job, each once.

    Units: mm. Valid: tools by their plain names; others are let be. Raises: OutOfValidity for a width or length of
    nothing. Source: NIOSH, OSHA 1910.213, HSE, CPSC and owner's manuals: see each caution.
    """
    found = []
    if work.tools:
        found.append(_caution("dust", work, _dust_source(work)))
    if any(tool in _LOUD for tool in work.tools):
        found.append(_caution("noise", work, "NIOSH criteria; Popular Woodworking, April 2004, p. 65"))
    if any(tool in _RIPS for tool in work.tools) and work.narrowest_rip_mm is not None:
        found.append(_caution("kickback", work, "OSHA 29 CFR 1910.213; HSE ripsaw page"))
        if rip_help(work.narrowest_rip_mm) != "nothing":
            found.append(_rip(work, work.narrowest_rip_mm))
    if work.shortest_held_mm is not None and not held_long_enough(work.shortest_held_mm):
        least = figure("held-length-least")
        length = work.shortest_held_mm
        text = f"A piece only {length:.0f} mm long would be held at the saw; {least.si:.0f} mm is the least."
        found.append(
            notice("small-piece", text, parts=work.parts, value=length, limit=least.si, unit="mm", source=least.source)
        )
    if work.oil_finish:
        found.append(_caution("oily-rags", work, "Harvard GSD Fab Lab after NFPA"))
    if work.treated:
        found.append(_caution("treated-wood", work, "consumer information sheet after EPA"))
    if work.lids:
        found.append(_caution("lid", work, "CPSC 1982, toy chests"))
    if work.tall_mm >= figure("storage-anchor-height").si:
        found.append(_caution("tip-over", work, "16 CFR 1261; practice"))
    if work.carries_people:
        found.append(_caution("loads-screened", work, "practice"))
    return tuple(found)


def _dust_source(work: Work) -> str:
    """Return the lowest published limit that applies to the woods in hand."""
    cedar = any("cedar" in material for material in work.materials)
    limit = figure("dust-red-cedar" if cedar else "dust-niosh")
    return f"{limit.source}: {limit.value:g} {limit.unit}"


def _caution(code: str, work: Work, source: str) -> Finding:
    return notice(code, entry(code).meaning, parts=work.parts, source=source)


def _rip(work: Work, width_mm: float) -> Finding:
    wants = rip_help(width_mm)
    limit = figure("push-stick-width")
    text = f"The narrowest rip is {width_mm:.0f} mm: use a {wants}."
    if wants == "never":
        text = (
            f"A rip of {width_mm:.0f} mm is too narrow for a saw: plane it, or take it off the far side of the blade."
        )
    return notice("push-stick", text, parts=work.parts, value=width_mm, limit=limit.si, unit="mm", source=limit.source)
