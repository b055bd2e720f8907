"""The example plugins, each the real user of one hook: loaded from their folder and asked for over HTTP."""

import ast
import csv
import io
from fractions import Fraction
from pathlib import Path

import pytest

from contract.contract_helpers import assert_problem, client_for
from scantling.plugins import in_folder, load_host
from scantling.testkit import plugin_faults
from scantling.work import InlineSeam, PluginChoice

ROOT = Path(__file__).parents[2]
EXAMPLES = ROOT / "plugins" / "examples"
HOOK_OF = {
    "harbour-yard": {"stock", "price_lists"},
    "house-rules": {"checks"},
    "cut-card": {"exporters"},
    "soft-finishes": {"finishes"},
    "small-bookcase": {"furniture_modules"},
}
PIECE = "/v1/modules/small-bookcase/parts"
PROJECT = {
    "name": "hall",
    "modules": [{"id": "books", "module": "small-bookcase", "quantity": 2}],
    "effort": "quick",
}


@pytest.fixture(scope="module")
def shop():
    seam = InlineSeam(plugins=PluginChoice(folder=str(EXAMPLES)))
    with client_for(seam) as one:
        yield one


def planned(shop, **more):
    answer = shop.post("/v1/projects", json={**PROJECT, **more})
    assert answer.status_code == 200, answer.text
    return answer.json()


@pytest.mark.parametrize("entry", load_host(candidates=in_folder(EXAMPLES)).entries, ids=lambda e: e.candidate.name)
def test_every_example_is_sound_by_the_kit(entry):
    assert entry.state == "loaded", entry.reason
    assert set(entry.hooks) == HOOK_OF[entry.candidate.name]
    assert entry.warnings == ()
    assert plugin_faults(entry.plugin, entry.candidate.manifest) == []


def test_every_hook_has_an_example():
    from scantling.plugin_check import HOOKS

    assert set().union(*HOOK_OF.values()) == set(HOOKS)


def test_examples_use_the_kit_alone():
    for file in EXAMPLES.rglob("*.py"):
        tree = ast.parse(file.read_text(encoding="utf-8"))
        names = {node.module for node in ast.walk(tree) if isinstance(node, ast.ImportFrom) and not node.level}
        assert {name for name in names if name.startswith("scantling")} <= {"scantling.kit"}, file


# ---------------------------------------------------------------------- short modules


def lines_of(file):
    return len(file.read_text(encoding="utf-8").splitlines())


def test_a_bookcase_takes_fewer_than_forty_lines():
    """Imports, blank lines and docstrings counted; the sizes on offer and the housings are all in it."""
    assert lines_of(EXAMPLES / "small_bookcase" / "bookcase.py") < 40


def test_a_bench_takes_fewer_than_120_lines():
    assert lines_of(ROOT / "plugins" / "scantling_furniture" / "bench.py") < 120


@pytest.mark.parametrize("width", [300, 700, 760])
@pytest.mark.parametrize("height", [500, 1500])
@pytest.mark.parametrize("thickness", [17.0, 19.0])
def test_the_short_bookcase_has_no_error_at_any_size(shop, width, height, thickness):
    body = {"parameters": {"width": width, "height": height}, "materials": {"case": {"thickness": thickness}}}
    answer = shop.post(PIECE, json=body).json()
    assert [f["message"] for f in answer["findings"] if f["severity"] == "error"] == []
    assert answer["overall"]["width_mm"] == pytest.approx(width)
    board = next(row for row in answer["parts"] if row["name"] == "board")
    assert board["length_mm"] == pytest.approx(width - 2 * thickness + 12)  # 6 mm into each side


# ---------------------------------------------------------------------- stock and prices by name


def test_the_lists_are_told(shop):
    (yard,) = shop.get("/v1/stock-lists").json()["stock_lists"]
    assert (yard["id"], yard["plugin"], yard["currency"]) == ("harbour-yard", "harbour-yard", "USD")
    assert {entry["id"] for entry in yard["stock"]} >= {"birch 18", "birch 6"}
    assert {box["gauge"] for box in yard["fasteners"]} == {6, 8}
    (prices,) = shop.get("/v1/price-lists").json()["price_lists"]
    assert {price["kind"] for price in prices["prices"]} == {"glue", "finish", "cushion"}
    rows = list(csv.DictReader(io.StringIO(shop.get("/v1/stock-lists?format=csv").text)))
    assert len(rows) == len(yard["stock"]) + len(yard["fasteners"])
    assert {row["list"] for row in rows} == {"harbour-yard"}


