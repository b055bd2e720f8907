"""The plan as a workbook: take-off, cut list and costs with live totals; text stays text, whatever it begins with."""

from collections.abc import Sequence
from datetime import UTC, datetime
from decimal import Decimal
from io import BytesIO
from typing import Any

from .dossier import CutRow, Dossier, Plain

MADE = datetime(1980, 1, 1, tzinfo=UTC)  # the same plan gives the same bytes
HALF_CENT = 0.005
FORMULA = ("=", "+", "-", "@", "\t", "\r", "\n", "\x00", "\uff1d", "\uff0b", "\uff0d", "\uff20")


def guarded(text: str) -> str:
    """Return text as a cell may hold it: one that could start a formula gets an apostrophe (OWASP ASVS 1.2.10)."""
    return "'" + text if text.startswith(FORMULA) else text


def workbook(dossier: Dossier) -> bytes:
    """Return the workbook as an XLSX file."""
    import xlsxwriter

    out = BytesIO()
    settings = {
        "in_memory": True,
        "strings_to_formulas": False,
        "strings_to_numbers": False,
        "strings_to_urls": False,
        "nan_inf_to_errors": False,
    }
    book = xlsxwriter.Workbook(out, settings)
    book.set_properties({"title": dossier.name, "created": MADE.replace(tzinfo=None), "author": dossier.options.author})
    head = book.add_format({"bold": True, "bottom": 1, "text_wrap": True})
    styles = {"head": head, "bold": book.add_format({"bold": True})}
    _cut_list(_Sheet(book.add_worksheet("cut list"), styles), dossier.rows)
    if dossier.costing is not None:
        _take_off(_Sheet(book.add_worksheet("take-off"), styles), dossier.costing)
        _costs(_Sheet(book.add_worksheet("costs"), styles), dossier.costing)
    book.close()
    return out.getvalue()


class _Sheet:
    """A worksheet with a head row and columns as wide as what stands in them."""

    def __init__(self, sheet: Any, styles: dict[str, Any]) -> None:  # noqa: ANN401 - the library is untyped
        self.sheet = sheet
        self.styles = styles
        self.row = 0

    def head(self, columns: Sequence[tuple[str, float]]) -> None:
        """Write the head row, keep it in sight, and print it on every page."""
        for i, (name, width) in enumerate(columns):
            self.sheet.write_string(0, i, name, self.styles["head"])
            self.sheet.set_column(i, i, width)
        self.sheet.freeze_panes(1, 0)
        self.sheet.repeat_rows(0)
        self.sheet.set_landscape()
        self.sheet.fit_to_pages(1, 0)
        self.row = 1

    def write(self, values: Sequence[object], style: str | None = None) -> None:
        """Write a row: numbers as numbers, text as text, nothing for None."""
        look = self.styles[style] if style else None
        for i, value in enumerate(values):
            if value is None or value == "":
                continue
            if isinstance(value, bool):
                self.sheet.write_string(self.row, i, "yes" if value else "no", look)
            elif isinstance(value, int | float | Decimal):
                self.sheet.write_number(self.row, i, float(value), look)
            else:
                self.sheet.write_string(self.row, i, guarded(str(value))[:32767], look)
        self.row += 1

    def formula(self, row: int, column: int, formula: str, value: float, style: str | None = None) -> None:
        """Write a formula with the value it has now, for readers that do not compute."""
        self.sheet.write_formula(row, column, formula, self.styles[style] if style else None, value)


def _cut_list(sheet: _Sheet, rows: Sequence[CutRow]) -> None:
    names = (
        ("no.", 6), ("id", 30), ("module", 18), ("name", 20), ("quantity", 9), ("material", 20), ("thickness_mm", 12),
        ("length_mm", 11), ("width_mm", 11), ("length on the tape", 24), ("width on the tape", 20), ("grain", 8),
        ("shows", 8), ("hand", 7), ("closing", 8), ("saw", 40), ("operations", 40), ("seal", 18),
    )  # fmt: skip
    sheet.head(names)
    for row in rows:
        p = row.plain
        sheet.write(
            [
                row.mark, p["id"], p["module"], p["name"], p["quantity"], p["material"], p["thickness_mm"],
                p["length_mm"], p["width_mm"], p["length_text"], p["width_text"], p["grain"], p["shows"], p["hand"],
                p["closing"], "; ".join(s["text"] for s in p["saw_settings"]), "; ".join(p["operations"]),
                ", ".join(p["seal"]),
            ]
        )  # fmt: skip
    last = sheet.row
    sheet.write(["", "pieces"], "bold")
    total = sum(r.plain["quantity"] for r in rows)
    sheet.formula(last, 4, f"=SUM(E2:E{last})", float(total), "bold")


def _take_off(sheet: _Sheet, costing: Plain) -> None:
    sheet.head(
        [("id", 34), ("kind", 12), ("what", 40), ("unit", 8), ("quantity", 10), ("with waste", 11), ("on hand", 9),
         ("pack", 8), ("packs to buy", 12), ("bought", 10), ("used", 10), ("left over", 10)]
    )  # fmt: skip
    members = (
        "id", "kind", "what", "unit", "quantity", "needed_with_waste", "on_hand", "pack", "packs", "bought", "used",
        "left_over",
    )  # fmt: skip
    for line in costing["lines"]:
        if line["bought"] is not None:
            sheet.write([line[m] for m in members])


def _costs(sheet: _Sheet, costing: Plain) -> None:
    """Write a row a line; what is bought is packs × price, and the total is the sum, both as formulas."""
    sheet.head(
        [
            ("id", 34),
            ("kind", 12),
            ("unit", 8),
            ("packs or hours", 14),
            ("price", 10),
            ("as bought", 12),
            ("currency", 9),
        ]
    )
    for line in costing["lines"]:
        row = sheet.row
        count = line["packs"] if line["packs"] is not None else line["quantity"]
        price = _decimal(line["price"])
        cost = _decimal(line["as_bought"])
        live = None not in (price, count, cost) and abs(float(count) * float(price or 0) - float(cost or 0)) < HALF_CENT
        sheet.write([line["id"], line["kind"], line["unit"], count, price, None if live else cost, costing["currency"]])
        if live:
            sheet.formula(row, 5, f"=ROUND(D{row + 1}*E{row + 1},2)", float(cost or 0))
    last = sheet.row
    sheet.write(["total", "at least" if costing["total"]["lower_bound"] else ""], "bold")
    sheet.formula(last, 5, f"=SUM(F2:F{last})", float(costing["total"]["amount"]), "bold")


def _decimal(text: str | None) -> Decimal | None:
    return None if text is None else Decimal(text)
