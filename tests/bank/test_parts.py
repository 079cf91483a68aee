"""Pointing at parts and naming them: the letters stand on the right part, and no name is given away."""

import re
from itertools import combinations
from math import hypot

import pytest

from bitepoint.bank import exercise_named
from bitepoint.errors import OutOfRange
from bitepoint.page.kinds import view_of
from bitepoint.pictures import draw
from bitepoint.pictures.clutch.letters import BADGE
from bitepoint.workshop.part_names import KIT, SECTION

POINTED = ("carry.name-parts", "kit.name-parts")


def drawn(id):
    """Yield the exercise's questions for thirty learners and four turns."""
    for n in range(30):
        for turn in (1, 2, 3, 4):
            yield exercise_named(id).draw(class_word="amber", learner=f"learner-{n}", turn=turn)


def area(points):
    """Area of a polygon by its corners."""
    pairs = list(zip(points[::2], points[1::2], strict=True))
    turns = zip(pairs, [*pairs[1:], pairs[0]], strict=True)
    return abs(sum(x1 * y2 - x2 * y1 for (x1, y1), (x2, y2) in turns)) / 2


@pytest.mark.parametrize("letter", "ABCD")
def test_a_letter_of_the_section_stands_on_the_part_of_that_name(letter):
    """The lettered picture has the outline of the named picture under each letter."""
    named = {r.key: r for r in draw("clutch-section", vehicle=letter).regions}
    for place, part in enumerate(SECTION):
        if part.key in named:
            (region,) = draw("clutch-lettered", vehicle=letter, places=[place]).regions
            assert (region.key, region.shape, region.points) == ("a", named[part.key].shape, named[part.key].points)


@pytest.mark.parametrize("letter", "ABCD")
def test_a_letter_of_the_kit_stands_on_the_part_of_that_name(letter):
    """Letters follow the list of parts, whose order is the drawing's."""
    named = [r.points for r in draw("kit-exploded", vehicle=letter).regions]
    shown = draw("kit-lettered", vehicle=letter, letters="ihgfedcba").regions
    assert named == [r.points for r in shown]
    keys = [r.key for r in draw("kit-exploded", vehicle=letter).regions]
    assert [p.key for p in KIT if p.key != "release"] == [k for k in keys if k not in ("bearing", "slave")]


@pytest.mark.parametrize("id", POINTED)
def test_the_right_letter_is_the_part_asked_for(id):
    """Worked back from the picture's own figures."""
    for q in drawn(id):
        right = str(q.right_answer())
        if id == "carry.name-parts":
            part = SECTION[q.picture.parameters["places"]["abcdefghi".index(right)]]
        else:
            part = KIT[q.picture.parameters["letters"].index(right)]
        assert part.seen in q.step
        assert part.name in q.ask or part.job in q.ask or id == "kit.name-parts"


@pytest.mark.parametrize("id", [*POINTED, "carry.which-part"])
def test_neither_picture_nor_places_hold_a_name(id):
    """A letter has no name beside it: not in the drawing, the alt text, the caption, or the list of places."""
    names = [p.name for p in (*SECTION, *KIT) if p.name not in ("label", "cover", "hub")]
    for q in drawn(id):
        picture = draw(q.picture.key, **q.picture.parameters)
        words = " ".join(re.findall(r">([^<>]+)<", str(picture.content))) + picture.alt + picture.caption
        words = words.replace("A kit with a rigid flywheel", "")
        assert [name for name in names if name in words] == []
        if id in POINTED:
            options = [o["text"] for o in view_of(q).spec(q, "t", True)["options"]]
            assert options == [f"place {s.key.upper()}" for s in q.spots]


@pytest.mark.parametrize("id", POINTED)
def test_places_are_large_enough_to_hit_and_their_letters_are_apart(id):
    """Every place covers 100 square units; no two letters touch; a letter's place is told to the control."""
    for q in drawn(id):
        regions = draw(q.picture.key, **q.picture.parameters).regions
        assert all(r.shape == "rect" or area(r.points) > 100 for r in regions)
        at = [r.at for r in regions]
        assert all(len(a) == 2 for a in at)
        apart = [(a[0] - b[0]) ** 2 + (a[1] - b[1]) ** 2 for i, a in enumerate(at) for b in at[:i]]
        assert min(apart) > 34**2


@pytest.mark.parametrize("id", POINTED)
def test_every_wrong_place_says_what_stands_there_and_what_the_mix_up_costs(id):
    """Name, job and consequence: at least three sentences, none of them the place of the right part."""
    for q in drawn(id):
        for spot in q.spots:
            if not spot.right:
                assert spot.says.count(".") >= 3
                assert spot.says.split(".")[0].startswith(("This is the ", "These are the "))
                assert q.right_answer().upper() + "." not in spot.says


@pytest.mark.parametrize("letter", "ABCD")
def test_the_letters_of_a_section_do_not_cover_each_other(letter):
    """Whichever parts are asked, two rings stand at least a ring apart."""
    places = [
        i
        for i, part in enumerate(SECTION)
        if part.key in {r.key for r in draw("clutch-section", vehicle=letter).regions}
    ]
    drawable = []
    for place in places:
        try:
            draw("clutch-lettered", vehicle=letter, places=[place])
        except OutOfRange:
            continue
        drawable.append(place)
    for chosen in combinations(drawable[:10], 6):
        spots = [region.at for region in draw("clutch-lettered", vehicle=letter, places=chosen).regions]
        assert all(hypot(a[0] - b[0], a[1] - b[1]) >= 2 * BADGE for a, b in combinations(spots, 2))
