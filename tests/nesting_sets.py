"""Instances for the nesting bench: published sets from a folder, and a tiny set of our own that needs no folder.

The folder is named by SCANTLING_BENCH_DATA and holds bwmv500.json (Berkey-Wang and Martello-Vigo, 500 instances),
shop_jobs_synthetic.json, vsbp_pisinger2005.json and cutting_stock_cintra2008.json; none of them is part of the project.
"""

import json
import os
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from scantling.nesting import Cutting, Grain, Job, Piece, Stock, Trim

VARIABLE = "SCANTLING_BENCH_DATA"
MISSING = f"{VARIABLE} is not set: the published nesting instances are NOT run, only the tiny set of our own"


@dataclass(frozen=True)
class Instance:
    """One job with the best result known elsewhere (None: not known)."""

    name: str
    job: Job
    best: int | None = None


def folder() -> Path | None:
    """The folder of published instances, or None where it is not set."""
    return Path(os.environ[VARIABLE]) if os.environ.get(VARIABLE) else None


def read(name: str) -> list[dict[str, Any]]:
    """Read one file of instances. Raises FileNotFoundError where the folder is not set."""
    place = folder()
    if place is None:
        raise FileNotFoundError(MISSING)
    rows: list[dict[str, Any]] = json.loads((place / name).read_text(encoding="utf-8"))
    return rows


def unit_job(
    sheets: list[tuple[int, int, int | None]], items: list[tuple[int, int, int]], turning: bool, effort: int
) -> Job:
    """A job in the instance's own units: no kerf, no trim; `sheets` are (x, y, price), `items` (x, y, quantity)."""
    grain = Grain.ANY if turning else Grain.ALONG
    pieces = tuple(Piece(f"p{i:04}", a, b, n, grain) for i, (a, b, n) in enumerate(items))
    stock = tuple(Stock(f"s{i}", a, b, price=price) for i, (a, b, price) in enumerate(sheets))
    return Job(pieces, stock, Cutting(), effort)


def bin_packing(turning: bool, effort: int, ks: tuple[int, ...] = tuple(range(1, 11))) -> Iterator[Instance]:
    """The 500 bin packing instances, or those with k in `ks` (k numbers the ten instances of a class and size)."""
    best = "best_guillotine_R" if turning else "best_guillotine_O"
    for row in read("bwmv500.json"):
        if row["k"] in ks:
            items = [(a, b, 1) for a, b in row["items"]]
            yield Instance(row["name"], unit_job([(row["W"], row["H"], 1)], items, turning, effort), row[best])


def shop_jobs(prefix: str, effort: int) -> Iterator[Instance]:
    """Synthetic shop jobs: 2440 x 1220, kerf 3.2, trim 10, half of the kinds held to the grain."""
    for row in read("shop_jobs_synthetic.json"):
        if not row["name"].startswith(prefix + "_s1") or row["name"].endswith("_s1"):
            continue
        pieces = tuple(
            Piece(f"p{i:03}", a * 10, b * 10, n, Grain.ANY if turn else Grain.ALONG)
            for i, (a, b, turn, n) in enumerate(row["parts_w_h_mayrotate_qty"])
        )
        x, y = row["sheet_mm"]
        trim, kerf = round(row["trim_mm"] * 100), round(row["kerf_mm"] * 100)
        stock = (Stock("sheet", x * 100, y * 100, price=1),)
        yield Instance(row["name"], Job(pieces, stock, Cutting(kerf, Trim(trim, trim, trim, trim)), effort))


def variable_sized(effort: int, every: int = 1) -> Iterator[Instance]:
    """Pisinger and Sigurd's instances with several sheet sizes; the price is the area, as in the published tables."""
    for row in read("vsbp_pisinger2005.json")[::every]:
        sheets = [(a, b, a * b) for a, b, _ in row["bins_w_h_cost"]]
        yield Instance(row["name"], unit_job(sheets, [(a, b, 1) for a, b in row["items"]], False, effort))


def bulk(effort: int) -> Iterator[Instance]:
    """Cintra and others' bulk demand on one sheet size, with the best three-stage number of sheets."""
    for row in read("cutting_stock_cintra2008.json"):
        items = [(a, b, n) for a, b, n in row["items_w_h_demand"]]
        x, y = row["single_bin"]
        yield Instance(row["name"], unit_job([(x, y, 1)], items, False, effort), row["bk3exact_single"])


TINY = (  # ours, drawn by hand: sheet, items, whether they may turn, and the least number of sheets by plain reasoning
    ((10, 10), [(5, 5, 8)], False, 2),  # four quarters a sheet
    ((10, 10), [(10, 4, 3), (5, 2, 4)], False, 2),  # two strips and two quarter strips a sheet, by area 160 / 100
    ((12, 8), [(8, 3, 4)], True, 1),  # two rows of 8 x 3 and one column of two turned ones is 96 = the whole sheet
    ((100, 60), [(60, 30, 2), (40, 60, 1), (50, 30, 4)], False, 2),
    ((9, 9), [(5, 4, 4)], True, 2),  # the pinwheel fills 80 of 81 but no through-cut opens it
)


def tiny(effort: int) -> Iterator[Instance]:
    """The tiny set of our own."""
    for number, (sheet, items, turning, least) in enumerate(TINY):
        yield Instance(f"tiny {number}", unit_job([(*sheet, 1)], list(items), turning, effort), least)
