"""Dowels placed between two parts, by what tests found and what a wooden pin bears."""

from collections.abc import Mapping

from scantling.findings import Finding
from scantling.mechanics.dowel_check import WEAKEST
from scantling.mechanics.dowels import dowel_bond, dowel_pull_out, screening_pull, screening_shear
from scantling.mechanics.notice import notice
from scantling.mechanics.wood import Wood
from scantling.tables import Status

from .check_row import CheckRow, row_of_load
from .joints import Demand, joint_name
from .structure import Structure

DOWELS = "tests of glued dowels (BioResources 2018, 2020) and yield of a birch pin, screened"


def dowel_row(structure: Structure, demand: Demand, woods: Mapping[str, Wood]) -> tuple[CheckRow, list[Finding]] | None:
    """Check the dowels placed between two parts by what tests found and what a wooden pin bears: it only warns."""
    joints = {j.id for j in structure.joined(*demand.pair)}
    dowels = [f for f in structure.assembly.fasteners.values() if f.joint in joints and f.kind == "dowel"]
    if not dowels:
        return None
    one, name, load = dowels[0], joint_name(structure, demand.pair), row_of_load(demand.load)
    pulled = demand.pulling_n > demand.sideways_n
    try:
        holds = _one_dowel(one.diameter, one.length / 2, [_gravity(structure, id, woods) for id in demand.pair], pulled)
    except (ValueError, LookupError) as error:
        return CheckRow("dowels", name, demand.pair, demand.force_n, unit="N", note=str(error), **load), []
    what = f"{len(dowels)} of {one.diameter:g} mm"
    row = CheckRow(
        "dowels", name, demand.pair, demand.force_n, holds * len(dowels), "N", code=DOWELS,
        governing=f"{what}, {'pulled' if pulled else 'pushed sideways'}", ratio=demand.force_n / (holds * len(dowels)),
        bound=demand.bound, status=Status.MEMORY.value, note="no standard designs glued dowels", **load,
    )  # fmt: skip
    if demand.force_n <= holds * len(dowels):
        return row, []
    text = (
        f"{demand.pair[0]} to {demand.pair[1]}: {what} are reckoned to carry {holds * len(dowels):.0f} N "
        f"({DOWELS}); {demand.force_n:.0f} N come on them under {demand.load.label}."
    )
    found = notice(
        "dowels-over", text, status=Status.MEMORY, parts=demand.pair, value=demand.force_n,
        limit=holds * len(dowels), unit="N", source=DOWELS,
    )  # fmt: skip
    return row, [found]


def _one_dowel(diameter: float, depth: float, gravities: list[float], pulled: bool) -> float:
    if pulled:
        return screening_pull(dowel_pull_out(diameter, depth, dowel_bond(WEAKEST).value))
    return screening_shear(diameter, (depth, depth), (gravities[0], gravities[1]))


def _gravity(structure: Structure, id: str, woods: Mapping[str, Wood]) -> float:
    wood = woods[structure.part(id).material.material]
    if wood.bearing is None:
        raise ValueError(f"no specific gravity of {wood.title.lower()} is published: give your own")
    return wood.bearing.value
