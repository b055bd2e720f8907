"""Which sizes wait for the caliper: the piece is built again at the least and greatest thickness of an assumed role."""

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from scantling.board import Assembly, AssemblyError, ChainError, CutError, PlacingError, RoleMaterial
from scantling.findings import Finding, Severity
from scantling.kit import Build, Module, Parameters

MOVES_MM = 0.05


def assumed_thickness(
    module: type[Module[Any]], parameters: Parameters, materials: Mapping[str, RoleMaterial], assembly: Assembly
) -> list[Finding]:
    """Return one finding a role whose thickness is assumed, naming every part whose size moves with it and how far."""
    findings = []
    for role, material in materials.items():
        if not material.assumed or not any(p.material.role == role for p in assembly.parts.values()):
            continue
        moved = _moved(module, parameters, materials, material, assembly)
        findings.append(_finding(material, moved))
    return findings


def _moved(
    module: type[Module[Any]],
    parameters: Parameters,
    materials: Mapping[str, RoleMaterial],
    material: RoleMaterial,
    assembly: Assembly,
) -> dict[str, float]:
    """Return part id → how far its length or width moves between the least and the greatest thickness, in mm."""
    sizes: dict[str, list[tuple[float, float]]] = {}
    for thickness in (material.least, material.most):
        changed = {**materials, material.role: replace(material, thickness=thickness)}
        try:
            other = module().build(Build(parameters, changed))
        except (AssemblyError, CutError, PlacingError, ChainError):
            continue
        for part in other.parts.values():
            sizes.setdefault(part.id, []).append((part.length, part.width))
    moved = {}
    for id, part in assembly.parts.items():
        seen = [(part.length, part.width), *sizes.get(id, ())]
        spread = max(max(s[i] for s in seen) - min(s[i] for s in seen) for i in (0, 1))
        if spread > MOVES_MM:
            moved[id] = spread
    return moved


def _finding(material: RoleMaterial, moved: dict[str, float]) -> Finding:
    band = f"The {material.role} is assumed {material.least:.1f} to {material.most:.1f} mm thick."
    if moved:
        most = max(moved.values())
        names = ", ".join(list(moved)[:4]) + (f" and {len(moved) - 4} more" if len(moved) > 4 else "")
        text = (
            f"{band} Do not cut joints yet; these sizes wait for the caliper and move by up to {most:.1f} mm: {names}."
        )
    else:
        text = f"{band} Do not cut joints yet; no other length or width depends on it."
    return Finding(
        "thickness-assumed",
        Severity.WARNING,
        text,
        parts=tuple(moved),
        value=max(moved.values(), default=0.0),
        unit="mm",
        source="PS 1 and makers' tolerances: panels are sold thinner than their name",
        remedy="Put a caliper to what you bought, in three places, and give the readings.",
    )
