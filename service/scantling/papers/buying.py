"""What to buy, and what it costs."""

from .dossier import Dossier
from .page import Column, Flow


def buying(flow: Flow, dossier: Dossier) -> None:
    """Write the list of what to buy: goods first, then labour, tax and the total."""
    costing = dossier.costing
    if costing is None:
        return
    flow.section("What to buy", room=40)
    rows = []
    for line in costing["lines"]:
        goods = line["bought"] is not None
        count = f"{line['bought']:g} {line['unit']}" if goods else ""
        packs = f"{line['packs']} × {line['pack']:g}" if goods and line["packs"] and line["pack"] != 1 else ""
        price = line["price"] or ("" if not goods else "not known")
        rows.append(
            [
                line["id"],
                line["what"] if line["what"] != line["id"] else "",
                count,
                packs,
                price,
                line["as_bought"] or "",
            ]
        )
    rows.append(["Total", "", "", "", costing["currency"], costing["total"]["amount"]])
    columns = [
        Column("what", 5, bold=True), Column("which is", 5), Column("buy", 2, "end"), Column("packs", 2, "end"),
        Column("price", 2, "end"), Column("cost", 2, "end"),
    ]  # fmt: skip
    flow.table(columns, rows)
    if costing["total"]["lower_bound"]:
        flow.text("The total is a lower bound: what has no price is not in it.", bold=True)
    kept = costing["left_over"]["lines"]
    if kept:
        names = ", ".join(f"{round(line['quantity'], 2):g} {line['unit']} of {line['id']}" for line in kept[:8])
        flow.text(f"Left over when all is built: {names}{' and more' if len(kept) > 8 else ''}.")
