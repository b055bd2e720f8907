"""The seam with real worker processes: limits, kills, cancellation, progress, deaths. No outside source applies;
these are promises of the service, each checked on live processes."""

import asyncio
import os
import signal
import subprocess
import sys
import time

import pytest

from scantling.measure.errors import RequestError
from scantling.work import (
    AnswerTooLarge,
    Busy,
    Limits,
    NotRunning,
    Operation,
    OperationFailed,
    PoolSeam,
    TimeLimit,
    UnknownOperation,
    WorkerDied,
    registry,
)
from scantling.work.crew import start_method

_MILD = ("echo", "age", "slow", "refuse", "chatter", "large", "mutate", "hog", "loaded")
_WILD = ("hang", "hang_in_compiled_code", "raise_secret", "leave", "die")
_RUBBISH = ("not_plain", "not_finite", "not_dict", "too_deep")
ZOO = registry(
    *(Operation(name, f"unit.seam_zoo:{name}") for name in (*_MILD, *_WILD, *_RUBBISH)),
    Operation("report", "unit.seam_zoo:report", needs=("progress",)),
    Operation("nowhere", "unit.seam_zoo:no_such_function"),
    Operation("here", "unit.seam_zoo:echo", inline=True),
)


def in_pool(use, *, start=True, **limits):
    """Run `use(seam)` with a started pool and stop it whatever happens."""

    async def main():
        seam = PoolSeam(Limits(**limits), operations=ZOO)
        if start:
            await seam.start()
        try:
            return await use(seam)
        finally:
            await seam.stop()

    return asyncio.run(main())


@pytest.fixture(scope="module")
def shared():
    """Return a function that runs `use(seam)` in one pool that all such tests share."""
    with asyncio.Runner() as runner:

        async def open_seam():
            seam = PoolSeam(Limits(answer_bytes=20_000), operations=ZOO)
            await seam.start()
            return seam

        seam = runner.run(open_seam())
        yield lambda use: runner.run(use(seam))
        runner.run(seam.stop())


def gone(pid, within=2.0):
    """Whether the process ends (or is a zombie) within the seconds."""
    until = time.monotonic() + within
    while time.monotonic() < until:
        try:
            with open(f"/proc/{pid}/stat") as file:
                if file.read().rsplit(")", 1)[1].split()[0] == "Z":
                    return True
        except OSError:
            return True
        time.sleep(0.02)
    return False


def test_an_operation_runs_in_another_process(shared):
    async def use(seam):
        return await seam.run("echo", {"a": [1, "½"]})

    answer = shared(use)
    assert answer["echo"] == {"a": [1, "½"]}
    assert answer["pid"] != os.getpid()


def test_what_is_inline_runs_in_this_process_even_without_workers():
    async def use(seam):
        return await seam.run("here", {})

    assert in_pool(use, start=False)["pid"] == os.getpid()


def test_an_unstarted_seam_says_so():
    async def use(seam):
        assert not seam.ready
        await seam.run("echo", {})

    with pytest.raises(NotRunning, match="echo"):
        in_pool(use, start=False)


def test_an_unknown_operation_is_named_beside_the_known_ones():
    async def use(seam):
        await seam.run("turnings", {})

    with pytest.raises(UnknownOperation, match=r"'turnings'.*echo"):
        in_pool(use, start=False)


@pytest.mark.parametrize("operation", ["hang", "hang_in_compiled_code"])
def test_a_job_that_overruns_is_killed_and_the_pool_goes_on(operation):
    async def use(seam):
        first = (await seam.run("echo", {}))["pid"]
        began = time.monotonic()
        with pytest.raises(TimeLimit) as caught:
            await seam.run(operation, {})
        took = time.monotonic() - began
        after = (await seam.run("echo", {}))["pid"]
        return first, caught.value, took, after

    first, error, took, after = in_pool(use, time_limit=0.4)
    assert error.operation == operation
    assert error.seconds == 0.4
    assert 0.4 <= took < 20  # the jobs would go on for a minute or for ever
    assert gone(first)
    assert after != first


def test_the_time_limit_of_one_operation_can_differ():
    async def use(seam):
        await seam.run("slow", {"seconds": 0.35})
        await seam.run("hang", {})

    with pytest.raises(TimeLimit, match=r"hang was stopped after 0\.2 seconds"):
        in_pool(use, time_limit=5, time_limits={"hang": 0.2})


def test_cancelling_the_caller_kills_the_job(tmp_path):
    mark = tmp_path / "pid"

    async def use(seam):
        task = asyncio.create_task(seam.run("hang", {"mark": str(mark)}))
        while not (mark.exists() and mark.read_text()):
            await asyncio.sleep(0.01)
        task.cancel()
        with pytest.raises(asyncio.CancelledError):
            await task
        assert seam.jobs == 0
        assert gone(int(mark.read_text()))
        return await seam.run("echo", {"still": "here"})

    assert in_pool(use)["echo"] == {"still": "here"}


