"""One joint with its fastener as the checks take it, and what a standard says it holds."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from scantling.tables import Status

from .fastener import FastenerSize
from .stack import Stack
from .wood import Wood

ROLES = ("holds", "clamps", "locates")
METHODS = ("nds", "eurocode5")


@dataclass(frozen=True, slots=True)
class Loads:
    """What the whole joint is asked to carry, N: straight out and sideways."""

    withdrawal_n: float = 0.0
    lateral_n: float = 0.0

    @property
    def any(self) -> bool:
        """Return True when some load is stated."""
        return self.withdrawal_n > 0 or self.lateral_n > 0


@dataclass(frozen=True, slots=True)
class FastenerJoint:
    """A joint: its stack (woods in the same order), fastener, role, how many, loads, and where the fasteners sit.

    Distances in mm, None where not stated; `pilot` None when nobody said whether a pilot hole is drilled. `load_angle`
    is the angle of the lateral load to the grain, degrees, for fasteners of 1/4 in and more. Where a thickness is a
    range, `stack` is the typical one, `thinnest` the one a point comes out of first, `deepest` the one with least bite.
    """

    id: str
    stack: Stack
    woods: tuple[Wood, ...]
    size: FastenerSize
    role: str
    count: int = 1
    loads: Loads = field(default_factory=Loads)
    wet: bool = False
    duration: str = "long"
    pilot: bool | None = None
    toe: bool = False
    edge_distance_mm: float | None = None
    end_distance_mm: float | None = None
    spacing_mm: float | None = None
    load_angle: float = 90.0
    pointer: str = ""
    thinnest: Stack | None = None
    deepest: Stack | None = None

    @property
    def out_stack(self) -> Stack:
        """Return the stack at its thinnest: there a point comes out first."""
        return self.thinnest or self.stack

    @property
    def bite_stack(self) -> Stack:
        """Return the stack with thick upper parts and a thin receiver: there the bite is least."""
        return self.deepest or self.stack

    def demand(self) -> dict[str, float]:
        """Return what one of the fasteners is asked to carry, N, and how many share it."""
        return {
            "withdrawal_n": round(self.loads.withdrawal_n / self.count, 1),
            "lateral_n": round(self.loads.lateral_n / self.count, 1),
            "count": self.count,
        }

    @property
    def window_mm(self) -> tuple[float, float]:
        """Return how deep the receiver begins at most, and how much of it is sure to be ahead then, mm."""
        begins = self.bite_stack.head_layers_mm
        return begins, max(0.0, self.out_stack.receiver.exit_mm - begins)


@dataclass(frozen=True, slots=True)
class Capacity:
    """What one fastener holds by a standard, N; None where the standard gives nothing, with the reason in `missing`.

    `modes` are the unadjusted lateral values of every yield mode, `factors` what they are multiplied by, `status` the
    least certain of the figures in it.
    """

    code: str
    withdrawal_n: float | None
    pull_through_n: float | None
    lateral_n: float | None
    lateral_mode: str | None
    modes: Mapping[str, float]
    factors: Mapping[str, float]
    missing: Mapping[str, str]
    status: Status
    sources: tuple[str, ...]

    @property
    def axial_n(self) -> float | None:
        """Return the lesser of withdrawal and pull-through where both are known, else the one that is, N."""
        known = [value for value in (self.withdrawal_n, self.pull_through_n) if value is not None]
        return min(known) if known else None

    def to_plain(self) -> dict[str, object]:
        """Return the capacity of one fastener as JSON members."""
        return {
            "code": self.code,
            "withdrawal_n": _rounded(self.withdrawal_n),
            "pull_through_n": _rounded(self.pull_through_n),
            "lateral_n": _rounded(self.lateral_n),
            "lateral_mode": self.lateral_mode,
            "modes_n": {mode: round(value, 1) for mode, value in self.modes.items()},
            "factors": {name: round(value, 4) for name, value in self.factors.items()},
            "missing": dict(self.missing),
            "status": self.status.value,
            "sources": list(self.sources),
        }


def _rounded(value: float | None) -> float | None:
    return None if value is None else round(value, 1)
