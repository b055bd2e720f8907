"""Every row of every table has unit, source and status; the loader refuses files that break the rules."""

import pytest

from scantling.tables import (
    Status,
    TableError,
    UnknownGauge,
    UnknownMaterial,
    UnknownRowError,
    load_table,
    material,
    materials,
    screw_gauge,
    table_names,
    table_rows,
)
from scantling.tables.table import known_units, parse_table

GOOD = """# title: a table
# key: name
# units: size mm
name,size,source,place,status
one,1.5,nds-2018,Table 1,read
"""


@pytest.mark.parametrize("name", table_names())
def test_every_row_has_unit_source_and_status(name: str) -> None:
    rows = table_rows(name)
    assert rows
    for row in rows:
        assert row["status"] in set(Status)
        source = row["source"]
        assert isinstance(source, str) and len(source) > 10
        unit = row["unit"]
        assert isinstance(unit, str) and unit
    for row in load_table(name).rows:
        units = [part.strip() for part in row.unit.split(";")]
        columns = load_table(name).units
        given = [unit.partition(" ")[2] for unit in units] if columns else units
        assert all(unit in known_units() for unit in given)
        assert any(isinstance(cell, float) for cell in row.cells.values())


@pytest.mark.parametrize(
    ("change", "said"),
    [
        (("# title: a table\n", ""), "title"),
        (("size mm", "size furlongs"), "furlongs"),
        (("# units: size mm\n", ""), "no column has a unit"),
        (("1.5,", "about one,"), "not a number"),
        (("nds-2018", "hearsay"), "hearsay"),
        (("Table 1", ""), "place"),
        (("read\n", "certain\n"), "certain"),
        (("one,1.5,nds-2018,Table 1,read\n", "one,1.5,nds-2018,Table 1,read\n" * 2), "twice"),
        (("one,1.5", "one,1.5,2"), "cells"),
        (("source,place,status", "status,place,source"), "last columns"),
        (("name,size", "name,width"), "not there"),
    ],
)
def test_a_file_that_breaks_a_rule_is_refused(change: tuple[str, str], said: str) -> None:
    with pytest.raises(TableError, match=said):
        parse_table("sample", GOOD.replace(*change))


def test_a_good_file_is_read() -> None:
    row = parse_table("sample", GOOD).rows[0]
    assert row.number("size") == 1.5
    assert row.unit == "size mm"
    assert row.to_plain()["source"].startswith("ANSI/AWC National Design Specification")
    with pytest.raises(TableError):
        row.number("name")


def test_unknown_names_answer_with_the_nearest() -> None:
    with pytest.raises(UnknownMaterial, match="birch-plywood") as caught:
        material("birch-ply")
    assert caught.value.nearest[0] == "birch-plywood"
    with pytest.raises(UnknownGauge, match="10, 12"):
        screw_gauge(11)
    with pytest.raises(UnknownRowError, match="materials"):
        load_table("material")


def test_material_ids_are_kebab_case_with_a_title_and_a_weight() -> None:
    for name, row in materials().items():
        assert name == name.lower().replace(" ", "-")
        assert row.title
        assert 250 < row.density_kg_m3 < 1100
        assert row.kind in ("panel", "softwood", "hardwood")


@pytest.mark.parametrize(
    "name",
    [
        "birch-plywood",
        "softwood-plywood",
        "douglas-fir-plywood",
        "marine-plywood",
        "osb",
        "mdf",
        "particleboard",
        "hardboard",
        "douglas-fir",
        "southern-pine",
        "spruce-pine-fir",
        "hem-fir",
        "western-red-cedar",
        "redwood",
        "white-oak",
        "red-oak",
        "yellow-poplar",
        "sugar-maple",
        "cherry",
        "walnut",
        "ash",
        "larch",
        "scots-pine",
        "teak",
    ],
)
def test_the_agreed_materials_are_there(name: str) -> None:
    assert material(name).id == name
