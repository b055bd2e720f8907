"""A rule of one household as a check: no part may be longer than what goes into the car."""

from collections.abc import Iterator, Sequence

from scantling.kit import INTERFACE, Check, ChecksContext, Code, Finding, Inspection, Severity, hook

CAR_MM = 1900.0  # measured with the seats down

TOO_LONG = Code(
    "too-long-for-the-car",
    "Too long for the car",
    "A part is longer than what goes into the household's car with its seats down.",
    "Have the yard cut it, hire a trailer, or make the piece shorter.",
)


def fits_the_car(inspection: Inspection) -> Iterator[Finding]:
    """Find the parts that do not go in."""
    for part in inspection.assembly.parts.values():
        if part.length > CAR_MM:
            yield Finding(
                TOO_LONG.code,
                TOO_LONG.severity if inspection.place.hands == 1 else Severity.NOTE,
                f"{part.id} is {part.length:.0f} mm long; {CAR_MM:.0f} mm go into the car.",
                (part.id,),
                value=part.length,
                limit=CAR_MM,
                unit="mm",
                source="measured in the car",
                remedy=TOO_LONG.remedy,
            )


class HouseRules:
    """The plugin."""

    interface = INTERFACE

    @hook
    def checks(self, context: ChecksContext) -> Sequence[Check]:
        """Return the household's checks."""
        return [
            Check("fits-the-car", "It goes into the car", "Parts against the car's length.", [TOO_LONG], fits_the_car)
        ]


plugin = HouseRules()
