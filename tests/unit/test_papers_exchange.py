"""Files for other programs, read back by readers that are not ours: DXF, GLB, STEP, XLSX, ZIP."""

import hashlib
import json
import subprocess
import sys
from base64 import b64decode
from io import BytesIO, StringIO
from itertools import pairwise
from xml.etree import ElementTree
from zipfile import ZipFile

import numpy as np
import pytest

from demo_plan import demo_plan, demo_request
from pieces import MODULES, build, ply
from scantling.board import Assembly, Part, cut_list
from scantling.board.cell import box
from scantling.drawing.dxf import Copies, layouts_dxf, parts_dxf
from scantling.drawing.glb import to_glb
from scantling.drawing.shell import skin
from scantling.drawing.step import to_step
from scantling.measure import RequestError
from scantling.papers import FORMATS, offered, papers, render, views
from scantling.papers.dossier import piece_dossier
from scantling.papers.forms import KINDS
from scantling.papers.options import Options
from scantling.papers.registry import VIEWS
from scantling.papers.workbook import guarded, workbook

DXF, GLB, STEP, XLSX, ZIP, SVG = (FORMATS[n] for n in ("dxf", "glb", "step", "xlsx", "zip", "svg"))


def notched():
    """A piece with notches, housings, bevels and a tilted part: several cells, no right angles."""
    piece = Assembly("test", "notched ü 'piece'", {"frame": ply()})
    side = piece.part("side", 600, 300, "frame")
    side.rabbet("far", width=9, depth=9).notch((0, 80), (220, 300)).dado(200, width=18, depth=6, into="face")
    leg = piece.part("leg", 500, 70, "frame")
    leg.saw("near", bevel=45).saw("end", mitre=30, bevel=10).hole(50, 40, 8)
    leg.lay("z", "x").put(x0=400, y0=-200).turn("y", 12.0, (0.0, 0.0, 0.0))
    return piece


PIECES = [*sorted(MODULES), "notched"]


def piece_of(name):
    return notched() if name == "notched" else build(name)


# ---------------------------------------------------------------------- GLB, read by trimesh


@pytest.mark.parametrize("name", PIECES)
def test_glb_volumes_and_places_agree_with_the_parts(name):
    import trimesh

    piece = piece_of(name)
    data = to_glb(piece)
    assert data == to_glb(piece_of(name))
    scene = trimesh.load(BytesIO(data), file_type="glb")
    assert len(scene.graph.nodes_geometry) == len(piece.parts)
    for part in piece.parts.values():
        matrix, geometry = scene.graph[part.id]
        mesh = scene.geometry[geometry].copy()
        volume, centre = part.volume_and_centre()
        assert mesh.volume * 1e9 == pytest.approx(volume, rel=1e-6)
        mesh.apply_transform(matrix)
        x, y, z = centre
        assert mesh.center_mass * 1000 == pytest.approx((x, z, -y), abs=0.01)
        assert np.linalg.det(matrix[:3, :3]) == pytest.approx(1.0)


# ---------------------------------------------------------------------- STEP, read by Open CASCADE


@pytest.mark.parametrize("name", PIECES)
def test_step_solids_are_valid_and_as_large_as_the_parts(name, tmp_path):
    pytest.importorskip("OCP", reason="Open CASCADE is not installed (extra: referee); STEP files were not read back")
    from OCP.BRepCheck import BRepCheck_Analyzer
    from OCP.BRepGProp import BRepGProp
    from OCP.GProp import GProp_GProps
    from OCP.IFSelect import IFSelect_RetDone
    from OCP.STEPControl import STEPControl_Reader
    from OCP.TopAbs import TopAbs_SOLID
    from OCP.TopExp import TopExp_Explorer

    piece = piece_of(name)
    path = tmp_path / "piece.step"
    path.write_bytes(to_step(piece))
    reader = STEPControl_Reader()
    assert reader.ReadFile(str(path)) == IFSelect_RetDone
    assert reader.TransferRoots() == len(piece.parts)
    explorer = TopExp_Explorer(reader.OneShape(), TopAbs_SOLID)
    count, total = 0, 0.0
    while explorer.More():
        assert BRepCheck_Analyzer(explorer.Current()).IsValid()
        properties = GProp_GProps()
        BRepGProp.VolumeProperties_s(explorer.Current(), properties)
        assert properties.Mass() > 0
        total += properties.Mass()
        count += 1
        explorer.Next()
    assert count == len(piece.parts)  # a part is one solid, housings and notches and all
    assert total == pytest.approx(sum(p.volume_and_centre()[0] for p in piece.parts.values()), rel=1e-6)


