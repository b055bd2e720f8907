"""Putting named lists into a request: the stock, prices and finish of a plugin in place of the id that names them.

    "stock": {"list": "corner-yard", "also": [ … ]}     a stock list, and what the caller has besides
    "prices": {"list": "corner-yard", "also": [ … ]}    a price list; the caller's own prices rule over it
    "finish": {"system": "house-oil", "coats": 3}       a finish system

What follows in the engine sees ordinary stock, prices and finish. A pointer into a list that the caller never wrote is
turned back into one at the member that names it.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from difflib import get_close_matches
from typing import Any, Protocol

from scantling.kit import FinishSystem, PriceList, StockList
from scantling.measure import RequestError, RequestProblem, parse_thickness

Plain = Mapping[str, Any]
INNER = "request"  # the member in which drawings and exports carry the body of their operation


class Lists(Protocol):
    """What is asked of the plugin host: its lists by id, each with the plugin it came from."""

    def stock(self) -> Mapping[str, tuple[StockList, str]]:
        """Return the stock lists."""

    def price_lists(self) -> Mapping[str, tuple[PriceList, str]]:
        """Return the price lists."""

    def finishes(self) -> Mapping[str, tuple[FinishSystem, str]]:
        """Return the finish systems."""


@dataclass(frozen=True, slots=True)
class Filled:
    """A request with its lists put in, and the way back for pointers: by member, how many entries are the caller's."""

    request: dict[str, Any]
    own: Mapping[str, int] = field(default_factory=dict)

    def pointed(self, pointer: str) -> str:
        """Return a pointer into the filled request as one into what the caller wrote."""
        _, _, rest = pointer.partition("/")
        member, _, rest = rest.partition("/")
        index, _, rest = rest.partition("/")
        if member not in self.own or not index.isdecimal():
            return pointer
        if int(index) >= self.own[member]:
            return f"/{member}/list"
        return f"/{member}/also/{index}" + (f"/{rest}" if rest else "")

    def refused(self, error: RequestError) -> RequestError:
        """Return a refusal with its pointers turned back."""
        return RequestError([replace(problem, pointer=self.pointed(problem.pointer)) for problem in error.errors])

    def answered(self, answer: Any) -> Any:  # noqa: ANN401 - JSON
        """Return an answer with the pointers of its findings turned back."""
        if isinstance(answer, Mapping):
            turned = {name: self.answered(value) for name, value in answer.items()}
            if "code" in turned and isinstance(turned.get("pointer"), str):
                turned["pointer"] = self.pointed(turned["pointer"])
            return turned
        return [self.answered(one) for one in answer] if isinstance(answer, list) else answer


def fill(request: Plain, lists: Lists) -> Filled:
    """Return a request with its named lists put in. Raises RequestError for a list, or a system, that nobody gives."""
    if isinstance(request.get(INNER), Mapping):
        inner = fill(request[INNER], lists)
        return Filled({**request, INNER: inner.request}, inner.own)
    body, own = dict(request), dict[str, int]()
    problems: list[RequestProblem] = []
    for member, put in (("stock", _put_stock), ("prices", _put_prices)):
        if isinstance(body.get(member), Mapping):
            own[member] = len(body[member].get("also") or ())
            problems += put(body, lists)
    finish = body.get("finish")
    if isinstance(finish, Mapping) and "system" in finish:
        problems += _put_finish(body, lists)
    if problems:
        raise RequestError(problems)
    return Filled(body, own)


def _put_stock(body: dict[str, Any], lists: Lists) -> Iterable[RequestProblem]:
    asked = body["stock"]
    found, problems = _find(asked["list"], lists.stock(), "/stock/list", "stock list")
    if found is None:
        return problems
    own = list(asked.get("also") or ())
    taken = {entry["id"] for entry in own}
    sold = [*(s.to_plain() for s in found.sheets), *(b.to_plain() for b in found.boards)]
    if "parts" in body:
        sold = _for_parts(sold, body["parts"])
    body["stock"] = [*own, *({**entry, "list": found.id} for entry in sold if entry["id"] not in taken)]
    if "modules" in body and found.screws:
        boxes = list(body.get("fasteners") or ())
        known = {(box["gauge"], round(box["length"], 2)) for box in boxes}
        more = [s.to_plain() for s in found.screws if (s.gauge, round(s.length, 2)) not in known]
        body["fasteners"] = [*boxes, *({**box, "list": found.id} for box in more)]
        body["screws_sold"] = [[box["gauge"], box["length"]] for box in body["fasteners"]]
    return _one_currency(body, found.currency, found.id, "stock list")


def _for_parts(sold: Sequence[dict[str, Any]], parts: Sequence[Plain]) -> list[dict[str, Any]]:
    """Return the stock for a nesting: what nothing is cut from left out, and sheets as thick as what is cut from them.

    A shop says between what its sheets measure; where the parts are of one thickness within that, it is that of the
    sheet.
    """
    wanted = {part.get("material") for part in parts}
    sizes = {(p.get("material"), parse_thickness(p["thickness"]).typical) for p in parts if "thickness" in p}
    kept = []
    for entry in sold:
        band = parse_thickness(entry["thickness"])
        within = {t for material, t in sizes if material in (None, entry["material"]) and band.least <= t <= band.most}
        if None in wanted or entry["material"] in wanted:
            kept.append({**entry, "thickness": within.pop()} if len(within) == 1 else entry)
    return kept


def _put_prices(body: dict[str, Any], lists: Lists) -> Iterable[RequestProblem]:
    asked = body["prices"]
    found, problems = _find(asked["list"], lists.price_lists(), "/prices/list", "price list")
    if found is None:
        return problems
    own = list(asked.get("also") or ())
    ruled = {(price.get("id"), price.get("kind")) for price in own}
    more = [price.to_plain() for price in found.prices if (price.id, price.kind) not in ruled]
    body["prices"] = [*own, *({**price, "listed": True} for price in more)]
    return _one_currency(body, found.currency, found.id, "price list")


def _put_finish(body: dict[str, Any], lists: Lists) -> Iterable[RequestProblem]:
    asked = body["finish"]
    found, problems = _find(asked["system"], lists.finishes(), "/finish/system", "finish system")
    if found is None:
        return problems
    system = {
        name: getattr(found, name)
        for name in ("id", "title", "least", "most", "recoat_hours", "ready_hours", "care_months", "source")
    }
    coats = asked.get("coats") or found.coats
    body["finish"] = {
        "kind": found.kind, "coats": coats, "system": {**system, "exposures": list(found.exposures)},
    }  # fmt: skip
    return []


def _find(id: str, known: Mapping[str, tuple[Any, str]], at: str, what: str) -> tuple[Any, Iterable[RequestProblem]]:
    if id in known:
        return known[id][0], []
    near = get_close_matches(id, known, n=2, cutoff=0.4)
    there = ", ".join(near or sorted(known)) or "none: no plugin gives one"
    return None, [RequestProblem(at, f"there is no {what} {id!r}; there are {there}", "unknown-list")]


def _one_currency(body: Plain, currency: str | None, id: str, what: str) -> Iterable[RequestProblem]:
    asked = body.get("currency", "USD")
    if currency is None or currency == asked:
        return []
    detail = f"the {what} {id!r} is in {currency} and the request in {asked}; say currency {currency!r}"
    return [RequestProblem("/currency", detail, "contradiction")]
