"""Every view of every shipped module, and of hostile words, as a reader would check it: nothing off, nothing over."""

import json
from functools import cache
from xml.etree import ElementTree

import pytest

from demo_plan import MODULES, demo_plan
from scantling.drawing import to_svg
from scantling.drawing.checks import off_page, overlapping
from scantling.measure import Tape, parse_length
from scantling.nesting import nestings
from scantling.papers import layout_drawings
from scantling.papers.dossier import piece_dossier, project_dossier
from scantling.papers.options import read_options
from scantling.papers.packet import packet, packet_pages
from scantling.papers.pictures import PARTS_VIEWS, PROJECT_VIEWS
from scantling.plan.parts import parts


@cache
def answer(module):
    return parts({"module": module, "parameters": {}}, modules=MODULES)


@pytest.mark.parametrize("papers", [{"tape": "1/16 in", "also": "1 mm"}, {"tape": "1 mm", "paper": "a4"}], ids=str)
@pytest.mark.parametrize("view", sorted(PARTS_VIEWS))
@pytest.mark.parametrize("module", sorted(MODULES))
def test_every_view_of_every_module_is_tidy(module, view, papers):
    found = PARTS_VIEWS[view](piece_dossier(answer(module), read_options(papers)))
    assert found
    for name, drawing in found:
        assert [t.text for t in off_page(drawing)] == [], name
        assert [(a.text, b.text) for a, b in overlapping(drawing)] == [], name
        ElementTree.fromstring(to_svg(drawing))  # noqa: S314 - our own output
        for chain in drawing.chains:
            links, whole = ([t.split(" (")[0] for t in texts] for texts in (chain.links, (chain.whole,)))
            assert sum(parse_length(t) for t in links) == pytest.approx(parse_length(whole[0]), abs=1e-6)


@pytest.mark.parametrize("module", sorted(MODULES))
def test_the_packet_of_every_module_is_tidy(module):
    for number, page in enumerate(packet_pages(piece_dossier(answer(module), read_options({}))), 1):
        assert [t.text for t in off_page(page.drawing)] == [], number
        assert [(a.text, b.text) for a, b in overlapping(page.drawing)] == [], number


def hostile_plan():
    """The demonstration with every name as long and as odd as ids may be."""
    plan = json.loads(json.dumps(demo_plan()))
    odd = "<&\"'>\u4e2d\u6587 \u0416 \U0001f6cb " + "W" * 40
    plan["name"] = odd
    plan["cautions"] = [odd * 4]
    plan["findings"] = [{**plan["findings"][0], "message": odd * 6, "remedy": odd}]
    for layout in plan["nesting"]["layouts"]:
        layout["stock"] = odd
    for line in plan["costing"]["lines"]:
        line["id"] = line["what"] = odd
    return plan


def test_long_and_foreign_words_stay_in_their_place():
    dossier = project_dossier(hostile_plan(), read_options({"author": "\u4e2d" * 200}))
    for number, page in enumerate(packet_pages(dossier), 1):
        assert [t.text for t in off_page(page.drawing)] == [], number
        assert [(a.text, b.text) for a, b in overlapping(page.drawing)] == [], number
        ElementTree.fromstring(to_svg(page.drawing))  # noqa: S314 - our own output
    data = packet(dossier)
    assert data.startswith(b"%PDF-") and data == packet(dossier)
    for name in ("layouts", "place"):
        for _, drawing in PROJECT_VIEWS[name](dossier):
            assert not list(off_page(drawing)) and not list(overlapping(drawing))


def test_long_ids_stay_in_their_parts():
    request = {
        "parts": [
            {"id": "M" * 64, "length": 700.0, "width": 300.0, "quantity": 3},
            {"id": "i" * 63 + "1", "length": 300.0, "width": 40.0, "quantity": 9},
            {"id": "tiny", "length": 45.0, "width": 30.0, "quantity": 12},
        ],
        "stock": [{"id": "S" * 64, "length": 2440.0, "width": 1220.0}],
        "saw": {"kerf": 3.2, "trim": 10.0},
        "effort": "quick",
    }
    for drawing in layout_drawings(nestings(request), Tape.parse("1 mm")):
        assert not list(off_page(drawing))
        assert [(a.text, b.text) for a, b in overlapping(drawing)] == []