@pytest.mark.parametrize("name", PIECES)
def test_the_skin_of_every_part_is_closed_and_holds_its_volume(name):
    """By the divergence theorem the skin's own faces tell the volume; Euler: corners - sides + faces is even."""
    for part in piece_of(name).parts.values():
        found = skin(part.cells())
        assert found is not None
        corners = np.array(found.corners)
        volume = 0.0
        for normal, _, ring in found.faces:
            points = corners[list(ring)]
            for a, b in pairwise(points[1:]):
                cone = np.dot(points[0], np.cross(a, b)) / 6
                volume += cone
                assert np.dot(np.cross(a - points[0], b - points[0]), normal) >= -1e-6
        assert volume == pytest.approx(part.volume_and_centre()[0], rel=1e-9)
        sides = {frozenset(s) for _, _, ring in found.faces for s in pairwise((*ring, ring[0]))}
        assert (len(found.corners) - len(sides) + len(found.faces)) % 2 == 0


def test_cells_that_meet_in_one_edge_only_have_no_single_skin():
    names = ("side",) * 6
    touching = [box((0.0, 0.0, 0.0), (10.0, 10.0, 10.0), names), box((10.0, 10.0, 0.0), (20.0, 20.0, 10.0), names)]
    assert skin(touching) is None


def test_step_names_survive_quotes_and_other_alphabets():
    text = to_step(notched()).decode("ascii")
    assert "notched \\X2\\00FC\\X0\\ ''piece''" in text and text.count("PRODUCT('side'") == 1
    assert to_step(notched()).decode("ascii") == text


# ---------------------------------------------------------------------- DXF, read by ezdxf


def read_dxf(data):
    import ezdxf

    return ezdxf.read(StringIO(data.decode("utf-8")))


@pytest.mark.parametrize("name", PIECES)
def test_dxf_is_clean_and_reads_back_at_its_size(name):
    from ezdxf import bbox

    piece = piece_of(name)
    rows = [Copies(piece.parts[r.parts[0]], r.parts[0], len(r.parts)) for r in cut_list(piece)]
    data = parts_dxf(rows)
    assert data == parts_dxf(rows)
    document = read_dxf(data)
    assert document.audit().errors == []
    assert document.header["$INSUNITS"] == 4
    blocks = [b for b in document.blocks if b.name.startswith("PART_")]
    assert len(blocks) == len(rows)
    for block, row in zip(blocks, rows, strict=True):
        assert block.block_record.dxf.units == 4
        outline = block.query('LWPOLYLINE[layer=="OUTLINE"]').first
        box = bbox.extents([outline])
        assert (box.size.x, box.size.y) == pytest.approx(face_size(row.part), abs=1e-6)
    square = bbox.extents(document.modelspace().query('LWPOLYLINE[layer=="TEST"]'))
    assert (square.size.x, square.size.y) == (100, 100)


def face_size(part):
    """Bounds of the show face, from the cells: what an outline is measured against."""
    corners = [
        c for cell in part.cells_local() for f in cell.faces for c in f.corners if abs(c[2] - part.thickness) < 1e-6
    ]
    return tuple(max(c[k] for c in corners) - min(c[k] for c in corners) for k in (0, 1))


