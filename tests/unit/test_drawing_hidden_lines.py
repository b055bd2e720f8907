"""Hidden lines against brute force: every point of every edge is asked along its line of sight, cell by cell."""

import random

import numpy as np
import pytest

from pieces import MODULES, build, ply
from scantling.board import Part
from scantling.drawing.edges import real_edges
from scantling.drawing.hidden import Body, visible_lines
from scantling.drawing.isometric import bodies_of
from scantling.drawing.view import BELOW, FRONT_RIGHT, PLAN, as_array

DEEP, SKIN = 0.05, 1e-4  # mm: what runs this deep in wood is hidden; what does not even enter it this far is seen


def enters(cells, point, towards, depth):
    """Whether the ray from a point to the eye runs inside any cell whose faces are all set back by `depth` mm."""
    for cell in cells:
        low, high = 0.0, float("inf")
        for face in cell.faces:
            closing = sum(n * t for n, t in zip(face.plane.normal, towards, strict=True))
            height = face.plane.height(point) + depth
            if abs(closing) < 1e-9:
                high = -1.0 if height > 0 else high
            elif closing > 0:
                high = min(high, -height / closing)
            else:
                low = max(low, -height / closing)
        if high > low + 1e-9:
            return True
    return False


def sight(cells, point, towards):
    """How a point is seen: "clear", "blocked", or "grazing" where a twentieth of a millimetre decides it."""
    if not enters(cells, point, towards, SKIN):
        return "clear"
    return "blocked" if enters(cells, point, towards, DEEP) else "grazing"


def distance(point, lines):
    """Distance in mm on the paper from a point to the nearest drawn line."""
    a, b = lines[:, :2], lines[:, 2:]
    along = b - a
    t = np.clip(((point - a) * along).sum(axis=1) / np.maximum((along**2).sum(axis=1), 1e-12), 0, 1)
    return float(np.hypot(*(a + along * t[:, None] - point).T).min())


def sampled(bodies, view, count, seed=7):
    """Points of edges: how each is seen, how far from a drawn line it lies, its edge, and where it is."""
    draw = random.Random(seed)
    cells = [c for b in bodies for c in b.cells]
    lines = np.array([s.line for s in visible_lines(bodies, view)])
    for _ in range(count):
        edge, t = draw.choice(draw.choice(bodies).edges), draw.uniform(0.02, 0.98)
        point = between(*edge, t)
        yield sight(cells, point, view.towards), distance(view.flat(as_array([point]))[0], lines), edge, point


def between(a, b, t):
    return tuple(p + (q - p) * t for p, q in zip(a, b, strict=True))


def another_edge_shows(bodies, view, edge, point):
    """Whether another edge runs through the same place of the picture and is not hidden there."""
    cells = [c for b in bodies for c in b.cells]
    here = view.flat(as_array([point]))[0]
    for other in (e for b in bodies for e in b.edges if e is not edge):
        a, b = view.flat(as_array(other))
        t = float(np.clip(((here - a) @ (b - a)) / max((b - a) @ (b - a), 1e-12), 0, 1))
        near = np.hypot(*(a + (b - a) * t - here)) < 0.2
        if near and any(
            sight(cells, between(*other, min(1.0, max(0.0, t + d))), view.towards) != "blocked"
            for d in (0, 1e-3, -1e-3)
        ):
            return True
    return False


@pytest.mark.parametrize("module", sorted(MODULES))
@pytest.mark.parametrize("view", [FRONT_RIGHT, BELOW], ids=lambda v: v.name)
def test_no_visible_point_is_missing_from_the_drawing(module, view):
    bodies = bodies_of(build(module))
    answers = list(sampled(bodies, view, 1500))
    clear = [d for word, d, *_ in answers if word == "clear"]
    assert len(clear) > 20
    assert max(clear) < 0.15  # mm of the piece


@pytest.mark.parametrize("module", sorted(MODULES))
def test_hidden_points_are_not_drawn_but_where_another_edge_runs(module):
    # not isometric: there a square piece lays many hidden edges behind visible ones
    bodies, view = bodies_of(build(module)), PLAN.of("odd", (0.83, -1.37, 0.64))
    blocked = [(d, edge, point) for word, d, edge, point in sampled(bodies, view, 1500) if word == "blocked"]
    assert len(blocked) > 200
    drawn = [(edge, point) for d, edge, point in blocked if d < 0.1]
    assert len(drawn) < len(blocked) / 20
    assert all(another_edge_shows(bodies, view, edge, point) for edge, point in drawn)


def rebated():
    part = Part("side", "side", ply(), 400, 200, 18)
    return part.rabbet("far", width=9, depth=9).notch((0, 60), (150, 200)).dado(150, width=18, depth=6, into="face")


def test_real_edges_of_a_notched_part_are_those_of_its_union():
    """The independent reader: manifold3d unites the cells and gives the edges with a dihedral angle."""
    import manifold3d

    part = rebated()
    solids = [
        manifold3d.Manifold.hull_points(np.array([c for f in cell.faces for c in f.corners], dtype=float))
        for cell in part.cells_local()
    ]
    union = manifold3d.Manifold.batch_boolean(solids, manifold3d.OpType.Add)
    mesh = union.to_mesh()
    points, faces = np.asarray(mesh.vert_properties)[:, :3], np.asarray(mesh.tri_verts)
    normals = np.cross(points[faces[:, 1]] - points[faces[:, 0]], points[faces[:, 2]] - points[faces[:, 0]])
    normals /= np.linalg.norm(normals, axis=1)[:, None]
    sides = {}
    for n, face in zip(normals, faces, strict=True):
        for a, b in ((0, 1), (1, 2), (2, 0)):
            p, q = (tuple(np.round(points[face[k]], 3)) for k in (a, b))
            sides.setdefault((min(p, q), max(p, q)), []).append(n)
    length = sum(
        float(np.linalg.norm(np.subtract(*edge))) for edge, ns in sides.items() if abs(float(ns[0] @ ns[1])) < 0.999
    )
    ours = sum(float(np.linalg.norm(np.subtract(a, b))) for a, b in real_edges(part.cells_local()))
    assert ours == pytest.approx(length, abs=0.05)


def test_seams_between_the_cells_of_one_part_are_not_drawn():
    part = rebated()
    assert len(part.cells_local()) > 3
    lines = visible_lines([Body.of("side", part.cells_local())], PLAN)
    # from above: outline with its notch, and the two shoulders of the dado; the rabbet in the back is not seen
    total = sum(np.hypot(x1 - x0, y1 - y0) for x0, y0, x1, y1 in (s.line for s in lines))
    assert total == pytest.approx(2 * (400 + 200) + 2 * 200, abs=0.5)


def test_a_board_before_another_hides_it_and_what_touches_does_not():
    front = Part("front", "front", ply(), 100, 100, 18).lay("x", "z").put(x0=0, y0=0, z0=0)
    behind = Part("behind", "behind", ply(), 50, 50, 18).lay("x", "z").put(xc=50, y0=200, zc=50)
    top = Part("top", "top", ply(), 100, 18, 18).lay("x", "y").put(x0=0, y0=0, z0=100)
    view = PLAN.of("front", (0.0, -1.0, 0.0))
    seen = {s.body for s in visible_lines([Body.of(p.id, p.cells()) for p in (front, behind, top)], view)}
    assert seen == {0, 2}
