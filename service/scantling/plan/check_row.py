"""One line of what was checked: a demand against a capacity, so that a user sees what held and not only what failed."""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any, TypedDict

from scantling.mechanics.loads import Load

MOST_RATIO = 999.0  # told where the capacity is nought: JSON has no word for more than any number


@dataclass(frozen=True, slots=True)
class CheckRow:
    """What was checked on what: demand and capacity in `unit`, and the load, duration, basis and code they stand on.

    `ratio` is demand over capacity, None where it could not be judged: `note` then says why. `bound` says that the
    demand is the worst of several paths and not a share by statics. `status` is how well the least known figure is.
    """

    check: str
    subject: str
    parts: tuple[str, ...] = ()
    demand: float | None = None
    capacity: float | None = None
    unit: str = ""
    load: str = ""
    duration: str = ""
    basis: str = ""
    code: str = ""
    governing: str = ""
    ratio: float | None = None
    bound: bool = False
    status: str = "read"
    note: str = ""

    def to_plain(self) -> dict[str, Any]:
        """Return the row as JSON members."""
        return {
            "check": self.check,
            "subject": self.subject,
            "parts": list(self.parts),
            "demand": _rounded(self.demand),
            "capacity": _rounded(self.capacity),
            "unit": self.unit,
            "ratio": None if self.ratio is None else round(min(self.ratio, MOST_RATIO), 3),
            "load": self.load,
            "duration": self.duration,
            "basis": self.basis,
            "code": self.code,
            "governing": self.governing,
            "bound": self.bound,
            "status": self.status,
            "note": self.note,
        }


class LoadWords(TypedDict):
    """The members of a row that a load gives."""

    load: str
    duration: str
    basis: str


def row_of_load(load: Load) -> LoadWords:
    """Return the members of a row that a load gives: its words, how long it stands and its basis."""
    return {"load": load.label, "duration": load.duration, "basis": "design" if load.basis == "service" else "ultimate"}


def ordered(rows: Iterable[CheckRow]) -> list[CheckRow]:
    """Return the rows nearest their limits first; those that could not be judged come last."""
    return sorted(rows, key=lambda r: (r.ratio is None, -(r.ratio or 0.0), r.check, r.subject, r.load))


def worst_of_each(rows: Iterable[CheckRow]) -> list[CheckRow]:
    """Return the worst row of each check, subject and basis, nearest their limits first."""
    kept: dict[tuple[str, str, str], CheckRow] = {}
    for row in ordered(rows):
        kept.setdefault((row.check, row.subject, row.basis), row)
    return ordered(kept.values())


def nearest_its_limit(rows: Iterable[CheckRow]) -> list[str]:
    """Return one line saying what is nearest its limit in strength, or none where nothing was judged."""
    judged = [r for r in ordered(rows) if r.ratio is not None and r.basis in ("design", "ultimate", "stiffness")]
    if not judged:
        return []
    first = judged[0]
    value = {"design": "design value", "ultimate": "test strength", "stiffness": "limit"}[first.basis]
    what = f"{first.subject} ({first.check})" if first.check not in first.subject else first.subject
    ratio = first.ratio or 0.0
    how = "Nearest its limit" if ratio <= 1 else "Past its limit"
    return [f"{how}: {what}, {ratio:.2f} of its {value} under {first.load}. Screened, not proved."]


def _rounded(value: float | None) -> float | None:
    return None if value is None else round(value, 2)
