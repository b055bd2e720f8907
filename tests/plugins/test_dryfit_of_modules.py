"""Every shipped module, at its defaults and at random: nothing spurious, every slip caught, other referees agree."""

import os
import sys
from dataclasses import replace
from itertools import combinations
from random import Random

import pytest

from pieces import MODULES
from scantling.board import Assembly, AssemblyError, CutError, PlacingError, Step, assembly_to_plain
from scantling.board.vector import along
from scantling.dryfit import DryfitSettings, dry_fits, verify
from scantling.dryfit.order import Assembling
from scantling.dryfit.overlap import near_pairs, overlaps
from scantling.dryfit.replay import Act, replay
from scantling.dryfit.scene import Scene
from scantling.findings import Severity
from scantling.kit import Build
from scantling.measure import RequestError
from scantling.testkit.points import points
from scantling.testkit.rules.building import default_materials

RANDOM = 500 if os.environ.get("SCANTLING_TEST_DEPTH") == "full" else 25
LOOSE = {"parts-overlap", "joint-apart", "joint-gapes", "clearance-lost", "near-miss", "part-adrift"}


def build_at(id, values, thickness=None):
    """Build a module at a point, its materials at the given share of their range; None where it refuses in words."""
    module = MODULES[id]
    materials = default_materials(module)
    if thickness is not None:
        dice = Random(thickness)
        for name, role in module.roles.items():
            t = round(dice.uniform(role.least, role.most), 2)
            materials[name] = replace(materials[name], thickness=t, least=t, most=t)
    try:
        return module().build(Build(module.parameters.read(values), materials))
    except (AssemblyError, CutError, PlacingError, RequestError):
        return None


def random_pieces(id, n, seed=7):
    for k, point in enumerate(p for p in points(MODULES[id], n, seed) if p.name.startswith(("random", "defaults"))):
        piece = build_at(id, point.values, None if k == 0 else k)
        if piece is not None:
            yield point.name, piece


@pytest.mark.parametrize("id", MODULES)
def test_defaults_have_neither_errors_nor_warnings_of_fit(id):
    fit = verify(build_at(id, {}))
    assert [f.message for f in fit.findings if f.severity is Severity.ERROR] == []
    assert {f.code for f in fit.findings if f.severity is Severity.WARNING} & LOOSE == set()
    assert fit.order.feasible


@pytest.mark.parametrize("id", MODULES)
def test_random_pieces_of_random_sheets_go_together(id):
    """At random parameters and thicknesses inside the stated ranges nothing spurious is found."""
    built, wrong = 0, []
    for name, piece in random_pieces(id, RANDOM):
        built += 1
        found = verify(piece).findings
        wrong += [(name, f.code, f.message) for f in found if f.severity is Severity.ERROR]
        wrong += [(name, f.code, f.message) for f in found if f.severity is Severity.WARNING and f.code in LOOSE]
    assert wrong[:5] == [] and len(wrong) == 0
    assert built > RANDOM / 3


