"""A board or panel standing in a housing: what the shoulder under it carries by pressure across the grain."""

from dataclasses import dataclass

from scantling.findings import Finding
from scantling.tables import Status

from .figures import weakest
from .loads import Load
from .notice import LOCAL, notice
from .validity import not_negative, positive

CODE = "NDS 2018 3.10.2 (Fc perpendicular) or EN 1995-1-1 6.1.5, as the wood's values say"


@dataclass(frozen=True, slots=True)
class Housing:
    """A housing: the area of its shoulder mm2, the design pressure of the softer side N/mm2, by which code."""

    title: str
    shoulder_mm2: float
    bearing_mpa: float
    code: str = CODE
    status: Status = Status.READ
    parts: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class HousingResult:
    """A housing checked: what its shoulder may carry and what comes on it, N."""

    housing: Housing
    load: Load
    capacity_n: float
    demand_n: float

    @property
    def ratio(self) -> float:
        """Return demand over capacity."""
        return self.demand_n / self.capacity_n

    def findings(self) -> tuple[Finding, ...]:
        """Return the shoulder pressed too hard, if it is."""
        if self.ratio <= 1:
            return ()
        h = self.housing
        text = (
            f"{h.title}: the shoulder of the housing carries {self.capacity_n:.0f} N; {self.demand_n:.0f} N come on it "
            f"under {self.load.label} ({h.code}). {LOCAL}"
        )
        status = weakest((h.status, self.load.status))
        return (
            notice(
                "housing-over", text, status=status, parts=h.parts, value=self.demand_n, limit=self.capacity_n,
                unit="N", source=CODE,
            ),
        )  # fmt: skip


def check_housing(housing: Housing, load: Load, force_n: float) -> HousingResult:
    """Check the shoulder of a housing; glue in it and screws through it are not added.

    Units: mm2, N/mm2, N. Valid: service loads on a shoulder that is there (its area above zero); the pressure of panels
    on their edge is taken as that of the softer side. Raises: ValueError for a test load, OutOfValidity.
    Source: statics, area times design pressure: NDS 2018 3.10.2; EN 1995-1-1 6.1.5, its kc,90 left out.
    """
    if load.basis != "service":
        raise ValueError("a housing is checked with design values: give a service load, not a test load")
    area = positive("shoulder of the housing", housing.shoulder_mm2, "mm2")
    capacity = area * positive("design pressure", housing.bearing_mpa, "N/mm2")
    return HousingResult(housing, load, capacity, not_negative("force", force_n, "N"))
