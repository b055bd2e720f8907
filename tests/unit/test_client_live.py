"""The client against the whole service over a socket, and the client's README."""

import re
from concurrent.futures import ProcessPoolExecutor, ThreadPoolExecutor
from io import BytesIO
from multiprocessing import get_context
from pathlib import Path
from zipfile import ZipFile

import pint
import pytest

from live_service import live_service
from scantling.api.schemas.examples import COSTINGS, FASTENERS, NESTINGS, PROJECTS
from scantling_client import Client, Failed, Problem, run_batch

README = Path(__file__).resolve().parents[2] / "clients" / "python" / "README.md"


@pytest.fixture(scope="module")
def address():
    with live_service() as one:
        yield one


@pytest.fixture(scope="module")
def shop(address):
    with Client(address) as one:
        yield one


def first(examples):
    return next(iter(examples.values()))["value"]


def test_a_project_is_planned(shop):
    plan = shop.plan({**first(PROJECTS), "effort": "quick"})
    assert 1 <= len(plan["summary"]) <= 7
    assert plan["cut_list"]
    table = shop.plan_csv({**first(PROJECTS), "effort": "quick"}).splitlines()
    assert table[0].startswith("module,id,name,quantity")
    assert len(table) == 1 + len(plan["cut_list"])


def test_what_goes_to_the_shop_comes_as_files(shop):
    project = {**first(PROJECTS), "effort": "quick"}
    assert shop.plan_file(project).startswith(b"%PDF-")
    with ZipFile(BytesIO(shop.plan_file(project, "zip"))) as everything:
        assert {"packet.pdf", "plan.json", "workbook.xlsx", "parts.dxf"} <= set(everything.namelist())
    assert b"<svg" in shop.parts_file("leaning-seat", form="svg", view="exploded")
    assert shop.nest_file({**first(NESTINGS), "effort": "quick"}, "dxf").lstrip().startswith(b"0")


def test_pint_lengths_arrive_exactly(shop):
    inch = pint.UnitRegistry().inch
    request = {
        "saw": {"kerf": 0.125 * inch},
        "parts": [{"id": "side", "length": 30 * inch, "width": 11.875 * inch, "quantity": 2}],
        "stock": [{"id": "sheet", "length": 96 * inch, "width": 48 * inch, "price": "62.00"}],
        "effort": "quick",
    }
    (layout,) = shop.nest(request)["layouts"]
    for placed in layout["placements"]:
        assert placed["length_mm"] == 762.0
        assert placed["width_mm"] == pytest.approx(301.625, abs=0.0051)  # 11 7/8 in, nested in whole 0.01 mm


def test_every_computation_and_its_table(shop):
    assert shop.parts("leaning-seat")["parts"]
    assert shop.parts_csv("leaning-seat", table="fasteners").startswith("id,kind,gauge")
    proofs = shop.prove("storage-footstool")
    assert proofs["module"] == "storage-footstool"
    assert shop.prove_csv("storage-footstool").count("\n") >= 1
    assert shop.nest(first(NESTINGS))["layouts"]
    assert shop.nest_csv(first(NESTINGS)).startswith("layout,")
    assert shop.check_fasteners(first(FASTENERS))["joints"]
    assert shop.check_fasteners_csv(first(FASTENERS)).count("\n") >= 2
    assert shop.cost(first(COSTINGS))["lines"]
    assert shop.cost_csv(first(COSTINGS)).count("\n") >= 5


def test_what_parts_answers_is_what_a_dry_fit_reads(shop):
    assembly = shop.parts("storage-footstool")["assembly"]
    answer = shop.dry_fit({"assembly": assembly})
    assert [f["message"] for f in answer["findings"] if f["severity"] == "error"] == []
    assert shop.dry_fit_csv({"assembly": assembly}).startswith("severity,")


def test_the_catalogues(shop):
    assert shop.service()["name"] == "scantling"
    assert shop.ready()
    ids = [module["id"] for module in shop.modules()]
    assert "leaning-seat" in ids
    assert shop.module(ids[0])["parameters"]["type"] == "object"
    assert shop.findings()["findings"]
    assert {kind["slug"] for kind in shop.problems()["problems"]} >= {"busy", "invalid-request"}
    assert shop.problem("busy")["status"] == 503
    assert shop.plugins()["plugins"][0]["status"] == "loaded"
    names = [table["id"] for table in shop.tables()["tables"]]
    assert shop.table(names[0])["rows"]


def test_a_figure_as_number_and_as_text(shop):
    inch = pint.UnitRegistry().inch
    # a board 1 in × 12 in × 12 in is one board foot: the definition of the measure (NIST Handbook 130)
    figure = shop.figure("board-feet", thickness=1 * inch, width=12 * inch, length=12 * inch)
    assert figure["value"] == pytest.approx(1)
    assert shop.figure_text("board-feet", thickness="1 in", width="12 in", length="1 ft") == "1"
    assert "board-feet" in [one["name"] for one in shop.figures()["figures"]]


def test_a_refusal_points_at_the_member(shop):
    with pytest.raises(Problem) as caught:
        shop.plan({"modules": [{"id": "a", "module": "leaning-seat", "parameters": {"bays": 99}}]})
    assert caught.value.kind == "invalid-request"
    assert [entry.pointer for entry in caught.value.errors] == ["#/modules/0/parameters/bays"]
    assert caught.value.request_id
    with pytest.raises(Problem) as caught:
        shop.module("wheelbarrow")
    assert (caught.value.status, caught.value.kind) == (404, "not-found")


def test_no_proxy_stands_between_a_machine_and_itself(address, monkeypatch):
    for name in ("HTTP_PROXY", "http_proxy", "ALL_PROXY", "all_proxy"):
        monkeypatch.setenv(name, "http://127.0.0.1:9")
    with Client(address) as shop:
        assert shop.service()["name"] == "scantling"


JOBS = [{"parameters": {"bays": bays}} for bays in (1, 2, 99)]


def widths(answers):
    return [None if isinstance(a, Failed) else a["overall"]["width_mm"] for a in answers]


def test_a_batch_gives_the_same_on_threads_and_on_processes(address, shop):
    with ThreadPoolExecutor(2) as pool:
        threads = widths(run_batch(Seat(shop), JOBS, pool))
    with ProcessPoolExecutor(1, mp_context=get_context("spawn")) as pool:
        processes = widths(run_batch(Seat(shop), JOBS, pool))
    assert threads == processes
    assert threads[0] < threads[1]
    assert threads[2] is None


class Seat:
    """A call that can be sent to another process."""

    def __init__(self, shop):
        self.shop = shop

    def __call__(self, request):
        return self.shop.parts("leaning-seat", request)


def python_blocks(path):
    """Return the indented blocks of a page that are Python."""
    blocks = re.findall(r"(?:^ {4}.*\n|^\n(?= {4}))+", path.read_text(encoding="utf-8"), flags=re.MULTILINE)
    plain = ["\n".join(line[4:] for line in block.splitlines()) for block in blocks]
    return [block for block in plain if "import" in block]


@pytest.mark.parametrize("code", python_blocks(README), ids=lambda code: code.strip().splitlines()[-1][:40])
def test_the_readme_runs(code, address, capsys):
    assert "http://127.0.0.1:8000" in code
    exec(compile(code.replace("http://127.0.0.1:8000", address), "README.md", "exec"), {"__name__": "readme"})  # noqa: S102 - the README's own block
    assert capsys.readouterr().out.strip()
