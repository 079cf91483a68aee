"""Lesson 5, strip-down and inspection: what bare parts show, leaks, patterns of wear, damage and what it means."""

from bitepoint.bank.forms import form_of
from bitepoint.bank.registry import exercise
from bitepoint.bank.strip.outcomes import DECIDES, READS
from bitepoint.questions.choice import Choice, Several
from bitepoint.questions.draw import Draw
from bitepoint.questions.question import Picture
from bitepoint.questions.region import Spot
from bitepoint.questions.spots import Spots
from bitepoint.workshop.damage import Damage, damage
from bitepoint.workshop.scenes import LETTERS


@exercise("strip.look-where", lesson="strip", outcome=READS, minutes=2, title="Choose what to look at while it is bare")
def look_where(draw: Draw) -> Several:
    car = draw.vehicle()
    return form_of(draw).several(draw, vehicle=car.id, car=car.name)


@exercise("strip.leak", lesson="strip", outcome=READS, minutes=1.5, title="Say whose oil it is")
def leak(draw: Draw) -> Choice:
    form = form_of(draw)
    picture = Picture("leak-traces", {"trace": form.key})
    return form.choice(draw, right=form.key, picture=picture, long=draw.integer(6, 18))


@exercise("strip.pattern", lesson="strip", outcome=READS, minutes=1.5, title="Find the cause of a pattern")
def pattern(draw: Draw) -> Choice:
    return form_of(draw).choice(draw, km=draw.integer(5, 15) * 10)


_FACES = ("hot-spots", "heat-cracks")
"""Both show the friction face: only one of them lies on a bench."""
_DECIDED = {"replace": "replace it", "stop and ask": "stop and ask", "reuse": "reuse it"}


def _spot(letter: str, part: Damage, damaged: bool) -> Spot:
    """A crack left unseen could kill; a sound part that is marked costs money only."""
    name = part.overlooks if damaged else f"throws away what is sound: {part.name}"
    says = f"{part.does}." if damaged else f"{part.fine} A sound part thrown away is money gone."
    return Spot(letter, part.name, damaged, name, says, damaged and part.weight == 3)


@exercise("strip.find-damage", lesson="strip", outcome=READS, minutes=2.5, title="Find the damage")
def find_damage(draw: Draw) -> Spots:
    known, size = damage(), 4 + draw.form(3)
    face = draw.pick(*_FACES)
    parts = draw.sample([id for id in known if id == face or id not in _FACES], size)
    damaged = draw.sample(parts, draw.integer(2, size - 2))
    ids = [id for id in parts if id in damaged]
    return Spots(
        ask=f"{size} parts lie on the bench. Mark each one that is damaged.",
        typed_as="Typed, the answer is the letters.",
        spots=tuple(_spot(letter, known[id], id in damaged) for letter, id in zip(LETTERS, parts, strict=False)),
        picture=Picture("parts-bench", {"parts": parts, "damaged": ids}),
        why="Colour, lines, wet, level, straight, whole: six looks, and each part is told.",
        step="At each part ask: even in colour, dry, straight, whole, and as high as its neighbour?",
        solution="\n".join(
            f"{letter.upper()}, {known[id].name}: {known[id].does}. So: {_DECIDED[known[id].decision]}."
            for letter, id in zip(LETTERS, parts, strict=False)
            if id in damaged
        ),
        source="common-practice",
    )


@exercise("strip.damage-means", lesson="strip", outcome=DECIDES, minutes=1.5, title="Say what the damage means")
def damage_means(draw: Draw) -> Choice:
    form = form_of(draw)
    return form.choice(draw, picture=Picture("damage", {"what": form.key}), km=draw.integer(60, 160))
