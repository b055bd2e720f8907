"""README and DEVELOPERS: every command shown is run or checked, every address and file named is there."""

import ast
import json
import re
import shlex
import sys
import tomllib
from html import unescape
from importlib.metadata import packages_distributions
from itertools import pairwise
from pathlib import Path
from urllib.parse import urljoin, urlsplit

import httpx2
import pytest

from live_service import live_service
from scantling.api.settings import NOT_SETTINGS, load_settings, table
from scantling.cli import _parser
from scantling.measure import parse_length

ROOT = Path(__file__).resolve().parents[2]
README = (ROOT / "README.md").read_text(encoding="utf-8")
DEVELOPERS = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
PROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
SHOWN = "http://127.0.0.1:8000"


def blocks(page):
    """Return heading → the indented blocks under it, without their indent."""
    found, heading, lines = {}, "", []
    for line in [*page.splitlines(), "#"]:
        if line.startswith("    ") or (lines and not line.strip()):
            lines.append(line[4:])
            continue
        if lines:
            found.setdefault(heading, []).append("\n".join(lines).strip("\n"))
            lines = []
        if line.startswith("#"):
            heading = line.lstrip("# ")
    return found


BLOCKS = blocks(README)


def only(heading):
    (block,) = BLOCKS[heading]
    return block


@pytest.fixture(scope="module")
def address():
    with live_service() as one:
        yield one


def test_every_block_is_tried_here():
    tried = {"Run it", "First curl", "First spreadsheet formula", "First five lines of Python", "In a container"}
    assert set(BLOCKS) == tried, "a block without a test"


def test_two_lines_set_up_run_the_job_and_pass_the_tests():
    job, tests = only("Run it").splitlines()
    for line in (job, tests):
        assert line.startswith("python3 -m venv .venv && .venv/bin/python -m pip install ")
        assert line.count("./clients/python") == 1
    install = tests.split("pip install ")[1].split(" && ")[0]
    (extra,) = re.findall(r"\.\[(\w+)\]", install)
    assert extra in PROJECT["optional-dependencies"]
    assert tests.endswith(".venv/bin/python -m pytest -n 2 --dist loadfile")
    assert job.endswith(".venv/bin/scantling demo")
    assert "scantling" in PROJECT["scripts"]
    assert _parser().parse_args(["demo"]).out == Path("demo-plan")


def test_the_ci_runs_these_very_lines():
    script = (ROOT / ".ci" / "run").read_text(encoding="utf-8")
    pattern = re.search(r"readme_line\(\) \{ sed -n \"s/\^    \\\((.*?)\$1\\\)", script)
    assert pattern, "the CI takes the lines from the README"
    prefix = pattern[1].replace(".*", "")
    endings = re.findall(r"readme_line '(.+?)'", script)
    assert len(endings) == 2
    for ending in endings:
        assert [line for line in only("Run it").splitlines() if line.startswith(prefix) and line.endswith(ending)]


def test_the_service_listens_where_the_page_says(monkeypatch):
    for name in ("SCANTLING_HOST", "SCANTLING_PORT"):
        monkeypatch.delenv(name, raising=False)
    settings = load_settings()
    assert f"http://{settings.host}:{settings.port}" == SHOWN
    assert f"<{SHOWN}>" in README


def test_python_is_as_new_as_the_page_says():
    (version,) = re.findall(r"Python (3\.\d+) or newer", README)
    assert PROJECT["requires-python"] == f">={version}"


def curl():
    """Return method, path, headers and body of the first curl."""
    words = shlex.split(only("First curl"))
    assert words[0] == "curl"
    options = list(pairwise(words))
    headers = dict(value.split(": ", 1) for word, value in options if word == "-H")
    (body,) = [value for word, value in options if word == "-d"]
    (url,) = [word for word in words if word.startswith(SHOWN)]
    return url.removeprefix(SHOWN), headers, body


