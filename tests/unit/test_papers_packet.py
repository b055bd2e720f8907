"""The packet as other readers see it: every part and every total on paper, nothing off a page, the project inside."""

import json
from io import BytesIO

import numpy as np
import pdfplumber
import pypdfium2 as pdfium
import pytest
from pdfminer.pdfdocument import PDFDocument
from pdfminer.pdfparser import PDFParser
from pdfminer.pdftypes import resolve1

from demo_plan import DESCRIBES, demo_plan, demo_request
from scantling.drawing.checks import off_page, overlapping
from scantling.drawing.shapes import Blocks
from scantling.measure import RequestError
from scantling.papers import render
from scantling.papers.dossier import piece_dossier, project_dossier
from scantling.papers.forms import PDF
from scantling.papers.labels import label_pages, label_shapes, label_texts
from scantling.papers.options import Options, read_options
from scantling.papers.packet import packet, packet_pages
from scantling.papers.place import place_drawing

PAPERS = [{}, {"paper": "a4", "tape": "1 mm"}, {"also": "1 mm"}]


@pytest.fixture(scope="module")
def packet_bytes():
    stamp = {"version": "3", "date": "2026-11-25", "author": "A. Maker", "licence": "CC BY 4.0", "stamp": "checked"}
    return render("project", demo_plan(), PDF, request=demo_request(), papers=stamp, describes=DESCRIBES)


@pytest.fixture(scope="module")
def pages(packet_bytes):
    return texts(packet_bytes)


def texts(data):
    """The text of every page as PDFium reads it."""
    with pdfium.PdfDocument(data) as pdf:
        return [page.get_textpage().get_text_bounded().replace("\r\n", "\n") for page in pdf]


def dossier(papers):
    return project_dossier(demo_plan(), read_options(papers, "1/16 in"), demo_request(), DESCRIBES)


@pytest.mark.parametrize("papers", PAPERS, ids=str)
def test_nothing_is_off_its_page_or_over_another(papers):
    for number, page in enumerate(packet_pages(dossier(papers)), 1):
        assert [t.text for t in off_page(page.drawing)] == [], number
        assert [(a.text, b.text) for a, b in overlapping(page.drawing)] == [], number


def test_letters_are_large_enough_to_read():
    """At arm's length what is cut by: 2.2 mm letters on layouts, 1.9 mm anywhere; common practice for drawings."""
    for page in packet_pages(dossier({})):
        least = 2.2 if any("Layout" in title for title, _ in page.bookmarks) else 1.9
        assert [t.text for t in page.drawing.texts() if t.size < least] == []


@pytest.mark.parametrize("papers", PAPERS, ids=str)
def test_no_heading_stands_alone_at_the_foot_of_a_page(papers):
    for number, page in enumerate(packet_pages(dossier(papers)), 1):
        lines = sorted((t for t in page.drawing.texts() if t.y < page.drawing.height - 20), key=lambda t: t.y)
        assert not lines or not (lines[-1].bold and lines[-1].size >= 4.4), (number, lines[-1].text)


def test_care_bears_the_dates_that_follow_from_the_plans():
    words = " ".join(" ".join(texts(packet(dossier({"date": "2026-11-25"})))[-25:]).split())
    assert "first 2026-12-25" in words and "first 2027-11-25" in words  # 30 and 365 days on


def test_bits_are_told_for_every_screw_and_wood(pages):
    words = " ".join(" ".join(pages).split())
    assert "upper part: clearance" in words
    for module in demo_plan()["modules"]:
        woods = {p["id"]: module["assembly"]["materials"][p["role"]]["material"] for p in module["assembly"]["parts"]}
        for f in module["fasteners"]:
            if f["kind"] == "wood screw":
                assert f"no. {f['gauge']} {woods[f['parts'][-1]]}" in words


def test_without_a_place_the_footprints_stand_in_a_row_and_add_up():
    plan = {**demo_plan(), "place": None}
    row = project_dossier(plan, read_options({"tape": "1 mm"}), demo_request(), DESCRIBES)
    drawing = place_drawing(row, 180.0)
    chain = next(c for c in drawing.chains if c.name == "along the wall")
    wanted = [m["overall"]["width_mm"] for m in plan["modules"] for _ in range(m["quantity"])]
    assert chain.links_mm == pytest.approx(wanted, abs=0.01)
    assert not list(off_page(drawing)) and not list(overlapping(drawing))