def test_a_project_is_cut_from_a_shops_list_and_says_nothing_of_what_it_does_not_need(shop):
    plan = planned(shop, stock={"list": "harbour-yard"})
    assert {layout["stock"] for layout in plan["nesting"]["layouts"]} <= {"birch 18", "half birch 18", "birch 6"}
    codes = {finding["code"] for finding in plan["findings"]}
    assert codes.isdisjoint({"stock-assumed", "stock-not-needed", "price-unused"})
    # 6 of 17.2 to 18.2 mm is what the yard says of its 18 mm: the module takes the middle of it.
    assert {row["thickness_mm"] for row in plan["cut_list"] if row["name"] == "board"} == {17.7}


def test_the_same_stock_written_out_gives_the_same_layouts(shop):
    (yard,) = shop.get("/v1/stock-lists").json()["stock_lists"]
    by_name, written = planned(shop, stock={"list": "harbour-yard"}), planned(shop, stock=yard["stock"])
    assert by_name["nesting"]["layouts"] == written["nesting"]["layouts"]
    assert by_name["nesting"]["cost"] == written["nesting"]["cost"]


def test_what_is_there_besides_rules_over_the_list(shop):
    own = {
        "id": "birch 18",
        "material": "birch-plywood",
        "thickness": 17.6,
        "length": 2440,
        "width": 1220,
        "price": "9.00",
    }
    plan = planned(shop, stock={"list": "harbour-yard", "also": [own]})
    (line,) = [line for line in plan["costing"]["lines"] if line["id"] == "birch 18"]
    assert line["price"] == "9.00"


def test_a_nesting_takes_a_list_too(shop):
    part = {"id": "door", "length": 1000, "width": 400, "quantity": 4, "material": "birch-plywood", "thickness": 18}
    answer = shop.post(
        "/v1/nestings", json={"parts": [part], "stock": {"list": "harbour-yard"}, "effort": "quick"}
    ).json()
    assert answer["unplaced"] == []
    assert Fraction(answer["cost"]) == Fraction("74.00")  # four doors go onto one sheet, and onto no half sheet


def test_screws_are_picked_from_what_the_shop_sells(shop):
    """The yard has #6 in 31.75 mm alone; without a list the back takes #6 of another length."""
    usual, sold = planned(shop), planned(shop, stock={"list": "harbour-yard"})
    lengths = {f["length_mm"] for m in sold["modules"] for f in m["fasteners"]}
    assert lengths == {31.75}
    assert {f["length_mm"] for m in usual["modules"] for f in m["fasteners"]} != lengths
    (box,) = [line for line in sold["costing"]["lines"] if line["kind"] == "screw"]
    assert (box["price"], box["pack"]) == ("7.00", 100)


def test_a_screw_that_the_shop_does_not_sell_is_told(shop):
    modules = [{"id": "table", "module": "dining-table"}]
    plan = planned(shop, modules=modules, stock={"list": "harbour-yard"})
    sold = {(6, 31.75), (8, 31.75), (8, 38.1), (8, 50.8)}
    taken = {(f["gauge"], f["length_mm"]) for m in plan["modules"] for f in m["fasteners"] if f["kind"] == "wood screw"}
    told = {f["code"] for f in plan["findings"]} & {"screw-not-sold"}
    assert bool(taken - sold) is bool(told)


def test_prices_by_name(shop):
    plan = planned(shop, stock={"list": "harbour-yard"}, prices={"list": "harbour-yard"})
    glue = next(line for line in plan["costing"]["lines"] if line["kind"] == "glue")
    assert (glue["price"], glue["pack"], glue["packs"]) == ("14.00", 473.0, 1)
    assert not plan["costing"]["total"]["lower_bound"]
    own = [{"kind": "glue", "price": "3.00", "pack": 1000, "unit": "g"}]
    plan = planned(shop, stock={"list": "harbour-yard"}, prices={"list": "harbour-yard", "also": own})
    assert next(line for line in plan["costing"]["lines"] if line["kind"] == "glue")["price"] == "3.00"


def test_a_costing_takes_a_price_list(shop):
    body = {
        "take_off": [{"id": "varnish", "kind": "finish", "quantity": 1.5, "unit": "L"}],
        "prices": {"list": "harbour-yard"},
    }
    answer = shop.post("/v1/costings", json=body).json()
    assert answer["total"]["amount"] == "55.00"  # two cans of 0.946 L at 27.50
    assert [f["code"] for f in answer["findings"] if f["code"] == "price-unused"] == []


