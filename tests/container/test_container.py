"""The image built and run: hardened, without a network, as a user without rights."""

import time

import pytest

from container.container_recipe import HARDENED, Workshop, missing

WHY_NOT = missing()
if WHY_NOT:
    pytest.skip(WHY_NOT, allow_module_level=True)

READY_WITHIN = 60.0
IDLE_MB = 150
IMAGE_MB = 700
ASK = """
import json, urllib.request
body = json.dumps({"parameters": {"bays": 2}}).encode()
request = urllib.request.Request("http://127.0.0.1:8000/v1/modules/leaning-seat/parts", body,
                                 {"Content-Type": "application/json"})
answer = json.load(urllib.request.urlopen(request, timeout=30))
print(json.dumps([answer["module"], len(answer["parts"]), len(answer["fasteners"]), answer["summary"][0]]))
"""
MEMORY = """
import glob
def kb(path, field):
    return sum(int(line.split()[1]) for line in open(path) if line.startswith(field + ":"))
rolls = [p for p in glob.glob("/proc/[0-9]*/smaps_rollup") if "/proc/%d/" % __import__("os").getpid() not in p]
print(sum(kb(p, "Rss") for p in rolls) // 1024, sum(kb(p, "Pss") for p in rolls) // 1024, len(rolls))
"""
KERNEL = """
import ctypes
from scantling.nesting.kernel import LIBRARY
assert ctypes.CDLL(str(LIBRARY)).nest_new
print(LIBRARY)
"""


@pytest.fixture(scope="module")
def workshop(tmp_path_factory):
    """Return a workshop with the image built in it."""
    one = Workshop(tmp_path_factory.mktemp("containers"))
    try:
        one.build()
        yield one
    finally:
        one.clear()


@pytest.fixture(scope="module")
def hardened(workshop):
    """Return the service running with every right taken away, once it is ready."""
    running = workshop.start("hardened", *HARDENED, "--env=SCANTLING_WORKERS=1")
    wait_until_ready(running)
    return running


def wait_until_ready(running):
    until = time.monotonic() + READY_WITHIN
    while True:
        check = running.health()
        if check.returncode == 0:
            return
        assert time.monotonic() < until, f"not ready: {check.stdout}{check.stderr}\n{running.logs()}"
        time.sleep(0.5)


def test_the_image_says_how_it_is_run(workshop):
    config = workshop.inspect()["Config"]
    assert config["User"] == "10001:10001"
    assert config["Cmd"] == ["/opt/venv/bin/scantling", "serve"]
    assert list(config["ExposedPorts"]) == ["8000/tcp"]
    assert config["StopSignal"] in ("SIGTERM", "15")
    assert workshop.inspect()["Healthcheck"]["Test"] == ["CMD", "/opt/venv/bin/python", "-IS", "/opt/healthcheck.py"]
    names = {entry.partition("=")[0] for entry in config["Env"]}
    assert names <= {
        "PATH", "HOME", "PYTHONUNBUFFERED", "PYTHONDONTWRITEBYTECODE", "SCANTLING_HOST", "SCANTLING_PORT",
        "SCANTLING_PLUGINS_FOLDER",
    }  # fmt: skip
    assert "Entrypoint" not in config or not config["Entrypoint"]


def test_the_image_is_of_a_bearable_size(workshop):
    assert workshop.inspect()["Size"] / 1e6 < IMAGE_MB


def test_the_builder_leaves_nothing_behind(hardened):
    listing = hardened.exec(
        "/bin/sh", "-c", "ls -A / /opt /srv; ls /opt/venv/lib/python3*/site-packages"
    ).stdout.split()
    assert "scantling_client" in listing
    assert "scantling_furniture" in listing
    assert "src" not in listing
    assert not [name for name in listing if name.startswith("ziglang")]


def test_it_is_healthy_without_network_rights_or_a_writable_root(hardened):
    assert hardened.health().returncode == 0
    assert hardened.exec("id", "-u").stdout.strip() == "10001"
    status = hardened.exec("cat", "/proc/1/status").stdout
    fields = dict(line.split(":\t", 1) for line in status.splitlines() if ":\t" in line)
    assert int(fields["CapEff"], 16) == 0
    assert fields["NoNewPrivs"] == "1"


def test_nothing_but_tmp_can_be_written(hardened):
    for place in ("/srv/mark", "/opt/venv/mark", "/etc/mark", "/mark"):
        refused = hardened.exec("touch", place, check=False)
        assert refused.returncode != 0
        assert "Read-only file system" in refused.stderr
    assert hardened.exec("touch", "/tmp/mark").returncode == 0  # noqa: S108 - the container's own


def test_it_works_out_a_piece(hardened):
    import json

    module, parts, fasteners, summary = json.loads(hardened.python(ASK))
    assert module == "leaning-seat"
    assert parts > 5
    assert fasteners > 10
    assert summary


def test_the_compiled_kernel_is_in_the_image(hardened):
    assert hardened.python(KERNEL).startswith("/opt/venv/")


def test_the_demonstration_runs_in_the_image(hardened):
    written = hardened.exec("scantling", "demo", "--out", "/tmp/demo").stdout  # noqa: S108 - the container's own
    assert "plan.json" in written
    assert "cut-list.csv" in written


def test_it_runs_under_any_uid_and_stops_at_once(workshop):
    running = workshop.start("anybody", *HARDENED, "--user=54321:54321", "--env=SCANTLING_WORKERS=1")
    wait_until_ready(running)
    resident, shared_out, processes = map(int, running.python(MEMORY).split())
    print(f"idle: {resident} MB resident, {shared_out} MB with shared pages shared out, {processes} processes")
    assert resident < IDLE_MB
    workshop.podman("stop", "--time=2", "anybody")  # what has not stopped by then is killed, and its code is 137
    assert running.state()["ExitCode"] == 0, running.logs()


def test_a_health_check_fails_where_nothing_listens(hardened):
    probe = hardened.exec(
        "env", "SCANTLING_PORT=8001", "/opt/venv/bin/python", "-IS", "/opt/healthcheck.py", check=False
    )
    assert probe.returncode == 1
    assert "no answer on port 8001" in probe.stdout
