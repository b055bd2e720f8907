"""Will it hold: seats, shelves, arms, rails, legs, backs and joints of one piece, from its loads down to the floor."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from scantling.board import Assembly
from scantling.dryfit.screws import ScrewFit
from scantling.findings import Finding, Severity
from scantling.mechanics.fastener_check import FastenerCheck
from scantling.mechanics.loads import dropping, sitting, weight
from scantling.mechanics.notice import notice
from scantling.mechanics.wood import Wood

from .arms import arm_checks
from .carried import flow_demands, mass_checks, rail_checks, shelf_checks, thing_flows
from .check_row import CheckRow
from .circumstances import Circumstances
from .fastening import fastener_rows, fastening_findings
from .flow import person_flows
from .joint_checks import check_joints
from .joints import demands_of, screw_rows, worst_of_pairs
from .leaning import lean_checks
from .legs import leg_checks
from .members import seat_members
from .spans import Ways
from .standing import seat_height
from .structure import Structure
from .surfaces import Surface

ACROSS = "across its grain"  # solid wood breaks so under little
JUDGED = frozenset(
    {"bending", "shelf sag", "leg", "housing", "bolts", "joint", "load path", "back", "arm on its post, screws"}
)


@dataclass(frozen=True, slots=True)
class Held:
    """What the checks of strength came to: rows, findings, and what every row of screws holds."""

    rows: tuple[CheckRow, ...]
    findings: tuple[Finding, ...]
    fastening: tuple[FastenerCheck, ...]


def holding_checks(
    structure: Structure,
    seats: list[Surface],
    backs: list[Surface],
    woods: Mapping[str, Wood],
    who: Circumstances,
    fits: Sequence[ScrewFit] = (),
) -> Held:
    """Check everything of one piece that carries; `woods` are by material id, `fits` the screws as the dry fit saw
    them.
    """
    assembly, ways = structure.assembly, Ways(structure)
    one = (sitting(1, who.masses_kg, who.use), dropping(who.masses_kg, who.use))
    flows, things = person_flows(ways, seats), thing_flows(ways)
    rows, findings = seat_members(ways, seats, who)
    for more, found in (
        rail_checks(ways, seats, flows, one, who, things),
        leg_checks(structure, flows, one, who, things),
        shelf_checks(ways, who),
        mass_checks(ways, who),
    ):
        rows, findings = rows + more, findings + found
    lost = sorted({id for f in (*flows, *(flow for _, flow in things)) for id in f.lost})
    rows = rows + [lost_row(structure, id) for id in lost]
    demands = demands_of(flows, *one, weight(structure.mass_and_centre()[0]))
    demands += [d for load, flow in things for d in flow_demands(flow, load)]
    joints = check_joints(structure, worst_of_pairs(demands), woods, who)
    fastening = fastener_rows(assembly, woods, who.wet, joints.on_screws, fits)
    by_joint = {check.joint.id: check for check in fastening}
    leaning, found = lean_checks(structure, backs, _seat_height(assembly, seats, backs), who, by_joint)
    more, armed = arm_checks(ways, who, by_joint)
    leaning, found = leaning + more, found + armed
    screws = screw_rows(structure, fastening, joints.on_screws)
    checked_rows = (*rows, *joints.rows, *screws, *leaning)
    return Held(
        checked_rows,
        (*findings, *joints.findings, *found, *fastening_findings(fastening), *not_judged(checked_rows)),
        tuple(fastening),
    )


def not_judged(rows: Iterable[CheckRow]) -> list[Finding]:
    """Return one note for every reason why the strength of some parts could not be judged, naming them."""
    reasons: dict[str, dict[str, tuple[str, ...]]] = {}
    for row in rows:
        if row.ratio is None and row.check in JUDGED and row.note:
            reasons.setdefault(row.note, {})[row.subject] = row.parts
    return [
        notice(
            "strength-not-judged",
            f"Not judged for strength: {', '.join(subjects)}. {note[:1].upper()}{note[1:]}.",
            severity=Severity.WARNING if ACROSS in note else None,
            parts=tuple(dict.fromkeys(p for parts in subjects.values() for p in parts)),
        )
        for note, subjects in reasons.items()
    ]


def lost_row(structure: Structure, id: str) -> CheckRow:
    """Return the row of a part a load comes to and nothing carries further."""
    note = "a load comes to it and no joint or contact that reaches the floor carries it further"
    return CheckRow("load path", structure.kind(id), (id,), note=note)


def _seat_height(assembly: Assembly, seats: list[Surface], backs: list[Surface]) -> float:
    if seats:
        return seat_height(assembly, seats)
    return min((b.low[2] for b in backs), default=0.0)
