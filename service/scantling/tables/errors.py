"""What the tables answer when they are asked for something they do not hold."""

from collections.abc import Iterable


class UnknownRowError(LookupError):
    """A name that stands in no row of a table; carries the nearest names and everything that would be accepted."""

    def __init__(self, what: str, name: str, accepted: Iterable[str]) -> None:
        from difflib import get_close_matches  # here: it is asked for when something went wrong, not before

        self.what = what
        self.name = name
        self.accepted = tuple(accepted)
        self.nearest = tuple(get_close_matches(str(name), self.accepted, n=3, cutoff=0.5))
        super().__init__(self.message)

    @property
    def message(self) -> str:
        """Say what is unknown and what would be accepted, in one sentence."""
        if self.nearest:
            return f"{self.what} {self.name!r} is not in the tables; nearest: {', '.join(self.nearest)}"
        return f"{self.what} {self.name!r} is not in the tables; known: {', '.join(self.accepted)}"

    def __str__(self) -> str:
        return self.message


class UnknownMaterial(UnknownRowError):
    """A material id that stands in no row of the materials table."""

    def __init__(self, name: str, accepted: Iterable[str]) -> None:
        super().__init__("material", name, accepted)


class UnknownGauge(UnknownRowError):
    """A screw gauge that stands in no row of the screw table."""

    def __init__(self, gauge: int, accepted: Iterable[int]) -> None:
        known = sorted(accepted)
        super().__init__("screw gauge", str(gauge), [str(one) for one in known])
        self.nearest = tuple(str(one) for one in sorted(known, key=lambda one: abs(one - gauge))[:3])


class TableError(ValueError):
    """A data file that breaks the rules of the tables; names the file, the line and the rule."""
