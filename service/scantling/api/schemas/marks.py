"""The `x-unit` mark that every number of a schema carries."""

from pydantic.config import JsonDict


def unit(word: str) -> JsonDict:
    """Return the mark for a unit."""
    return {"x-unit": word}


MM = unit("mm")
DEG = unit("deg")
N = unit("N")
KG = unit("kg")
MIN = unit("min")
COUNT = unit("count")
RATIO = unit("1")
PERCENT = unit("%")
CURRENCY_UNIT = unit("currency")
LINE_UNIT = unit("unit")
