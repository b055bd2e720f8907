"""Pieces built for tests: the shipped modules at their defaults, and RoleMaterials by the millimetre."""

from scantling.board import RoleMaterial
from scantling.kit import Build
from scantling_furniture import MODULES as SHIPPED

MODULES = {m.id: m for m in SHIPPED}


def ply(thickness=18.0, role="frame", **more):
    """Birch plywood of one measured thickness."""
    return RoleMaterial(role, "birch-plywood", thickness, thickness, thickness, False, 680.0, **more)


def default_materials(module, **thickness):
    """The module's roles at their default material; thickness of a role by keyword."""
    return {
        name: RoleMaterial(
            name,
            role.material,
            thickness.get(name, role.thickness),
            role.least,
            role.most,
            True,
            600.0,
            role.stock_kind,
            True,
            role.width,
        )
        for name, role in module.roles.items()
    }


def build(id, parameters=None, **thickness):
    """Build a shipped module from what a caller would post as parameters, in mm."""
    module = MODULES[id]
    return module().build(Build(module.parameters.read(parameters or {}), default_materials(module, **thickness)))
