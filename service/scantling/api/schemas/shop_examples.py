"""Examples for the requests about cutting, fitting and fastening; sent and answered in the tests like the others."""

from typing import Any

Examples = dict[str, Any]

NESTINGS: Examples = {
    "sheets": {
        "summary": "Two sides from full sheets",
        "value": {
            "units": "in",
            "currency": "USD",
            "saw": {"kerf": "1/8 in", "trim": "1/4 in"},
            "parts": [
                {
                    "id": "side",
                    "length": 30,
                    "width": 12,
                    "quantity": 2,
                    "grain": "along",
                    "material": "birch-plywood",
                }
            ],
            "stock": [
                {
                    "id": "full sheet",
                    "material": "birch-plywood",
                    "length": 96,
                    "width": 48,
                    "price": "62.00",
                    "quantity": None,
                }
            ],
        },
    },
    "boards": {
        "summary": "Rails from boards of two lengths, one on hand",
        "value": {
            "units": "mm",
            "currency": "EUR",
            "saw": {"kerf": 3},
            "parts": [
                {"id": "rail", "length": 1100, "quantity": 5, "material": "spruce-pine-fir"},
                {"id": "leg", "length": 420, "quantity": 8, "material": "spruce-pine-fir"},
            ],
            "stock": [
                {"id": "long board", "material": "spruce-pine-fir", "length": 4000, "price": "9.80"},
                {"id": "short board", "material": "spruce-pine-fir", "length": 3000, "price": "7.20"},
                {
                    "id": "left over",
                    "material": "spruce-pine-fir",
                    "length": 1250,
                    "price": "1.00",
                    "quantity": 1,
                    "offcut": True,
                },
            ],
            "effort": "quick",
        },
    },
    "saws": {
        "summary": "A sheet that the seller cuts once, then a track saw and a table saw at home, with what they can do",
        "value": {
            "units": "mm",
            "currency": "EUR",
            "saw": {"kerf": 4, "trim": {"near": 5, "far": 5}, "stages": 4, "first_cut": "along", "cutting_error": 1},
            "saws": [
                {
                    "id": "at the seller's",
                    "kind": "panel saw",
                    "kerf": 4,
                    "most_cuts": 1,
                    "error": 1,
                    "least_width": 80,
                },
                {
                    "id": "track",
                    "kind": "track saw",
                    "kerf": 2.2,
                    "guide": 1400,
                    "depth": 55,
                    "depth_45": 40,
                    "bevel_limit": 47,
                    "error": 0.5,
                    "setting_error": 0.3,
                },
                {
                    "id": "table",
                    "kind": "table saw",
                    "kerf": 2.4,
                    "rip": 610,
                    "crosscut": 500,
                    "crosscut_45": 380,
                    "mitre_limit": 60,
                    "tilts": "left",
                    "least_piece": 150,
                    "least_width": 25,
                    "error": 0.3,
                },
            ],
            "parts": [
                {"id": "shelf", "length": 800, "width": 280, "quantity": 4, "material": "birch-plywood", "oversize": 1},
                {"id": "side", "length": 1200, "width": 280, "quantity": 2, "material": "birch-plywood"},
            ],
            "stock": [
                {
                    "id": "sheet",
                    "length": 2500,
                    "width": 1250,
                    "thickness": {"status": "assumed", "least": 17.2, "most": 18.2},
                    "material": "birch-plywood",
                    "price": "86.00",
                }
            ],
            "objective": {"least_offcut": {"length": 400, "width": 150}},
            "effort": "quick",
        },
    },
    "pinned": {
        "summary": "A sheet that is cut already stays; alike sheets are stacked; easy cutting before a large rest",
        "value": {
            "units": "mm",
            "currency": "EUR",
            "saw": {"kerf": 3, "trim": 10},
            "parts": [
                {"id": "shelf", "length": 760, "width": 380, "quantity": 28, "thickness": 18},
                {"id": "back", "length": 760, "width": 590, "quantity": 1, "thickness": 18, "grain": "any"},
            ],
            "stock": [{"id": "sheet", "length": 2440, "width": 1220, "thickness": 18, "price": "48.00"}],
            "layouts": [
                {
                    "stock": "sheet",
                    "placements": [
                        {"part": "back", "x_mm": 10, "y_mm": 10},
                        {"part": "shelf", "x_mm": 10, "y_mm": 613},
                    ],
                }
            ],
            "objective": {
                "order": ["money", "settings", "cuts", "remainder"],
                "worth": 3,
                "least_offcut": {"length": 400, "width": 150},
            },
            "stack": {"sheets": 3, "thickness": 60},
            "effort": "quick",
        },
    },
}

