"""An example for every request; each is sent and answered in the tests."""

from .shop_examples import DRY_FITS, FASTENERS, NESTINGS, Examples

__all__ = ["COSTINGS", "DRY_FITS", "FASTENERS", "FIGURE_QUERIES", "NESTINGS", "PARTS", "PROJECTS", "PROOFS"]

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
    "corner": {
        "summary": "A run bolted to a corner seat in a measured corner; a door, a floor that falls, a gate",
        "value": {
            "name": "terrace",
            "units": "mm",
            "modules": [
                {"id": "run", "module": "leaning-seat", "parameters": {"bays": 2, "arms": "left", "joins": "right"}},
                {"id": "corner", "module": "corner-seat"},
            ],
            "people": [{"id": "Ada", "knee_back_height": 410, "seat_depth": 480, "hip": 400, "knee": 520}],
            "place": {
                "depth": 2600,
                "walls": [
                    {
                        "id": "house",
                        "floor": 2010,
                        "seat": 2006,
                        "back": 2004,
                        "skirting": {"height": 90, "depth": 16},
                        "corner": {"first": 900, "second": 1200, "diagonal": 1497},
                    },
                    {
                        "id": "garden",
                        "floor": 2400,
                        "doors": [{"id": "garden door", "at": 2350, "width": 800, "hinge": "right"}],
                    },
                ],
                "stands": [{"module": "run", "wall": "house"}, {"module": "corner", "wall": "house", "corner": True}],
                "floor": {"fall": 10, "towards": "front"},
                "way_in": [{"id": "side gate", "kind": "gate", "width": 860, "height": 1900}],
            },
            "effort": "quick",
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
