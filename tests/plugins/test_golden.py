"""Golden output of the shipped modules: regression only. It shows what changed, line by line."""

import pytest

from pieces import MODULES
from scantling.testkit.golden import assert_golden, golden_text


@pytest.mark.parametrize("id", sorted(MODULES))
def test_what_a_module_builds_is_what_it_built_before(id, golden):
    golden(MODULES[id])


def test_a_change_is_shown_as_the_lines_that_changed(tmp_path):
    module, file = MODULES["bookcase"], tmp_path / "bookcase.txt"
    assert_golden(module, file, update=True)
    with pytest.raises(AssertionError, match=r"-1 × back: 1030\.00") as shown:
        assert_golden(module, file, update=False, values={"height": 1200})
    assert "+1 × back: 1130.00" in str(shown.value)


def test_a_missing_file_says_how_to_make_it(tmp_path):
    with pytest.raises(AssertionError, match="--update-golden"):
        assert_golden(MODULES["bookcase"], tmp_path / "none.txt", update=False)


def test_the_text_names_every_part_once():
    text = golden_text(MODULES["storage-footstool"])
    assert "8 × leg strip" in text
    assert "bevel 45.00°" in text
