"""Request and answer of POST /v1/costings."""

from typing import Annotated, Any, Literal

from pydantic import Field

from .branches import by_type, length_or, listed, mapped, number
from .common import CURRENCY, FINDINGS, Finding
from .lengths import Broken, Checked, Measured, repeated
from .marks import COUNT, CURRENCY_UNIT, LINE_UNIT, PERCENT, unit
from .scalars import Closed, Currency, Id, Money, Name, Open, Slug

MOST_LINES = 1000
Kind = Literal["sheet", "board", "screw", "glue", "finish", "cushion", "hardware", "other"]
Unit = Literal[
    "piece", "sheet", "board", "pair", "set", "roll", "lot",
    "mm", "m", "in", "ft", "m2", "ft2", "bf", "m3", "mL", "L", "fl oz", "qt", "gal", "g", "kg", "oz", "lb",
]  # fmt: skip
Above = Annotated[float, Field(strict=True, allow_inf_nan=False, gt=0, le=1_000_000)]
NotBelow = Annotated[float, Field(strict=True, allow_inf_nan=False, ge=0, le=1_000_000)]
Percent = Annotated[float, Field(strict=True, allow_inf_nan=False, ge=0, le=1000)]
Hours = Annotated[float, Field(strict=True, allow_inf_nan=False, ge=0, le=100_000)]


class TakeOffLine(Closed):
    """One thing the job takes."""

    id: Id = Field(description="The caller's name for it; prices refer to it.")
    kind: Kind = Field(description="What sort of thing it is; prices and waste may be given for a kind.")
    what: Name | None = Field(None, description="What it is, for people; the id where it is left out.")
    quantity: Above = Field(description="How much is needed, in `unit`.", json_schema_extra=LINE_UNIT)
    unit: Unit = Field("piece", description="What it is counted or measured in.")
    used: NotBelow | None = Field(
        None, description="How much of it is used up, where that is less than `quantity`.", json_schema_extra=LINE_UNIT
    )
    on_hand: NotBelow = Field(0.0, description="How much is there already, in `unit`.", json_schema_extra=LINE_UNIT)
    estimate: Name | None = Field(None, description="Why the quantity is an estimate, where it is one.")


class Price(Closed):
    """What one pack costs, for one line or for every line of a kind."""

    id: Id | None = Field(None, description="Id of the take-off line; either this or `kind`.")
    kind: Kind | None = Field(None, description="The kind of line; a price for a line's id rules over it.")
    price: Money = Field(description="Price of a pack.")
    pack: Above | None = Field(
        1.0,
        description="How much is in a pack, in `unit`; null where any quantity can be bought.",
        json_schema_extra=LINE_UNIT,
    )
    unit: Unit | None = Field(None, description="Unit of `pack`; the line's own where it is left out.")
    taxed: Annotated[bool, Field(strict=True)] = Field(True, description="Whether sales tax is due on it.")


class PricesFromList(Closed):
    """The prices of a shop, by the name of its list."""

    named: Slug = Field(alias="list", description="Id of a list of GET /v1/price-lists.", examples=["harbour-yard"])
    also: list[Price] | None = Field(
        None, description="The caller's own prices, which rule over those of the list.", max_length=MOST_LINES
    )


AnyPrices = Annotated[
    Annotated[list[Price], Field(max_length=MOST_LINES), listed] | Annotated[PricesFromList, mapped],
    by_type("a list of prices, or {list, also} naming a shop's list"),
]


class Labour(Closed):
    """Hours of work."""

    what: Name = Field("labour", description="What the work is called.")
    hours: Hours = Field(description="How many hours.", json_schema_extra=unit("h"))
    rate: Money | None = Field(None, description="Price of an hour; left out, the work is listed as unknown.")
    taxed: Annotated[bool, Field(strict=True)] = Field(False, description="Whether sales tax is due on it.")


class Tax(Closed):
    """Sales tax."""

    percent: Percent = Field(0.0, description="Tax on what is taxed.", json_schema_extra=PERCENT)
    included: Annotated[bool, Field(strict=True)] = Field(
        False, description="True where the prices hold it already: then it is shown and not added."
    )


class Yield(Closed):
    """Waste as the usable part of what is bought."""

    percent: Annotated[float, Field(strict=True, allow_inf_nan=False, ge=1, le=100)] = Field(
        alias="yield", description="The usable part; the need is divided by it.", json_schema_extra=PERCENT
    )


AnyWaste = Annotated[
    Annotated[Percent, number] | Annotated[Yield, mapped], length_or("a number of percent, or {yield}")
]
WASTE: Any = Field(
    None, description="Percent added to the need, or `{yield}`, the usable percent.", json_schema_extra=PERCENT
)


class Waste(Closed):
    """How much more than the net quantity is used up, by kind."""

    sheet: AnyWaste | None = WASTE
    board: AnyWaste | None = WASTE
    screw: AnyWaste | None = WASTE
    glue: AnyWaste | None = WASTE
    finish: AnyWaste | None = WASTE
    cushion: AnyWaste | None = WASTE
    hardware: AnyWaste | None = WASTE
    other: AnyWaste | None = WASTE