def test_the_first_curl_is_answered(address):
    path, headers, body = curl()
    answer = httpx2.post(address + path, headers=headers, content=body)
    assert answer.status_code == 200, answer.text
    placed = [p for layout in answer.json()["layouts"] for p in layout["placements"] for _ in range(layout["count"])]
    wanted = sum(part["quantity"] for part in json.loads(body)["parts"])
    assert len(placed) == wanted
    (more,) = re.findall(r"Add `-H '(.+?)'` for a table", README)
    name, value = more.split(": ")
    csv = httpx2.post(address + path, headers={**headers, name: value}, content=body)
    assert csv.headers["content-type"].startswith("text/csv")
    assert csv.text.count("\n") == 1 + len([p for lay in answer.json()["layouts"] for p in lay["placements"]])


def test_lengths_are_written_as_the_page_says():
    (sentence,) = re.findall(r"Lengths are numbers in `units` or text: (.+?)\. What", README, re.DOTALL)
    texts = re.findall(r"`(.+?)`", sentence)
    # 1 in = 25.4 mm exactly (NIST SP 811, B.8)
    assert [parse_length(text) for text in texts] == pytest.approx([19, 19.05, 349.25, 16.5 * 25.4])


def formula_url():
    formula = unescape(only("First spreadsheet formula"))
    (url,) = re.findall(r'WEBSERVICE\("(.+?)"\)', formula)
    assert url.startswith(SHOWN)
    assert formula.endswith('; ".")')  # NUMBERVALUE reads a full stop whatever the country
    return url.removeprefix(SHOWN)


def test_the_first_formula_is_a_number(address):
    answer = httpx2.get(address + formula_url())
    assert answer.status_code == 200
    assert float(answer.text) == int(answer.text) >= 1
    # 24 pieces of 600 × 400 mm are 5.76 m²: no fewer sheets than the area needs, with the sheet the figure assumes
    rows = httpx2.get(address + formula_url().replace("&format=text", "")).json()
    assert rows["value"] == float(answer.text)


def test_a_message_can_stand_in_the_cell(address):
    assert "`errors=inline` puts the message into the cell" in README
    broken = formula_url().replace("length=600", "length=x") + "&errors=inline"
    answer = httpx2.get(address + broken)
    assert answer.status_code == 200
    assert "length" in answer.text


def test_the_first_lines_of_python_print_the_summary(address, capsys):
    code = only("First five lines of Python")
    assert len([line for line in code.splitlines() if line.strip()]) <= 5
    exec(compile(code.replace(SHOWN, address), "README.md", "exec"), {"__name__": "readme"})  # noqa: S102 - the README's own block
    printed = capsys.readouterr().out.splitlines()
    assert 1 <= len(printed) <= 7


def test_the_container_is_built_and_run_as_the_dockerfile_expects():
    build, run = (shlex.split(command) for command in only("In a container").split(" && "))
    assert build[:2] == ["docker", "build"]
    assert build[-1] == "."
    (port,) = [value for word, value in pairwise(run) if word == "-p"]
    dockerfile = (ROOT / "Dockerfile").read_text(encoding="utf-8")
    assert f"EXPOSE {port.rsplit(':', 1)[1]}\n" in dockerfile
    assert port.startswith("127.0.0.1:")
    assert "--read-only" in run
    assert run[-1] == build[build.index("-t") + 1]


@pytest.mark.parametrize("page", ["README.md", "plugins/README.md", "Dockerfile"])
def test_every_setting_named_is_one(page):
    known = {row["variable"] for row in table()}
    said = set(re.findall(r"SCANTLING_[A-Z_]+", (ROOT / page).read_text(encoding="utf-8")))
    named = {name for name in said if not name.startswith(NOT_SETTINGS)}
    assert named
    assert named <= known, named - known