def test_in_its_place_the_sizes_along_each_wall_add_up_to_the_wall():
    plan = demo_plan()
    drawing = place_drawing(dossier({"tape": "1 mm"}), 180.0)
    sizes = {m["id"]: m["overall"] for m in plan["modules"]}
    chains = {c.name: c for c in drawing.chains}
    house, garden = chains["along house wall"], chains["along garden wall"]
    long, corner, short = (sizes[id] for id in ("long bench", "corner seat", "short bench"))
    assert house.links_mm[1:] == pytest.approx([long["width_mm"], corner["depth_mm"]], abs=0.3)
    assert garden.links_mm[:2] == pytest.approx([corner["width_mm"], short["width_mm"]], abs=0.3)
    assert house.whole_mm == pytest.approx(98.875 * 25.4, abs=0.1)  # the shortest of three readings
    assert not list(off_page(drawing)) and not list(overlapping(drawing))
    for name in ("house wall", "garden wall", "long bench", "corner seat", "short bench", "footstool"):
        assert name in [t.text for t in drawing.texts()]


def test_every_part_total_and_finding_is_on_paper(pages):
    words = " ".join(" ".join(pages).split())
    plan = demo_plan()
    labels = list(label_texts(dossier({})))
    assert len(labels) == sum(row["quantity"] for row in plan["cut_list"])
    for label in labels:
        assert label.id in words
    assert plan["costing"]["total"]["amount"] in words
    for line in plan["costing"]["lines"]:
        assert line["as_bought"] is None or line["as_bought"] in words
    for finding in plan["findings"]:
        assert finding["message"].split(":")[0] in words
    for caution in plan["cautions"]:
        assert caution.split(".")[0] in words
    for setting in plan["nesting"]["settings"]:
        assert setting["saw"] is None or setting["saw"] in words
    for module in plan["modules"]:
        assert words.count(f"Step {len(module['steps'])}") >= 1


def test_the_stamp_is_the_callers(pages):
    words = " ".join(pages[0].split())
    assert "CHECKED" in words and "Version: 3" in words and "A. Maker" in words and "CC BY 4.0" in words
    assert "2026-11-25" in words and "Must not be used for" in words


def test_the_measuring_sheet_asks_for_every_size_of_the_modules(pages):
    words = " ".join(" ".join(pages[1:4]).split())
    for module in demo_plan()["modules"]:
        for name, kind in DESCRIBES[module["module"]].items():
            if kind.get("x-quantity") in ("length", "cushion"):
                assert name.replace("_", " ") in words
    assert "kerf" in words and "caliper" in words


def test_pages_are_numbered_and_have_bookmarks(packet_bytes, pages):
    numbered = [p for p in pages if "page" in p.splitlines()[-1]]
    for number, text in enumerate(numbered, 1):
        assert text.splitlines()[-1].endswith(f"page {number} of {len(numbered)}")
    document = PDFDocument(PDFParser(BytesIO(packet_bytes)))
    titles = [title for _, title, *_ in document.get_outlines()]
    wanted = ("Measure before you buy", "What to buy", "Cut list", "Layouts", "Part drawings", "Cautions", "Labels")
    assert [t for t in wanted if t not in titles] == []


def test_the_project_file_rides_along(packet_bytes):
    document = PDFDocument(PDFParser(BytesIO(packet_bytes)))
    names = resolve1(resolve1(document.catalog["Names"])["EmbeddedFiles"])["Names"]
    files = {resolve1(names[i]): resolve1(names[i + 1]) for i in range(0, len(names), 2)}
    spec = files[b"project.json"]
    held = resolve1(resolve1(spec["EF"])["F"])
    assert json.loads(held.get_data()) == demo_request()


