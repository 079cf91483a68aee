"""Workshop scenes: every place lettered, listed and decidable; nothing in the picture says which are hazards."""

import pytest

from bitepoint.pictures import draw
from bitepoint.pictures.hazard_scenes import HAZARDS


@pytest.mark.parametrize("scene", sorted(HAZARDS))
def test_every_place_has_its_meaning_and_its_region(scene: str) -> None:
    """Regions and meanings name the same places, eight of them."""
    assert {r.key for r in draw(scene).regions} == set(HAZARDS[scene])
    assert len(draw(scene).regions) == 8


@pytest.mark.parametrize("scene", sorted(HAZARDS))
def test_some_places_are_hazards_and_some_are_right(scene: str) -> None:
    """At least three of each; what is right is never critical."""
    meanings = HAZARDS[scene].values()
    hazards = sum(is_hazard for is_hazard, _, _ in meanings)
    assert 3 <= hazards <= 5
    assert [says for is_hazard, says, critical in meanings if critical and not is_hazard] == []


@pytest.mark.parametrize("scene", sorted(HAZARDS))
def test_the_picture_shows_but_does_not_judge(scene: str) -> None:
    """Neither picture nor alt text calls a place a hazard, wrong, right or missing; each place is told."""
    drawing = draw(scene)
    told = (str(drawing.content) + drawing.alt).casefold()
    assert [word for word in ("hazard", "danger", "wrong", "missing", "unsafe") if word in told] == []
    assert [r.label for r in drawing.regions if r.label not in drawing.alt] == []


@pytest.mark.parametrize("scene", sorted(HAZARDS))
def test_regions_stay_inside_and_do_not_cover_each_other(scene: str) -> None:
    """No middle of one place lies inside another, so that a click means one thing."""
    shapes = draw(scene).regions
    for shape in shapes:
        x, y, width, height = shape.points
        assert (x >= 0, y >= 40, x + width <= 720, y + height <= 516) == (True, True, True, True), shape.key
        middle = x + width / 2, y + height / 2
        inside = [
            o.key
            for o in shapes
            if o.points[0] <= middle[0] <= o.points[0] + o.points[2]
            and o.points[1] <= middle[1] <= o.points[1] + o.points[3]
        ]
        assert inside == [shape.key]
