"""The answer of a costing as plain data: flat lines that add up to the total, sums, what is left, what is unknown."""

from fractions import Fraction

from scantling.findings import Finding, Severity, ranked
from scantling.measure import plain_money, show_money

from .cost import Costing, CostLine, LabourLine, Sum, shares
from .nouns import Price

_DIGITS = 4  # of a quantity shown
_LARGE_REST = 50  # percent of what is paid for a line: above it the rest is worth a note
_FEW = 3  # names in a line of the summary

Row = dict[str, object]


def to_plain(costing: Costing) -> Row:
    """Return the costing as JSON members; see the columns of a line in `_goods_row`."""
    findings = [finding.to_plain() for finding in ranked(findings_of(costing))]
    return {
        "currency": costing.currency,
        "summary": summary(costing),
        "lines": line_rows(costing),
        "as_bought": _sum(costing.as_bought),
        "as_used": _sum(costing.as_used),
        "left_over": _left_over(costing),
        "unknown": [_unknown(line) for line in costing.unknown],
        "total": {
            "amount": plain_money(costing.as_bought.total),
            "lower_bound": costing.lower_bound,
            "text": _total_text(costing),
        },
        "findings": findings,
    }


def line_rows(costing: Costing) -> list[Row]:
    """Return flat rows of one set of columns (goods, labour, tax, mark-ups); their `as_bought` add up to the total."""
    share = shares(costing)
    rows = [_goods_row(line, costing.currency, share.get(line.take_off.id)) for line in costing.lines]
    rows += [_labour_row(line, costing.currency) for line in costing.labour]
    bought, used = costing.as_bought, costing.as_used
    if (bought.tax or used.tax) and not bought.tax_included:
        rows.append(_added_row("tax", "tax", bought.tax, used.tax, costing.currency))
    for (what, as_bought), (_, as_used) in zip(bought.mark_ups, used.mark_ups, strict=True):
        rows.append(_added_row("mark-up", what, as_bought, as_used, costing.currency))
    return rows


def summary(costing: Costing) -> list[str]:
    """Return at most five lines for people."""
    lines = [f"Costs {_total_text(costing)} as bought."]
    if costing.unknown:
        names = [line.take_off.id if isinstance(line, CostLine) else line.labour.what for line in costing.unknown]
        more = f" and {len(names) - _FEW} more" if len(names) > _FEW else ""
        lines.append(f"Not counted, for want of a price: {', '.join(names[:_FEW])}{more}.")
    rest = _rest_value(costing)
    if rest > 0:
        used = show_money(costing.as_used.total, costing.currency)
        lines.append(f"Uses {used} worth; goods worth {show_money(rest, costing.currency)} are left over.")
    share = shares(costing)
    if len(share) > 1:
        dearest = max(share, key=lambda line_id: share[line_id])
        lines.append(f"The largest line is {dearest}, {share[dearest]:g} % of the goods.")
    if any(line.take_off.estimate for line in costing.lines):
        lines.append("Some quantities are estimates; see the findings.")
    return lines


def findings_of(costing: Costing) -> list[Finding]:
    """Return what the costing noticed."""
    found = [_no_price(line) for line in costing.unknown]
    found += [_estimate(line) for line in costing.lines if line.take_off.estimate]
    found += [_rest(line, costing.currency) for line in costing.lines if _rest_is_large(line)]
    found += [_unused(price) for price in costing.unused_prices if not price.listed]
    return found


def _goods_row(line: CostLine, currency: str, share: float | None) -> Row:
    take_off, price = line.take_off, line.price
    return {
        "id": take_off.id,
        "kind": take_off.kind.value,
        "what": take_off.what,
        "unit": take_off.unit,
        "quantity": _number(take_off.quantity),
        "needed_with_waste": _number(line.needed),
        "on_hand": _number(take_off.on_hand),
        "pack": None if line.packs is None else _number(line.pack),
        "packs": line.packs,
        "bought": _number(line.bought),
        "used": _number(line.used),
        "left_over": _number(line.left_over),
        "price": None if price is None else plain_money(price.amount),
        "as_bought": _money(line.as_bought),
        "as_used": _money(line.as_used),
        "left_over_value": _money(line.left_over_value),
        "currency": currency,
        "taxed": price is not None and price.taxed,
        "share_percent": share,
    }


def _labour_row(line: LabourLine, currency: str) -> Row:
    hours = _number(line.labour.hours)
    return {
        **_blank(line.labour.what, "labour", currency),
        "unit": "h",
        "quantity": hours,
        "price": _money(line.labour.rate),
        "as_bought": _money(line.amount),
        "as_used": _money(line.amount),
        "taxed": line.labour.taxed,
    }