def test_same_plan_same_bytes_and_black_and_grey_only(packet_bytes):
    again = render(
        "project",
        json.loads(json.dumps(demo_plan())),
        PDF,
        request=demo_request(),
        papers={"version": "3", "date": "2026-11-25", "author": "A. Maker", "licence": "CC BY 4.0", "stamp": "checked"},
        describes=DESCRIBES,
    )
    assert again == packet_bytes
    with pdfplumber.open(BytesIO(packet_bytes)) as pdf:
        for page in pdf.pages[:4]:
            for thing in (*page.chars, *page.lines, *page.curves, *page.rects):
                for colour in (thing["stroking_color"], thing["non_stroking_color"]):
                    assert colour is None or len(set(colour if isinstance(colour, tuple | list) else (colour,))) == 1


def test_paper_sizes_are_letter_and_a4(packet_bytes):
    for papers, size in (({}, (612, 792)), ({"paper": "a4"}, (595.28, 841.89))):
        data = packet(dossier(papers)) if papers else packet_bytes
        with pdfplumber.open(BytesIO(data)) as pdf:
            assert (float(pdf.pages[0].width), float(pdf.pages[0].height)) == pytest.approx(size, abs=0.02)


def test_both_tapes_stand_side_by_side():
    words = " ".join(texts(packet(dossier({"tape": "1/16 in", "also": "1 mm"}))))
    assert '" (' in words and " mm)" in words


def test_a_packet_of_one_piece_has_no_layouts_and_no_costs():
    module = demo_plan()["modules"][3]
    pages = packet_pages(piece_dossier(module, Options()))
    marks = [title for page in pages for title, _ in page.bookmarks]
    assert "Layouts" not in marks and "What to buy" not in marks and "Cut list" in marks
    for page in pages:
        assert not list(off_page(page.drawing)) and not list(overlapping(page.drawing))


def test_labels_stand_on_the_callers_grid():
    grid = {"across": 3, "down": 8, "width": 63.5, "height": 33.9, "left": 7.2, "top": 4.0, "gap_x": 2.5, "gap_y": 0}
    found = dossier({"paper": "letter", "labels": grid})
    sheets = label_pages(found)
    assert len(sheets) == -(-len(list(label_texts(found))) // 24)
    for page in sheets:
        assert not list(off_page(page.drawing)) and not list(overlapping(page.drawing))


def test_the_codes_of_labels_say_their_part():
    """Independent reader: ZXing, on a picture made of the bars alone."""
    import zxingcpp

    for label in list(label_texts(dossier({})))[:6]:
        bars = next(s for s in label_shapes(label, 90.0, 50.0) if isinstance(s, Blocks)).boxes
        picture = np.full((50 * 20, 90 * 20), 255, np.uint8)
        for x0, y0, x1, y1 in bars:
            picture[round(y0 * 20) : round(y1 * 20), round(x0 * 20) : round(x1 * 20)] = 0
        assert [code.text for code in zxingcpp.read_barcodes(picture)] == [label.code]


@pytest.mark.parametrize(
    ("papers", "pointer"),
    [
        ({"paper": "a5"}, "/papers/paper"),
        ({"tape": "1/7 in"}, "/papers/tape"),
        ({"stamp": "certified"}, "/papers/stamp"),
        ({"stamp": "built"}, "/papers/as_built"),
        ({"labels": {"across": 9}}, "/papers/labels"),
        ({"labels": {"width": "wide"}}, "/papers/labels"),
        ({"colour": "red"}, "/papers/colour"),
    ],
)
def test_options_that_cannot_be_are_refused_with_a_pointer(papers, pointer):
    with pytest.raises(RequestError) as refused:
        read_options(papers)
    assert [e.pointer for e in refused.value.errors] == [pointer]


def test_built_needs_its_record():
    assert read_options({"stamp": "built", "as_built": "Rib 2 is 3 mm short, packed."}).stamp == "built"


def test_sloped_cuts_are_listed_with_their_mitre(pages):
    """The demonstration's posts lean 1 in 5: atan 1/5 = 11.31 degrees, on the line of their saw setting."""
    cuts = next(p for p in pages if "Cuts by saw and setting" in p)
    after = " ".join(" ".join(pages[pages.index(cuts) :]).split())
    assert "mitre 11.31°" in after
