"""How long each picture takes to draw after the first time; wanted: a mean under 0.3 s on a quiet machine."""

import pytest

from bitepoint.pictures import draw, keys


@pytest.mark.benchmark(group="pictures", warmup=True, warmup_iterations=1, min_rounds=3, max_time=0.2)
@pytest.mark.parametrize("key", keys())
def test_drawing_one_picture(benchmark, key):
    """With its defaults, as a lesson shows it."""
    assert benchmark(draw, key).alt
