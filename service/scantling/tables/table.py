"""Published facts as data files: one row = value(s) + unit + source + status.

A data file is CSV with a few lines of `# word: text` at its head:

    # title: what the table holds
    # about: how to read it (optional)
    # key: the columns that name a row; no two rows share them
    # units: column unit; column unit          (every column that holds numbers; "1" is a plain ratio)

Every row ends with `source` (a key of sources.toml), `place` (table, equation, page) and `status`:
`read` was read in the source or in a transcription that gives its printed pages, `derived` was computed from
rows that were, `memory` is common practice or recollection: it may inform, it never decides pass or fail.
A table of many properties is long instead of wide: a column `value` with its own column `unit`.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from functools import cache
from types import MappingProxyType
from typing import TYPE_CHECKING, Any

from .errors import TableError, UnknownRowError

if TYPE_CHECKING:
    from importlib.resources.abc import Traversable

Cell = str | float | None
_TAIL = ("source", "place", "status")


class Status(StrEnum):
    """How well a row is known: read in its source, derived from rows that were, or from memory."""

    READ = "read"
    DERIVED = "derived"
    MEMORY = "memory"


@dataclass(frozen=True, slots=True)
class Row:
    """One row: its cells by column, the unit in words, the source in full, and how well it is known."""

    cells: Mapping[str, Cell]
    unit: str
    source: str
    status: Status

    def text(self, column: str) -> str:
        """Return a cell that holds words; an empty cell is an empty text. Raises KeyError for an unknown column."""
        cell = self.cells[column]
        return "" if cell is None else str(cell)

    def number(self, column: str) -> float:
        """Return a cell that must hold a number. Raises KeyError (column), TableError (empty or not a number)."""
        cell = self.cells[column]
        if not isinstance(cell, float):
            raise TableError(f"column {column!r} of a row from {self.source!r} holds {cell!r}, not a number")
        return cell

    def maybe(self, column: str) -> float | None:
        """Return a number or None where the cell is empty. Raises KeyError (column), TableError (not a number)."""
        return None if self.cells[column] is None else self.number(column)

    def to_plain(self) -> dict[str, object]:
        """Return the row as JSON members: its columns, then unit, source and status."""
        cells = {column: _whole(cell) for column, cell in self.cells.items()}
        return {**cells, "unit": self.unit, "source": self.source, "status": self.status.value}


@dataclass(frozen=True, slots=True)
class Table:
    """A table as read from its file, validated: see the module's text for the rules."""

    name: str
    title: str
    about: str
    key: tuple[str, ...]
    units: Mapping[str, str]
    rows: tuple[Row, ...]


@cache
def sources() -> Mapping[str, str]:
    """Return every source by its key: title, edition and publisher in words."""
    return MappingProxyType({key: row["title"] for key, row in _read_toml("sources").items()})


@cache
def known_units() -> Mapping[str, str]:
    """Return every unit a table may use and what it means in words."""
    return MappingProxyType(_read_toml("units"))


@cache
def table_names() -> tuple[str, ...]:
    """Return the names of all tables, sorted."""
    return tuple(sorted(f.name.removesuffix(".csv") for f in _folder().iterdir() if f.name.endswith(".csv")))


@cache
def load_table(name: str) -> Table:
    """Return a table. Raises UnknownRowError for an unknown name, TableError for a file that breaks the rules."""
    if name not in table_names():
        raise UnknownRowError("table", name, table_names())
    return parse_table(name, (_folder() / f"{name}.csv").read_text(encoding="utf-8"))


def table_rows(name: str) -> list[dict[str, object]]:
    """Return a table's rows as JSON members, each with unit, source and status. Raises as load_table does."""
    return [row.to_plain() for row in load_table(name).rows]


