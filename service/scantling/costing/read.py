"""Reads the plain request of a costing: every fault is collected, with a pointer and what would be accepted.

    {"currency": "USD",
     "take_off": [{"id": "sheet", "kind": "sheet", "what": "birch plywood", "quantity": 3, "unit": "sheet",
                   "used": 2.4, "on_hand": 0, "estimate": null}],
     "prices": [{"id": "sheet", "price": "62.00", "pack": 1, "unit": "sheet", "taxed": true},
                {"kind": "screw", "price": "9.25", "pack": 50}],
     "labour": {"hours": 6.5, "rate": "39.00", "taxed": false, "what": "labour"},
     "tax": {"percent": 7, "included": false},
     "waste": {"screw": 10, "board": {"yield": 67}},
     "mark_ups": [{"what": "overhead", "percent": 15}]}

Only `take_off` is required. Quantities are numbers in the line's unit, percentages are numbers, money is text.
"""

from collections.abc import Callable, Iterable, Mapping, Sequence
from fractions import Fraction
from typing import TypeVar

from scantling.measure import (
    MeasureError,
    RequestError,
    RequestProblem,
    parse_currency,
    parse_id,
    parse_money,
    pointer,
    repeated_ids,
)

from .nouns import ONE, Kind, Labour, MarkUp, Price, TakeOffLine, Tax, Terms, Waste
from .units import UNITS, in_unit

MOST_LINES = 1_000
MOST_QUANTITY = 1_000_000
MOST_PERCENT = 1_000
MOST_HOURS = 100_000
_TEXT = 200
T = TypeVar("T")


class Faults:
    """The faults found so far; every `take` returns a usable value, so that reading goes on to the next fault."""

    def __init__(self) -> None:
        self.found: list[RequestProblem] = []

    def add(self, at: str, detail: str, code: str) -> None:
        """Note a fault."""
        self.found.append(RequestProblem(at, detail, code))

    def check(self) -> None:
        """Raise RequestError when there is any."""
        if self.found:
            raise RequestError(self.found)

    def members(
        self, plain: object, at: str, known: Iterable[str], required: Iterable[str] = ()
    ) -> Mapping[str, object]:
        """Return an object of known members with the required ones; an empty one where it is none."""
        names = tuple(known)
        if not isinstance(plain, Mapping):
            self.add(at, f"Expected an object with {', '.join(names)}.", "wrong-type")
            return {}
        for name in plain:
            if name not in names:
                detail = f"{name!r} is not a member here; accepted: {', '.join(names)}."
                self.add(at + pointer(str(name)), detail, "unknown-member")
        for name in required:
            if name not in plain:
                self.add(at, f"The member {name} is missing.", "missing-member")
        return plain

    def listed(self, plain: object, at: str, most: int) -> Sequence[object]:
        """Return a list of at most so many entries; an empty one where it is none."""
        if not isinstance(plain, list):
            self.add(at, "Expected a list.", "wrong-type")
            return []
        if len(plain) > most:
            self.add(at, f"{len(plain)} entries; accepted: at most {most}.", "too-many")
            return []
        return plain

    def number(self, value: object, at: str, least: float, most: float, *, above: bool = False) -> Fraction:
        """Return a number in its limits exactly; `above`: the least itself is not accepted."""
        says = f"a number {'above' if above else 'from'} {least:g} {'and not above' if above else 'to'} {most:g}"
        if isinstance(value, bool) or not isinstance(value, int | float):
            self.add(at, f"{_shown(value)} is not a number; accepted: {says}.", "wrong-type")
        elif not (least < value <= most if above else least <= value <= most):
            self.add(at, f"{value:g} is out of range; accepted: {says}.", "out-of-range")
        else:
            return Fraction(str(value))
        return Fraction(str(max(least, 1)))

    def one_of(self, value: object, at: str, words: Iterable[str]) -> str:
        """Return one of the words; the first where it is none of them."""
        accepted = tuple(words)
        if isinstance(value, str) and value in accepted:
            return value
        self.add(at, f"{_shown(value)} is not offered; accepted: {', '.join(accepted)}.", "not-one-of")
        return accepted[0]

    def text(self, value: object, at: str) -> str:
        """Return a text of one line."""
        if isinstance(value, str) and len(value) <= _TEXT and value.isprintable():
            return value
        self.add(at, f"Expected text of at most {_TEXT} printable characters.", "bad-text")
        return ""

    def flag(self, value: object, at: str) -> bool:
        """Return true or false."""
        if not isinstance(value, bool):
            self.add(at, f"{_shown(value)} is neither true nor false.", "wrong-type")
        return value is True

    def parsed(self, parse: Callable[[str], T], value: object, at: str, instead: T) -> T:
        """Return what `parse` makes of the value; `instead` where it refuses."""
        try:
            return parse(value)  # type: ignore[arg-type]  # the parsers refuse what is no text themselves
        except MeasureError as error:
            self.add(at, error.message, error.code)
            return instead


