"""Every joint a load comes on: glue where it is sound, else screws, bolts, shoulders; what nothing carries is said."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from scantling.findings import Finding
from scantling.mechanics.wood import Wood

from .bored_bolts import bolt_row
from .check_row import CheckRow
from .circumstances import Circumstances
from .flow import Pair
from .housings import housing_rows
from .joints import Demand, glue_result, glue_row, joint_name
from .placed_dowels import dowel_row
from .structure import Structure
from .unjudged_joints import nothing_counts, unjudged

HELD_BY = ("wood screw", "nail", "bolt")


@dataclass(frozen=True, slots=True)
class JointLoads:
    """What the joints came to: rows of glue lines, findings, and by joint id what its fasteners must hold."""

    rows: tuple[CheckRow, ...]
    findings: tuple[Finding, ...]
    on_screws: Mapping[str, Demand]


def check_joints(
    structure: Structure, demands: Sequence[Demand], woods: Mapping[str, Wood], who: Circumstances
) -> JointLoads:
    """Check the joints that carry: the glue line where it counts, else what the fasteners are asked is handed on.

    `demands` are the worst on each joint, sideways and pulling apart from pressing; `woods` are by material id.
    """
    rows, findings = housing_rows(structure, [d for d in demands if d.pressing_n > 0], who)
    on_screws: dict[str, Demand] = {}
    bare: dict[tuple[str, str], list[Demand]] = {}
    for demand in demands:
        if demand.force_n <= 0:
            continue
        holding = _holding(structure, demand.pair)
        glue = glue_result(structure, demand, who)
        if glue is not None and glue.credited:
            rows.append(glue_row(structure, glue, demand))
            if glue.ratio <= 1:
                continue
        if holding:
            count = sum(holding.values())
            on_screws |= {joint: _part_of(demand, n / count) for joint, n in holding.items()}
            continue
        made = bolt_row(structure, demand, woods, who) or dowel_row(structure, demand, woods)
        if made is not None:
            rows.append(made[0])
            findings += made[1]
        elif glue is None:
            rows.append(unjudged(structure, demand))
        elif glue.credited:
            findings += glue.findings()
        else:
            rows.append(unjudged(structure, demand))
            bare.setdefault((joint_name(structure, demand.pair), glue.line.uncounted), []).append(demand)
    findings += [nothing_counts(alike, why) for (_, why), alike in bare.items()]
    return JointLoads(tuple(rows), tuple(findings), on_screws)


def _part_of(demand: Demand, share: float) -> Demand:
    return replace(demand, sideways_n=demand.sideways_n * share, pulling_n=demand.pulling_n * share)


def _holding(structure: Structure, pair: Pair) -> dict[str, int]:
    """Return how many fasteners hold in each joint between two parts."""
    joints = {j.id: 0 for j in structure.joined(*pair)}
    for f in structure.assembly.fasteners.values():
        if f.joint in joints and f.kind in HELD_BY and f.role == "holds":
            joints[f.joint] += 1
    return {id: n for id, n in joints.items() if n}