@pytest.mark.parametrize("id", MODULES)
def test_without_snapping_the_verdict_does_not_hang_on_the_tolerance(id, monkeypatch):
    """Sizes that are not rounded leave arithmetic noise alone, so FIT from 1e-9 to 0.05 mm finds the same."""
    for name, module in list(sys.modules.items()):
        if name.startswith(("scantling.board", "scantling.kit", "scantling_furniture")) and hasattr(module, "snap"):
            monkeypatch.setattr(module, "snap", lambda mm: mm)
    for _, piece in random_pieces(id, max(4, RANDOM // 10), seed=3):
        verdicts = []
        for fit in (1e-9, 1e-6, 1e-3, 0.05):
            found = verify(piece, DryfitSettings(fit=fit, seek_order=False)).findings
            verdicts.append(sorted((f.code, f.parts) for f in found if f.code in LOOSE))
        assert verdicts[0] == verdicts[1] == verdicts[2] == verdicts[3]


@pytest.mark.parametrize("id", MODULES)
def test_a_shift_of_six_hundredths_is_caught_at_every_tight_joint(id):
    piece = build_at(id, {})
    scene = Scene.of(piece, DryfitSettings())
    tried = 0
    for joint, pair in scene.meetings:
        patches = scene.patches(pair)
        if joint.clearance > 0 or not patches or abs(patches[0].greatest_gap) > 1e-6:
            continue
        # two whole parts stand for the rest of the piece, which would get in the way of the one that is shifted
        a, b = (scene.parts[i] for i in pair)
        for by, code in ((0.06, "joint-apart"), (-0.06, "parts-overlap")):
            start = b.frame
            b._place(start.moved(along((0.0, 0.0, 0.0), patches[0].normal, by)))
            two = Assembly(
                "two", "", piece.materials, {a.id: a, b.id: b}, {joint.id: replace(joint, parts=(a.id, b.id))}
            )
            found = {f.code for f in verify(two).findings}
            b._place(start)
            if code == "joint-apart" and len(patches) > 1 and code not in found:
                continue  # held by a second pair of faces that slid along each other
            assert code in found, (joint.id, by)
            tried += 1
    assert tried > len(scene.meetings) / 2


@pytest.mark.parametrize("id", MODULES)
def test_orders_replay_forwards_with_nothing_blocked(id):
    for _, piece in random_pieces(id, max(4, RANDOM // 10), seed=11):
        assembling = Assembling(Scene.of(piece, DryfitSettings()))
        order = assembling.order()
        acts = [Act(s.to + s.brings, s.fasteners) for s in order.steps]
        assert list(replay(assembling, acts)) == []
        assert sorted(f for a in acts for f in a.fasteners) == sorted(f.id for f in assembling.fasteners)
        assert {p for a in acts for p in a.parts} == set(assembling.scene.index)


@pytest.mark.parametrize("id", MODULES)
def test_manifold3d_finds_no_shared_volume_either(id):
    import manifold3d

    def solid(part):
        hulls = [manifold3d.Manifold.hull_points([list(c) for c in cell.corners]) for cell in part.cells()]
        return manifold3d.Manifold.batch_boolean(hulls, manifold3d.OpType.Add) if len(hulls) > 1 else hulls[0]

    for _, piece in random_pieces(id, max(3, RANDOM // 50), seed=5):
        parts = list(piece.parts.values())
        scene = Scene.of(piece, DryfitSettings())
        ours = {(o.a, o.b): o.volume for o in overlaps(scene.soup, *near_pairs(scene.soup, 1.0), 0.05)}
        solids = [solid(p) for p in parts]
        for i, j in combinations(range(len(parts)), 2):
            shared = (solids[i] ^ solids[j]).volume()
            if (i, j) in ours:
                assert shared == pytest.approx(ours[i, j], rel=1e-6, abs=0.01), (parts[i].id, parts[j].id)
            else:  # sizes snapped to 0.01 mm may leave slivers thinner than FIT
                assert shared < 0.05 * 100, (parts[i].id, parts[j].id)


@pytest.mark.parametrize("id", MODULES)
def test_alike_parts_are_the_same_however_the_piece_stands(id):
    piece = build_at(id, {})
    before = [(g.parts, g.hand) for g in verify(piece).alike]
    for part in piece.parts.values():
        part.turn("z", 33, (10, 20, 30)).turn("x", 71, (0, 0, 0)).shift((100, -50, 7))
    assert [(g.parts, g.hand) for g in verify(piece).alike] == before


@pytest.mark.parametrize("id", MODULES)
def test_what_the_parts_endpoint_answers_is_what_the_dry_fit_reads(id):
    piece = build_at(id, {})
    answer, direct = dry_fits({"assembly": assembly_to_plain(piece)}), verify(piece).to_plain()
    assert {k: answer[k] for k in direct} == direct


def a_screw_far_too_long(piece):
    name = max(piece.fasteners, key=lambda f: piece.fasteners[f].length)
    _change(piece, name, length=piece.fasteners[name].length + 1500)
    return {"screw-point-out", "screw-hits-part"}, (name,)


def a_screw_in_the_air(piece):
    name = next(iter(piece.fasteners))
    _change(piece, name, head=(9e3, 9e3, 9e3))
    return {"screw-in-the-air"}, (name,)


def a_head_that_floats(piece):
    name = list(piece.fasteners)[-1]
    f = piece.fasteners[name]
    _change(piece, name, head=along(f.head, f.direction, -2.0), length=f.length + 2.0)
    return {"screw-head-off"}, (name,)


def a_screw_driven_twice(piece):
    name = list(piece.fasteners)[len(piece.fasteners) // 2]
    piece.fasteners["again"] = replace(piece.fasteners[name], id="again")
    return {"screws-meet"}, (name, "again")


def a_screw_too_short_to_reach(piece):
    name = next(iter(piece.fasteners))
    _change(piece, name, length=4.0, head_depth=0.0)
    return {"screw-misses-part"}, (name,)


def a_part_nobody_joined(piece):
    piece.part("stray", 50, 50, next(iter(piece.materials))).put(x0=9000, y0=9000, z0=9000)
    piece.promises = [p for p in piece.promises if p.kind != "size"]
    return {"part-adrift"}, ()


def a_block_inside_a_part(piece):
    host = max(piece.parts.values(), key=lambda p: p.volume_and_centre()[0])
    x, y, z = host.volume_and_centre()[1]
    stray = piece.part("stray", 40, 40, next(iter(piece.materials))).put(xc=x, yc=y, zc=z)
    piece.glue(stray, host)
    piece.promises = [p for p in piece.promises if p.kind != "size"]
    return {"parts-overlap"}, ()


def a_promise_of_one_millimetre_more(piece):
    low, high = piece.bounds()
    piece.size(width=high[0] - low[0] + 1)
    return {"size-wrong"}, ()


def screws_before_parts(piece):
    name = next(iter(piece.fasteners))
    piece.steps = [Step("Screws.", (), (name,)), Step("The rest.", tuple(piece.parts), tuple(piece.fasteners)[1:])]
    return {"step-too-early"}, (name,)


def a_step_forgotten(piece):
    last = list(piece.parts)[-1]
    rest = tuple(p for p in piece.parts if p != last)
    held = tuple(f.id for f in piece.fasteners.values() if last not in f.parts)
    piece.steps = [Step("Some.", rest, held)]
    return {"steps-leave-out"}, ()


MISTAKES = [
    a_screw_far_too_long,
    a_screw_in_the_air,
    a_head_that_floats,
    a_screw_driven_twice,
    a_screw_too_short_to_reach,
    a_part_nobody_joined,
    a_block_inside_a_part,
    a_promise_of_one_millimetre_more,
    screws_before_parts,
    a_step_forgotten,
]
# what may follow from a mistake: a block in the middle of things is in everybody's way
FOLLOWS = {
    a_block_inside_a_part: {
        "screw-hits-part", "screw-unreachable", "near-miss", "screw-near-edge", "part-trapped", "tips-easily",
        "tips-over", "no-footing",
    },
    a_part_nobody_joined: {"tips-easily", "tips-over"},
    a_screw_far_too_long: {"screws-meet", "screw-near-edge", "screw-breaks-out"},
    a_screw_driven_twice: {"screw-near-edge"},
    a_step_forgotten: {"step-blocked"},
}  # fmt: skip


def _change(piece, name, **members):
    piece.fasteners[name] = replace(piece.fasteners[name], **members)


@pytest.mark.parametrize("mistake", MISTAKES, ids=lambda m: m.__name__)
@pytest.mark.parametrize("id", MODULES)
def test_a_mistake_made_in_any_module_is_found_and_nothing_else(id, mistake):
    before = {f.code for f in verify(build_at(id, {})).findings}
    piece = build_at(id, {})
    codes, fasteners = mistake(piece)
    found = verify(piece).findings
    told = [f for f in found if f.code in codes]
    assert told, [f.message for f in found]
    assert set(fasteners) <= {i for f in told for i in f.fasteners}
    loud = {f.code for f in found if f.severity is not Severity.NOTE} - before - codes
    assert loud <= FOLLOWS.get(mistake, set()), [f.message for f in found if f.code in loud]