def test_giving_up_while_waiting_kills_nobody(shared):
    async def use(seam):
        before = (await seam.run("echo", {}))["pid"]
        running = asyncio.create_task(seam.run("slow", {"seconds": 0.3}))
        await asyncio.sleep(0.05)
        waiting = asyncio.create_task(seam.run("echo", {}))
        await asyncio.sleep(0.05)
        waiting.cancel()
        return before, (await running)["pid"], (await seam.run("echo", {}))["pid"]

    before, running, after = shared(use)
    assert before == running == after


def test_more_than_workers_and_queue_is_refused_at_once():
    async def use(seam):
        jobs = [asyncio.create_task(seam.run("slow", {"seconds": 0.2})) for _ in range(3)]
        await asyncio.sleep(0.02)
        with pytest.raises(Busy) as caught:
            await seam.run("echo", {})
        assert not any(job.done() for job in jobs)  # at once: nobody waited for a job to end
        assert caught.value.retry_after == 7
        assert len(await asyncio.gather(*jobs)) == 3
        return await seam.run("echo", {})

    assert "pid" in in_pool(use, queue=2, retry_after=7)


def test_waiting_too_long_for_a_worker_is_busy():
    async def use(seam):
        running = asyncio.create_task(seam.run("slow", {"seconds": 0.6}))
        await asyncio.sleep(0.05)
        with pytest.raises(Busy):
            await seam.run("echo", {})
        await running

    in_pool(use, wait_limit=0.2)


def test_the_door_stays_free_while_workers_are_busy(shared):
    length = 0.6

    async def use(seam):
        job = asyncio.create_task(seam.run("slow", {"seconds": length}))
        longest, last = 0.0, time.monotonic()
        while not job.done():
            await asyncio.sleep(0.005)
            longest, last = max(longest, time.monotonic() - last), time.monotonic()
        return longest

    assert shared(use) < length / 2  # a door that waited for the worker would be silent for all of it


def test_progress_is_delivered_in_the_loop_and_throttled():
    async def use(seam):
        got = []
        answer = await seam.run("report", {"steps": 45, "pause": 0.01}, got.append)
        seen = len(got)
        await asyncio.sleep(0.2)
        assert len(got) == seen, "progress came after the answer"
        return got, answer

    got, answer = in_pool(use, time_limit=10, grace=2)
    assert 3 <= len(got) <= 9  # 0.45 seconds and more at one message each 0.1 seconds, the first at once
    assert (got[0].share, got[0].best, got[0].bound) == (0, 100, 50)
    assert [p.share for p in got] == sorted(p.share for p in got)
    assert answer["seconds"] == 8  # the operation is told to hand back its best before it would be killed


def test_two_jobs_at_once_hear_only_their_own_progress():
    async def use(seam):
        one, two = [], []
        await asyncio.gather(
            seam.run("report", {"steps": 20, "pause": 0.01}, one.append),
            seam.run("report", {"steps": 40, "pause": 0.01}, two.append),
        )
        return one, two

    one, two = in_pool(use, workers=2)
    assert one and two
    assert all(round(p.share * 20, 6).is_integer() for p in one)
    assert all(round(p.share * 40, 6).is_integer() for p in two)


def test_a_refused_request_travels_back_as_data(shared):
    async def use(seam):
        await seam.run("refuse", {})

    with pytest.raises(RequestError) as caught:
        shared(use)
    (problem,) = caught.value.errors
    assert (problem.pointer, problem.code) == ("/a~1b/0", "odd")
    assert "7 is odd" in problem.detail


def test_a_failure_names_the_operation_and_leaks_nothing(shared):
    async def use(seam):
        await seam.run("raise_secret", {})

    with pytest.raises(OperationFailed, match="raise_secret") as caught:
        shared(use)
    assert "swordfish" not in str(caught.value)
    assert "swordfish" in caught.value.log


@pytest.mark.parametrize("operation", [*_RUBBISH, "leave", "nowhere"])
def test_rubbish_fails_by_name_and_the_worker_lives_on(shared, operation):
    async def use(seam):
        before = (await seam.run("echo", {}))["pid"]
        with pytest.raises(OperationFailed, match=operation):
            await seam.run(operation, {})
        assert (await seam.run("echo", {}))["pid"] == before

    shared(use)


def test_an_answer_that_is_too_large_is_refused(shared):
    async def use(seam):
        assert len((await seam.run("large", {"size": 19_000}))["text"]) == 19_000
        await seam.run("large", {"size": 20_000})

    with pytest.raises(AnswerTooLarge) as caught:
        shared(use)
    assert (caught.value.size, caught.value.limit) == (
        20_011,
        20_000,
    )  # {"text":"…"} takes eleven bytes beside the text


