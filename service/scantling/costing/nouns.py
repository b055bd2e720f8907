"""What a costing is made from: take-off lines, prices, waste, labour, tax and mark-ups.

Money is whole ten-thousandths of the currency unit (`scantling.measure.MICRO`). Quantities are exact fractions of
the line's unit, so that 0.1 three times is 0.3 and no box too many is bought.
"""

from dataclasses import dataclass, field
from enum import StrEnum
from fractions import Fraction

ONE = Fraction(1)


class Kind(StrEnum):
    """What sort of thing a line is; prices and waste can be given for all lines of a kind."""

    SHEET = "sheet"
    BOARD = "board"
    SCREW = "screw"
    GLUE = "glue"
    FINISH = "finish"
    CUSHION = "cushion"
    HARDWARE = "hardware"
    OTHER = "other"


@dataclass(frozen=True, slots=True)
class TakeOffLine:
    """One thing the job takes: `quantity` of `unit`.

    `used` is how much of it ends up in the piece or in the sawdust, where that differs from what has to be had (three
    sheets are needed, two and a half are used up); None where all of it is. `on_hand` is already there and is not
    bought. `estimate` says why the quantity is an estimate, None where it was counted. `pointer` leads to the line in
    a request.
    """

    id: str
    kind: Kind
    what: str
    quantity: Fraction
    unit: str
    used: Fraction | None = None
    on_hand: Fraction = Fraction(0)
    estimate: str | None = None
    pointer: str | None = None


@dataclass(frozen=True, slots=True)
class Price:
    """What one pack costs, for the line `id` or for every line of `kind`.

    `pack` is how much is in it, in `unit` (None: the line's own unit): 100 screws, 473 mL. One that is sold by the
    piece has a pack of 1. `pack` None means any quantity can be bought at this price for one unit.
    `listed` marks a price out of a shop's whole list: nobody wonders that it is not used.
    """

    amount: int
    id: str | None = None
    kind: Kind | None = None
    pack: Fraction | None = ONE
    unit: str | None = None
    taxed: bool = True
    pointer: str | None = None
    listed: bool = False


@dataclass(frozen=True, slots=True)
class Waste:
    """How much more than the net quantity is used up.

    `share` is added to the need (0.1: a tenth more); `yield_` is the usable part of what is bought, by which the
    need is divided (lumber grades are quoted so: need / 0.67, which is not need x 1.33). One of them is neutral.
    """

    share: Fraction = Fraction(0)
    yield_: Fraction = ONE

    @property
    def factor(self) -> Fraction:
        """Return what the net quantity is multiplied by."""
        return (1 + self.share) / self.yield_


@dataclass(frozen=True, slots=True)
class Labour:
    """Hours of work at a rate; `rate` None: not known. Tax is on goods only unless `taxed`."""

    hours: Fraction
    rate: int | None
    taxed: bool = False
    what: str = "labour"
    pointer: str | None = None


@dataclass(frozen=True, slots=True)
class Tax:
    """Sales tax as a share of what it is on; `included`: the prices hold it already, so it is shown and not added."""

    share: Fraction = Fraction(0)
    included: bool = False


@dataclass(frozen=True, slots=True)
class MarkUp:
    """Something added as a share of everything before it: overhead, then profit."""

    what: str
    share: Fraction


@dataclass(frozen=True, slots=True)
class Terms:
    """All that is asked for beside take-off and prices."""

    currency: str = "USD"
    labour: tuple[Labour, ...] = ()
    tax: Tax = Tax()
    waste: dict[Kind, Waste] = field(default_factory=dict)
    mark_ups: tuple[MarkUp, ...] = ()
