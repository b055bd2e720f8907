"""The members of a plain assembly and of the settings of a dry fit, with what each may be."""

from scantling.board import JointKind, ScrewRole
from scantling.board.assembly import MOST_PARTS
from scantling.board.load_case import LOAD_UNITS
from scantling.board.part import SIDES

from .shape import (
    FARTHEST_MM,
    Check,
    Members,
    by_kind,
    direction,
    either_null,
    flag,
    mapping,
    number,
    row,
    text,
    vector,
    whole,
    word,
)

MOST_FASTENERS = 5000
MOST_CUTS = 40
SIZE = number(0.0, 10_000.0, above=True)
BOUND = number(-10_000.0, 10_000.0)
EDGES = ("start", "end", "near", "far")
ID = text(64)
NAMES = row(ID, most=MOST_PARTS)

_RECESS = Members({f"{axis}{i}_mm": BOUND for axis in "xyz" for i in (0, 1)}, {"stopped": flag})
CUT = by_kind(
    {
        "saw": Members(
            {"side": word(*EDGES)},
            {
                "mitre_deg": number(0, 75),
                "bevel_deg": number(0, 75),
                "long_edge": word(*EDGES),
                "long_face": word("back", "face"),
                "at_mm": BOUND,
            },
        ),
        "hole": Members(
            {"x_mm": BOUND, "y_mm": BOUND, "diameter_mm": SIZE},
            {"depth_mm": either_null(SIZE), "side": word("back", "face"), "purpose": text()},
        ),
        "easing": Members({"edge": text(), "size_mm": SIZE}, {"form": word("round-over", "chamfer")}),
        "curve": Members({"side": word(*EDGES), "rise_mm": BOUND}, {}),
        **dict.fromkeys(("notch", "groove", "rabbet", "dado", "slot"), _RECESS),
    }
)
MATERIAL = Members(
    {"material": ID, "thickness_mm": SIZE},
    {
        "least_mm": SIZE,
        "most_mm": SIZE,
        "assumed": flag,
        "density_kg_m3": number(1, 3000),
        "stock_kind": word("sheet", "board"),
        "has_grain": flag,
        "board_width_mm": either_null(SIZE),
    },
)
PART = Members(
    {
        "id": ID,
        "role": ID,
        "length_mm": SIZE,
        "width_mm": SIZE,
        "thickness_mm": SIZE,
        "frame": Members({"origin_mm": vector, "length": direction, "width": direction}, {}),
    },
    {
        "name": text(),
        "grain": word("along", "across", "any"),
        "shows": word("face", "both", "neither"),
        "seal": row(word(*SIDES), most=12),
        "closing": flag,
        "wears": flag,
        "cuts": row(CUT, most=MOST_CUTS),
    },
)
JOINT = Members(
    {"id": text(400), "kind": word(*(k.value for k in JointKind)), "parts": row(ID, least=2, most=20)},
    {"glued": flag, "clearance_mm": number(0, 1000), "shows": flag},
)
FASTENER = Members(
    {
        "id": ID,
        "kind": word("wood screw", "nail", "dowel", "bolt"),
        "gauge": whole(0, 30),
        "diameter_mm": number(0, 50, above=True),
        "length_mm": number(0, 1000, above=True),
        "head_mm": vector,
        "direction": direction,
        "parts": row(ID, least=1, most=20),
        "role": word(*(r.value for r in ScrewRole)),
        "joint": text(400),
    },
    {"head_depth_mm": number(-50, 200)},
)
CUSHION = Members(
    {
        "id": text(),
        "kind": word("seat", "back"),
        "origin_mm": vector,
        **dict.fromkeys(("width_mm", "depth_mm", "thickness_mm", "loaded_mm"), SIZE),
        "assumed": flag,
        "stopped_by": text(500, empty=True),
    },
    {},
)
LINK = Members({"label": text(), "size_mm": number()}, {})
CHAIN = Members({"name": text(), "total_mm": number(), "links": row(LINK, least=1, most=200), "closing": text()}, {})
PROMISE = Members(
    {
        "kind": word("touches", "gap", "flush", "size", "clear", "floor"),
        "parts": row(ID, most=20),
        "sides": row(word(*SIDES, "x", "y", "z"), most=20),
        "value_mm": number(),
    },
    {},
)
STEP = Members({"text": text(1000)}, {"parts": NAMES, "fasteners": row(ID, most=MOST_FASTENERS)})
HARDWARE = Members({"what": text(), "quantity": whole(0, 100_000)}, {"says": text(500, empty=True)})
CARRIES = Members(
    {"kind": word(*LOAD_UNITS), "parts": NAMES},
    {"amount": either_null(number(0, 10_000, above=True)), "unit": text(20, empty=True)},
)
WALL = Members({"normal": direction, "offset_mm": number()}, {})
_MOVES: dict[str, Check] = {
    "id": ID,
    "kind": word("swing", "slide"),
    "parts": row(ID, least=1, most=MOST_PARTS),
    "axis": direction,
    "travel": number(-3000, 3000),
}
_MAY: dict[str, Check] = {"point_mm": vector, "held_by": text(200, empty=True), "cushions": row(text(), most=100)}
MOVES = Members(_MOVES, _MAY)
MOTION = Members(_MOVES, {**_MAY, "walls": row(WALL, most=10)})
MOST_MOTIONS = 20
ASSEMBLY: Check = Members(
    {"materials": mapping(MATERIAL), "parts": row(PART, least=1, most=MOST_PARTS)},
    {
        "module": text(64),
        "title": text(200, empty=True),
        "joints": row(JOINT, most=5000),
        "fasteners": row(FASTENER, most=MOST_FASTENERS),
        "cushions": row(CUSHION, most=100),
        "chains": row(CHAIN, most=500),
        "promises": row(PROMISE, most=5000),
        "steps": row(STEP, most=1000),
        "hardware": row(HARDWARE, most=1000),
        "loads": row(CARRIES, most=1000),
        "motions": row(MOVES, most=MOST_MOTIONS),
        "cautions": row(text(1000), most=200),
        "hung_by": text(200, empty=True),
    },
)
BARREL = Members(
    {"start_mm": number(0, 1000), "end_mm": number(0, 1000, above=True), "radius_mm": number(0, 200, above=True)}, {}
)
TOOL = Members({"id": ID, "title": text(), "barrels": row(BARREL, least=1, most=8)}, {})
LOAD = Members({"id": ID, "mass_kg": number(0, 2000, above=True), "at_mm": vector}, {})
SETTINGS: Check = Members(
    {},
    {
        "fit_mm": number(0, 1),
        "near_mm": number(0, 10),
        "open_limit_mm": number(0, 10),
        "point_clear_mm": number(0, 20),
        "edge_diameters": number(0, 20),
        "screw_gap_mm": number(0, 50),
        "tools": row(TOOL, least=1, most=10),
        "loads": either_null(row(LOAD, most=50)),
        "person_kg": number(0, 500, above=True),
        "cushion_kg_m3": number(1, 500),
        "tip_least_deg": number(0, 45),
        "hands": whole(1, 10),
        "tape": text(20),
    },
)
CLAMP = Members({"id": ID, "reach_mm": SIZE, "throat_mm": SIZE, "count": whole(1, 500)}, {})
GLUE = Members({"id": ID, "open_minutes": number(0, 1440, above=True), "clamp_minutes": number(0, 10_000)}, {})
DRY_FIT: Check = Members(
    {"assembly": ASSEMBLY},
    {
        "settings": either_null(SETTINGS),
        "clamps": either_null(row(CLAMP, most=50)),
        "glue": either_null(GLUE),
        "motions": either_null(row(MOTION, most=MOST_MOTIONS)),
    },
)
__all__ = ["ASSEMBLY", "DRY_FIT", "FARTHEST_MM", "MOST_CUTS", "MOST_FASTENERS", "SETTINGS"]
