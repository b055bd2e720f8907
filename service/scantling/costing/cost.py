"""From take-off and prices to what has to be bought and what it costs.

Rounding: each line is rounded to the cent once, halves up, and every sum adds what the lines show; tax and each
mark-up are rounded once, on such a sum. So whoever adds up the printed lines finds the printed total.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import ceil

from .nouns import Kind, Labour, MarkUp, Price, TakeOffLine, Tax, Terms
from .units import in_unit

_CENT = 100  # ten-thousandths


class UnitMismatchError(ValueError):
    """A price is for a pack in a unit that does not measure what its line counts."""

    def __init__(self, line: TakeOffLine, price: Price) -> None:
        self.line = line
        self.price = price
        super().__init__(f"{line.id} is taken off in {line.unit}, and its price is for a pack in {price.unit}")


@dataclass(frozen=True, slots=True)
class CostLine:
    """One thing to have: how much, in how many packs, and what that costs; the amounts are None without a price.

    `needed` is with waste. `bought` is in the line's unit; `left_over` is what is on hand or bought and not used.
    """

    take_off: TakeOffLine
    price: Price | None
    needed: Fraction
    pack: Fraction | None
    packs: int | None
    bought: Fraction
    used: Fraction
    as_bought: int | None
    as_used: int | None
    on_hand_value: int | None

    @property
    def left_over(self) -> Fraction:
        """Return how much is left over, in the line's unit."""
        return self.take_off.on_hand + self.bought - self.used

    @property
    def left_over_value(self) -> int | None:
        """Return what is left over in money: what was there and was bought, less what is used."""
        if self.as_bought is None or self.as_used is None or self.on_hand_value is None:
            return None
        return self.on_hand_value + self.as_bought - self.as_used


@dataclass(frozen=True, slots=True)
class LabourLine:
    """Work and what it costs; None where the rate is not known."""

    labour: Labour
    amount: int | None


@dataclass(frozen=True, slots=True)
class Sum:
    """How goods, labour, tax and mark-ups add up; `tax` is inside `goods` where prices include it."""

    goods: int
    labour: int
    tax: int
    tax_included: bool
    mark_ups: tuple[tuple[str, int], ...]

    @property
    def total(self) -> int:
        """Return the sum of what is shown."""
        added = 0 if self.tax_included else self.tax
        return self.goods + self.labour + added + sum(amount for _, amount in self.mark_ups)


@dataclass(frozen=True, slots=True)
class Costing:
    """Lines in the order of the take-off, and the sums as bought and as used.

    `lower_bound` holds when something has no price, so that the sums are the least it can cost.
    """

    currency: str
    lines: tuple[CostLine, ...]
    labour: tuple[LabourLine, ...]
    as_bought: Sum
    as_used: Sum
    unused_prices: tuple[Price, ...]

    @property
    def unknown(self) -> tuple[CostLine | LabourLine, ...]:
        """Return what has no price: goods to be bought or used, then work without a rate."""
        goods = [line for line in self.lines if line.price is None]
        return (*goods, *(line for line in self.labour if line.amount is None))

    @property
    def lower_bound(self) -> bool:
        """Whether the sums leave something out."""
        return bool(self.unknown)


def cost(take_off: Sequence[TakeOffLine], prices: Sequence[Price], terms: Terms | None = None) -> Costing:
    """Return what the take-off costs, as bought (whole packs) and as used.

    A price for a line's id rules over a price for its kind; of two for the same thing the last one rules.
    Raises UnitMismatchError.
    """
    terms = terms or Terms()
    by_id = {price.id: price for price in prices if price.id is not None}
    by_kind = {price.kind: price for price in prices if price.id is None and price.kind is not None}
    lines = tuple(_line(line, by_id.get(line.id) or by_kind.get(line.kind), terms) for line in take_off)
    labour = tuple(LabourLine(one, None if one.rate is None else _cents(one.rate * one.hours)) for one in terms.labour)
    applied = {id(line.price) for line in lines}
    return Costing(
        terms.currency,
        lines,
        labour,
        _sum([(line.as_bought, line.price) for line in lines], labour, terms),
        _sum([(line.as_used, line.price) for line in lines], labour, terms),
        tuple(price for price in prices if id(price) not in applied),
    )


def _line(line: TakeOffLine, price: Price | None, terms: Terms) -> CostLine:
    waste = terms.waste.get(line.kind)
    factor = Fraction(1) if waste is None else waste.factor
    needed = line.quantity * factor
    used = needed if line.used is None else line.used
    to_buy = max(Fraction(0), needed - line.on_hand)
    if price is None:
        return CostLine(line, None, needed, None, None, to_buy, used, None, None, None)
    pack, packs, bought = _packs(line, price, to_buy)
    each = Fraction(price.amount) if pack is None else price.amount / pack
    as_bought = _cents(each * bought)
    return CostLine(
        line, price, needed, pack, packs, bought, used, as_bought, _cents(each * used), _cents(each * line.on_hand)
    )


def _packs(line: TakeOffLine, price: Price, to_buy: Fraction) -> tuple[Fraction | None, int | None, Fraction]:
    """Return what is in a pack in the line's unit, how many packs, and how much that is."""
    unit = price.unit or line.unit
    pack = in_unit(Fraction(1) if price.pack is None else price.pack, unit, line.unit, line.kind)
    if pack is None:
        raise UnitMismatchError(line, price)
    if price.pack is None:
        return (None if unit == line.unit else pack), None, to_buy
    packs = ceil(to_buy / pack)
    return pack, packs, packs * pack


def _sum(goods: Iterable[tuple[int | None, Price | None]], labour: Iterable[LabourLine], terms: Terms) -> Sum:
    all_goods = taxed = 0
    for amount, price in goods:
        if amount is not None and price is not None:
            all_goods += amount
            taxed += amount if price.taxed else 0
    work = sum(line.amount or 0 for line in labour)
    taxed += sum(line.amount or 0 for line in labour if line.labour.taxed)
    tax = _tax(taxed, terms.tax)
    running = all_goods + work + (0 if terms.tax.included else tax)
    mark_ups: list[tuple[str, int]] = []
    for mark_up in terms.mark_ups:
        amount = _mark_up(running, mark_up)
        mark_ups.append((mark_up.what, amount))
        running += amount
    return Sum(all_goods, work, tax, terms.tax.included, tuple(mark_ups))


def _tax(on: int, tax: Tax) -> int:
    share = tax.share / (1 + tax.share) if tax.included else tax.share
    return _cents(on * share)


def _mark_up(on: int, mark_up: MarkUp) -> int:
    return _cents(on * mark_up.share)


def _cents(amount: Fraction) -> int:
    """Return an amount that is not negative, rounded to whole cents, halves up; in ten-thousandths."""
    return (2 * amount.numerator + _CENT * amount.denominator) // (2 * _CENT * amount.denominator) * _CENT


def shares(costing: Costing) -> Mapping[str, float]:
    """Return each line's part of the goods as bought, in percent; empty where nothing has a price."""
    if not costing.as_bought.goods:
        return {}
    return {
        line.take_off.id: round(100 * (line.as_bought or 0) / costing.as_bought.goods, 1)
        for line in costing.lines
        if line.as_bought is not None
    }


def by_kind(costing: Costing) -> dict[Kind, int]:
    """Return the goods as bought by kind, in the order of the kinds; those without a price are left out."""
    sums: dict[Kind, int] = {}
    for kind in Kind:
        amounts = [line.as_bought for line in costing.lines if line.take_off.kind is kind]
        known = [amount for amount in amounts if amount is not None]
        if known:
            sums[kind] = sum(known)
    return sums
