"""Requests that cannot be nested at all, told before any work starts, each with its place in the request."""

from collections.abc import Iterator, Mapping
from typing import Any

from scantling.measure import MeasureError, RequestError, RequestProblem, parse_money, parse_thickness, pointer

from .boards_plain import refuse_defects

MOST_KINDS = 500
MOST_PIECES = 20_000
EFFORTS = ("quick", "normal", "thorough")
GRAINS = ("along", "across", "any")
FIRST_CUTS = ("along", "across", "either")

Plain = Mapping[str, Any]


def refuse_impossible(request: Plain) -> None:
    """Raise RequestError with every fault of a plain nesting request; return where it can be computed."""
    problems = [*_of_lists(request), *_of_saw(request), *_of_search(request)]
    for name, entries in (("parts", request.get("parts") or ()), ("stock", request.get("stock") or ())):
        for index, entry in enumerate(entries):
            problems.extend(_of_entry(entry, name, index))
    if not problems:
        problems = [*_of_pins(request), *_of_groups(request), *_of_matching(request), *_of_sheets(request)]
    if problems:
        raise RequestError(problems)


def _of_lists(request: Plain) -> Iterator[RequestProblem]:
    for name in ("parts", "stock"):
        entries = request.get(name)
        if not entries:
            yield RequestProblem(pointer(name), f"{name} is empty; at least one is needed", "empty")
            continue
        seen: set[object] = set()
        for index, entry in enumerate(entries):
            if entry.get("id") in seen:
                place = pointer(name, index, "id")
                yield RequestProblem(
                    place, f"{entry.get('id')!r} stands twice; ids are unique in their list", "repeated"
                )
            seen.add(entry.get("id"))
    parts = request.get("parts") or ()
    pieces = sum(q for q in (p.get("quantity", 1) for p in parts) if isinstance(q, int) and q > 0)
    if len(parts) > MOST_KINDS:
        detail = f"{len(parts)} kinds of part; at most {MOST_KINDS} are taken"
        yield RequestProblem(pointer("parts"), detail, "too-much-work")
    if pieces > MOST_PIECES:
        detail = f"{pieces} pieces in all; at most {MOST_PIECES} are taken"
        yield RequestProblem(pointer("parts"), detail, "too-much-work")


def _of_entry(entry: Plain, name: str, index: int) -> Iterator[RequestProblem]:
    for member in ("length", "width"):
        value = entry.get(member)
        if value is None and member == "width":
            continue
        if value is None or not _is_size(value) or value <= 0:
            detail = f"{value!r} is not a size; a length above 0 mm is accepted"
            yield RequestProblem(pointer(name, index, member), detail, "out-of-range")
    oversize = entry.get("oversize", 0.0)
    if not _is_size(oversize) or oversize < 0:
        detail = f"{oversize!r} is no allowance; 0 mm or more is accepted"
        yield RequestProblem(pointer(name, index, "oversize"), detail, "out-of-range")
    quantity = entry.get("quantity", 1)
    least = 0 if name == "stock" else 1
    whole = isinstance(quantity, int) and not isinstance(quantity, bool) and quantity >= least
    if not whole and (quantity is not None or name == "parts"):
        detail = f"{quantity!r} is no quantity; a whole number from {least} is accepted"
        yield RequestProblem(pointer(name, index, "quantity"), detail, "out-of-range")
    if name == "parts" and entry.get("grain", "along") not in GRAINS:
        detail = f"{entry['grain']!r} is no direction of grain; accepted: {', '.join(GRAINS)}"
        yield RequestProblem(pointer(name, index, "grain"), detail, "unknown-value")
    if name == "stock":
        yield from refuse_defects(entry, index)
    yield from _of_texts(entry, name, index)


def _of_texts(entry: Plain, name: str, index: int) -> Iterator[RequestProblem]:
    for member, read in (("price", parse_money), ("thickness", parse_thickness)):
        value = entry.get(member)
        if value is None:
            continue
        try:
            read(value)
        except MeasureError as error:
            yield RequestProblem(pointer(name, index, member, *error.at), error.message, error.code)


def _is_size(value: object) -> bool:
    return isinstance(value, int | float) and not isinstance(value, bool) and -1e6 < value < 1e6


def _of_saw(request: Plain) -> Iterator[RequestProblem]:
    saw = request.get("saw") or {}
    for member in ("kerf", "cutting_error"):
        value = saw.get(member, 0.0)
        if not _is_size(value) or value < 0:
            detail = f"{value!r} is not accepted; 0 mm or more is"
            yield RequestProblem(pointer("saw", member), detail, "out-of-range")
    trim = saw.get("trim") or 0.0
    for side, value in trim.items() if isinstance(trim, Mapping) else [("", trim)]:
        if not _is_size(value or 0.0) or (value or 0.0) < 0:
            place = pointer("saw", "trim", side) if side else pointer("saw", "trim")
            yield RequestProblem(place, f"{value!r} is not accepted; 0 mm or more is", "out-of-range")
    stages = saw.get("stages")
    if stages is not None and (not isinstance(stages, int) or isinstance(stages, bool) or stages < 1):
        detail = f"{stages!r} is no limit on stages; 1, 2, 3 … or null for none is accepted"
        yield RequestProblem(pointer("saw", "stages"), detail, "out-of-range")
    if saw.get("first_cut", "either") not in FIRST_CUTS:
        detail = f"{saw['first_cut']!r} is not accepted; {', '.join(FIRST_CUTS)} are"
        yield RequestProblem(pointer("saw", "first_cut"), detail, "unknown-value")