DRY_FITS: Examples = {
    "corner": {
        "summary": "Two boards glued and screwed to a corner",
        "value": {
            "assembly": {
                "title": "corner",
                "materials": {"side": {"material": "birch-plywood", "thickness_mm": 18}},
                "parts": [
                    {
                        "id": "bottom",
                        "role": "side",
                        "length_mm": 400,
                        "width_mm": 200,
                        "thickness_mm": 18,
                        "frame": {"origin_mm": [0, 0, 0], "length": [1, 0, 0], "width": [0, 1, 0]},
                    },
                    {
                        "id": "end",
                        "role": "side",
                        "length_mm": 200,
                        "width_mm": 300,
                        "thickness_mm": 18,
                        "frame": {"origin_mm": [0, 0, 18], "length": [0, 1, 0], "width": [0, 0, 1]},
                    },
                ],
                "joints": [{"id": "corner", "kind": "screws", "parts": ["bottom", "end"], "glued": True}],
                "fasteners": [
                    {
                        "id": "screw 1",
                        "kind": "wood screw",
                        "gauge": 8,
                        "diameter_mm": 4.17,
                        "length_mm": 50,
                        "head_mm": [9, 60, 0],
                        "direction": [0, 0, 1],
                        "parts": ["bottom", "end"],
                        "role": "clamps",
                        "joint": "corner",
                    },
                    {
                        "id": "screw 2",
                        "kind": "wood screw",
                        "gauge": 8,
                        "diameter_mm": 4.17,
                        "length_mm": 50,
                        "head_mm": [9, 140, 0],
                        "direction": [0, 0, 1],
                        "parts": ["bottom", "end"],
                        "role": "clamps",
                        "joint": "corner",
                    },
                ],
            }
        },
    },
    "lid": {
        "summary": "A lid that swings open before a wall, driven by a long driver, with a box of books on it",
        "value": {
            "assembly": {
                "title": "lid",
                "materials": {"panel": {"material": "birch-plywood", "thickness_mm": 18}},
                "parts": [
                    {
                        "id": "bottom",
                        "role": "panel",
                        "length_mm": 500,
                        "width_mm": 300,
                        "thickness_mm": 18,
                        "frame": {"origin_mm": [0, 0, 0], "length": [1, 0, 0], "width": [0, 1, 0]},
                    },
                    {
                        "id": "lid",
                        "role": "panel",
                        "length_mm": 500,
                        "width_mm": 300,
                        "thickness_mm": 18,
                        "frame": {"origin_mm": [0, 0, 18], "length": [1, 0, 0], "width": [0, 1, 0]},
                    },
                ],
                "joints": [{"id": "hinges", "kind": "hinged", "parts": ["bottom", "lid"]}],
            },
            "settings": {
                "fit_mm": 0.1,
                "edge_diameters": 2.5,
                "tools": [
                    {
                        "id": "long",
                        "title": "driver with a 150 mm bit",
                        "barrels": [
                            {"start_mm": 0, "end_mm": 150, "radius_mm": 5.5},
                            {"start_mm": 150, "end_mm": 330, "radius_mm": 27},
                        ],
                    }
                ],
                "loads": [{"id": "books", "mass_kg": 12, "at_mm": [250, 150, 36]}],
            },
            "motions": [
                {
                    "id": "opening",
                    "kind": "swing",
                    "parts": ["lid"],
                    "axis": [1, 0, 0],
                    "point_mm": [0, 300, 18],
                    "travel": -110,
                    "walls": [{"normal": [0, -1, 0], "offset_mm": -330}],
                    "held_by": "a chain",
                }
            ],
        },
    },
}

