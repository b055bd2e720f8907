"""What a shop sells and for how much: stock lists and price lists. Lengths in mm, money as decimal text."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

Plain = dict[str, Any]


@dataclass(frozen=True, slots=True)
class Sheet:
    """A sheet as sold: its grain runs along `length`. `least` and `most` bound its real thickness, where it varies."""

    id: str
    material: str
    thickness: float
    length: float
    width: float
    price: str | None = None
    least: float | None = None
    most: float | None = None

    def to_plain(self) -> Plain:
        """Return it as a member of `stock` of a request."""
        return {**_sold(self), "width": self.width}


@dataclass(frozen=True, slots=True)
class Board:
    """A board as sold, cut to length only: `width` is what it measures across when bought."""

    id: str
    material: str
    thickness: float
    width: float
    length: float
    price: str | None = None
    least: float | None = None
    most: float | None = None

    def to_plain(self) -> Plain:
        """Return it as a member of `stock` of a request."""
        return {**_sold(self), "board_width": self.width}


@dataclass(frozen=True, slots=True)
class Screws:
    """Wood screws of one size as sold: the price is that of a box of `box`."""

    id: str
    gauge: int
    length: float
    box: int = 100
    price: str | None = None

    def to_plain(self) -> Plain:
        """Return them as a member of `fasteners` of a request."""
        plain: Plain = {
            "id": self.id, "kind": "wood screw", "gauge": self.gauge, "length": self.length, "box": self.box,
        }  # fmt: skip
        return plain if self.price is None else {**plain, "price": self.price}


@dataclass(frozen=True, slots=True)
class StockList:
    """What one shop sells. A request names it by its id in place of a list of stock; `currency` goes with prices."""

    id: str
    title: str
    says: str
    sheets: Sequence[Sheet] = ()
    boards: Sequence[Board] = ()
    screws: Sequence[Screws] = ()
    currency: str | None = None


@dataclass(frozen=True, slots=True)
class Price:
    """What one pack costs, for the take-off line `id` or for every line of a `kind`; `pack` None: by any quantity."""

    price: str
    id: str | None = None
    kind: str | None = None
    pack: float | None = 1
    unit: str | None = None
    taxed: bool = True

    def to_plain(self) -> Plain:
        """Return it as a member of `prices` of a request."""
        plain: Plain = {"price": self.price, "pack": self.pack, "taxed": self.taxed}
        named = {"id": self.id, "kind": self.kind, "unit": self.unit}
        return {**plain, **{name: value for name, value in named.items() if value is not None}}


@dataclass(frozen=True, slots=True)
class PriceList:
    """Prices of one shop in one currency. A request names it by its id in place of a list of prices."""

    id: str
    title: str
    says: str
    currency: str
    prices: Sequence[Price] = ()


def _sold(one: Sheet | Board) -> Plain:
    thickness: Any = one.thickness
    if one.least is not None and one.most is not None:
        thickness = {"status": "assumed", "least": one.least, "most": one.most}
    plain: Plain = {"id": one.id, "material": one.material, "thickness": thickness, "length": one.length}
    return plain if one.price is None else {**plain, "price": one.price}