def _of_search(request: Plain) -> Iterator[RequestProblem]:
    effort = request.get("effort", "normal")
    whole = isinstance(effort, int) and not isinstance(effort, bool) and effort >= 1
    if not whole and effort not in EFFORTS:
        detail = f"{effort!r} is no effort; accepted: {', '.join(EFFORTS)} or a whole number of work units"
        yield RequestProblem(pointer("effort"), detail, "unknown-value")


def _of_pins(request: Plain) -> Iterator[RequestProblem]:
    stock = {s["id"]: s for s in request["stock"]}
    pins: dict[str, tuple[int, str]] = {}
    for index, part in enumerate(request["parts"]):
        pin, group = part.get("stock"), part.get("group")
        if pin is not None and pin not in stock:
            detail = f"there is no stock {pin!r}; the part can only be pinned to one of this request"
            yield RequestProblem(pointer("parts", index, "stock"), detail, "unknown-id")
        elif pin is not None:
            for member in ("material", "thickness"):
                mine, its = part.get(member), stock[pin].get(member)
                if None not in (mine, its) and mine != its:
                    detail = f"the part is pinned to {pin!r}, whose {member} is {its!r} and not {mine!r}"
                    yield RequestProblem(pointer("parts", index, "stock"), detail, "contradiction")
        if group is not None and pin is not None:
            first = pins.setdefault(group, (index, pin))
            if first[1] != pin:
                detail = f"group {group!r} must come from one sheet, but is pinned to {first[1]!r} and {pin!r}"
                yield RequestProblem(pointer("parts", index, "stock"), detail, "contradiction")


def _of_groups(request: Plain) -> Iterator[RequestProblem]:
    """The parts of a group come from one sheet or board: one material, one thickness, all with a width or all without.

    Where nothing but boards can be had, a width does not matter.
    """
    first: dict[str, Plain] = {}
    sheets = any(s.get("width") is not None for s in request["stock"])
    for index, part in enumerate(request["parts"]):
        group = part.get("group")
        if group is None:
            continue
        other = first.setdefault(group, part)
        for member, read in (("material", str), ("thickness", lambda t: parse_thickness(t).typical)):
            mine, its = part.get(member), other.get(member)
            if None not in (mine, its) and read(mine) != read(its):
                detail = f"group {group!r} must come from one sheet or board, but has the {member} {its!r} and {mine!r}"
                yield RequestProblem(pointer("parts", index, member), detail, "contradiction")
        if sheets and (part.get("width") is None) != (other.get("width") is None):
            detail = f"group {group!r} must come from one sheet or board; give a width to all of its parts or to none"
            yield RequestProblem(pointer("parts", index, "group"), detail, "contradiction")


def _of_matching(request: Plain) -> Iterator[RequestProblem]:
    """Material or thickness may be absent only where there is no more than one of it."""
    for member in ("material", "thickness"):
        named = {repr(e.get(member)) for name in ("parts", "stock") for e in request[name]} - {repr(None)}
        if len(named) < 2:
            continue
        for name in ("parts", "stock"):
            for index, entry in enumerate(request[name]):
                if entry.get(member) is None:
                    shown = ", ".join(sorted(named)[:4])
                    detail = f"{member} is missing, and the request has several ({shown}); it is needed on every entry"
                    yield RequestProblem(pointer(name, index, member), detail, "missing-member")


def _of_sheets(request: Plain) -> Iterator[RequestProblem]:
    """A trim or a blade that leaves nothing of any stock is a mistake in the saw, not a part that does not fit."""
    saw = request.get("saw") or {}
    trim, kerf = saw.get("trim") or 0.0, saw.get("kerf", 0.0)
    sides = trim if isinstance(trim, Mapping) else dict.fromkeys(("start", "end", "near", "far"), trim)
    off_x = (sides.get("start") or 0.0) + (sides.get("end") or 0.0)
    off_y = (sides.get("near") or 0.0) + (sides.get("far") or 0.0)
    stock = [s for s in request["stock"] if not s.get("offcut")] or request["stock"]
    if all(s["length"] <= off_x or (s.get("width") is not None and s["width"] <= off_y) for s in stock):
        yield RequestProblem(
            pointer("saw", "trim"), "the trim takes the whole of every stock; trim less", "out-of-range"
        )
    if all(kerf >= min(s["length"], s.get("width") or s["length"]) for s in stock):
        detail = f"a kerf of {kerf:g} mm is as wide as the stock; accepted: less than its width"
        yield RequestProblem(pointer("saw", "kerf"), detail, "out-of-range")