def parse_table(name: str, text: str) -> Table:
    """Read the text of a data file. Raises TableError naming the file, the line and the rule it breaks."""
    lines = text.splitlines()
    head = dict(_head_line(name, line) for line in lines if line.startswith("#"))
    for word in ("title", "key"):
        if word not in head:
            raise TableError(f"{name}: the head has no '# {word}:' line")
    units = _units(name, head.get("units", ""))
    import csv

    reader = csv.DictReader([line for line in lines if line.strip() and not line.startswith("#")], strict=True)
    columns = list(reader.fieldnames or [])
    _check_columns(name, columns, units)
    key = tuple(word.strip() for word in head["key"].split(","))
    rows, seen = [], set()
    for number, raw in enumerate(reader, 1):
        row = _row(f"{name}, row {number}", raw, columns, units)
        mark = tuple(row.cells[column] for column in key)
        if mark in seen:
            raise TableError(f"{name}, row {number}: {mark} stands there twice")
        seen.add(mark)
        rows.append(row)
    return Table(name, head["title"], head.get("about", ""), key, MappingProxyType(units), tuple(rows))


def _whole(cell: Cell) -> str | float | int | None:
    return int(cell) if isinstance(cell, float) and cell.is_integer() else cell


def _read_toml(name: str) -> Any:  # noqa: ANN401 - what a file holds is checked by who asked for it
    import tomllib  # here, as csv and resources below: who imports a loader does not always load

    return tomllib.loads((_folder() / f"{name}.toml").read_text(encoding="utf-8"))


def _folder() -> "Traversable":
    from importlib import resources

    return resources.files(__package__) / "data"


def _head_line(name: str, line: str) -> tuple[str, str]:
    word, colon, text = line.lstrip("# ").partition(":")
    if not colon or not text.strip():
        raise TableError(f"{name}: head line {line!r} is not '# word: text'")
    return word.strip(), text.strip()


def _units(name: str, text: str) -> dict[str, str]:
    units: dict[str, str] = {}
    for part in filter(None, (part.strip() for part in text.split(";"))):
        column, _, unit = part.partition(" ")
        if unit.strip() not in known_units():
            raise TableError(f"{name}: column {column!r} has the unknown unit {unit.strip()!r}")
        units[column] = unit.strip()
    return units


def _check_columns(name: str, columns: list[str], units: Mapping[str, str]) -> None:
    if tuple(columns[-3:]) != _TAIL:
        raise TableError(f"{name}: the last columns must be {', '.join(_TAIL)}")
    missing = [column for column in units if column not in columns]
    if missing:
        raise TableError(f"{name}: units are given for columns that are not there: {', '.join(missing)}")
    if ("value" in columns) != ("unit" in columns):
        raise TableError(f"{name}: a column 'value' and a column 'unit' go together")
    if not units and "value" not in columns:
        raise TableError(f"{name}: no column has a unit")


def _row(where: str, raw: dict[str, str], columns: list[str], units: Mapping[str, str]) -> Row:
    if None in raw or None in raw.values():
        raise TableError(f"{where}: it has not as many cells as the head has columns")
    if raw["source"] not in sources():
        raise TableError(f"{where}: source {raw['source']!r} is not in sources.toml")
    if raw["status"] not in set(Status):
        raise TableError(f"{where}: status {raw['status']!r} is none of {', '.join(Status)}")
    if not raw["place"].strip():
        raise TableError(f"{where}: the place in the source (table, equation, page) is empty")
    unit = raw.get("unit", "")
    if "value" in columns and unit not in known_units():
        raise TableError(f"{where}: unknown unit {unit!r}")
    cells: dict[str, Cell] = {}
    for column in columns:
        if column not in (*_TAIL, "unit"):
            cells[column] = _cell(where, column, raw[column].strip(), column in units or column == "value")
    words = unit or "; ".join(f"{column} {of}" for column, of in units.items())
    source = f"{sources()[raw['source']]}, {raw['place'].strip()}"
    return Row(MappingProxyType(cells), words, source, Status(raw["status"]))


def _cell(where: str, column: str, text: str, numeric: bool) -> Cell:
    if not text:
        return None
    if not numeric:
        return text
    try:
        return float(text)
    except ValueError:
        raise TableError(f"{where}: column {column!r} holds {text!r}, which is not a number") from None
