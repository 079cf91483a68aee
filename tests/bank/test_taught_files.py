"""A taught.toml is read typed, and one line says what is wrong with it."""

import pytest

from bitepoint.bank.taught import Taught, read_taught
from bitepoint.errors import BadData

LINE = '"strip.hub-nut" = {{ lesson = "{}", cell = "hub-nut", says = "{}" }}'


def written(tmp_path, text):
    path = tmp_path / "taught.toml"
    path.write_text(text, encoding="utf-8")
    return path


def test_one_cell_and_a_list_of_cells_read_alike(tmp_path):
    """An exercise has a row of cells, also where the file names one."""
    one = LINE.format("strip", "on the foot brake")
    two = '"strip.leak" = [{ lesson = "strip", cell = "a", says = "oil runs down" }, { lesson = "carry", cell = "b", says = "it slips then" }]'
    table = read_taught(written(tmp_path, f"{one}\n{two}\n"))
    assert (Taught("strip", "hub-nut", "on the foot brake"),) == table["strip.hub-nut"]
    assert ["a", "b"] == [taught.cell for taught in table["strip.leak"]]


@pytest.mark.parametrize(
    ("text", "told"),
    [
        (LINE.format("strap", "on the foot brake"), "strip.hub-nut: 'strap' is no lesson"),
        (LINE.format("strip", "brake"), "strip.hub-nut: says must be 3 words or more"),
        ('"strip.leak" = []', "strip.leak: must name a cell at least"),
        ('"strip.leak" = { lesson = "strip", sell = "a" }', "sell"),
    ],
)
def test_what_cannot_be_used_is_named(tmp_path, text, told):
    """File, exercise and rule stand in the line."""
    with pytest.raises(BadData, match="taught.toml") as caught:
        read_taught(written(tmp_path, text))
    assert told in str(caught.value)
