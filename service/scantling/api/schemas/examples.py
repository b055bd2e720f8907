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
            "materials": {"panel": {"material": "birch-plywood", "thickness": [17.6, 17.7, 17.5]}},
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