@pytest.mark.parametrize(
    ("more", "pointer", "code"),
    [
        ({"stock": {"list": "harbor-yard"}}, "#/stock/list", "unknown-list"),
        ({"prices": {"list": "nobody"}}, "#/prices/list", "unknown-list"),
        ({"finish": {"system": "soft-oils"}}, "#/finish/system", "unknown-list"),
        ({"currency": "EUR", "stock": {"list": "harbour-yard"}}, "#/currency", "contradiction"),
        ({"currency": "EUR", "prices": {"list": "harbour-yard"}}, "#/currency", "contradiction"),
        ({"finish": {}}, "#/finish", "id-or-kind"),
        ({"finish": {"kind": "oil", "system": "soft-oil"}}, "#/finish", "id-or-kind"),
        ({"stock": {"also": []}}, "#/stock/list", "missing-member"),
        ({"stock": "harbour-yard"}, "#/stock", "wrong-type"),
    ],
)
def test_a_list_that_there_is_not_is_refused_at_its_place(shop, more, pointer, code):
    problem = assert_problem(shop.post("/v1/projects", json={**PROJECT, **more}), 422, "invalid-request")
    assert [(fault["pointer"], fault["code"]) for fault in problem["errors"]] == [(pointer, code)]


def test_a_near_name_is_proposed(shop):
    problem = shop.post("/v1/projects", json={**PROJECT, "stock": {"list": "harbor-yard"}}).json()
    assert "harbour-yard" in problem["errors"][0]["detail"]


def test_pointers_lead_into_what_the_caller_wrote(shop):
    """Of the list's own entries nothing was written, so a fault of one leads to the member that names it."""
    own = {"id": "odd", "material": "birch-plywood", "length": 2440, "width": 1220}
    body = {**PROJECT, "stock": {"list": "harbour-yard", "also": [own]}}
    problem = assert_problem(shop.post("/v1/projects", json=body), 422, "invalid-request")
    assert [fault["pointer"] for fault in problem["errors"]] == ["#/stock/also/0/thickness"]
    body = {**PROJECT, "stock": {"list": "harbour-yard", "also": [{**own, "material": "mdf", "thickness": 18}]}}
    found = [f for f in shop.post("/v1/projects", json=body).json()["findings"] if f["code"] == "stock-not-needed"]
    assert [f["pointer"] for f in found] == ["/stock/also/0"]
    prices = {"list": "harbour-yard", "also": [{"id": "nails", "price": "1.00"}]}
    found = [f for f in planned(shop, prices=prices)["findings"] if f["code"] == "price-unused"]
    assert [f["pointer"] for f in found] == ["/prices/also/0"]


# ---------------------------------------------------------------------- finishes


def test_a_finish_system_makes_the_schedule_and_the_take_off(shop):
    plan = planned(shop, finish={"system": "soft-oil", "coats": 3}, place={"exposure": "indoors"})
    schedule = plan["finishing"]
    assert [coat["starts_h"] for coat in schedule["coats"]] == [0, 12, 24]
    assert schedule["in_use_after_h"] == 2 * 12 + 48
    line = next(line for line in plan["costing"]["lines"] if line["kind"] == "finish")
    assert line["what"] == "Hardening oil, 3 coats"
    assert line["quantity"] == pytest.approx(schedule["area_m2"] * 3 / 9, abs=0.002)  # at its least coverage, 9 m²/L
    assert "finish-not-for-here" not in {f["code"] for f in plan["findings"]}
    assert planned(shop)["finishing"] is None


def test_a_finish_that_is_not_for_the_place_is_a_warning(shop):
    plan = planned(shop, finish={"system": "soft-oil"}, place={"exposure": "outdoors"})
    (found,) = [f for f in plan["findings"] if f["code"] == "finish-not-for-here"]
    assert (found["severity"], found["pointer"]) == ("warning", "/finish/system")
    plan = planned(shop, finish={"system": "porch-paint"}, place={"exposure": "outdoors"})
    assert "finish-not-for-here" not in {f["code"] for f in plan["findings"]}


def test_the_finish_systems_are_told(shop):
    systems = shop.get("/v1/finish-systems").json()["finish_systems"]
    assert [(one["id"], one["kind"], one["coats"]) for one in systems] == [
        ("porch-paint", "paint", 3),
        ("soft-oil", "oil", 2),
    ]


# ---------------------------------------------------------------------- checks