FASTENERS: Examples = {
    "rail": {
        "summary": "A plywood rail screwed to a leg",
        "value": {
            "units": "in",
            "method": "nds",
            "joints": [
                {
                    "id": "rail to leg",
                    "layers": [
                        {"material": "birch-plywood", "thickness": "23/32 in"},
                        {"material": "douglas-fir", "thickness": "1 1/2 in", "grain": "side"},
                    ],
                    "fastener": {"kind": "wood screw", "gauge": 8, "length": "1 5/8 in"},
                    "role": "holds",
                    "head_depth": "1/16 in",
                    "count": 2,
                    "loads": {"withdrawal_n": 150, "lateral_n": 300},
                }
            ],
        },
    },
    "others": {
        "summary": "A lag screw in a post, a nail in wet wood, a screw that only clamps a glued joint",
        "value": {
            "units": "mm",
            "joints": [
                {
                    "id": "ledger",
                    "layers": [
                        {"part": "ledger", "material": "douglas-fir", "thickness": 38},
                        {"part": "post", "material": "douglas-fir", "thickness": 89},
                    ],
                    "fastener": {"kind": "lag screw", "diameter": "3/8 in", "length": 102},
                    "loads": {"lateral_n": 900},
                    "duration": "medium",
                },
                {
                    "id": "slat",
                    "layers": [
                        {"material": "western-red-cedar", "thickness": 19},
                        {"material": "douglas-fir", "thickness": 38},
                    ],
                    "fastener": {"kind": "nail", "pennyweight": "8d", "style": "common"},
                    "service": "wet",
                    "count": 2,
                },
                {
                    "id": "lining",
                    "layers": [
                        {"material": "birch-plywood", "thickness": 9},
                        {"material": "birch-plywood", "thickness": 17.6},
                    ],
                    "fastener": {"gauge": 6, "length": 20},
                    "role": "clamps",
                },
            ],
        },
    },
    "eurocode": {
        "summary": "By Eurocode 5: a maker's screw in plywood of a range of thicknesses, and a glued dowel",
        "value": {
            "units": "mm",
            "method": "eurocode5",
            "joints": [
                {
                    "id": "rail to leg",
                    "layers": [
                        {
                            "material": "birch-plywood",
                            "thickness": {"status": "assumed", "least": 17, "most": 18},
                            "characteristic_density": 630,
                        },
                        {"material": "spruce-pine-fir", "thickness": [44.8, 45.1], "characteristic_density": 350},
                    ],
                    "fastener": {
                        "gauge": 10,
                        "length": 50,
                        "root_diameter": 3.1,
                        "head_diameter": 9.5,
                        "tensile_strength": 600,
                        "withdrawal_parameter": 13.5,
                        "head_parameter": 12,
                        "declared_density": 350,
                    },
                    "count": 2,
                    "loads": {"withdrawal_n": 200, "lateral_n": 400},
                    "duration": "medium",
                    "edge_distance": 25,
                    "end_distance": 75,
                    "spacing": 60,
                },
                {
                    "id": "frame",
                    "layers": [
                        {"part": "rail", "material": "yellow-poplar", "thickness": 60, "grain": "end"},
                        {"part": "stile", "material": "yellow-poplar", "thickness": 44},
                    ],
                    "fastener": {"kind": "dowel", "diameter": 9.5, "length": 50},
                },
            ],
        },
    },
}
