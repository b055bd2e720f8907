"""One module worked out: its cut list, joints, fasteners, order of work, findings, and the piece in space."""

from collections.abc import Mapping
from typing import Any

from scantling.board import Assembly, assembly_to_plain, cut_list
from scantling.dryfit.chains import place_chains, taped_chains
from scantling.dryfit.verify import DEFAULT
from scantling.findings import grouped
from scantling.measure import Tape

from .building import Built, Modules, build_module
from .checks import Checked, check
from .circumstances import DEFAULT_TAPE, Circumstances, fit_of
from .extras import Extras, looked_at
from .materials import Supplies
from .summary import piece_summary


def parts(request: Mapping[str, Any], *, modules: Modules, extras: Extras | None = None) -> dict[str, Any]:
    """Answer POST /v1/modules/{module}/parts. Raises RequestError with pointers for what cannot be computed."""
    built = build_module(modules, request, Supplies.of(request, "described"), "")
    tape = Tape.parse(request.get("tape", DEFAULT_TAPE))
    return piece_to_plain(built, looked_at(built, check(built, Circumstances(fit=fit_of(request))), extras), tape)


def piece_to_plain(built: Built, checked: Checked, tape: Tape) -> dict[str, Any]:
    """Return the answer about one piece as JSON members."""
    assembly = built.assembly
    findings = grouped([*assembly.findings, *checked.findings])
    mass, centre = assembly.mass_and_centre()
    plain = assembly_to_plain(assembly)
    return {
        "module": built.module.id,
        "summary": piece_summary(built, findings, tape, checked.rows),
        "overall": overall(assembly, tape),
        "parts": [row.to_plain(tape) for row in cut_list(assembly)],
        "chains": chains_to_plain(assembly, tape),
        "joints": plain["joints"],
        "fasteners": plain["fasteners"],
        "steps": checked.steps or plain["steps"],
        "work": list(checked.work),
        "glue_ups": list(checked.glue_ups),
        "motions": list(checked.motions),
        "findings": [f.to_plain() for f in findings],
        "checks": [row.to_plain() for row in checked.rows],
        "cautions": [*assembly.cautions, built.module.when_not],
        "mass_kg": round(mass, 3),
        "centre_mm": [round(c, 1) for c in centre],
        "parameters": built.parameters.to_plain(),
        "assembly": plain,
    }


def overall(assembly: Assembly, tape: Tape) -> dict[str, Any]:
    """Return the overall sizes in mm and as read on the tape."""
    low, high = assembly.bounds()
    sizes = [round(b - a, 2) for a, b in zip(low, high, strict=True)]
    names = ("width", "depth", "height")
    return {
        **{f"{name}_mm": size for name, size in zip(names, sizes, strict=True)},
        **{f"{name}_text": tape.show(size) for name, size in zip(names, sizes, strict=True)},
    }


def chains_to_plain(assembly: Assembly, tape: Tape) -> list[dict[str, Any]]:
    """Return the dimension chains where they lie and as read on the tape: the links add up because one closes it."""
    taped = taped_chains(assembly, tape, DEFAULT.fit)
    placed = {p.index: p.to_plain() for p in place_chains(assembly, DEFAULT.fit)}
    nowhere = {"axis": None, "from_mm": None, "to_mm": None, "ruled_by": None}
    return [
        {
            "name": chain.name,
            "total_mm": round(chain.total, 2),
            "total_text": tape.show(chain.total),
            "closing": chain.closing,
            **{name: placed.get(i, nowhere)[name] for name in nowhere},
            "takes_up_mm": round(read.takes_up, 3),
            "lines": read.lines(tape),
        }
        for i, (chain, read) in enumerate(zip(assembly.chains, taped, strict=True))
    ]