def _added_row(kind: str, what: str, as_bought: int, as_used: int, currency: str) -> Row:
    return {**_blank(what, kind, currency), "as_bought": plain_money(as_bought), "as_used": plain_money(as_used)}


def _blank(what: str, kind: str, currency: str) -> Row:
    empty = ("unit", "quantity", "needed_with_waste", "on_hand", "pack", "packs", "bought", "used", "left_over")
    return {
        "id": what,
        "kind": kind,
        "what": what,
        **dict.fromkeys(empty),
        "price": None,
        "as_bought": None,
        "as_used": None,
        "left_over_value": None,
        "currency": currency,
        "taxed": False,
        "share_percent": None,
    }


def _sum(one: Sum) -> Row:
    return {
        "goods": plain_money(one.goods),
        "labour": plain_money(one.labour),
        "tax": plain_money(one.tax),
        "tax_included": one.tax_included,
        "mark_ups": [{"what": what, "amount": plain_money(amount)} for what, amount in one.mark_ups],
        "total": plain_money(one.total),
    }


def _left_over(costing: Costing) -> Row:
    rows = [
        {
            "id": line.take_off.id,
            "what": line.take_off.what,
            "quantity": _number(line.left_over),
            "unit": line.take_off.unit,
            "value": _money(line.left_over_value),
        }
        for line in costing.lines
        if line.left_over > 0
    ]
    return {"value": plain_money(_rest_value(costing)), "lines": rows}


def _unknown(line: CostLine | LabourLine) -> Row:
    if isinstance(line, LabourLine):
        quantity, what = line.labour.hours, line.labour.what
        return {
            "id": what,
            "kind": "labour",
            "what": what,
            "quantity": _number(quantity),
            "unit": "h",
            "reason": "no rate",
        }
    take_off = line.take_off
    return {
        "id": take_off.id,
        "kind": take_off.kind.value,
        "what": take_off.what,
        "quantity": _number(line.bought),
        "unit": take_off.unit,
        "reason": "no price for this line or its kind",
    }


def _no_price(line: CostLine | LabourLine) -> Finding:
    if isinstance(line, LabourLine):
        message = f"{line.labour.what} has no rate, so its {_number(line.labour.hours):g} hours are not in the total."
        remedy = "Give a rate, or 0.00 where your own time shall cost nothing."
        return Finding("price-missing", Severity.WARNING, message, pointer=line.labour.pointer, remedy=remedy)
    take_off = line.take_off
    message = f"{take_off.id} has no price and is not in the total ({_number(line.bought):g} {take_off.unit} wanted)."
    remedy = f"Give a price for the id {take_off.id!r} or for the kind {take_off.kind.value!r}."
    return Finding("price-missing", Severity.WARNING, message, pointer=take_off.pointer, remedy=remedy)


def _estimate(line: CostLine) -> Finding:
    take_off = line.take_off
    message = f"{take_off.id} is an estimate: {take_off.estimate}."
    remedy = "Go by the label of what you buy, and give the quantity yourself."
    return Finding("quantity-estimated", Severity.NOTE, message, pointer=take_off.pointer, remedy=remedy)


def _rest_is_large(line: CostLine) -> bool:
    if line.left_over_value is None or not line.as_bought:
        return False
    return 100 * line.left_over_value > _LARGE_REST * line.as_bought


def _rest(line: CostLine, currency: str) -> Finding:
    paid, rest = line.as_bought or 0, line.left_over_value or 0
    message = (
        f"{line.take_off.id}: of {show_money(paid, currency)} paid, {show_money(rest, currency)} worth "
        f"is left over ({_number(line.left_over):g} {line.take_off.unit})."
    )
    remedy = "Buy a smaller pack if there is one, or plan the rest into the next job."
    return Finding(
        "mostly-left-over",
        Severity.NOTE,
        message,
        pointer=line.take_off.pointer,
        value=100 * rest / paid,
        limit=_LARGE_REST,
        unit="%",
        source="practice",
        remedy=remedy,
    )


def _unused(price: Price) -> Finding:
    named = price.id if price.id is not None else f"the kind {price.kind}"
    message = f"The price for {named} is not used: nothing in the take-off takes it."
    remedy = "Look whether the id is spelt as in the take-off."
    return Finding("price-unused", Severity.NOTE, message, pointer=price.pointer, remedy=remedy)


def _rest_value(costing: Costing) -> int:
    return sum(line.left_over_value or 0 for line in costing.lines)


def _total_text(costing: Costing) -> str:
    text = show_money(costing.as_bought.total, costing.currency)
    return f"at least {text}" if costing.lower_bound else text


def _number(quantity: Fraction | None) -> float:
    return round(float(quantity or 0), _DIGITS)


def _money(amount: int | None) -> str | None:
    return None if amount is None else plain_money(amount)
