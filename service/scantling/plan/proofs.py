"""A module proved over a range: every thickness a shop may sell, the saw's setting error, a year of moisture."""

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from scantling.board import Assembly, RoleMaterial
from scantling.dryfit.proofs import Ranges, prove
from scantling.kit import Build
from scantling.measure import RequestError, RequestProblem, pointer

from .building import Modules, build_module
from .circumstances import fit_of
from .materials import Supplies

DEFAULT_SAW_ERROR_DEG = 0.5  # of a setting by the scale of a home saw; practice
DEFAULT_SQUARE_ERROR_DEG = 0.1  # of a cut set square by a try square, a quarter of a millimetre in 150; practice
DEFAULT_LENGTH_ERROR_MM = 0.3  # of a length cut against a stop that was set by the tape; practice
DEFAULT_MOISTURE = 4.0  # per cent either way of when it was cut; practice for furniture kept outdoors under cover


def proofs(request: Mapping[str, Any], *, modules: Modules) -> dict[str, Any]:
    """Answer POST /v1/modules/{module}/proofs.

    `ranges` may give `thickness` (role → {least, most} in mm), `saw_error_deg`, `square_error_deg`, `length_error_mm`,
    `wetter` and `drier` (per cent of moisture content); what is left out takes the band of the role's material and the
    defaults. Raises RequestError with pointers, also for a role that the module does not have.
    """
    built = build_module(modules, request, Supplies.of(request, "described"), "")
    given = request.get("ranges", {})
    ranges = Ranges(
        _thickness(built.assembly.materials, given.get("thickness", {})),
        given.get("saw_error_deg", DEFAULT_SAW_ERROR_DEG),
        given.get("wetter", DEFAULT_MOISTURE),
        given.get("drier", DEFAULT_MOISTURE),
        given.get("square_error_deg", DEFAULT_SQUARE_ERROR_DEG),
        given.get("length_error_mm", DEFAULT_LENGTH_ERROR_MM),
    )
    settings = replace(fit_of(request), tape=None)  # what a tape makes of it is told with the parts

    def build(thickness: Mapping[str, float]) -> Assembly:
        materials = {
            role: replace(m, thickness=thickness.get(role, m.thickness)) for role, m in built.assembly.materials.items()
        }
        return built.module().build(Build(built.parameters, materials))

    return {
        "module": built.module.id,
        "ranges": {
            "thickness_mm": {role: [least, most] for role, (least, most) in ranges.thickness.items()},
            "saw_error_deg": ranges.saw_error_deg,
            "wetter": ranges.wetter,
            "drier": ranges.drier,
            "square_error_deg": ranges.square_error_deg,
            "length_error_mm": ranges.length_error_mm,
        },
        **prove(build, ranges, settings).to_plain(),
    }


def _thickness(
    materials: Mapping[str, RoleMaterial], given: Mapping[str, Mapping[str, float]]
) -> dict[str, tuple[float, float]]:
    """Return the band of every role. Raises RequestError for an unknown role or a band upside down."""
    problems = []
    for role, band in given.items():
        at = pointer("ranges", "thickness", role)
        if role not in materials:
            detail = f"this module has no role {role!r}; it has {', '.join(materials)}"
            problems.append(RequestProblem(at, detail, "unknown-role"))
        elif band["least"] > band["most"]:
            problems.append(RequestProblem(at, "least is more than most", "least-above-most"))
    if problems:
        raise RequestError(problems)
    return {
        role: (given[role]["least"], given[role]["most"]) if role in given else (m.least, m.most)
        for role, m in materials.items()
    }
