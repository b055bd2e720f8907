"""Two finish systems as a can's label would tell them; the label of the can that is bought rules."""

from collections.abc import Sequence

from scantling.kit import INTERFACE, FinishesContext, FinishSystem, hook

PRACTICE = "common practice; read the can"
SYSTEMS = (
    FinishSystem(
        "soft-oil",
        "Hardening oil",
        "Two coats of a hardening oil, wiped off; renewed with a rag. Lay oily rags out flat: they can catch fire.",
        kind="oil",
        coats=2,
        least=9,
        most=12,
        recoat_hours=12,
        ready_hours=48,
        care_months=12,
        exposures=("indoors", "damp"),
        source=PRACTICE,
    ),
    FinishSystem(
        "porch-paint",
        "Primer and two coats of paint",
        "For outdoors under a roof or without one; looked after each spring.",
        kind="paint",
        coats=3,
        least=7.4,
        most=9.8,
        recoat_hours=16,
        ready_hours=72,
        care_months=12,
        exposures=("indoors", "damp", "covered outdoors", "outdoors"),
        source=PRACTICE,
    ),
)


class SoftFinishes:
    """The plugin."""

    interface = INTERFACE

    @hook
    def finishes(self, context: FinishesContext) -> Sequence[FinishSystem]:
        """Return the systems."""
        return SYSTEMS


plugin = SoftFinishes()
