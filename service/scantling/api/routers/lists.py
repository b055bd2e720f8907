"""What plugins offer by name: stock lists, price lists, finish systems."""

from collections.abc import Mapping, Sequence
from typing import Annotated, Any

from fastapi import APIRouter, Depends, Request
from starlette.responses import Response

from ..calls import calls_of
from ..describe import form_of, operation
from ..respond import Form, Table, cached, member
from ..schemas.lists import FinishSystems, PriceLists, StockLists

router = APIRouter()


def _stock(answer: Mapping[str, Any]) -> Sequence[Mapping[str, Any]]:
    """Return one row a sheet, board or box of screws, with its list."""
    return [
        {"list": one["id"], **entry, "currency": one["currency"]}
        for one in answer["stock_lists"]
        for entry in (*one["stock"], *one["fasteners"])
    ]


def _prices(answer: Mapping[str, Any]) -> Sequence[Mapping[str, Any]]:
    """Return one row a price, with its list."""
    return [
        {"list": one["id"], **entry, "currency": one["currency"]}
        for one in answer["price_lists"]
        for entry in one["prices"]
    ]


STOCK_COLUMNS = (
    "list",
    "id",
    "material",
    "thickness",
    "length",
    "width",
    "board_width",
    "gauge",
    "box",
    "price",
    "currency",
)
STOCK = (Table("stock", STOCK_COLUMNS, _stock),)
PRICES = (Table("prices", ("list", "id", "kind", "price", "pack", "unit", "taxed", "currency"), _prices),)
FINISHES = (
    Table(
        "finish-systems",
        ("id", "title", "kind", "coats", "recoat_h", "ready_h", "care_months", "exposures", "plugin"),
        member("finish_systems"),
    ),
)


@router.get(
    "/v1/stock-lists",
    **operation(
        "list_stock_lists",
        "What shops sell",
        "The stock lists that plugins give: sheets, boards and screws, lengths in mm. A nesting or a project names one "
        "by its id in place of a list of stock.",
        "catalogues",
        StockLists,
        tables=STOCK,
        worker=True,
    ),
)
async def list_stock_lists(request: Request, form: Annotated[Form, Depends(form_of(STOCK))]) -> Response:
    """Return the stock lists."""
    return cached(request, await calls_of(request).answer(request, "stock-lists", {}, form, "stock-lists"))


@router.get(
    "/v1/price-lists",
    **operation(
        "list_price_lists",
        "What things cost",
        "The price lists that plugins give. A costing or a project names one by its id in place of a list of prices.",
        "catalogues",
        PriceLists,
        tables=PRICES,
        worker=True,
    ),
)
async def list_price_lists(request: Request, form: Annotated[Form, Depends(form_of(PRICES))]) -> Response:
    """Return the price lists."""
    return cached(request, await calls_of(request).answer(request, "price-lists", {}, form, "price-lists"))


@router.get(
    "/v1/finish-systems",
    **operation(
        "list_finish_systems",
        "Finish systems",
        "The finish systems that plugins give: coats, coverage, drying, care and where they may stand. A project names "
        "one by its id as its finish.",
        "catalogues",
        FinishSystems,
        tables=FINISHES,
        worker=True,
    ),
)
async def list_finish_systems(request: Request, form: Annotated[Form, Depends(form_of(FINISHES))]) -> Response:
    """Return the finish systems."""
    return cached(request, await calls_of(request).answer(request, "finish-systems", {}, form, "finish-systems"))
