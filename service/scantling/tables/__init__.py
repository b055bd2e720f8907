"""Published facts as data files, each row with unit, source and status; small typed loaders."""

from .errors import TableError, UnknownGauge, UnknownMaterial, UnknownRowError
from .finishing import Coverage, GlueProperty, coverage, coverages, glue_property, glues
from .materials import ClearWood, Known, Material, clear_woods, material, materials
from .moisture import Movement, Shrinkage, movement, movements, shrinkage, shrinkages
from .people import body, look_up
from .screw_lengths import LengthWindow, screw_window, stocked_length, stocked_lengths
from .screws import ScrewGauge, StockScrew, screw_gauge, screw_gauges, screw_stock
from .sizes import (
    DressedSize,
    PanelCategory,
    SheetSize,
    dressed_size,
    dressed_sizes,
    panel_categories,
    panel_category,
    sheet_sizes,
)
from .table import Row, Status, Table, load_table, table_names, table_rows

__all__ = [
    "ClearWood",
    "Coverage",
    "DressedSize",
    "GlueProperty",
    "Known",
    "LengthWindow",
    "Material",
    "Movement",
    "PanelCategory",
    "Row",
    "ScrewGauge",
    "SheetSize",
    "Shrinkage",
    "Status",
    "StockScrew",
    "Table",
    "TableError",
    "UnknownGauge",
    "UnknownMaterial",
    "UnknownRowError",
    "body",
    "clear_woods",
    "coverage",
    "coverages",
    "dressed_size",
    "dressed_sizes",
    "glue_property",
    "glues",
    "load_table",
    "look_up",
    "material",
    "materials",
    "movement",
    "movements",
    "panel_categories",
    "panel_category",
    "screw_gauge",
    "screw_gauges",
    "screw_stock",
    "screw_window",
    "sheet_sizes",
    "shrinkage",
    "shrinkages",
    "stocked_length",
    "stocked_lengths",
    "table_names",
    "table_rows",
]
