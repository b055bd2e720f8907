"""The cautions of a whole job, each once and short, for what is really sawn, coated and built."""

from collections.abc import Sequence

from scantling.board import Assembly, JointKind
from scantling.findings import Finding, entry
from scantling.mechanics.cautions import Work, check_work
from scantling.mechanics.exposure import asked_for

from .building import Built
from .circumstances import Circumstances
from .surfaces import seats_of

OILS = ("oil",)
_MEASURED = ("push-stick", "small-piece")  # said with their figures by the checks of cutting and of hands
DEFER = "Local codes and licensed practice decide."


def job_cautions(pieces: Sequence[Built], who: Circumstances) -> list[str]:
    """Return the cautions of a job as short sentences: what it is, and what to do about it."""
    saws = tuple(saw.kind.value for saw in who.saws.saws) if who.saws is not None else ()
    kinds = tuple(kind.replace("-", " ") for kind in who.tools or ())
    assemblies = [piece.assembly for piece in pieces]
    parts = [p for assembly in assemblies for p in assembly.parts.values()]
    work = Work(
        tools=(*saws, *kinds) or ("hand saw",),
        materials=tuple(sorted({p.material.material for p in parts})),
        treated=any("treated" in p.material.material for p in parts),
        narrowest_rip_mm=min((p.width for p in parts), default=None),
        oil_finish=who.finish in OILS,
        lids=any(_has_lid(a) for a in assemblies),
        tall_mm=max(
            (a.bounds()[1][2] - a.bounds()[0][2] for p in pieces if _stores(p) for a in (p.assembly,)), default=0.0
        ),
        carries_people=any(seats_of(a) for a in assemblies),
    )
    said = [_sentence(f) for f in check_work(work) if f.code not in _MEASURED]
    return [*said, *_outdoors(who), DEFER] if said else []


def _has_lid(assembly: Assembly) -> bool:
    return any(j.kind is JointKind.HINGED for j in assembly.joints.values())


def _stores(piece: Built) -> bool:
    return piece.module.family == "storage"


def _sentence(finding: Finding) -> str:
    known = entry(finding.code)
    meaning = known.meaning.replace(f" {DEFER}", "")
    return f"{known.title}: {meaning[:1].lower()}{meaning[1:]} {known.remedy}"


def _outdoors(who: Circumstances) -> list[str]:
    if not who.outdoor:
        return []
    bond, glue, metal = asked_for(who.exposure)
    return [f"Outdoors: {bond}, {glue}, screws of {metal}; seal every end and plywood edge before assembly."]