def test_a_check_is_merged_into_pieces_and_plans_and_its_code_is_listed(shop):
    code = "too-long-for-the-car"
    body = {"parameters": {"height": 2000}}
    piece = shop.post("/v1/modules/bookcase/parts", json=body).json()
    assert code in {f["code"] for f in piece["findings"]}
    assert code not in {f["code"] for f in shop.post("/v1/modules/bookcase/parts", json={}).json()["findings"]}
    plan = planned(shop, modules=[{"id": "tall", "module": "bookcase", **body}], hands=2)
    (first, *_) = [f for f in plan["findings"] if f["code"] == code]
    assert first["severity"] == "note"  # two carry it: what the check is told of the place comes from the request
    assert first["parts"][0].startswith("tall: ")
    rows = {row["code"]: row for row in shop.get("/v1/findings").json()["findings"]}
    assert rows[code]["origin"] == "house-rules"
    assert rows["parts-overlap"]["origin"] is None
    assert list(rows) == sorted(rows)


def test_checks_of_plugins_are_part_of_drawn_answers_too(shop):
    body = {**PROJECT, "modules": [{"id": "tall", "module": "bookcase", "parameters": {"height": 2000}}]}
    assert shop.post("/v1/projects?format=pdf", json=body).status_code == 200


# ---------------------------------------------------------------------- exporters


@pytest.mark.parametrize(("path", "body"), [(PIECE, {}), ("/v1/projects", PROJECT)], ids=["parts", "projects"])
def test_a_plan_comes_in_the_form_that_a_plugin_writes(shop, path, body):
    by_query = shop.post(f"{path}?format=md", json=body)
    assert by_query.status_code == 200, by_query.text
    assert by_query.headers["content-type"].startswith("text/markdown")
    assert by_query.headers["content-disposition"].endswith('.md"')
    assert by_query.headers["content-security-policy"].startswith("default-src 'none'")
    assert "| board |" in by_query.text
    by_header = shop.post(path, json=body, headers={"accept": "text/markdown, application/json;q=0.5"})
    assert by_header.content == by_query.content
    as_json = shop.post(path, json=body, headers={"accept": "text/markdown;q=0.1, application/json"})
    assert as_json.headers["content-type"] == "application/json"


def test_a_list_works_in_a_form_that_a_plugin_writes(shop):
    answer = shop.post("/v1/projects?format=md", json={**PROJECT, "stock": {"list": "harbour-yard"}})
    assert "17.7 mm" in answer.text
    bad = shop.post("/v1/projects?format=md", json={**PROJECT, "stock": {"list": "nowhere"}})
    assert assert_problem(bad, 422, "invalid-request")["errors"][0]["pointer"] == "#/stock/list"


def test_forms_of_plugins_are_told_and_named_in_a_406(shop):
    (row,) = shop.get("/v1/plugins").json()["exporters"]
    assert (row["format"], row["media_type"], row["plugin"]) == ("md", "text/markdown", "cut-card")
    problem = assert_problem(shop.post("/v1/projects?format=odt", json=PROJECT), 406, "not-acceptable")
    assert "text/markdown" in problem["available"]
    assert_problem(shop.post("/v1/nestings?format=md", json={}), 406, "not-acceptable")


def test_without_the_plugin_its_form_is_not_there():
    with client_for(InlineSeam(plugins=PluginChoice(allow=("furniture",)))) as plain:
        assert_problem(plain.post("/v1/projects?format=md", json=PROJECT), 406, "not-acceptable")
        assert plain.get("/v1/stock-lists").json() == {"stock_lists": []}


def test_the_coats_of_a_finish_system_are_told_in_the_packet(shop):
    import pypdfium2

    project = {**PROJECT, "finish": {"system": "soft-oil"}, "papers": {"date": "2026-11-25"}}
    schedule = planned(shop, finish={"system": "soft-oil"})["finishing"]
    answer = shop.post("/v1/projects", json=project, params={"format": "pdf"})
    with pypdfium2.PdfDocument(answer.content) as packet:
        words = " ".join(" ".join(page.get_textpage().get_text_bounded() for page in packet).split())
    assert f"Finish: {schedule['title']}" in words
    for coat in schedule["coats"]:
        assert (
            f"coat {coat['coat']} " + (f"after {coat['starts_h']:g} hours" if coat["starts_h"] else "at once") in words
        )
    assert f"after {schedule['in_use_after_h']:g} hours, at the earliest" in words
    assert not schedule["care_months"] or "renew the finish" in words
