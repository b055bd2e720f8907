"""The tables that a nesting can be read as: where pieces lie, the list of cuts, saw settings, layouts, what is left."""

from collections.abc import Callable, Mapping, Sequence
from typing import Any

from .respond import Table, member

Plain = Mapping[str, Any]
Rows = Callable[[Plain], Sequence[Plain]]

_LAYOUT = ("layout", "stock", "count")


def _within(name: str) -> Rows:
    """Return one row for each entry of a list that every layout has, with the layout's number, stock and count."""

    def rows(answer: Plain) -> Sequence[Plain]:
        return [
            {"layout": number, "stock": layout["stock"], "count": layout["count"], "runs": layout.get("runs"), **entry}
            for number, layout in enumerate(answer["layouts"], 1)
            for entry in layout[name]
        ]

    return rows


def _layouts(answer: Plain) -> Sequence[Plain]:
    return [
        {
            "layout": number,
            **layout,
            "parts": len(layout["placements"]),
            "cuts": len(layout["cuts"]),
            "offcuts": len(layout["offcuts"]),
        }
        for number, layout in enumerate(answer["layouts"], 1)
    ]


def _settings(answer: Plain) -> Sequence[Plain]:
    """Return one row for each setting in the order of work; its cuts as layout.cut, such as 1.4."""
    return [
        {
            "order": number,
            **setting,
            "number_of_cuts": len(setting["cuts"]),
            "cuts": " ".join(f"{cut['layout']}.{cut['cut']}" for cut in setting["cuts"]),
        }
        for number, setting in enumerate(answer["settings"], 1)
    ]


PLACEMENTS = Table(
    "placements",
    (*_LAYOUT, "part", "x_mm", "y_mm", "length_mm", "width_mm", "turned"),
    _within("placements"),
)
UNPLACED = Table("unplaced", ("part", "quantity", "reason", "nearest_stock", "excess_mm"), member("unplaced"))
CUTS = Table(
    "cuts",
    (
        *_LAYOUT,
        "runs",
        ("cut", "number"),
        "kind",
        "saw",
        "method",
        "setting_mm",
        "mark_mm",
        "mitre_deg",
        "bevel_deg",
        "length_mm",
        "kerf_mm",
        ("held", "held.name"),
        ("held_along_x_mm", "held.along_x_mm"),
        ("held_along_y_mm", "held.along_y_mm"),
        ("held_mass_kg", "held.mass_kg"),
        ("falls", "falls.kind"),
        ("falls_name", "falls.name"),
        ("falls_along_x_mm", "falls.along_x_mm"),
        ("falls_along_y_mm", "falls.along_y_mm"),
        ("rest", "rest.kind"),
        ("rest_name", "rest.name"),
        "good_face",
        "allowance_mm",
        "finish",
        "by_hand",
        "too_heavy",
    ),
    _within("cuts"),
)
SETTINGS = Table(
    "settings",
    ("order", "saw", "method", "kind", "setting_mm", "mitre_deg", "bevel_deg", "number_of_cuts", "cuts"),
    _settings,
)
LAYOUTS = Table(
    "layouts",
    (*_LAYOUT, "length_mm", "width_mm", "parts", "cuts", "offcuts", "face_up", "mirrored", "saw", "stack", "runs"),
    _layouts,
)
OFFCUTS = Table("offcuts", (*_LAYOUT, "x_mm", "y_mm", "length_mm", "width_mm"), member("offcuts"))
PLANS = Table(
    "plans",
    (
        "name",
        "chosen",
        "cost",
        "settings",
        "cuts",
        "distinct_layouts",
        ("remainder_length_mm", "remainder.length_mm"),
        ("remainder_width_mm", "remainder.width_mm"),
    ),
    member("plans"),
)
