"""Which representation a client wants: Accept with q-values (RFC 9110 section 12.5.1), or `?format=`."""

import re
from collections.abc import Mapping, Sequence
from types import MappingProxyType

from scantling.papers.forms import FORMATS

from .problems import Problem

JSON = "application/json"
CSV = "text/csv"
TEXT = "text/plain"
TYPES = {"json": JSON, "csv": CSV, "text": TEXT, **FORMATS}
OTHER_NAMES = {"application/dxf": FORMATS["dxf"]}  # older names that programs still send
NONE: Mapping[str, str] = MappingProxyType({})
_QUALITY = re.compile(r"(0(\.[0-9]{0,3})?|1(\.0{0,3})?)")


def choose(
    accept: str | None, offered: Sequence[str], wanted: str | None = None, more: Mapping[str, str] = NONE
) -> str:
    """Return the name ("json", "csv", "svg" …) to answer with; `offered` is in our order of preference.

    `wanted`, the value of `?format=`, stands for the header; `more` are media types by name that plugins add, after
    ours. Raises Problem (406) that lists what there is.
    """
    offered, types = [*offered, *more], {**TYPES, **more}
    if wanted is not None:
        if wanted in offered:
            return wanted
        raise _refusal([types[name] for name in offered], types.get(wanted, wanted))
    if accept is None or not accept.strip():
        return offered[0]
    ranges = _ranges(accept)
    qualities = [(_quality(ranges, types[name]), -place, name) for place, name in enumerate(offered)]
    best = max(qualities)
    if best[0] <= 0:
        raise _refusal([types[name] for name in offered], accept)
    return best[2]


def _refusal(available: list[str], asked: str) -> Problem:
    shown = "".join(c for c in asked[:100] if c.isprintable())
    return Problem(
        "not-acceptable",
        f"The answer comes as {' or '.join(available)}; {shown} was asked for.",
        available=available,
        headers={"Vary": "Accept"},
    )


def _ranges(accept: str) -> dict[str, float]:
    ranges: dict[str, float] = {}
    for item in accept.split(","):
        media, *parameters = (part.strip().lower() for part in item.split(";"))
        if not media:
            continue
        quality = 1.0
        for parameter in parameters:
            name, _, value = parameter.partition("=")
            if name.strip() == "q":
                quality = float(value) if _QUALITY.fullmatch(value.strip()) else 0.0
        media = OTHER_NAMES.get(media, media)
        ranges[media] = max(quality, ranges.get(media, 0.0))
    return ranges


def _quality(ranges: dict[str, float], media: str) -> float:
    """Return the quality for one media type: the most specific range that names it decides."""
    kind = media.partition("/")[0]
    for name in (media, f"{kind}/*", "*/*"):
        if name in ranges:
            return ranges[name]
    return 0.0
