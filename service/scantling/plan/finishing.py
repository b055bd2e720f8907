"""The finish of a project: how much of it, when which coat goes on, when the piece may be used, when to renew it."""

from collections.abc import Mapping
from typing import Any

from scantling.costing.nouns import TakeOffLine
from scantling.costing.quantities import coats_line, finish_line
from scantling.findings import Finding, Severity

Plain = Mapping[str, Any]
MM2_PER_M2 = 1e6


def finish_take_off(area_mm2: float, finish: Plain) -> TakeOffLine:
    """Return the take-off line of a finish {kind, coats, system} for an area in mm²."""
    system = finish.get("system")
    if system is None:
        return finish_line("finish", area_mm2, finish["kind"], coats=finish.get("coats"))
    return coats_line(
        "finish", system["title"], area_mm2, finish["coats"], system["least"], system["most"], system["source"]
    )


def finish_schedule(area_mm2: float, finish: Plain | None) -> dict[str, Any] | None:
    """Return the schedule of a finish system as JSON members; None where no system is named.

    `starts_h` of a coat counts hours from the first; the figures are those of the system, the label on the can rules.
    """
    system = (finish or {}).get("system")
    if finish is None or system is None:
        return None
    coats, recoat = finish["coats"], system["recoat_hours"]
    line = finish_take_off(area_mm2, finish)
    return {
        "system": system["id"],
        "title": system["title"],
        "kind": finish["kind"],
        "area_m2": round(area_mm2 / MM2_PER_M2, 3),
        "litres": float(line.quantity),
        "coats": [{"coat": number + 1, "starts_h": number * recoat} for number in range(coats)],
        "in_use_after_h": (coats - 1) * recoat + system["ready_hours"],
        "care_months": system["care_months"],
        "exposures": list(system["exposures"]),
        "source": system["source"],
    }


def finish_findings(finish: Plain | None, place: Plain | None) -> list[Finding]:
    """Return what is wrong with a finish system where the furniture stands."""
    system = (finish or {}).get("system")
    exposure = (place or {}).get("exposure", "indoors")
    if system is None or exposure in system["exposures"]:
        return []
    return [
        Finding(
            "finish-not-for-here",
            Severity.WARNING,
            f"{system['title']} is for {', '.join(system['exposures'])}; the furniture stands {exposure}.",
            pointer="/finish/system",
            source=system["source"],
            remedy="Take a finish system that is meant for the place, or say the place as it is.",
        )
    ]