def test_dxf_layers_are_operations():
    piece = notched()
    document = read_dxf(parts_dxf([Copies(p, p.id, 1) for p in piece.parts.values()]))
    layers = {e.dxf.layer for block in document.blocks for e in block}
    assert {"OUTLINE", "RABBET", "NOTCH", "DADO", "BEVEL", "HOLE", "TEXT"} <= layers
    hole = next(e for b in document.blocks for e in b if e.dxf.layer == "HOLE")
    assert hole.dxf.radius == 4 and (hole.dxf.center.x, hole.dxf.center.y) == (50, 40)


def test_dxf_layouts_hold_every_part_and_cut():
    layouts = demo_plan()["nesting"]["layouts"]
    document = read_dxf(layouts_dxf(layouts))
    assert document.audit().errors == []
    blocks = [b for b in document.blocks if b.name.startswith("LAYOUT_")]
    for block, layout in zip(blocks, layouts, strict=True):
        assert len(block.query('LWPOLYLINE[layer=="PART"]')) == len(layout["placements"])
        assert len(block.query('LINE[layer=="CUT"]')) == len(layout["cuts"])


# ---------------------------------------------------------------------- XLSX, read by openpyxl


def hostile_answer():
    """The plain answer of a piece whose words look like formulas."""
    answer = json.loads(json.dumps(demo_plan()["modules"][3]))
    for part in answer["parts"]:
        part["name"] = "=1+1"
        part["operations"] = ["@SUM(A1)", "-2"]
    return answer


def test_no_text_becomes_a_formula():
    import openpyxl

    data = workbook(piece_dossier(hostile_answer(), Options()))
    sheet = openpyxl.load_workbook(BytesIO(data))["cut list"]
    cells = [c for row in sheet.iter_rows() for c in row if c.value is not None]
    formulas = [c for c in cells if c.data_type == "f"]
    assert [c.value for c in formulas] == [f"=SUM(E2:E{sheet.max_row - 1})"]
    assert sum(c.value == "'=1+1" for c in cells) == sheet.max_row - 2
    assert all(guarded(t).startswith("'") for t in ("=1", "+1", "-1", "@a", "\t=1", "＝1")) and guarded("a=1") == "a=1"


def test_workbook_totals_are_live_and_right():
    import openpyxl

    data = render("project", demo_plan(), XLSX)
    assert data == render("project", demo_plan(), XLSX)
    live = openpyxl.load_workbook(BytesIO(data))
    shown = openpyxl.load_workbook(BytesIO(data), data_only=True)
    assert live.sheetnames == ["cut list", "take-off", "costs"]
    costs, values = live["costs"], shown["costs"]
    last = costs.max_row
    assert costs.cell(last, 6).value == f"=SUM(F2:F{last - 1})"
    total = float(demo_plan()["costing"]["total"]["amount"])
    assert values.cell(last, 6).value == pytest.approx(total)
    computed = 0.0
    for r in range(2, last):
        formula = costs.cell(r, 6).value
        if isinstance(formula, str):
            assert formula == f"=ROUND(D{r}*E{r},2)"
            computed += round(values.cell(r, 4).value * values.cell(r, 5).value, 2)
        else:
            computed += formula or 0.0
    assert computed == pytest.approx(total, abs=0.005)
    rows = demo_plan()["cut_list"]
    assert [shown["cut list"].cell(r + 2, 2).value for r in range(len(rows))] == [row["id"] for row in rows]
    assert [shown["cut list"].cell(r + 2, 8).value for r in range(len(rows))] == [row["length_mm"] for row in rows]


# ---------------------------------------------------------------------- ZIP and the registry


