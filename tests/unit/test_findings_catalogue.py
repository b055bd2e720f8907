"""The catalogue of finding codes: it loads, every code the code gives is in it, and none of it is left over."""

import ast
from pathlib import Path

from scantling.findings import Finding, Severity, catalogue, grouped, ranked

ROOT = Path(__file__).parents[2]
SHIPPED = ROOT / "plugins" / "scantling_furniture"  # the examples beside it declare codes of their own
SOURCES = sorted([*(ROOT / "service").rglob("*.py"), *SHIPPED.rglob("*.py")])


def strings():
    """Every text constant of the service and the shipped plugins, with the file it stands in."""
    for file in SOURCES:
        for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Constant) and isinstance(node.value, str):
                yield node.value, file


def given():
    """Every code given as a literal to Finding(...), with the file."""
    for file in SOURCES:
        for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
            named = isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id == "Finding"
            if named and node.args and isinstance(node.args[0], ast.Constant):
                yield node.args[0].value, file.name


def test_every_code_given_is_in_the_catalogue():
    unknown = {(code, file) for code, file in given() if code not in catalogue()}
    assert unknown == set()


def test_no_code_of_the_catalogue_is_left_over():
    used = {text for text, _ in strings()}
    assert [code for code in catalogue() if code not in used] == []


def test_every_entry_says_what_it_is_and_what_mends_it():
    for code, entry in catalogue().items():
        assert entry.title and entry.meaning and entry.remedy, code
        assert code == code.lower() and " " not in code


def test_findings_are_ranked_errors_first_and_like_ones_gathered():
    notes = [Finding("push-stick", Severity.NOTE, f"Rip {i}.", parts=(f"p{i}",)) for i in range(5)]
    error = Finding("parts-overlap", Severity.ERROR, "Two parts stand in each other.")
    assert ranked([*notes, error])[0] is error
    kept = grouped([*notes, error])
    assert [f.code for f in kept] == ["parts-overlap", "push-stick"]
    assert kept[1].parts == ("p0", "p1", "p2", "p3", "p4")
    assert "4 more like it" in kept[1].message