class MarkUp(Closed):
    """Something added as a share of everything before it."""

    what: Name = Field(description="What it is called, such as `overhead`.")
    percent: Percent = Field(description="How much is added.", json_schema_extra=PERCENT)


PRICES: Any = Field(
    None,
    description="What packs cost, or `{list, also}` to name a shop's price list; what has no price comes back as "
    "unknown.",
)
LABOUR = Field(None, description="The work.")
TAX = Field(None, description="Sales tax.")
WASTES = Field(None, description="How much more than the net quantity is used up, by kind.")
MARK_UPS = Field(None, description="Overhead, profit and the like, one after the other.", max_length=20)


class CostingRequest(Checked, Measured):
    """A take-off and what is known of prices, work, tax and waste."""

    currency: Currency = CURRENCY
    take_off: list[TakeOffLine] = Field(description="Everything to buy.", max_length=MOST_LINES)
    prices: AnyPrices | None = PRICES
    labour: Labour | None = LABOUR
    tax: Tax | None = TAX
    waste: Waste | None = WASTES
    mark_ups: list[MarkUp] | None = MARK_UPS

    def faults(self) -> list[Broken]:
        """Return what is wrong between members."""
        return repeated(self.take_off, "take_off")


class CostLine(Open):
    """One line of the costing: goods, labour, tax or a mark-up; the `as_bought` of all lines add up to the total."""

    id: str = Field(description="Id of the take-off line, or the name of what is added.")
    kind: str = Field(description="Kind of the line; besides those of the take-off `labour`, `tax` and `mark-up`.")
    what: str = Field(description="What it is.")
    unit: str | None = Field(description="What it is counted or measured in.")
    quantity: float | None = Field(description="The net quantity, in `unit`.", json_schema_extra=LINE_UNIT)
    needed_with_waste: float | None = Field(description="The quantity with waste.", json_schema_extra=LINE_UNIT)
    on_hand: float | None = Field(description="What is there already.", json_schema_extra=LINE_UNIT)
    pack: float | None = Field(description="How much is in a pack.", json_schema_extra=LINE_UNIT)
    packs: int | None = Field(description="How many packs are bought.", json_schema_extra=COUNT)
    bought: float | None = Field(description="How much is bought.", json_schema_extra=LINE_UNIT)
    used: float | None = Field(description="How much is used up.", json_schema_extra=LINE_UNIT)
    left_over: float | None = Field(description="How much is left.", json_schema_extra=LINE_UNIT)
    price: str | None = Field(description="Price of a pack; null where it is unknown.", json_schema_extra=CURRENCY_UNIT)
    as_bought: str | None = Field(description="Cost of what is bought.", json_schema_extra=CURRENCY_UNIT)
    as_used: str | None = Field(description="Cost of what is used up.", json_schema_extra=CURRENCY_UNIT)
    left_over_value: str | None = Field(description="Worth of what is left.", json_schema_extra=CURRENCY_UNIT)
    currency: str = Field(description="Currency of the amounts.")
    taxed: bool = Field(description="Whether sales tax is due on it.")
    share_percent: float | None = Field(description="Its part of the goods.", json_schema_extra=PERCENT)


class CostSum(Open):
    """How the lines add up."""

    goods: str = Field(description="All goods.", json_schema_extra=CURRENCY_UNIT)
    labour: str = Field(description="All work.", json_schema_extra=CURRENCY_UNIT)
    tax: str = Field(description="Sales tax.", json_schema_extra=CURRENCY_UNIT)
    tax_included: bool = Field(description="True where the tax is within the goods.")
    mark_ups: list[dict[str, Any]] = Field(description="What is added, each with its amount.")
    total: str = Field(description="All of it.", json_schema_extra=CURRENCY_UNIT)


class LeftOver(Open):
    """What is left when the piece is built."""

    value: str = Field(description="Its worth.", json_schema_extra=CURRENCY_UNIT)
    lines: list[dict[str, Any]] = Field(description="What it is, line by line.")


class Total(Open):
    """The total as bought."""

    amount: str = Field(description="The total.", json_schema_extra=CURRENCY_UNIT)
    lower_bound: bool = Field(description="True where something has no price, so that it will cost more.")
    text: str = Field(description="The total for people.")


class CostingAnswer(Open):
    """What to buy and what it costs."""

    currency: str = Field(description="Currency of every amount.")
    summary: list[str] = Field(description="At most seven lines for people.", max_length=7)
    lines: list[CostLine] = Field(description="The lines.")
    as_bought: CostSum = Field(description="What has to be paid, in whole packs.")
    as_used: CostSum = Field(description="What ends up in the piece or in the sawdust.")
    left_over: LeftOver = Field(description="What is left.")
    unknown: list[dict[str, Any]] = Field(description="What has no price, by name.")
    total: Total = Field(description="The total as bought.")
    findings: list[Finding] = FINDINGS