def test_every_address_named_is_one_of_the_service(address):
    document = httpx2.get(f"{address}/openapi.json").json()
    paths = set(document["paths"]) | {"/docs"}
    named = set(re.findall(r"`(?:GET |POST )?(/(?:v1|livez|readyz|docs)[\w/{}-]*)`", README))
    assert len(named) > 10
    assert {name for name in named if name not in paths} == set()
    computations = {path for path, item in document["paths"].items() if "post" in item}
    assert computations <= named, "put the new computation into the README's table"
    for method, path in re.findall(r"`(GET|POST) (/v1[\w/{}-]*)`", README):
        assert method.lower() in document["paths"][path], f"{method} {path}"


def test_the_documentation_needs_no_internet(address):
    page = httpx2.get(f"{address}/docs").text
    named = re.findall(r"(?:src|href)=[\"'](.+?)[\"']", page)
    assert [url for url in named if urlsplit(url).netloc] == []
    assert len(named) >= 2
    for url in named:
        assert httpx2.get(urljoin(f"{address}/docs", url)).status_code == 200, url


def test_every_library_the_service_imports_is_installed_with_it():
    """What a fresh machine gets is what pyproject.toml names, not what happens to lie in a developer's environment."""
    wanted = {re.split(r"[<>=;\[ ]", one)[0].lower() for one in PROJECT["dependencies"]}
    provided = packages_distributions()
    ours = {"scantling", "scantling_furniture", "scantling_client"}
    for path in sorted((ROOT / "service").rglob("*.py")):
        for name in imported(path) - set(sys.stdlib_module_names) - ours - set(COMES_WITH):
            names = {one.lower().replace("_", "-") for one in provided.get(name, [name])}
            assert names & wanted, f"{path.name} imports {name}: pyproject.toml does not name it"


COMES_WITH = {
    "pydantic_core": "pydantic, which pins it",
    "starlette": "fastapi",
    "pytest": "the test extra, which the test kit's pytest plugin is for",
}


def imported(path):
    """Return the top names a file imports, and the packages whose files it reads."""
    found = set()
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            found |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom) and not node.level:
            found.add(node.module)
        elif isinstance(node, ast.Call) and ast.unparse(node.func) == "resources.files":
            found |= {arg.value for arg in node.args if isinstance(arg, ast.Constant)}
    return {name.split(".")[0] for name in found}


@pytest.mark.parametrize("page", ["README.md", "DEVELOPERS.md", "plugins/README.md", "clients/python/README.md"])
def test_every_link_leads_to_a_file(page):
    text = (ROOT / page).read_text(encoding="utf-8")
    for target in re.findall(r"\]\(([^)#]+?)(?:#[\w-]*)?\)", text):
        if not urlsplit(target).netloc:
            assert ((ROOT / page).parent / target).exists(), target


def test_every_command_of_the_command_line_that_is_named_exists():
    commands = {name for action in _parser()._actions for name in (action.choices or ())}
    named = set(
        re.findall(r"\bscantling ([a-z-]+)(?=[`\s]|$)", "\n".join(re.findall(r"`([^`\n]+)`", README + DEVELOPERS)))
    )
    assert named
    assert named <= commands


def test_the_map_of_the_house_is_the_house():
    rows = re.findall(r"^\| (`.+?`(?:, `.+?`)*) \|", DEVELOPERS.split("The map of the house")[1], re.MULTILINE)
    rooms = {name.rstrip("/") for row in rows for name in re.findall(r"`([a-z_]+(?:/|\.py))`", row)}
    here = {
        path.name
        for path in (ROOT / "service" / "scantling").iterdir()
        if (path.is_dir() or path.suffix == ".py") and not path.name.startswith("_")
    }
    assert rooms <= here, rooms - here
    assert {room for room in here if "." not in room} <= rooms, "put the new room on the map"


def test_the_extra_tools_of_the_gates_are_installed_by_the_test_extra():
    wanted = {re.split(r"[<>=;\[ ]", one)[0] for one in PROJECT["optional-dependencies"]["test"]}
    assert {"ruff", "mypy", "import-linter", "pytest", "schemathesis", "openapi-spec-validator"} <= wanted
