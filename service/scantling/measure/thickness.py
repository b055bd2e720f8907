"""Thickness of a sheet or board as the caller knows it: one caliper reading, several, or an assumed range."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from statistics import median

from .errors import MeasureError
from .length import parse_length
from .quantity import QuantityLike
from .snapping import snap

LIMIT_THICKNESS_MM = 305.0  # 12 in; thicker than any board or built-up leg of furniture
MAX_READINGS = 100
ACCEPTED_THICKNESS = (
    "a length, a list of caliper readings, or an object with status (assumed or measured), least and most"
)

ThicknessValue = str | int | float | QuantityLike | Sequence[object] | Mapping[str, object]


@dataclass(frozen=True, slots=True)
class Thickness:
    """A thickness in mm, snapped to 0.01: `least` and `most` that may turn up, `typical` to draw with.

    `status` is "measured" or "assumed"; no joint should be cut to an assumed thickness.
    """

    least: float
    most: float
    typical: float
    status: str = "measured"

    @property
    def assumed(self) -> bool:
        """Whether nobody has put a caliper on it yet."""
        return self.status == "assumed"

    @property
    def spread(self) -> float:
        """The greatest minus the least, in mm."""
        return self.most - self.least


def parse_thickness(value: ThicknessValue, unit: str = "mm", *, decimal_comma: bool = False) -> Thickness:
    """Return a thickness. Raises MeasureError whose `at` leads to the reading or member at fault.

    A single length is a measured thickness without spread. Readings give their least, their greatest and, as typical,
    their median. A range is typically its middle. Numbers are in `unit`. Zero, more than 305 mm and the serial
    numbers of dates are refused.
    """
    return _Reader("thickness", LIMIT_THICKNESS_MM, unit, decimal_comma).read(value)


def parse_size(
    value: ThicknessValue,
    unit: str = "mm",
    *,
    what: str = "size",
    limit_mm: float = 6000.0,
    decimal_comma: bool = False,
) -> Thickness:
    """Return a size that varies, such as a cushion's width, by the rules of `parse_thickness` with its own limit."""
    return _Reader(what, limit_mm, unit, decimal_comma).read(value)


@dataclass(frozen=True, slots=True)
class _Reader:
    """Reads one size: what it is called in messages, its limit in mm, and how numbers are written."""

    what: str
    limit: float
    unit: str
    decimal_comma: bool

    def read(self, value: ThicknessValue) -> Thickness:
        if isinstance(value, Mapping):
            return self._from_range(value)
        if isinstance(value, Sequence) and not isinstance(value, str | bytes):
            return self._from_readings(value)
        size = self._one(value)
        return Thickness(size, size, size, "measured")

    def _from_readings(self, readings: Sequence[object]) -> Thickness:
        if not 1 <= len(readings) <= MAX_READINGS:
            raise self._refusal(f"the list of readings holds {len(readings)}, and 1 to {MAX_READINGS} are taken")
        sizes = []
        for index, reading in enumerate(readings):
            try:
                sizes.append(self._one(reading))
            except MeasureError as error:
                raise error.under(index) from None
        return Thickness(min(sizes), max(sizes), snap(median(sizes)), "measured")

    def _from_range(self, given: Mapping[str, object]) -> Thickness:
        for name in ("status", "least", "most"):
            if name not in given:
                raise self._refusal(f"the member {name} is missing")
        for name in given:
            if name not in {"status", "least", "most"}:
                raise self._refusal("it has a member that is not known", str(name))
        status = given["status"]
        if status not in ("assumed", "measured"):
            raise self._refusal("its status is neither assumed nor measured", "status")
        sizes = {}
        for name in ("least", "most"):
            try:
                sizes[name] = self._one(given[name])
            except MeasureError as error:
                raise error.under(name) from None
        least, most = sizes["least"], sizes["most"]
        if least > most:
            raise self._refusal(f"least ({least:g} mm) is more than most ({most:g} mm)", "least")
        return Thickness(least, most, snap((least + most) / 2), str(status))

    def _one(self, value: object) -> float:
        size = snap(parse_length(value, self.unit, decimal_comma=self.decimal_comma))  # type: ignore[arg-type]
        if size <= 0:
            raise self._refusal("it must be more than zero")
        if size > self.limit:
            raise self._refusal(f"{size:g} mm is thicker or longer than what is taken here ({self.limit:g} mm)")
        return size

    def _refusal(self, says: str, *at: str) -> MeasureError:
        return MeasureError(
            f"Cannot take the {self.what}: {says}. Accepted: {ACCEPTED_THICKNESS}.",
            accepted=ACCEPTED_THICKNESS,
            code="bad-thickness",
            at=at,
        )
