"""The picture of the preload says what the mechanics says, not what a trade saying says."""

from bitepoint.mechanics.tightening import even_circle_deg, tilt
from bitepoint.pictures.bolts.joints import EXAMPLE_LOSS, story


def test_one_pass_in_the_star_lifts_neither_the_mean_nor_the_weakest_bolt() -> None:
    """In one pass the star only takes the tilt away."""
    circle, star, *_ = (preloads for _, preloads in story(6, EXAMPLE_LOSS))
    assert round(sum(circle), 9) == round(sum(star), 9)
    assert round(min(circle), 9) == round(min(star), 9) == 0.74
    assert [round(100 * tilt(even_circle_deg(6), f), 1) for f in (circle, star)] == [3.6, 0.0]


def test_stages_and_second_round_bring_the_preload_back() -> None:
    """The weakest bolt rises with the stages and again with the second round."""
    weakest = [round(100 * min(preloads)) for _, preloads in story(6, EXAMPLE_LOSS)]
    assert weakest == [74, 74, 89, 99]
