"""Published facts as data files, each row with unit, source and status; small typed loaders."""

from typing import TYPE_CHECKING

from scantling.later import loaded_later

from .materials import ClearWood, Known, Material, clear_woods, material, materials  # its name is its module's

if TYPE_CHECKING:
    from .errors import TableError, UnknownGauge, UnknownMaterial, UnknownRowError
    from .fasteners import (
        DrillBit,
        LagScrew,
        LeadHole,
        Nail,
        bending_yield_psi,
        drill_bits,
        lag_screw,
        lag_screws,
        lead_holes,
        nail,
        nails,
    )
    from .finishing import Coverage, GlueProperty, coverage, coverages, glue_property, glues
    from .moisture import Movement, Shrinkage, movement, movements, shrinkage, shrinkages
    from .people import body, look_up
    from .screw_lengths import LengthWindow, bite_diameters, screw_window, stocked_length, stocked_lengths
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
    "DrillBit",
    "GlueProperty",
    "Known",
    "LagScrew",
    "LeadHole",
    "LengthWindow",
    "Material",
    "Movement",
    "Nail",
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
    "bending_yield_psi",
    "bite_diameters",
    "body",
    "clear_woods",
    "coverage",
    "coverages",
    "dressed_size",
    "dressed_sizes",
    "drill_bits",
    "glue_property",
    "glues",
    "lag_screw",
    "lag_screws",
    "lead_holes",
    "load_table",
    "look_up",
    "material",
    "materials",
    "movement",
    "movements",
    "nail",
    "nails",
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

if not TYPE_CHECKING:
    __getattr__ = loaded_later(
        __name__,
        {
            "errors": ("TableError", "UnknownGauge", "UnknownMaterial", "UnknownRowError"),
            "fasteners": (
                "DrillBit",
                "LagScrew",
                "LeadHole",
                "Nail",
                "bending_yield_psi",
                "drill_bits",
                "lag_screw",
                "lag_screws",
                "lead_holes",
                "nail",
                "nails",
            ),
            "finishing": ("Coverage", "GlueProperty", "coverage", "coverages", "glue_property", "glues"),
            "moisture": ("Movement", "Shrinkage", "movement", "movements", "shrinkage", "shrinkages"),
            "people": ("body", "look_up"),
            "screw_lengths": ("LengthWindow", "bite_diameters", "screw_window", "stocked_length", "stocked_lengths"),
            "screws": ("ScrewGauge", "StockScrew", "screw_gauge", "screw_gauges", "screw_stock"),
            "sizes": (
                "DressedSize",
                "PanelCategory",
                "SheetSize",
                "dressed_size",
                "dressed_sizes",
                "panel_categories",
                "panel_category",
                "sheet_sizes",
            ),
            "table": ("Row", "Status", "Table", "load_table", "table_names", "table_rows"),
        },
    )
