"""Lesson 5, strip-down and inspection: damaged parts among sound ones on the bench, and what one damaged part means."""

from bitepoint.bank.cases import Case, choice_from
from bitepoint.bank.registry import exercise
from bitepoint.bank.strip.common import DECIDES, READS
from bitepoint.questions.choice import Choice
from bitepoint.questions.draw import Draw
from bitepoint.questions.question import Mistake, Picture
from bitepoint.questions.region import Spot
from bitepoint.questions.spots import Spots
from bitepoint.workshop.damage import Damage, damage
from bitepoint.workshop.scenes import LETTERS

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
        ask=f"{size} parts from {draw.integer(2, 4)} cars lie on the bench. Mark each one that is damaged. "
        "Typed, the answer is the letters.",
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


def _splines(miles: int) -> Case:
    return Case(
        f"Input shaft as drawn, after {miles} thousand miles. The new plate hangs for a moment where the old hub sat. "
        "What does it mean, and what do you do?",
        "The hub would hang and drag: stop and ask",
        (
            Mistake(
                "Only rust: more grease, and on it goes",
                "cures a step with grease",
                "Grease fills a step for a day, then it flies onto the facing. The clutch drags and slips.",
            ),
            Mistake(
                "Wear from running in: a new plate beds in",
                "thinks that splines bed in",
                "Splines do not bed in. The hub hangs on the step, and the gears grate from the first day.",
            ),
            Mistake(
                "File the step away, all round",
                "files the splines",
                "Filed teeth leave play. The hub rocks, and the next step is there soon.",
            ),
        ),
        "A step that a fingernail catches stays. A new shaft means opening the gearbox, and that is not yours to decide.",
        "Can this be put right here, with the gearbox shut?",
    )


def _oiled(miles: int) -> Case:
    return Case(
        f"Facing as drawn, after {miles} thousand miles. The new plate is in its box. What does it mean, and what do you do?",
        "Oil came from somewhere: find and cure the leak, then a new plate",
        (
            Mistake(
                "Fit the new plate: the old one took the oil along",
                "treats the trace and not the leak",
                "The leak is still there. It oils the new facing, and everything comes out again.",
            ),
            Mistake(
                "Wash the facing with brake cleaner and use it again",
                "washes an oiled facing",
                "Oil sits deep in the facing and comes back with the first heat. The clutch slips and judders.",
            ),
            Mistake(
                "Burn the oil out with a flame",
                "burns a facing out",
                "Flame and oil make smoke and fire, and the facing crumbles. It lets go at speed.",
                True,
            ),
        ),
        "Streaks that start at the hub come from in there. Seal and shaft are looked at before anything new goes in.",
        "Where do the streaks begin, and what sits there?",
    )


def _fingers(miles: int) -> Case:
    return Case(
        f"Fingers of the old cover as drawn, after {miles} thousand miles. The kit brings a new cover. "
        "What does it mean, and what do you do?",
        "Look for what bent them: bearing, guide tube, stop; then the new cover",
        (
            Mistake(
                "Nothing: the new cover cures it",
                "takes every wear for normal",
                "What bent these fingers is still in the car. The new ones are bent the same way.",
            ),
            Mistake(
                "Bend the tips level with pliers and use it again",
                "bends fingers back",
                "Hard steel bent back cracks. A finger breaks off and flies about in the housing.",
                True,
            ),
            Mistake(
                "Flatten the new cover's fingers to match",
                "matches new to old",
                "The new fingers are level, and so they should be. Uneven, they make the clutch judder and drag.",
            ),
        ),
        "Fingers bend when a bearing tilts or travels too far. Without the cause the new cover goes the same way.",
        "Which part touches these tips, and what could push it askew?",
    )


def _mount(miles: int) -> Case:
    return Case(
        f"Engine mount as drawn, after {miles} thousand miles. The customer came because of judder. "
        "What does it mean, and what do you do?",
        "The engine rocks on it: new mount now, and tell the customer",
        (
            Mistake(
                "Leave it: mounts have nothing to do with a clutch",
                "looks at the clutch only",
                "An engine that rocks makes the best clutch judder. The customer is back in a week.",
            ),
            Mistake(
                "Fill the tear with sealant",
                "glues a torn mount",
                "Glued rubber tears at the first start. The engine hangs, and pipes and shafts take the pull.",
            ),
            Mistake(
                "Tighten its bolts more",
                "thinks that tight cures torn",
                "The bolts hold the brackets, not the rubber. It goes on rocking, and a bolt breaks.",
            ),
        ),
        "Torn rubber cannot be mended. While the gearbox is out, the way to it is free.",
        "What holds the engine still when the clutch takes up?",
    )


_SHOWN = ("worn-splines", "oil-on-facing", "bent-fingers", "torn-mount")


@exercise("strip.damage-means", lesson="strip", outcome=DECIDES, minutes=1.5, title="What the damage means")
def damage_means(draw: Draw) -> Choice:
    form, miles = draw.form(4), draw.integer(40, 95)
    case = (_splines, _oiled, _fingers, _mount)[form](miles)
    part = damage()[_SHOWN[form]]
    return choice_from(draw, case, source=part.source, picture=Picture("damage", {"what": part.id}))
