"""An example for every request; each is sent and answered in the tests."""

from typing import Any

Examples = dict[str, Any]

PARTS: Examples = {
    "defaults": {"summary": "Everything at its default", "value": {"parameters": {}}},
    "measured": {
        "summary": "A measured thickness, sizes shown to 1/32 in",
        "value": {
            "units": "mm",
            "tape": "1/32 in",
            "parameters": {},
            "materials": {"frame": {"material": "birch-plywood", "thickness": [17.6, 17.7, 17.5]}},
        },
    },
}

PROOFS: Examples = {
    "thickness": {
        "summary": "A panel sold as 18 mm, a saw that is half a degree off",
        "value": {
            "parameters": {},
            "ranges": {
                "thickness": {"frame": {"least": 17.2, "most": 18.4}},
                "saw_error_deg": 0.5,
                "wetter": 3,
                "drier": 4,
            },
        },
    },
}

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

COSTINGS: Examples = {
    "bench": {
        "summary": "Sheets, screws by the box, glue, and an afternoon's work",
        "value": {
            "currency": "USD",
            "take_off": [
                {"id": "sheet", "kind": "sheet", "what": "birch plywood 18 mm", "quantity": 3, "used": 2.4},
                {"id": "screws", "kind": "screw", "what": "#8 x 1 5/8 in", "quantity": 64},
                {"id": "glue", "kind": "glue", "quantity": 210, "unit": "g", "estimate": "from the glued area"},
                {"id": "seat cushion", "kind": "cushion", "quantity": 2},
            ],
            "prices": [
                {"id": "sheet", "price": "62.00"},
                {"kind": "screw", "price": "9.25", "pack": 50},
                {"kind": "glue", "price": "7.40", "pack": 473, "unit": "mL"},
            ],
            "labour": {"hours": 6.5, "rate": "20.00"},
            "tax": {"percent": 7},
            "waste": {"screw": 10},
        },
    }
}

PROJECTS: Examples = {
    "least": {
        "summary": "One bench with a measured sheet",
        "value": {
            "name": "reading corner",
            "units": "mm",
            "tape": "1/16 in",
            "modules": [
                {
                    "id": "north bench",
                    "module": "leaning-seat",
                    "quantity": 1,
                    "parameters": {"bays": 2},
                    "materials": {"frame": {"material": "birch-plywood", "thickness": 17.6}},
                }
            ],
        },
    },
    "whole": {
        "summary": "Two kinds of furniture with sheets, saws, prices, people and a place",
        "value": {
            "name": "porch",
            "units": "in",
            "tape": "1/16 in",
            "currency": "USD",
            "modules": [
                {
                    "id": "bench",
                    "module": "leaning-seat",
                    "parameters": {"bays": 2, "seat_height": 17, "lean": "1 in 5"},
                    "materials": {"frame": {"material": "marine-plywood", "thickness": [0.7, 0.705, 0.7]}},
                },
                {"id": "stool", "module": "storage-footstool", "quantity": 2},
            ],
            "stock": [
                {
                    "id": "sheet",
                    "material": "marine-plywood",
                    "thickness": 0.7,
                    "length": 96,
                    "width": 48,
                    "price": "118.00",
                },
                {
                    "id": "left over",
                    "material": "marine-plywood",
                    "thickness": 0.7,
                    "length": 40,
                    "width": 24,
                    "quantity": 1,
                    "offcut": True,
                },
            ],
            "saws": [
                {
                    "id": "bench saw",
                    "kind": "table saw",
                    "kerf": "1/8 in",
                    "trim": "1/4 in",
                    "rip": 24,
                    "bevel_limit": 45,
                },
                {"id": "chop saw", "kind": "mitre saw", "kerf": "3/32 in", "crosscut": 12, "crosscut_45": 8},
            ],
            "tools": [{"id": "drill", "kind": "drill"}],
            "clamps": [{"id": "long clamps", "kind": "bar", "reach": 36, "count": 4}],
            "glue": {"kind": "cross-linking PVA", "open_min": 10, "clamp_min": 60},
            "finish": {"kind": "semitransparent stain"},
            "hands": 1,
            "fasteners": [{"id": "long screws", "gauge": 8, "length": "1 5/8 in", "box": 100, "price": "9.40"}],
            "prices": [
                {"kind": "screw", "price": "8.10"},
                {"kind": "glue", "price": "7.40", "pack": 473, "unit": "mL"},
            ],
            "labour": {"hours": 24, "rate": "0.00"},
            "tax": {"percent": 6.5},
            "waste": {"board": {"yield": 80}, "screw": 10},
            "people": [{"id": "Ada", "mass": 72, "knee_back_height": 16.5}],
            "place": {"exposure": "covered outdoors", "width": 120, "depth": 96},
            "effort": "quick",
            "seed": 1,
        },
    },
}

FIGURE_QUERIES: dict[str, dict[str, str]] = {
    "board-feet": {"thickness": "1", "width": "6", "length": "8", "quantity": "5"},
    "mitre-and-bevel": {"sides": "6", "slope": "15"},
    "sheets-needed": {"length": "600", "width": "300", "quantity": "25"},
    "pieces-per-board": {"board_length": "2440", "piece": "380"},
    "equal-strips": {"width": "1220", "count": "8"},
    "leg-splay": {"height": "430", "out": "60", "out_side": "40"},
    "mitre-error": {"sides": "4", "joint": "90"},
    "lean": {"angle": "12"},
    "polygon": {"sides": "6", "across": "500"},
}
