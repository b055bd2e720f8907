"""The seam without workers, the table of operations, and the limits."""

import asyncio
import inspect

import pytest

from scantling.measure.errors import RequestError
from scantling.work import (
    OPERATIONS,
    AnswerTooLarge,
    InlineSeam,
    Limits,
    Operation,
    OperationFailed,
    PoolSeam,
    UnknownOperation,
    default_workers,
    registry,
)
from scantling.work.limits import usable_cores

ZOO = registry(
    *(Operation(name, f"unit.seam_zoo:{name}") for name in ("echo", "refuse", "raise_secret", "leave", "mutate")),
    *(Operation(name, f"unit.seam_zoo:{name}") for name in ("large", "not_finite", "not_dict")),
    Operation("report", "unit.seam_zoo:report", needs=("progress",)),
)


def test_both_seams_have_one_interface():
    def public(cls):
        return {
            n: inspect.signature(m) for n, m in vars(cls).items() if inspect.isfunction(m) and not n.startswith("_")
        }

    pool, inline = public(PoolSeam), public(InlineSeam)
    assert {n: inline[n] for n in pool} == pool
    assert set(pool) == {"start", "stop", "run", "run_json"}


def test_it_answers_and_leaves_the_request_alone():
    seam = InlineSeam(operations=ZOO)
    request = {"list": [1]}
    assert asyncio.run(seam.run("echo", request))["echo"] == {"list": [1]}
    seam.call("mutate", request)
    assert request == {"list": [1]}


@pytest.mark.parametrize(
    ("operation", "error"),
    [
        ("refuse", RequestError),
        ("raise_secret", OperationFailed),
        ("leave", OperationFailed),
        ("not_finite", OperationFailed),
        ("not_dict", OperationFailed),
        ("lathe", UnknownOperation),
    ],
)
def test_it_raises_what_the_pool_raises(operation, error):
    with pytest.raises(error):
        InlineSeam(operations=ZOO).call(operation, {})


def test_it_bounds_the_answer_and_reports_progress():
    seam = InlineSeam(Limits(answer_bytes=100, time_limit=3, grace=1), operations=ZOO)
    with pytest.raises(AnswerTooLarge):
        seam.call("large", {"size": 100})
    got = []
    assert seam.call("report", {"steps": 3}, got.append) == {"seconds": 2}
    assert [p.share for p in got] == [0.0]  # the first at once, the next not before a tenth of a second


def test_two_operations_of_one_name_are_refused():
    with pytest.raises(ValueError, match="one name"):
        registry(Operation("a", "x:y"), Operation("a", "x:z"))


def test_plugin_code_never_runs_inline():
    with pytest.raises(ValueError, match="plugin code"):
        Operation("parts", "x:y", needs=("modules",), inline=True)
    with pytest.raises(ValueError, match="weather"):
        Operation("parts", "x:y", needs=("weather",))
    assert not any(o.inline and o.runs_plugins for o in OPERATIONS.values())


def test_the_table_of_operations_is_frozen():
    with pytest.raises(TypeError):
        OPERATIONS["mine"] = Operation("mine", "x:y")


@pytest.mark.parametrize(
    ("cpu_max", "cores"), [("max 100000", None), ("100000 100000", 1), ("50000 100000", 1), ("rubbish", None)]
)
def test_a_container_quota_cuts_the_cores_down(tmp_path, cpu_max, cores):
    (tmp_path / "cpu.max").write_text(cpu_max + "\n")
    unlimited = usable_cores(tmp_path / "nowhere")
    assert usable_cores(tmp_path) == (cores or unlimited)
    assert 1 <= default_workers(tmp_path) <= 2


def test_the_quota_of_the_older_control_groups_is_read(tmp_path):
    (tmp_path / "cpu").mkdir()
    (tmp_path / "cpu" / "cpu.cfs_quota_us").write_text("100000\n")
    (tmp_path / "cpu" / "cpu.cfs_period_us").write_text("100000\n")
    assert usable_cores(tmp_path) == 1


def test_the_soft_limit_comes_before_the_hard_one():
    limits = Limits(time_limit=20, grace=2, time_limits={"proofs": 1.0})
    assert limits.soft_seconds("nestings") == 18
    assert limits.seconds("proofs") == 1.0
    assert limits.soft_seconds("proofs") == 0.5
