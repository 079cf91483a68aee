"""Tightening orders and passes as published."""

import pytest

from bitepoint.mechanics.tightening import (
    even_circle_deg,
    is_star,
    out_of_balance,
    peak_out_of_balance,
    stage_torques_nm,
    star_order,
)
from bitepoint.sources import SOURCES

# order, source, section, seen
ORDERS = [
    ("1 9 5 13 3 11 7 15 2 10 4 12 6 14 8 16", "mil-hdbk-60", "5.7 and figure 4, pages 10 and 11", "print"),
    ("1 3 2 4", "asme-pcc-1-legacy", "legacy cross pattern", "memory"),
    ("1 5 3 7 2 6 4 8", "asme-pcc-1-legacy", "legacy cross pattern", "memory"),
    ("1 7 4 10 2 8 5 11 3 9 6 12", "asme-pcc-1-legacy", "legacy cross pattern", "quoted"),
    ("1 9 5 13 3 11 7 15 2 10 6 14 4 12 8 16", "asme-pcc-1-legacy", "legacy cross pattern", "memory"),
    (
        "1 11 6 16 3 13 8 18 5 15 10 20 2 12 7 17 4 14 9 19",
        "asme-pcc-1-legacy",
        "legacy cross pattern",
        "memory",
    ),
]


@pytest.mark.parametrize(("order", "source", "section", "seen"), ORDERS)
def test_published_order_is_a_star(order, source, section, seen):
    """A published cross pattern passes, and balances again after every pair."""
    assert source in SOURCES, (section, seen)
    bolts = [int(b) for b in order.split()]
    circle = even_circle_deg(len(bolts))
    assert is_star(circle, bolts)
    assert pytest.approx(1, abs=1e-9) == peak_out_of_balance(circle, bolts)
    after_pairs = [out_of_balance(circle, bolts[:n]) for n in range(2, len(bolts) + 1, 2)]
    assert pytest.approx([0] * len(after_pairs), abs=1e-9) == after_pairs


@pytest.mark.parametrize(("order", "source", "section", "seen"), ORDERS[:3])
def test_our_order_is_the_published_one(order, source, section, seen):
    """For 16 bolts ours is figure 4 of MIL-HDBK-60; for 4 and 8 that of the legacy guideline."""
    bolts = tuple(int(b) for b in order.split())
    assert bolts == star_order(even_circle_deg(len(bolts))), (source, section, seen)


def test_twelve_bolts_as_in_six_army_manuals():
    """TM 5-3805-298-23-2 WP 0176 (quoted): its circular pattern starts as a cross and is a star.

    The page leaves open which of the labels 10 and 12 is left: read so that pairs are opposite.
    """
    labels_clockwise = [1, 5, 12, 3, 9, 7, 2, 6, 11, 4, 10, 8]
    order = [labels_clockwise.index(label) + 1 for label in range(1, 13)]
    first_four = [1, 7, 4, 10]
    assert first_four == order[:4]
    assert is_star(even_circle_deg(12), order)


# final torque, percentages, torques of the passes, source, section, seen
PASSES = [
    (60, (70, 100), (42, 60), "tm-army-70-100", "pattern at 70 %, then at 100 %", "quoted"),
    (100, (30, 60, 100), (30, 60, 100), "asme-pcc-1-trade-pages", "4 and 8 bolts", "quoted"),
    (100, (20, 40, 80, 100), (20, 40, 80, 100), "asme-pcc-1-trade-pages", "12 and more bolts", "quoted"),
]


@pytest.mark.parametrize(("final", "percentages", "expected", "source", "section", "seen"), PASSES)
def test_published_passes(final, percentages, expected, source, section, seen):
    """Two published rules for the passes differ; both are accepted and give their torques."""
    assert source in SOURCES, (section, seen)
    assert pytest.approx(expected, rel=1e-12) == stage_torques_nm(final, percentages=percentages)
