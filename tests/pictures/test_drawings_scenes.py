"""Workshop scenes: every place lettered, listed and decidable; nothing in the picture says which are hazards."""

import pytest

from bitepoint.errors import BadInput
from bitepoint.pictures import draw
from bitepoint.workshop.scenes import scenes

CASES = [(id, ()) for id in scenes()] + [(id, scene.can_be_bad()) for id, scene in scenes().items()]
EVERY = pytest.mark.parametrize(
    ("scene", "wrong"), CASES, ids=lambda value: value if isinstance(value, str) else len(value)
)


@EVERY
def test_every_place_has_its_region_and_its_letter(scene: str, wrong: tuple[str, ...]) -> None:
    """Eight regions in the order of their letters; the letter stands in the picture where the region says."""
    drawing = draw(scene, wrong=wrong)
    assert "".join(r.key for r in drawing.regions) == "abcdefgh"
    assert [r.label for r in drawing.regions] == [place.name for place in scenes()[scene].places]
    for region in drawing.regions:
        x, y = region.at
        assert f'x="{x:g}" y="{y + 7:g}"' in str(drawing.content)


@pytest.mark.parametrize(("scene", "place"), [(id, place) for id in scenes() for place in scenes()[id].can_be_bad()])
def test_each_hazard_is_drawn(scene: str, place: str) -> None:
    """Drawn as a hazard, a place looks different and is told differently; the other places are told as before."""
    good, bad = draw(scene), draw(scene, wrong=[place])
    assert good.content != bad.content
    told = [one for one in scenes()[scene].places if one.id == place][0]
    assert bad.alt == good.alt.replace(f"{told.name}: {told.good}.", f"{told.name}: {told.bad}.")


@EVERY
def test_the_picture_shows_but_does_not_judge(scene: str, wrong: tuple[str, ...]) -> None:
    """Neither picture nor alt text calls a place a hazard, wrong or missing; its words are the same, good or bad."""
    drawing = draw(scene, wrong=wrong)
    told = (str(drawing.content) + drawing.alt).casefold()
    assert [word for word in ("hazard", "danger", "wrong", "missing", "unsafe") if word in told] == []
    assert [r.label for r in drawing.regions if r.label not in drawing.alt] == []


@EVERY
def test_regions_stay_inside_and_do_not_cover_each_other(scene: str, wrong: tuple[str, ...]) -> None:
    """No middle of one place and no letter lies inside another place or letter, so that a click means one thing."""
    shapes = draw(scene, wrong=wrong).regions
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
        for other in shapes:
            apart = ((shape.at[0] - other.at[0]) ** 2 + (shape.at[1] - other.at[1]) ** 2) ** 0.5
            assert other is shape or apart > 32, (shape.key, other.key)
        assert (15 <= shape.at[0] <= 705, 44 <= shape.at[1] <= 511) == (True, True), shape.key


def test_what_cannot_be_wrong_is_refused() -> None:
    """A place that is always right cannot be drawn as a hazard."""
    with pytest.raises(BadInput, match="'driver' cannot be wrong in bay-engine-running"):
        draw("bay-engine-running", wrong=["driver"])
