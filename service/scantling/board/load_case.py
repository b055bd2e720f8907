"""What a part is meant to carry, as its author says: somebody sitting, leaning or resting an arm, books, a mass."""

from dataclasses import dataclass

LOAD_UNITS = {
    "sitter": "persons",
    "leaning": "persons",
    "arm": "persons",
    "books": "kg/m",
    "library shelf": "kg/m",
    "other shelf": "kg/m",
    "mass": "kg",
}
_PRESETS = ("books", "library shelf", "other shelf")


class LoadCaseError(ValueError):
    """A load that cannot be; the message says which kinds and amounts are accepted."""


@dataclass(frozen=True, slots=True)
class LoadCase:
    """What some parts carry together: `sitter` on them, somebody `leaning` against them, an `arm`, shelf loads, `mass`.

    `amount` is in `unit`: persons, kg per metre of shelf (None: the published preset of that name), or kg spread over
    the parts. Raises LoadCaseError for another kind, unit or a negative amount.
    """

    kind: str
    parts: tuple[str, ...]
    amount: float | None = None
    unit: str = ""

    def __post_init__(self) -> None:
        if self.kind not in LOAD_UNITS:
            raise LoadCaseError(f"{self.kind!r} is not a load; use one of {', '.join(LOAD_UNITS)}")
        if not self.parts:
            raise LoadCaseError(f"the load {self.kind!r} names no part that carries it")
        unit = LOAD_UNITS[self.kind]
        if self.unit not in ("", unit):
            raise LoadCaseError(f"the load {self.kind!r} is counted in {unit}, not in {self.unit!r}")
        if self.amount is None and self.kind not in _PRESETS:
            object.__setattr__(self, "amount", 1.0 if unit == "persons" else None)
        if self.amount is None and self.kind == "mass":
            raise LoadCaseError("the load 'mass' needs its kilograms")
        if self.amount is not None and not 0 < self.amount <= 10_000:
            raise LoadCaseError(f"a load of {self.amount:g} {unit} cannot be; give more than 0 and at most 10000")
        object.__setattr__(self, "unit", unit)
