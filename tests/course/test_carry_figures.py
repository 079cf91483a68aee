"""Lesson 1: what its curve of a diaphragm spring shows follows from the data sheet."""

import re

import pytest

from bitepoint.mechanics.spring import load_ratio
from bitepoint.workshop.vehicles import vehicle

from .lessons import NOTEBOOKS, notebook, source


def test_the_dot_on_the_spring_curve_is_the_new_clamp_load() -> None:
    """The picture's parameters put the dot at the sheet's clamp load of training vehicle A."""
    cell = next(c for c in notebook(NOTEBOOKS[1])["cells"] if c["id"] == "pic-diaphragm-curve")
    given = {k: float(v) for k, v in re.findall(r"(\w+)=([\d.]+)", source(cell))}
    place = given["travel_mm"] / given["cone_mm"]
    load = given["flat_load_n"] * load_ratio(place, height_ratio=given["height_ratio"])
    assert load == pytest.approx(vehicle("A").clutch.clamp_load_new_n, rel=0.002)
