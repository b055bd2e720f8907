"""Published facts as data files, each row with unit, source and status; small typed loaders."""

from .errors import TableError, UnknownGauge, UnknownMaterial, UnknownRowError
from .screw_lengths import LengthWindow, screw_window, stocked_length, stocked_lengths
from .screws import ScrewGauge, StockScrew, screw_gauge, screw_gauges, screw_stock
from .table import Row, Status, Table, load_table, table_names, table_rows

__all__ = [
    "LengthWindow",
    "Row",
    "ScrewGauge",
    "Status",
    "StockScrew",
    "Table",
    "TableError",
    "UnknownGauge",
    "UnknownMaterial",
    "UnknownRowError",
    "load_table",
    "screw_gauge",
    "screw_gauges",
    "screw_stock",
    "screw_window",
    "stocked_length",
    "stocked_lengths",
    "table_names",
    "table_rows",
]
