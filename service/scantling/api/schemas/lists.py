"""Lists that plugins give and requests name: what shops sell, what things cost, what surfaces are coated with."""

from typing import Annotated, Any

from pydantic import Field

from .branches import by_type, listed, mapped
from .common import Stock
from .lengths import Broken, repeated
from .marks import COUNT, unit
from .scalars import Closed, Open, Slug

MOST_STOCK = 100


class StockFromList(Closed):
    """What a shop sells, by the name of its list."""

    named: Slug = Field(alias="list", description="Id of a list of GET /v1/stock-lists.", examples=["harbour-yard"])
    also: list[Stock] | None = Field(
        None,
        description="What there is besides, such as offcuts; an entry rules over one of the list with its id.",
        max_length=MOST_STOCK,
    )


StockListed = Annotated[list[Stock], Field(max_length=MOST_STOCK), listed]
AnyStock = Annotated[
    StockListed | Annotated[StockFromList, mapped], by_type("a list of stock, or {list, also} naming a shop's list")
]
SomeStock = Annotated[
    Annotated[list[Stock], Field(min_length=1, max_length=MOST_STOCK), listed] | Annotated[StockFromList, mapped],
    by_type("a list of stock, or {list, also} naming a shop's list"),
]


def repeated_stock(stock: list[Stock] | StockFromList | None) -> list[Broken]:
    """Return a fault for each id of stock that the caller wrote twice."""
    if isinstance(stock, StockFromList):
        return repeated(stock.also or [], "stock", "also")
    return repeated(stock or [], "stock")


class ListEntry(Open):
    """What every list of a plugin says of itself."""

    id: str = Field(description="Its name in a request.")
    title: str = Field(description="What it is called.")
    says: str = Field(description="What it is, in a sentence.")
    plugin: str = Field(description="The plugin it comes from.")


class StockListEntry(ListEntry):
    """What one shop sells."""

    currency: str | None = Field(description="Currency of its prices; null where it has none.")
    stock: list[dict[str, Any]] = Field(description="Sheets and boards, as members of `stock` of a request; mm.")
    fasteners: list[dict[str, Any]] = Field(description="Screws by the box, as members of `fasteners`; mm.")


class StockLists(Open):
    """The stock lists of all plugins."""

    stock_lists: list[StockListEntry] = Field(description="The lists, sorted by id.")


class PriceListEntry(ListEntry):
    """The prices of one shop."""

    currency: str = Field(description="Currency of its prices.")
    prices: list[dict[str, Any]] = Field(description="The prices, as members of `prices` of a request.")


class PriceLists(Open):
    """The price lists of all plugins."""

    price_lists: list[PriceListEntry] = Field(description="The lists, sorted by id.")


class FinishSystemEntry(ListEntry):
    """What is put on a surface, by the label of the can."""

    kind: str = Field(description="The kind of finish it is.")
    coats: int = Field(description="How many coats.", json_schema_extra=COUNT)
    least_m2_per_l: float = Field(description="Least that a litre covers in one coat.", json_schema_extra=unit("m2/L"))
    most_m2_per_l: float = Field(description="Most that a litre covers in one coat.", json_schema_extra=unit("m2/L"))
    recoat_h: float = Field(description="From one coat to the next.", json_schema_extra=unit("h"))
    ready_h: float = Field(description="From the last coat to use.", json_schema_extra=unit("h"))
    care_months: int = Field(description="How often to look after it.", json_schema_extra=unit("months"))
    exposures: list[str] = Field(description="Where it may stand.")
    source: str = Field(description="Where its figures are from.")


class FinishSystems(Open):
    """The finish systems of all plugins."""

    finish_systems: list[FinishSystemEntry] = Field(description="The systems, sorted by id.")


class Coat(Open):
    """One coat of a finish."""

    coat: int = Field(description="Its number.", json_schema_extra=COUNT)
    starts_h: float = Field(description="When it goes on, counted from the first.", json_schema_extra=unit("h"))


class FinishSchedule(Open):
    """When the coats of a finish system go on."""

    system: str = Field(description="Id of the finish system.")
    title: str = Field(description="What it is called.")
    kind: str = Field(description="The kind of finish it is.")
    area_m2: float = Field(description="All surfaces of all parts, edges too.", json_schema_extra=unit("m2"))
    litres: float = Field(description="What it takes at its least coverage.", json_schema_extra=unit("L"))
    coats: list[Coat] = Field(description="The coats in order.")
    in_use_after_h: float = Field(description="From the first coat to use.", json_schema_extra=unit("h"))
    care_months: int = Field(description="How often to look after it.", json_schema_extra=unit("months"))
    exposures: list[str] = Field(description="Where it may stand.")
    source: str = Field(description="Where its figures are from.")
