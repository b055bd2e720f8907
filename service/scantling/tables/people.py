"""Body dimensions, seating recommendations, cushions: one number each, with its unit, source and status."""

from functools import cache

from .errors import UnknownRowError
from .materials import Known
from .table import load_table


def body(measure: str, sex: str, statistic: str) -> Known:
    """Return a body dimension: sex `women` or `men`; statistic p1, p5, p50, p95, p99, mean or sd; mm or kg.

    Source: ANSUR II (2012), percentiles computed from the public data. Raises UnknownRowError.
    """
    return look_up("anthropometrics", "value", measure=measure, sex=sex, statistic=statistic)


@cache
def look_up(table: str, column: str, **key: str) -> Known:
    """Return the number of the row whose key columns are `key`, with its unit, source and status.

    Raises UnknownRowError naming the nearest keys when no row has that key, TableError when its cell is empty.
    """
    loaded = load_table(table)
    for row in loaded.rows:
        if all(_shown(row.cells[name]) == value for name, value in key.items()):
            unit = row.unit if column == "value" else loaded.units[column]
            return Known(row.number(column), unit, row.source, row.status)
    wanted = ", ".join(key.values())
    raise UnknownRowError(f"row of {table}", wanted, [", ".join(_shown(r.cells[n]) for n in key) for r in loaded.rows])


def _shown(cell: str | float | None) -> str:
    return f"{cell:g}" if isinstance(cell, float) else str(cell or "")
