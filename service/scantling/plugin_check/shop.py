"""Stock lists and price lists: known materials and sizes, prices that can be read, one thing under one id."""

from collections.abc import Sequence

from scantling.costing import Faults, read_prices
from scantling.kit import Board, Price, PriceList, Screws, Sheet, StockList
from scantling.measure import MeasureError, parse_currency, parse_id, parse_money, parse_thickness
from scantling.tables import materials
from scantling.tables.screws import screw_gauges

from .fault import Fault
from .reading import by_id, listed, number, texts

MOST_LISTS = 50
MOST_ENTRIES = 500
MOST_PRICES = 1_000
LONGEST_MM, THICKEST_MM = 20_000.0, 300.0


def read_stock(answer: object) -> dict[str, StockList]:
    """Return stock lists by id. Raises Fault."""
    found = by_id(listed(answer, StockList, "stock", MOST_LISTS), "stock list")
    for one in found.values():
        _stock_list(one)
    return found


def read_price_lists(answer: object) -> dict[str, PriceList]:
    """Return price lists by id. Raises Fault."""
    found = by_id(listed(answer, PriceList, "price_lists", MOST_LISTS), "price list")
    for one in found.values():
        what = f"price list {one.id!r}"
        texts(one, what, "title", "says")
        _currency(one.currency, what)
        faults = Faults()
        read_prices([p.to_plain() for p in listed(one.prices, Price, what, MOST_PRICES)], faults, "/prices")
        if faults.found:
            first = faults.found[0]
            where = " ".join(first.pointer.strip("/").split("/"))
            raise Fault(f"{what}, {where}: {first.detail}")
    return found


def _stock_list(one: StockList) -> None:
    what = f"stock list {one.id!r}"
    texts(one, what, "title", "says")
    sheets = listed(one.sheets, Sheet, f"{what}, sheets", MOST_ENTRIES)
    boards = listed(one.boards, Board, f"{what}, boards", MOST_ENTRIES)
    screws = listed(one.screws, Screws, f"{what}, screws", MOST_ENTRIES)
    if not (sheets or boards or screws):
        raise Fault(f"{what} is empty")
    _unique_ids([*sheets, *boards, *screws], what)
    wood: list[Sheet | Board] = [*sheets, *boards]
    for sold in wood:
        _wood(sold, f"{what}, {sold.id!r}")
    for box in screws:
        _screws(box, f"{what}, {box.id!r}")
    priced = any(e.price is not None for e in [*wood, *screws])
    if priced or one.currency is not None:
        _currency(one.currency, what)


def _unique_ids(entries: Sequence[Sheet | Board | Screws], what: str) -> None:
    seen: set[str] = set()
    for entry in entries:
        try:
            parse_id(entry.id)
        except MeasureError as error:
            raise Fault(f"{what}: {error.message}") from error
        if entry.id in seen:
            raise Fault(f"{what} has two entries with the id {entry.id!r}")
        seen.add(entry.id)


def _wood(sold: Sheet | Board, what: str) -> None:
    if sold.material not in materials():
        raise Fault(f"{what} is of {sold.material!r}, which no table knows; GET /v1/tables/materials lists them")
    for name, most in (("thickness", THICKEST_MM), ("length", LONGEST_MM), ("width", LONGEST_MM)):
        number(getattr(sold, name), f"{what}: {name} in mm", 0.1, most)
    if (sold.least is None) is not (sold.most is None):
        raise Fault(f"{what}: least and most of the thickness go together")
    if sold.least is not None and sold.most is not None and not sold.least <= sold.thickness <= sold.most:
        raise Fault(f"{what}: the thickness {sold.thickness:g} does not lie in {sold.least:g} to {sold.most:g}")
    try:
        parse_thickness(sold.to_plain()["thickness"])
    except MeasureError as error:
        raise Fault(f"{what}: {error.message}") from error
    _money(sold.price, what)


def _screws(box: Screws, what: str) -> None:
    if box.gauge not in screw_gauges():
        known = ", ".join(str(gauge) for gauge in screw_gauges())
        raise Fault(f"{what}: there is no gauge {box.gauge!r}; the gauges are {known}")
    number(box.length, f"{what}: length in mm", 5, 300)
    number(box.box, f"{what}: screws in a box", 1, 100_000)
    _money(box.price, what)


def _money(price: object, what: str) -> None:
    if price is None:
        return
    try:
        parse_money(price)  # type: ignore[arg-type]  # it refuses what is no text itself
    except MeasureError as error:
        raise Fault(f"{what}: price: {error.message}") from error


def _currency(currency: object, what: str) -> None:
    try:
        parse_currency(currency)
    except MeasureError as error:
        raise Fault(f"{what}: currency: {error.message}") from error
