"""The module as the service builds it: run with the plugin installed beside the service."""

import pytest
from scantling_plant_stand.plant_stand import PlantStand

from scantling.testkit import assert_conforms, assert_plugin_conforms
from scantling.work import run


def parts(**parameters):
    """Return what POST /v1/modules/plant-stand/parts answers."""
    return run("parts", {"module": "plant-stand", "parameters": parameters})


def test_the_service_lists_it():
    plugins = {row["name"]: row for row in run("plugins", {})["plugins"]}
    assert plugins["plant-stand"]["status"] == "loaded", plugins["plant-stand"]["reason"]
    assert "plant-stand" in [module["id"] for module in run("modules", {})["modules"]]


def test_it_keeps_the_rules_of_a_furniture_module():
    assert_conforms(PlantStand)


def test_it_keeps_the_rules_of_a_plugin():
    assert_plugin_conforms("plant-stand")


@pytest.mark.parametrize("name", ["width", "depth", "height"])
def test_it_has_the_size_that_was_asked_for(name):
    for size in (300, 347.5, 450):
        assert parts(**{name: size})["overall"][f"{name}_mm"] == pytest.approx(size)


@pytest.mark.parametrize("thickness", [17.0, 17.7, 19.0])
def test_the_rail_fits_at_every_thickness(thickness):
    asked = {"module": "plant-stand", "materials": {"panel": {"thickness": thickness}}}
    rail = next(row for row in run("parts", asked)["parts"] if row["name"] == "rail")
    assert rail["length_mm"] == pytest.approx(420 - 2 * 20 - 2 * thickness)


@pytest.mark.parametrize("width", [250, 900])
@pytest.mark.parametrize("depth", [150, 450])
@pytest.mark.parametrize("height", [200, 380, 500])
def test_every_size_on_offer_can_be_built(width, depth, height):
    findings = parts(width=width, depth=depth, height=height)["findings"]
    assert [finding["message"] for finding in findings if finding["severity"] == "error"] == []
