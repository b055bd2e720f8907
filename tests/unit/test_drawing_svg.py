"""SVG as other readers see it: valid XML, nothing off its page, no text on text, the same bytes again."""

import itertools
from xml.etree import ElementTree

import pytest

from pieces import MODULES, build
from scantling.drawing import Drawing, Text, to_svg
from scantling.drawing.checks import off_page, overlapping
from scantling.drawing.isometric import Label, bodies_of, picture
from scantling.drawing.lettering import shortened, text_width, wrapped
from scantling.drawing.spacing import spread

SVG = "{http://www.w3.org/2000/svg}"


@pytest.mark.parametrize("module", sorted(MODULES))
def test_a_labelled_picture_is_valid_and_tidy(module):
    bodies = bodies_of(build(module))
    drawing = picture(bodies, 180, 150, title="all parts", labels=[Label(b.id, (b.id,)) for b in bodies])
    root = ElementTree.fromstring(to_svg(drawing))  # noqa: S314 - our own output
    assert root.tag == f"{SVG}svg" and root.get("viewBox") == "0 0 180 150"
    assert not list(off_page(drawing)) and not list(overlapping(drawing))
    assert to_svg(drawing) == to_svg(
        picture(bodies, 180, 150, title="all parts", labels=[Label(b.id, (b.id,)) for b in bodies])
    )


def test_text_from_outside_stays_text():
    drawing = Drawing(50, 10, "a < b & c", (Text(1, 5, '<script>&"\x00\ud800é'),))
    root = ElementTree.fromstring(to_svg(drawing))  # noqa: S314 - our own output
    assert [t.text for t in root.iter(f"{SVG}text")] == ['<script>&"é']
    assert root.find(f"{SVG}title").text == "a < b & c"


def test_character_widths_are_those_of_the_standard_font():
    """Independent reader: reportlab's copy of the Helvetica metrics. Ours may be wider, never 1 % narrower."""
    from reportlab.pdfbase.pdfmetrics import stringWidth

    for text in ('13 3/4" × 26 9/16"', "Layout 12 of 14: marine plywood", "MITRE 45° WAX", "fjord, illicit: (20)"):
        for bold, font in ((False, "Helvetica"), (True, "Helvetica-Bold")):
            ours, theirs = text_width(text, 10.0, bold), stringWidth(text, font, 10.0)
            assert theirs * 0.99 <= ours <= theirs * 1.12, (text, font)


def test_checks_see_text_off_the_page_and_on_other_text():
    good, off, over = Text(5, 5, "near"), Text(48, 5, "far off"), Text(6, 5.5, "over")
    drawing = Drawing(50, 10, "", (good, off, over))
    assert [t.text for t in off_page(drawing)] == ["far off"]
    assert [(a.text, b.text) for a, b in overlapping(drawing)] == [("near", "over")]


def test_upright_text_takes_its_box_up_the_page():
    x0, y0, x1, y1 = Text(10, 20, "12345", 4.0, "start", upright=True).box()
    assert (x0, x1, y1) == (8, 12, 20) and y0 == pytest.approx(20 - text_width("12345", 4.0))


def test_labels_are_spread_without_overlap_and_move_little():
    placed = spread([10, 10, 11, 40], [4, 4, 4, 4], 0, 50)
    assert all(b - a >= 4 - 1e-9 for a, b in itertools.pairwise(placed))
    assert placed[3] == 40 and sum(placed[:3]) / 3 == pytest.approx(31 / 3)
    assert spread([0, 1], [4, 4], 0, 50) == [2, 6]


def test_long_text_is_wrapped_and_shortened_to_its_room():
    words = "one two three " + "x" * 80
    assert all(text_width(line, 3.0) <= 30 for line in wrapped(words, 30, 3.0))
    assert "".join(wrapped(words, 30, 3.0)).replace(" ", "") == words.replace(" ", "")
    assert text_width(shortened(words, 30, 3.0), 3.0) <= 30 and shortened("short", 30, 3.0) == "short"
