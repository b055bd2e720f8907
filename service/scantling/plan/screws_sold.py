"""Screws that a piece takes and the shop does not sell."""

from collections import Counter
from collections.abc import Sequence

from scantling.board import Assembly
from scantling.findings import Finding, Severity

SAME_MM = 0.05


def screws_not_sold(assembly: Assembly, sold: Sequence[tuple[int, float]]) -> list[Finding]:
    """Return a finding for each size of screw (gauge, mm) that is not among those sold; none where nothing is known."""
    if not sold:
        return []
    missing: Counter[tuple[int, float]] = Counter()
    names: dict[tuple[int, float], list[str]] = {}
    for screw in assembly.fasteners.values():
        if screw.kind != "wood screw" or any(
            gauge == screw.gauge and abs(length - screw.length) <= SAME_MM for gauge, length in sold
        ):
            continue
        size = (screw.gauge, round(screw.length, 2))
        missing[size] += 1
        names.setdefault(size, []).append(screw.id)
    return [
        Finding(
            "screw-not-sold",
            Severity.NOTE,
            f"{count} × #{gauge} × {length:g} mm wood screws are not on the shop's list.",
            fasteners=tuple(names[gauge, length]),
            value=length,
            unit="mm",
            remedy="Buy them elsewhere, or name a list that has them: no screw on this list is the right length here.",
        )
        for (gauge, length), count in sorted(missing.items())
    ]
