"""The packet of every shipped module: all parts and steps on paper, nothing off a page or over another."""

import pytest

from pieces import MODULES
from scantling.drawing.checks import off_page, overlapping
from scantling.papers.dossier import project_dossier
from scantling.papers.options import read_options
from scantling.papers.packet import packet_pages
from scantling.plan.projects import projects

DESCRIBES = {id: m.parameters.schema()["properties"] for id, m in MODULES.items()}


def pages(module):
    request = {
        "name": module,
        "units": "mm",
        "modules": [{"id": "piece", "module": module}],
        "clamps": [{"id": "bar", "reach": 900.0, "throat": 80.0, "count": 4}],
        "glue": {"kind": "PVA", "open_min": 8.0, "clamp_min": 60.0},
        "effort": "quick",
    }
    plan = projects(request, modules=MODULES)
    return plan, packet_pages(project_dossier(plan, read_options({}, "1/16 in"), request, DESCRIBES))


@pytest.mark.parametrize("module", sorted(MODULES))
def test_the_packet_can_be_read(module):
    plan, packet = pages(module)
    for number, page in enumerate(packet, 1):
        assert [t.text for t in off_page(page.drawing)] == [], number
        assert [(a.text, b.text) for a, b in overlapping(page.drawing)] == [], number
        assert [t.text for t in page.drawing.texts() if t.size < 1.9] == [], number
    words = " ".join(t.text for page in packet for t in page.drawing.texts())
    piece = plan["modules"][0]
    for part in piece["assembly"]["parts"]:
        assert part["id"] in words, part["id"]
    titles = [title for page in packet for title, _ in page.bookmarks]
    assert any(title.startswith("Assembly of") for title in titles)
    steps = {t.text for page in packet for t in page.drawing.texts() if t.bold}
    assert {f"Step {n}" for n in range(1, len(piece["steps"]) + 1)} <= steps
    for row in piece["work"]:
        assert not row["proof"] or "Proof: " in words