def test_everything_in_one_zip_with_a_manifest():
    data = render("project", demo_plan(), ZIP, request=demo_request())
    with ZipFile(BytesIO(data)) as archive:
        assert archive.testzip() is None
        manifest = json.loads(archive.read("manifest.json"))
        names = archive.namelist()
        assert [f["file"] for f in manifest["files"]] == names[1:]
        for entry in manifest["files"]:
            content = archive.read(entry["file"])
            assert hashlib.sha256(content).hexdigest() == entry["sha256"] and len(content) == entry["bytes"]
            if entry["file"].endswith(".svg"):
                ElementTree.fromstring(content)  # noqa: S314 - our own output
        assert all(i.date_time == (1980, 1, 1, 0, 0, 0) for i in archive.infolist())
        assert json.loads(archive.read("plan.json")) == demo_plan()
    suffixes = {name.rsplit(".", 1)[1] for name in names}
    assert suffixes == {"json", "pdf", "xlsx", "dxf", "svg", "glb", "step"}


def answer_of(kind):
    plan = demo_plan()
    return {"parts": plan["modules"][3], "nesting": plan["nesting"], "project": plan}[kind]


STARTS = {
    "svg": b"<svg",
    "pdf": b"%PDF-",
    "dxf": b"  0\n",
    "xlsx": b"PK",
    "zip": b"PK",
    "glb": b"glTF",
    "step": b"ISO-10303-21",
}


@pytest.mark.parametrize("kind", ["parts", "nesting", "project"])
def test_every_offered_form_and_view_is_what_it_says(kind):
    for name, media in FORMATS.items():
        if media not in offered(kind):
            with pytest.raises(RequestError):
                render(kind, answer_of(kind), media)
            continue
        for view in (None, *views(kind, media)[:3]):
            data = render(kind, answer_of(kind), media, view)
            assert data.startswith(STARTS[name]), (kind, name, view)


def test_one_item_of_a_view_can_be_had_and_a_wrong_one_is_named():
    one = render("project", demo_plan(), SVG, "layouts:2").decode()
    assert "Layout 2 of" in one and "Layout 1 of" not in one
    for view, at in (("layouts:99", "/view"), ("nonsense", "/view")):
        with pytest.raises(RequestError) as refused:
            render("project", demo_plan(), SVG, view)
        assert refused.value.errors[0].pointer == at and "accepted" in refused.value.errors[0].detail
    with pytest.raises(RequestError) as refused:
        render("nesting", answer_of("nesting"), STEP)
    assert refused.value.errors[0].pointer == "/format"


def test_one_board_drawn_from_a_plain_part():
    part = Part("shelf", "shelf", ply(), 800, 250, 18)
    document = read_dxf(parts_dxf([Copies(part, "shelf\nnewline", 2)]))
    assert document.audit().errors == []


def test_asking_for_the_forms_draws_nothing():
    """The door asks what there is on every request; that must not load what draws."""
    script = (
        "import sys; from scantling.papers import offered, views; "
        "assert offered('parts') and views('project', 'application/pdf'); "
        "heavy = ('numpy', 'reportlab', 'ezdxf', 'xlsxwriter', 'segno', 'scantling.plan'); "
        "print([m for m in heavy if m in sys.modules])"
    )
    done = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, timeout=60)
    assert (done.returncode, done.stdout.strip()) == (0, "[]"), done.stderr


@pytest.mark.parametrize("kind", KINDS)
def test_the_names_of_views_are_those_that_draw(kind):
    assert tuple(VIEWS[kind]) == views(kind, SVG)


def test_the_operation_plans_and_renders_in_one_trip():
    body = {"module": "storage-footstool", "parameters": {}, "tape": "1 mm"}
    asked = {"kind": "parts", "media_type": SVG, "view": "plan", "request": body}
    answer = papers(asked, modules=MODULES)
    assert answer["filename"] == "storage-footstool.svg" and answer["media_type"] == SVG
    assert b64decode(answer["base64"]).startswith(b"<svg") and papers(asked, modules=MODULES) == answer
    with pytest.raises(RequestError) as refused:
        papers({**asked, "kind": "poem"}, modules=MODULES)
    assert refused.value.errors[0].pointer == "/kind"
