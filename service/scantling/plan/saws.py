"""From a caller's saws to how the shop cuts, and from the words for effort to work units."""

from collections.abc import Mapping, Sequence
from typing import Any

from scantling.findings import Finding, Severity
from scantling.nesting.nouns import Cutting
from scantling.nesting.plain import DEFAULT_KERF_MM, EFFORTS, read_trim

from .cutting import units

DEFAULT_TRIM_MM = 10.0  # off each edge of a sheet; practice


def effort_of(effort: str | int) -> int:
    """Return the work units of a preset or of a number."""
    return effort if isinstance(effort, int) else EFFORTS[effort]


def cutting_of(saws: Sequence[Mapping[str, Any]]) -> tuple[Cutting, list[Finding]]:
    """Return how the shop cuts: the widest kerf of its saws, so that no layout is too tight for any of them."""
    if not saws:
        finding = Finding(
            "saw-assumed",
            Severity.NOTE,
            f"No saw is given; a kerf of {DEFAULT_KERF_MM:g} mm and a trim of {DEFAULT_TRIM_MM:g} mm are taken.",
            source="a full-kerf blade is 1/8 in; practice",
            remedy="Cut a board in two, measure both pieces, and give the difference as your kerf.",
        )
        return Cutting(units(DEFAULT_KERF_MM), read_trim(DEFAULT_TRIM_MM)), [finding]
    kerf = max(saw.get("kerf", DEFAULT_KERF_MM) for saw in saws)
    trims = [saw["trim"] for saw in saws if "trim" in saw]
    return Cutting(units(kerf), read_trim(trims[0] if trims else 0.0)), []