def read_request(plain: Mapping[str, object]) -> tuple[list[TakeOffLine], list[Price], Terms]:
    """Return take-off, prices and terms of a request. Raises RequestError with every fault."""
    faults = Faults()
    known = ("units", "currency", "take_off", "prices", "labour", "tax", "waste", "mark_ups")
    members = faults.members(plain, "", known, ("take_off",))
    faults.one_of(_given(members, "units", "mm"), "/units", ("mm", "in"))
    take_off = read_take_off(members.get("take_off", []), faults)
    prices = read_prices(_given(members, "prices", []), faults, "/prices")
    terms = read_terms(members, faults)
    faults.found += unit_faults(take_off, prices)
    faults.check()
    return take_off, prices, terms


def read_take_off(plain: object, faults: Faults, at: str = "/take_off") -> list[TakeOffLine]:
    """Return the lines of a take-off."""
    rows = faults.listed(plain, at, MOST_LINES)
    lines = [_take_off_line(row, f"{at}/{index}", faults) for index, row in enumerate(rows)]
    faults.found += repeated_ids((line.id for line in lines), *at.strip("/").split("/"))
    return lines


def read_prices(plain: object, faults: Faults, at: str) -> list[Price]:
    """Return the prices of a price list."""
    rows = faults.listed(plain, at, MOST_LINES)
    prices = [_price(row, f"{at}/{index}", faults) for index, row in enumerate(rows)]
    seen: dict[tuple[str | None, Kind | None], str] = {}
    for price in prices:
        key = (price.id, price.kind)
        if key in seen and any(key):
            named = price.id or price.kind
            detail = f"{named} already has a price at {seen[key]}; a line or a kind has one price."
            faults.add(f"{price.pointer}", detail, "id-repeated")
        seen.setdefault(key, str(price.pointer))
    return prices


def read_terms(members: Mapping[str, object], faults: Faults) -> Terms:
    """Return currency, labour, tax, waste and mark-ups of a request that has these members."""
    labour = members.get("labour")
    mark_ups = faults.listed(_given(members, "mark_ups", []), "/mark_ups", 20)
    return Terms(
        faults.parsed(parse_currency, _given(members, "currency", "USD"), "/currency", "USD"),
        () if labour is None else (_labour(labour, "/labour", faults),),
        _tax(_given(members, "tax", {}), "/tax", faults),
        _waste(_given(members, "waste", {}), "/waste", faults),
        tuple(_mark_up(one, f"/mark_ups/{index}", faults) for index, one in enumerate(mark_ups)),
    )


def unit_faults(take_off: Sequence[TakeOffLine], prices: Sequence[Price]) -> list[RequestProblem]:
    """Return a fault for each price whose pack is in a unit that does not measure what its line counts."""
    problems = []
    by_id = {price.id: price for price in prices if price.id is not None}
    by_kind = {price.kind: price for price in prices if price.id is None}
    for line in take_off:
        price = by_id.get(line.id) or by_kind.get(line.kind)
        if price is None or price.unit is None or in_unit(ONE, price.unit, line.unit, line.kind) is not None:
            continue
        detail = f"The pack is in {price.unit}, but {line.id!r} is taken off in {line.unit}; give the pack in that."
        problems.append(RequestProblem(f"{price.pointer}/unit", detail, "unit-mismatch"))
    return problems


