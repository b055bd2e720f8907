"""A plugin that is really installed: found by its entry point and run in real workers, where it harms no one."""

import asyncio

import pytest

from scantling.work import Limits, OperationFailed, PluginChoice, PoolSeam, TimeLimit, WorkerDied

METADATA = "Metadata-Version: 2.1\nName: zoo-furniture\nVersion: 3.2\n"
ENTRY_POINTS = "[scantling]\nzoo = plugins.plugin_zoo:LOADED_IN_WORKERS\nbroken = no_such_module:plugin\n"


@pytest.fixture
def installed(tmp_path, monkeypatch):
    """Install the zoo as a distribution of its own, for this process and for the workers it starts."""
    info = tmp_path / "zoo_furniture-3.2.dist-info"
    info.mkdir()
    (info / "METADATA").write_text(METADATA)
    (info / "entry_points.txt").write_text(ENTRY_POINTS)
    monkeypatch.syspath_prepend(str(tmp_path))


def in_workers(use, **limits):
    async def main():
        seam = PoolSeam(Limits(**limits), PluginChoice(allow=("zoo", "broken")))
        await seam.start(warm=("modules",))
        try:
            return await use(seam)
        finally:
            await seam.stop()

    return asyncio.run(main())


def parts(seam, module):
    return seam.run("parts", {"module": module, "units": "mm", "parameters": {}})


def test_an_installed_plugin_gives_its_modules_and_a_broken_one_is_listed(installed):
    async def use(seam):
        return await seam.run("modules", {}), await seam.run("plugins", {}), await parts(seam, "wall-shelf")

    modules, plugins, shelf = in_workers(use)
    assert "wall-shelf" in [one["id"] for one in modules["modules"]]
    rows = {row["name"]: row for row in plugins["plugins"]}
    assert (rows["zoo"]["status"], rows["zoo"]["distribution"], rows["zoo"]["version"]) == (
        "loaded",
        "zoo-furniture",
        "3.2",
    )
    assert (rows["broken"]["status"], rows["broken"]["reason"]) == (
        "failed",
        "ModuleNotFoundError: No module named 'no_such_module'",
    )
    assert [part["id"] for part in shelf["parts"]] == ["shelf"]


def test_what_a_module_does_in_a_worker_harms_no_one(installed):
    async def use(seam):
        with pytest.raises(TimeLimit, match="parts"):
            await parts(seam, "hangs")
        with pytest.raises(WorkerDied, match="parts"):
            await parts(seam, "kills")
        for module in ("raises", "rubbish", "mutates"):
            with pytest.raises(OperationFailed) as caught:
                await parts(seam, module)
            assert caught.value.culprit == "zoo"
        return await parts(seam, "wall-shelf")

    assert len(in_workers(use, time_limit=2.0)["parts"]) == 1
