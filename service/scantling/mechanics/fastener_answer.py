"""The answer of a fastener check, and how it is written as JSON members."""

from collections.abc import Mapping
from dataclasses import dataclass

from scantling.findings import Finding
from scantling.tables import LengthWindow, StockScrew

from .connection import Capacity, FastenerJoint
from .holes import Countersink, Hole


@dataclass(frozen=True, slots=True)
class FastenerCheck:
    """The answer about one joint: everything in mm and N, the load's ratio to the capacity, and what was noticed."""

    joint: FastenerJoint
    capacity: Capacity
    ultimate_withdrawal_n: float | None
    demand_n: Mapping[str, float]
    ratio: float | None
    governing: str | None
    window: LengthWindow
    stocked: tuple[StockScrew, ...]
    pick: StockScrew | None
    pilot: Hole | None
    clearance: Hole | None
    countersink: Countersink | None
    findings: tuple[Finding, ...]

    def to_plain(self) -> dict[str, object]:
        """Return the check as JSON members."""
        stack, receiver = self.joint.stack, self.joint.stack.receiver
        return {
            "id": self.joint.id,
            "fastener": self.joint.size.label,
            "role": self.joint.role,
            "stack": [bite.to_plain() for bite in stack.layers],
            "point": {
                "at_mm": round(stack.point_mm, 2),
                "in": stack.ends_in,
                "protrusion_mm": round(stack.protrusion_mm, 2),
                "wood_left_mm": round(max(0.0, stack.left_mm), 2),
            },
            "bite": {
                "part": receiver.part,
                "mm": round(receiver.bite_mm, 2),
                "diameters": round(receiver.bite_mm / self.joint.size.diameter_mm, 2),
                "thread_mm": round(receiver.thread_mm, 2),
                "threads": None if receiver.threads is None else round(receiver.threads, 1),
            },
            "pilot": None if self.pilot is None else self.pilot.to_plain(),
            "clearance_hole": None if self.clearance is None else self.clearance.to_plain(),
            "countersink": None if self.countersink is None else self.countersink.to_plain(),
            "capacity": {**self.capacity.to_plain(), "count": self.joint.count},
            "ultimate_withdrawal_n": self.ultimate_withdrawal_n,
            "demand": dict(self.demand_n),
            "ratio": None if self.ratio is None else round(self.ratio, 4),
            "governing": self.governing,
            "length_window": self._window(),
            "findings": [one.to_plain() for one in self.findings],
        }

    def _window(self) -> dict[str, object]:
        return {
            "role": self.window.role,
            "shortest_mm": round(self.window.shortest_mm, 2),
            "longest_mm": round(self.window.longest_mm, 2),
            "empty": self.window.empty,
            "stocked": [{"label": one.label, "length_mm": round(one.length_mm, 2)} for one in self.stocked],
            "take": None if self.pick is None else self.pick.label,
        }
