"""Everything checked about one built piece: that it goes together, that it holds, how it stands and suits."""

from dataclasses import dataclass
from typing import Any

from scantling.dryfit import verify
from scantling.findings import Finding
from scantling.mechanics.fastener_check import FastenerCheck

from .building import Built
from .check_row import CheckRow, worst_of_each
from .children import box_checks, box_of, opening_checks
from .circumstances import Circumstances
from .hands import hand_checks
from .holding import holding_checks
from .place import place_checks
from .sitting import sitting_checks, table_checks
from .squareness import squareness_checks
from .standing import standing_checks
from .structure import structure_of
from .surfaces import backs_of, seats_of, side_backs_of
from .weather import weather_checks
from .working_order import order_of_work

SAID_BY_MODULES = frozenset({"knee-room-small"})  # an author who says it himself is not repeated
ANYBODY = Circumstances()
BEDS = ("bed", "beds", "sleeping", "bedroom")
NOBODY = CheckRow("seat", "where people sit", note="no cushion lies on it and no part is declared to carry a sitter")


@dataclass(frozen=True, slots=True)
class Checked:
    """What the checks of a piece found, what its screws hold, every check made, and the order of work computed.

    `steps` is empty where the author's own stands. `rows` are nearest their limits first. `work` says of each step how
    the piece lies and is held; `glue_ups` are the stages that fit the glue's open time, where its label was given.
    `motions` tells what lids, doors and drawers meet on their way.
    """

    findings: tuple[Finding, ...]
    fastening: tuple[FastenerCheck, ...]
    steps: list[dict[str, Any]]
    rows: tuple[CheckRow, ...] = ()
    work: tuple[dict[str, Any], ...] = ()
    glue_ups: tuple[dict[str, Any], ...] = ()
    motions: tuple[dict[str, Any], ...] = ()


def hung_by(built: Built) -> CheckRow | None:
    """Return the row of a piece its author hangs on a wall: it does not stand, and the wall decides."""
    if not built.assembly.hung_by:
        return None
    note = f"it hangs by {built.assembly.hung_by}: what the wall and its plugs hold is for their makers' figures"
    return CheckRow("stands", "hung on the wall", note=note)


def check(built: Built, who: Circumstances = ANYBODY) -> Checked:
    """Run every check on a built piece for the people, the place and the shop it is for."""
    assembly = built.assembly
    settings = who.fit
    fit = verify(assembly, settings)
    steps = [step.to_plain() for step in fit.order.steps] if fit.order is not None else []
    if not assembly.parts:
        return Checked(fit.findings, (), steps)
    structure = structure_of(assembly, fit.touching)
    seats, backs = seats_of(assembly, tested=built.module.family not in BEDS), backs_of(assembly)
    nobody = built.module.family == "seating" and not seats
    held = holding_checks(structure, seats, [*backs, *side_backs_of(assembly)], built.woods, who, fit.screws)
    rows: list[CheckRow] = [*held.rows, *([NOBODY] if nobody else [])]
    findings: list[Finding] = [*fit.findings, *held.findings]
    storage = built.module.family == "storage"
    box = box_of(structure)
    hung = hung_by(built)
    for more, found in (
        ([hung], []) if hung else standing_checks(structure, seats, backs, who, storage=storage),
        ([], []) if hung else squareness_checks(structure),
        sitting_checks(assembly, seats, backs, who, meant=built.module.family == "seating"),
        weather_checks(structure, seats, who, box=() if box is None else (box.lid.id,)),
        hand_checks(assembly, who),
        place_checks(structure, who),
        box_checks(assembly, box, who),
        table_checks(assembly, who) if built.module.family == "tables" else ([], []),
    ):
        rows += more
        findings += found
    covered = tuple({assembly.parts[id].name for s in (*seats, *backs) if s.cushioned for id, _ in s.shares})
    findings += opening_checks(assembly, who, covered)
    said = {f.code for f in assembly.findings}
    findings = [f for f in findings if f.code not in said or f.code not in SAID_BY_MODULES]
    ordered = order_of_work(assembly, fit, who, settings)
    findings += ordered.findings
    rows = list(worst_of_each(rows))
    moves = tuple(m.to_plain() for m in fit.motions)
    return Checked(tuple(findings), held.fastening, steps, tuple(rows), ordered.work, ordered.glue_ups, moves)
