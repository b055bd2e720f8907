"""Checks, exporters and finish systems: whole, callable, and with names that are their own."""

import re

from scantling.findings import Severity, catalogue
from scantling.kit import Check, Code, Exporter, FinishSystem
from scantling.tables.finishing import coverages

from .fault import Fault, called
from .reading import ID, by_id, listed, number, texts

MOST_CHECKS, MOST_CODES, MOST_EXPORTERS, MOST_FINISHES = 100, 50, 20, 100
EXPOSURES = ("indoors", "damp", "covered outdoors", "outdoors")
PLAN_KINDS = ("parts", "project")
FORMAT = re.compile(r"[a-z][a-z0-9-]{0,15}")
MEDIA_TYPE = re.compile(r"[a-z]+/[a-z0-9][a-z0-9.+-]{0,80}")
MONTHS = 1_200


def read_checks(answer: object) -> dict[str, Check]:
    """Return checks by id. Raises Fault."""
    found = by_id(listed(answer, Check, "checks", MOST_CHECKS), "check")
    seen: dict[str, str] = {}
    for one in found.values():
        what = f"check {one.id!r}"
        texts(one, what, "title", "says")
        if not callable(one.look):
            raise Fault(f"{what}: look is {called(one.look)}, not a function")
        codes = listed(one.codes, Code, f"{what}, codes", MOST_CODES)
        if not codes:
            raise Fault(f"{what} declares no code, so it can find nothing")
        for code in codes:
            _code(code, what, seen)
    return found


def _code(code: Code, what: str, seen: dict[str, str]) -> None:
    if not isinstance(code.code, str) or not ID.fullmatch(code.code):
        raise Fault(f"{what}: the code {code.code!r} is not kebab-case")
    texts(code, f"{what}, code {code.code!r}", "title", "meaning", "remedy")
    if not isinstance(code.severity, Severity):
        raise Fault(f"{what}, code {code.code!r}: severity is {called(code.severity)}, not a Severity")
    if code.code in catalogue():
        raise Fault(f"{what}: the finding code {code.code!r} is the service's own")
    if code.code in seen:
        raise Fault(f"{what}: the finding code {code.code!r} is also one of {seen[code.code]}")
    seen[code.code] = what


def read_exporters(answer: object) -> dict[str, Exporter]:
    """Return exporters by format word. Raises Fault."""
    found = by_id(listed(answer, Exporter, "exporters", MOST_EXPORTERS), "exporter", "format")
    media: dict[str, str] = {}
    for one in found.values():
        what = f"exporter {one.format!r}"
        texts(one, what, "title")
        if not FORMAT.fullmatch(one.format):
            raise Fault(f"{what}: a format is a short word such as 'txt'")
        if not isinstance(one.media_type, str) or not MEDIA_TYPE.fullmatch(one.media_type):
            raise Fault(f"{what}: media_type is {one.media_type!r}; it looks like 'text/markdown', in small letters")
        if one.media_type in media:
            raise Fault(f"{what} writes {one.media_type}, as {media[one.media_type]} does")
        media[one.media_type] = what
        if not callable(one.write):
            raise Fault(f"{what}: write is {called(one.write)}, not a function")
        if not one.kinds or any(kind not in PLAN_KINDS for kind in one.kinds):
            raise Fault(f"{what}: kinds is {one.kinds!r}; it lists {' and '.join(PLAN_KINDS)}, or one of them")
    return found


def read_finishes(answer: object) -> dict[str, FinishSystem]:
    """Return finish systems by id. Raises Fault."""
    found = by_id(listed(answer, FinishSystem, "finishes", MOST_FINISHES), "finish")
    kinds = tuple(dict.fromkeys(kind for kind, _ in coverages()))
    for one in found.values():
        what = f"finish {one.id!r}"
        texts(one, what, "title", "says", "source")
        if one.kind not in kinds:
            raise Fault(f"{what} is of the kind {one.kind!r}; the kinds are {', '.join(kinds)}")
        if isinstance(one.coats, bool) or not isinstance(one.coats, int):
            raise Fault(f"{what}: coats is {one.coats!r}, not a whole number")
        number(one.coats, f"{what}: coats", 1, 10)
        least = number(one.least, f"{what}: least m²/L", 0.5, 50)
        if number(one.most, f"{what}: most m²/L", 0.5, 50) < least:
            raise Fault(f"{what}: most is below least")
        number(one.recoat_hours, f"{what}: recoat_hours", 0, 1_000)
        number(one.ready_hours, f"{what}: ready_hours", 0, 10_000)
        number(one.care_months, f"{what}: care_months", 1, MONTHS)
        if not one.exposures or any(place not in EXPOSURES for place in one.exposures):
            raise Fault(f"{what}: exposures is {one.exposures!r}; it lists some of {', '.join(EXPOSURES)}")
    return found
