"""How a nesting is cut: every layout's cuts in order, which face lies up, and the settings shared across layouts."""

from collections.abc import Mapping
from dataclasses import dataclass

from scantling.findings import Finding

from .cutting_findings import find_cutting
from .nouns import Job, Nesting
from .saws import Saws
from .sequence import Cut, Setup, cut_sequence, group_by_setting
from .sheet_face import SheetFace, sheet_face


@dataclass(frozen=True, slots=True)
class CuttingPlan:
    """The cuts and the lie of each layout, in the order of the layouts, and all cuts gathered by saw setting."""

    sequences: tuple[tuple[Cut, ...], ...]
    faces: tuple[SheetFace, ...]
    setups: tuple[Setup, ...]
    findings: tuple[Finding, ...]


def cutting_plan(
    job: Job, nesting: Nesting, saws: Saws | None = None, densities: Mapping[str, float] | None = None
) -> CuttingPlan:
    """Return how a nesting is cut; without saws every cut has its setting but no saw, and nothing is checked.

    `densities` gives kg/m³ by material where the job's names are not those of the materials table.
    """
    sequences = tuple(cut_sequence(layout, job, saws, densities) for layout in nesting.layouts)
    return CuttingPlan(
        sequences,
        tuple(sheet_face(cuts, saws) for cuts in sequences),
        group_by_setting(sequences),
        () if saws is None else find_cutting(nesting.layouts, sequences, job, saws),
    )
