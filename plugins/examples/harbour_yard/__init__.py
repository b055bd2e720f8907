"""An invented yard: what it sells as a stock list, and its prices as a price list.

A request says `"stock": {"list": "harbour-yard"}` and `"prices": {"list": "harbour-yard"}`.
"""

from collections.abc import Sequence

from scantling.kit import (
    INTERFACE,
    Board,
    Price,
    PriceList,
    PricesContext,
    Screws,
    Sheet,
    StockContext,
    StockList,
    hook,
)

YARD = "harbour-yard"
SAYS = "An invented yard, to try lists with."
# Plywood sold as 18 mm measures less; the yard's own notice gives the bounds.
SHEETS = (
    Sheet("birch 18", "birch-plywood", 18, 2440, 1220, "74.00", least=17.2, most=18.2),
    Sheet("birch 12", "birch-plywood", 12, 2440, 1220, "52.00", least=11.4, most=12.2),
    Sheet("birch 6", "birch-plywood", 6, 2440, 1220, "31.00", least=5.6, most=6.3),
    Sheet("half birch 18", "birch-plywood", 18, 1220, 1220, "41.00", least=17.2, most=18.2),
)
BOARDS = (
    Board("pine 38 x 89, 8 ft", "spruce-pine-fir", 38, 89, 2440, "4.60"),
    Board("pine 38 x 89, 10 ft", "spruce-pine-fir", 38, 89, 3050, "5.90"),
)
SCREWS = (
    Screws("8 x 1-1/4", 8, 31.75, 100, "8.50"),
    Screws("8 x 1-1/2", 8, 38.1, 100, "9.00"),
    Screws("8 x 2", 8, 50.8, 100, "10.50"),
    Screws("6 x 1-1/4", 6, 31.75, 100, "7.00"),
)


class HarbourYard:
    """The plugin."""

    interface = INTERFACE

    @hook
    def stock(self, context: StockContext) -> Sequence[StockList]:
        """Return what the yard sells, as far as the service knows the wood."""
        sheets = [sheet for sheet in SHEETS if sheet.material in context.materials]
        boards = [board for board in BOARDS if board.material in context.materials]
        return [StockList(YARD, "Harbour yard", SAYS, sheets, boards, SCREWS, currency="USD")]

    @hook
    def price_lists(self, context: PricesContext) -> Sequence[PriceList]:
        """Return what the yard takes for what is not cut: glue, finish, cushions."""
        prices = (
            Price("14.00", kind="glue", pack=473, unit="mL"),
            Price("27.50", kind="finish", pack=0.946, unit="L"),
            Price("38.00", kind="cushion", pack=1, unit="piece"),
        )
        return [PriceList(YARD, "Harbour yard", SAYS, "USD", prices)]


plugin = HarbourYard()