def _take_off_line(plain: object, at: str, faults: Faults) -> TakeOffLine:
    known = ("id", "kind", "what", "quantity", "unit", "used", "on_hand", "estimate")
    row = faults.members(plain, at, known, ("id", "kind", "quantity"))
    line_id = faults.parsed(parse_id, row.get("id", "?"), f"{at}/id", "")
    what, used, estimate = row.get("what"), row.get("used"), row.get("estimate")
    quantity = faults.number(row.get("quantity", 1), f"{at}/quantity", 0, MOST_QUANTITY, above=True)
    used_up = None if used is None else faults.number(used, f"{at}/used", 0, MOST_QUANTITY)
    if used_up is not None and used_up > quantity:
        faults.add(f"{at}/used", "More is used than is needed; accepted: at most quantity.", "used-above-quantity")
    return TakeOffLine(
        line_id,
        Kind(faults.one_of(row.get("kind", "other"), f"{at}/kind", Kind)),
        line_id if what is None else faults.text(what, f"{at}/what"),
        quantity,
        faults.one_of(_given(row, "unit", "piece"), f"{at}/unit", UNITS),
        used_up,
        faults.number(_given(row, "on_hand", 0), f"{at}/on_hand", 0, MOST_QUANTITY),
        None if estimate is None else faults.text(estimate, f"{at}/estimate"),
        at,
    )


def _price(plain: object, at: str, faults: Faults) -> Price:
    row = faults.members(plain, at, ("id", "kind", "price", "pack", "unit", "taxed", "listed"), ("price",))
    line_id, kind, unit = row.get("id"), row.get("kind"), row.get("unit")
    if (line_id is None) == (kind is None):
        detail = "A price is for a line of the take-off or for a kind: give either id or kind."
        faults.add(at, detail, "id-or-kind")
    pack = row.get("pack", 1)
    return Price(
        faults.parsed(parse_money, row.get("price", "0"), f"{at}/price", 0),
        None if line_id is None else faults.parsed(parse_id, line_id, f"{at}/id", ""),
        None if kind is None else Kind(faults.one_of(kind, f"{at}/kind", Kind)),
        None if pack is None else faults.number(pack, f"{at}/pack", 0, MOST_QUANTITY, above=True),
        None if unit is None else faults.one_of(unit, f"{at}/unit", UNITS),
        faults.flag(_given(row, "taxed", True), f"{at}/taxed"),
        at,
        row.get("listed") is True,
    )


def _labour(plain: object, at: str, faults: Faults) -> Labour:
    row = faults.members(plain, at, ("what", "hours", "rate", "taxed"), ("hours",))
    rate = row.get("rate")
    return Labour(
        faults.number(row.get("hours", 0), f"{at}/hours", 0, MOST_HOURS),
        None if rate is None else faults.parsed(parse_money, rate, f"{at}/rate", 0),
        faults.flag(_given(row, "taxed", False), f"{at}/taxed"),
        faults.text(_given(row, "what", "labour"), f"{at}/what"),
        at,
    )


def _tax(plain: object, at: str, faults: Faults) -> Tax:
    row = faults.members(plain, at, ("percent", "included"))
    share = faults.number(_given(row, "percent", 0), f"{at}/percent", 0, MOST_PERCENT) / 100
    return Tax(share, faults.flag(_given(row, "included", False), f"{at}/included"))


def _waste(plain: object, at: str, faults: Faults) -> dict[Kind, Waste]:
    waste = {}
    for name, value in faults.members(plain, at, Kind).items():
        if name not in set(Kind):
            continue
        place = at + pointer(name)
        if isinstance(value, Mapping):
            row = faults.members(value, place, ("yield",), ("yield",))
            part = faults.number(row.get("yield", 100), f"{place}/yield", 1, 100)
            waste[Kind(name)] = Waste(yield_=part / 100)
        else:
            waste[Kind(name)] = Waste(faults.number(value, place, 0, MOST_PERCENT) / 100)
    return waste


def _mark_up(plain: object, at: str, faults: Faults) -> MarkUp:
    row = faults.members(plain, at, ("what", "percent"), ("what", "percent"))
    share = faults.number(row.get("percent", 0), f"{at}/percent", 0, MOST_PERCENT) / 100
    return MarkUp(faults.text(row.get("what", ""), f"{at}/what"), share)


def _given(row: Mapping[str, object], name: str, otherwise: object) -> object:
    """Return a member, or the other value where it is absent or null."""
    value = row.get(name)
    return otherwise if value is None else value


def _shown(value: object) -> str:
    return repr(value)[:40] if isinstance(value, str | int | float | bool) or value is None else type(value).__name__