def test_prints_and_a_read_of_the_keyboard_do_no_harm(capfd):
    async def use(seam):
        return await seam.run("chatter", {})

    assert in_pool(use) == {"read": "", "heard": ""}
    assert capfd.readouterr().out == ""


def test_a_worker_that_dies_is_named_and_replaced(shared):
    async def use(seam):
        with pytest.raises(WorkerDied, match="die") as caught:
            await seam.run("die", {})
        assert caught.value.exit_code == -signal.SIGKILL
        return await seam.run("echo", {})

    assert "pid" in shared(use)


@pytest.mark.parametrize("pause", [0.0, 0.4])
def test_a_worker_killed_while_idle_costs_nobody_an_answer(shared, pause):
    async def use(seam):
        pid = (await seam.run("echo", {}))["pid"]
        os.kill(pid, signal.SIGKILL)
        await asyncio.sleep(pause)
        return pid, (await seam.run("echo", {}))["pid"]

    before, after = shared(use)
    assert before != after


def test_the_request_is_not_changed_by_an_operation_that_changes_it(shared):
    request = {"list": [1, 2, 3]}

    async def use(seam):
        await seam.run("mutate", request)

    shared(use)
    assert request == {"list": [1, 2, 3]}


def test_memory_is_bounded():
    async def use(seam):
        assert (await seam.run("hog", {"size": 10_000_000}))["got"] == 10_000_000
        with pytest.raises(OperationFailed, match="out of memory"):
            await seam.run("hog", {"size": 4_000_000_000})
        return await seam.run("echo", {})

    assert "pid" in in_pool(use, memory_bytes=2_000_000_000)


def test_a_worker_loads_only_what_it_needs(shared):
    async def use(seam):
        return (await seam.run("loaded", {}))["modules"]

    assert not {"numpy", "fastapi", "pydantic", "highspy", "pint"} & set(shared(use))


def test_stopping_ends_the_workers_and_answers_the_waiting():
    async def main():
        seam = PoolSeam(Limits(), operations=ZOO)
        await seam.start()
        pid = (await seam.run("echo", {}))["pid"]
        job = asyncio.create_task(seam.run("slow", {"seconds": 30}))
        await asyncio.sleep(0.1)
        began = time.monotonic()
        await seam.stop()
        with pytest.raises(NotRunning):
            await job
        return pid, time.monotonic() - began

    pid, took = asyncio.run(main())
    assert took < 15  # half of what the job would have taken
    assert gone(pid)


def test_a_warming_operation_that_fails_does_no_harm():
    async def main():
        seam = PoolSeam(Limits(time_limit=0.3), operations=ZOO)
        await seam.start(warm=("echo", "raise_secret", "hang"))
        try:
            return seam.ready, await seam.run("echo", {})
        finally:
            await seam.stop()

    ready, answer = asyncio.run(main())
    assert ready
    assert "pid" in answer


def test_a_killed_service_leaves_nothing_computing(tmp_path):
    mark = tmp_path / "pid"
    service = subprocess.Popen([sys.executable, "-c", _SERVICE, str(mark)], env={**os.environ, "PYTHONPATH": _PATH})
    try:
        until = time.monotonic() + 20
        while not (mark.exists() and mark.read_text()) and time.monotonic() < until:
            time.sleep(0.02)
        worker = int(mark.read_text())
        os.kill(worker, 0)  # it is there
    finally:
        service.kill()
        service.wait()
    assert gone(worker, within=5)


_PATH = os.pathsep.join(sys.path)
_SERVICE = """
import asyncio, sys
from scantling.work import Operation, PoolSeam, registry

async def main():
    seam = PoolSeam(operations=registry(Operation("hang", "unit.seam_zoo:hang")))
    await seam.start()
    await seam.run("hang", {"mark": sys.argv[1]})

if __name__ == "__main__":
    asyncio.run(main())
"""


@pytest.mark.parametrize("warm", [("age",), ()])
def test_a_worker_that_takes_the_place_of_a_killed_one_is_warm_before_it_is_asked(warm):
    async def main():
        seam = PoolSeam(operations=ZOO)
        await seam.start(warm)
        try:
            with pytest.raises(WorkerDied):
                await seam.run("die", {})
            await asyncio.sleep(0.5)
            return (await seam.run("age", {}))["seconds"]
        finally:
            await seam.stop()

    loaded_early = asyncio.run(main()) > 0.1
    assert loaded_early == bool(warm)


def test_workers_can_be_started_without_a_folder_for_temporary_files(monkeypatch):
    def none():
        raise FileNotFoundError("no usable temporary directory")

    monkeypatch.setattr("tempfile.gettempdir", none)
    assert start_method() == "spawn"

    async def use(seam):
        with pytest.raises(TimeLimit):
            await seam.run("hang", {})
        return await seam.run("echo", {"started": "afresh"})

    assert in_pool(use, time_limit=0.3)["echo"] == {"started": "afresh"}
