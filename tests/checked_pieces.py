"""Small pieces put together by hand for the checks of the plan, and one call that checks them."""

from types import SimpleNamespace

from pieces import MODULES, build
from scantling.board import Assembly, RoleMaterial
from scantling.mechanics.wood import wood_of
from scantling.plan.building import Built
from scantling.plan.checks import check
from scantling.plan.circumstances import Circumstances
from scantling.tables import material

HOME = Circumstances()


def sheet(role="ply", thickness=18.0, id="birch-plywood"):
    return RoleMaterial(role, id, thickness, thickness, thickness, False, material(id).density_kg_m3)


def board(role, thickness, width, id="douglas-fir", density=None):
    kg = material(id).density_kg_m3 if density is None else density
    return RoleMaterial(role, id, thickness, thickness, thickness, False, kg, "board", True, width)


def piece(*materials):
    return Assembly("test-piece", "A piece for a test", {m.role: m for m in materials})


def checked(assembly, who=HOME, family="seating"):
    """Check an assembly as the plan does."""
    woods = {m.material: wood_of(material(m.material)) for m in assembly.materials.values()}
    return check(Built("piece", SimpleNamespace(family=family), 1, None, assembly, woods), who)


def shipped(id, who=HOME, parameters=None):
    """Check a shipped module at its defaults, its thicknesses as if measured."""
    return checked(build(id, parameters), who, MODULES[id].family)


def codes(result):
    return {f.code: f.severity.value for f in result.findings}


def row(result, check, subject=None, load=""):
    """Return the one row of a check."""
    found = [
        r for r in result.rows if r.check == check and (subject is None or r.subject == subject) and load in r.load
    ]
    assert found, f"no row {check} {subject} {load}: {sorted({(r.check, r.subject) for r in result.rows})}"
    return found[0]


def plank(length=900.0, thickness=38.0, width=286.0, between=700.0, *, glued=False, role="holds"):
    """A plank of 2 in douglas-fir on two plywood ends `between` mm apart, clear; somebody sits on it."""
    a = piece(board("plank", thickness, width), sheet())
    seat = a.part("plank", length, width, "plank").lay("x", "y").put(xc=0, y0=0, z0=400)
    ends = []
    for id, at in (("left", {"x1": -between / 2}), ("right", {"x0": between / 2})):
        end = a.part(id, 400, width, "ply", name="end").lay("z", "y").put(y0=0, z0=0, **at)
        a.screws(seat, end, n=2, inset=50, role=role, glued=glued)
        ends.append(end)
    a.carries(seat, kind="sitter")
    return a
