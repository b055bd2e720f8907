"""Costing: take-off, what to buy, what it costs; as bought in whole packs, and as used.

`cost` is the computation, `costings` the operation on plain data, `quantities` makes take-off lines from areas and
counts. Nothing without a price is dropped: it comes back by name, and the total then says that it is a lower bound.
"""

from collections.abc import Mapping

from .answer import findings_of, line_rows, summary, to_plain
from .cost import Costing, CostLine, LabourLine, Sum, UnitMismatchError, by_kind, cost, shares
from .nouns import Kind, Labour, MarkUp, Price, TakeOffLine, Tax, Terms, Waste
from .quantities import box_of, finish_area, finish_line, glue_line, screw_lines
from .read import Faults, read_prices, read_request, read_take_off, read_terms

__all__ = [
    "CostLine",
    "Costing",
    "Faults",
    "Kind",
    "Labour",
    "LabourLine",
    "MarkUp",
    "Price",
    "Sum",
    "TakeOffLine",
    "Tax",
    "Terms",
    "UnitMismatchError",
    "Waste",
    "box_of",
    "by_kind",
    "cost",
    "costings",
    "findings_of",
    "finish_area",
    "finish_line",
    "glue_line",
    "line_rows",
    "read_prices",
    "read_request",
    "read_take_off",
    "read_terms",
    "screw_lines",
    "shares",
    "summary",
    "to_plain",
]


def costings(plain: Mapping[str, object]) -> dict[str, object]:
    """Return the costing of a plain request; its members are described in `costing.read`. Raises RequestError."""
    take_off, prices, terms = read_request(plain)
    return to_plain(cost(take_off, prices, terms))
