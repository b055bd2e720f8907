"""Joints that no figure of the tables covers, and joints that nothing may be counted on to hold."""

from collections.abc import Sequence

from scantling.board import Joint, JointKind
from scantling.findings import Finding
from scantling.mechanics.notice import notice

from .check_row import CheckRow, row_of_load
from .joints import Demand, joint_name
from .structure import Structure


def unjudged(structure: Structure, demand: Demand) -> CheckRow:
    """Return the row of a joint no figure of the tables covers, and what to declare so that one does."""
    joints = structure.joined(*demand.pair)
    kinds = ", ".join(dict.fromkeys(j.kind.value for j in joints)) or "contact only"
    note = f"no published capacity is in the tables for this joint ({kinds}): {demand.force_n:.0f} N come on it"
    note += "".join(dict.fromkeys(_wanted(j) for j in joints))
    return CheckRow(
        "joint", joint_name(structure, demand.pair), demand.pair, demand.force_n, unit="N", bound=demand.bound,
        note=note, **row_of_load(demand.load),
    )  # fmt: skip


def _wanted(joint: Joint) -> str:
    wanted = {
        JointKind.DOWELS: "; place its dowels (size and number) and they are reckoned",
        JointKind.NAILS: "; place its nails (size and number) and they are reckoned",
        JointKind.BOLTED: "; bore its holes for bolts and they are reckoned",
    }
    return wanted.get(joint.kind, "")


def nothing_counts(alike: Sequence[Demand], why: str) -> Finding:
    """Return the finding of alike joints a load comes on where nothing may be counted on to hold it."""
    demand = max(alike, key=lambda d: d.force_n)
    a, b = demand.pair
    more = len(alike) - 1
    so = "" if not more else f" (so it is in {more} other joint{'s' if more > 1 else ''})"
    text = (
        f"{a} to {b}: {why}, and no screw, shoulder or dowel carries it: {demand.force_n:.0f} N come on it under "
        f"{demand.load.label}{so}."
    )
    parts = tuple(dict.fromkeys(id for d in alike for id in d.pair))
    return notice("joint-holds-nothing", text, parts=parts, value=demand.force_n, unit="N",
                  source="Wood Handbook, FPL-GTR-190, chapter 10")  # fmt: skip
