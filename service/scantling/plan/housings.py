"""What rests on the shoulder of a housing: the pressure of a shelf's edge on the wood under it."""

from collections.abc import Iterable

from scantling.board import JointKind
from scantling.findings import Finding
from scantling.mechanics.housed import Housing, check_housing

from .check_row import CheckRow, row_of_load
from .circumstances import Circumstances
from .joints import Demand, joint_name
from .part_woods import wood_of_part
from .structure import LOOKS_DOWN, Structure


def housing_rows(
    structure: Structure, demands: Iterable[Demand], who: Circumstances
) -> tuple[list[CheckRow], list[Finding]]:
    """Check what rests on the shoulder of a housing: the pressure of a shelf's edge on the wood under it."""
    rows: list[CheckRow] = []
    findings: list[Finding] = []
    for demand in demands:
        if not any(j.kind is JointKind.HOUSED for j in structure.joined(*demand.pair)):
            continue
        area = sum(p.area for p in structure.patches(*demand.pair) if p.normal[2] < LOOKS_DOWN)
        name = joint_name(structure, demand.pair)
        try:
            woods = [wood_of_part(structure.part(id), "length", "flat") for id in demand.pair]
            strengths = [w.service(demand.load.duration, who.service_class) for w in woods]
            pressed = min(zip(strengths, woods, strict=True), key=lambda one: one[0].bearing)
            housing = Housing(
                f"{demand.pair[0]} in {demand.pair[1]}", area, pressed[0].bearing,
                f"{pressed[0].code}; {pressed[1].source}", pressed[0].status_of("bearing"), demand.pair,
            )  # fmt: skip
            result = check_housing(housing, demand.load, demand.pressing_n)
        except (ValueError, LookupError) as error:
            rows.append(CheckRow("housing", name, demand.pair, note=str(error), **row_of_load(demand.load)))
            continue
        findings += result.findings()
        rows.append(
            CheckRow(
                "housing",
                name,
                demand.pair,
                result.demand_n,
                result.capacity_n,
                "N",
                code=housing.code,
                governing=f"pressure on {area:.0f} mm2 of shoulder; glue not added",
                ratio=result.ratio,
                bound=demand.bound,
                status=housing.status.value,
                **row_of_load(demand.load),
            )
        )
    return rows, findings
