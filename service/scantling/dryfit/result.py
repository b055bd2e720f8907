"""What the dry fit answers: findings, how joints meet, what each screw does, groups of parts cut alike."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any

from scantling.board import Group, Patch
from scantling.findings import Finding, Severity, count_errors

from .balance import Balance
from .chains import Placed
from .joints import Meeting
from .order import Order
from .screws import ScrewFit
from .tape_rounding import OnTape

if TYPE_CHECKING:
    from .moving import Moved


@dataclass(frozen=True, slots=True)
class DryFit:
    """The whole answer. `order` is None where none was sought, or too many parts share space.

    `touching` holds, for every two parts that come near each other, the patches of the first whose normals point at
    the second, largest first; checks of strength read it, the answer does not show it. `chains` are the dimension
    chains that have a place; `taped` is what comes of cutting to the tape, where one was named.
    """

    findings: tuple[Finding, ...]
    order: Order | None
    balance: Balance | None
    contacts: tuple[Meeting, ...]
    screws: tuple[ScrewFit, ...]
    alike: tuple[Group, ...]
    touching: Mapping[tuple[str, str], tuple[Patch, ...]] = field(default_factory=dict)
    motions: tuple["Moved", ...] = ()
    chains: tuple[Placed, ...] = ()
    taped: OnTape | None = None

    @property
    def fits(self) -> bool:
        """Whether nothing was found that must be mended before building."""
        return count_errors(self.findings) == 0

    def summary(self) -> list[str]:
        """Return at most seven lines: whether it goes together, and what to mend first."""
        errors = [f for f in self.findings if f.severity is Severity.ERROR]
        warnings = sum(f.severity is Severity.WARNING for f in self.findings)
        if not errors:
            lines = ["It goes together: nothing stands in anything else, and every joint meets."]
        else:
            lines = [f"It does not go together yet: {len(errors)} things to mend."]
            lines += [f.message for f in errors[:4]]
        if self.order is not None and self.order.feasible:
            lines.append(f"It can be built in {len(self.order.steps)} steps with every screw reached.")
        if warnings:
            lines.append(f"{warnings} warnings to weigh.")
        return lines

    def to_plain(self) -> dict[str, Any]:
        """Return the dry fit as JSON members."""
        return {
            "summary": self.summary(),
            "findings": [f.to_plain() for f in self.findings],
            "order": None if self.order is None else self.order.to_plain(),
            "balance": None if self.balance is None else self.balance.to_plain(),
            "alike": [{"id": g.id, "parts": list(g.parts), "hand": g.hand, "twin": g.twin} for g in self.alike],
            "contacts": [m.to_plain() for m in self.contacts],
            "screws": [s.to_plain() for s in self.screws],
            "motions": [m.to_plain() for m in self.motions],
            "chains": [c.to_plain() for c in self.chains],
            "rounding": None if self.taped is None else self.taped.to_plain(),
        }
