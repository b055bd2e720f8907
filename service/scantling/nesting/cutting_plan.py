"""How a nesting is cut: every layout's cuts in order, which face lies up, and the settings shared across layouts."""

from collections.abc import Mapping
from dataclasses import dataclass

from scantling.findings import Finding

from .checker_sequence import check_cuts
from .cutting_findings import find_cutting
from .fault import NestingFault
from .nouns import Job, Nesting
from .saws import Saws
from .sequence import Cut, Setup, group_by_setting
from .sheet_face import SheetFace, sheet_face
from .stacks import in_stacks, runs_of, stack_findings


@dataclass(frozen=True, slots=True)
class CuttingPlan:
    """The cuts and the lie of each layout, in the order of the layouts, and all cuts gathered by saw setting.

    `stacks` says how many sheets of each layout are cut on top of each other.
    """

    sequences: tuple[tuple[Cut, ...], ...]
    faces: tuple[SheetFace, ...]
    setups: tuple[Setup, ...]
    findings: tuple[Finding, ...]
    stacks: tuple[int, ...]

    def passes(self, nesting: Nesting) -> int:
        """Return how many cuts it takes to cut everything, a stack of sheets being cut at once."""
        return sum(
            runs_of(layout, stack) * len(cuts)
            for layout, stack, cuts in zip(nesting.layouts, self.stacks, self.sequences, strict=True)
        )


def cutting_plan(
    job: Job, nesting: Nesting, saws: Saws | None = None, densities: Mapping[str, float] | None = None
) -> CuttingPlan:
    """Return how a nesting is cut; without saws every cut has its setting but no saw, and nothing is checked.

    `densities` gives kg/m³ by material where the job's names are not those of the materials table.
    """
    stacked = [in_stacks(layout, job, saws, densities) for layout in nesting.layouts]
    sequences, stacks = tuple(cuts for cuts, _ in stacked), tuple(stack for _, stack in stacked)
    found = () if saws is None else find_cutting(nesting.layouts, sequences, job, saws)
    plan = CuttingPlan(
        sequences,
        tuple(sheet_face(cuts, saws) for cuts in sequences),
        group_by_setting(sequences),
        (*found, *stack_findings(nesting.layouts, stacks, job)),
        stacks,
    )
    faults = check_cuts(job, nesting.layouts, sequences)
    if faults:
        raise NestingFault("; ".join(faults[:5]))
    return plan
