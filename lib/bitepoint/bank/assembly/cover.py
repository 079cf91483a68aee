"""Lesson 9, assembly: the cover on its dowels, half-turns, the self-adjusting cover."""

from math import ceil

from bitepoint.bank.assembly.common import CLUTCH
from bitepoint.bank.cases import Case, choice_from
from bitepoint.bank.registry import exercise
from bitepoint.questions.choice import Choice
from bitepoint.questions.draw import Draw
from bitepoint.questions.number import Number, plus_minus
from bitepoint.questions.question import Mistake
from bitepoint.workshop.vehicles import vehicle


@exercise(
    "assembly.cover-positions",
    lesson="assembly",
    outcome=CLUTCH,
    minutes=1.5,
    title="Positions of the cover",
)
def cover_positions(draw: Draw) -> Choice:
    car, form = draw.vehicle(), draw.form(2)
    positions = car.clutch.cover.positions
    words = {1: "One", 2: "Two", 3: "Three"}
    bolts = Mistake(
        f"As many as it has bolts: {car.clutch.cover.n}",
        "lets the bolts decide",
        "The dowels decide, not the bolts. Beside its dowels the cover runs out of true and shakes.",
    )
    if form == 0:
        other = 2 if positions == 1 else 1
        more = 3 if positions == 2 else 2 if positions == 3 else 3
        return choice_from(
            draw,
            Case(
                f"The cover of {car.name}: {car.clutch.cover.dowels_seen}. In how many positions does it fit?",
                words[positions],
                (
                    bolts,
                    Mistake(
                        words[other],
                        "does not look at the dowels",
                        "Look at how the dowels are spaced. Guessed wrong, you force a cover or search for marks in vain.",
                    ),
                    Mistake(
                        words[more],
                        "counts wrongly",
                        "Turn the ring of dowels in your mind until it covers itself. "
                        "Guessed wrong, the cover is forced onto a dowel.",
                    ),
                ),
                "Evenly spaced dowels give as many positions as there are dowels; one that is offset gives one.",
                "Turn the dowels round in your mind. How often do they all meet a dowel again?",
            ),
            source="invented",
            vehicle=car.id,
        )
    return choice_from(
        draw,
        Case(
            f"The cover of {car.name} fits its dowels in {words[positions].lower()} "
            f"position{'s' if positions > 1 else ''}. Cover and flywheel also carry a balance mark each. How does it go on?",
            "On its dowels, with the two marks together",
            (
                Mistake(
                    "In any position; the marks do not matter",
                    "ignores balance marks",
                    "The parts were balanced together in one position. In another one the engine shakes.",
                ),
                Mistake(
                    "With the marks together, beside the dowels if need be",
                    "puts the cover beside its dowels",
                    "Only the dowels hold the cover in the middle. Beside them it bends, shakes and works loose.",
                    True,
                ),
                Mistake(
                    "With the marks opposite each other",
                    "puts heavy against heavy by guess",
                    "Marks belong together unless the sheet says otherwise. Turned, the engine shakes.",
                ),
            ),
            "Dowels carry and centre. Where balance marks exist, they pick one of the possible positions.",
            "Which parts centre the cover? And what are the marks there for?",
        ),
        source="common-practice",
        vehicle=car.id,
    )


@exercise(
    "assembly.half-turns", lesson="assembly", outcome=CLUTCH, beyond=True, minutes=2, title="Rounds of half-turns"
)
def half_turns(draw: Draw) -> Number:
    form = draw.form(2)
    car = vehicle(draw.pick("A", "B", "D"))
    pitch = car.clutch.cover.pitch_mm
    gap, a_round = draw.until(
        lambda pair: 0.05 < (pair[0] / pair[1]) % 1 < 0.95 and (pair[0] / pitch * 2) > 6,
        lambda: (draw.value(4.0, 9.0, 0.1), pitch / (2 if form == 0 else 4)),
    )
    turn = ("half a turn", "a quarter turn")[form]
    right, whole = ceil(gap / a_round), ceil(gap / pitch)
    return Number(
        ask=f"The cover of {car.name} stands off by {gap:g} mm when its bolts first touch. "
        f"The bolts are {car.clutch.cover.thread}. Each round gives every bolt {turn}. "
        "How many rounds until the cover lies flat? Count a begun round.",
        answer=float(right),
        unit="",
        within=plus_minus(0.4),
        decimals=0,
        mistakes=(
            Mistake(
                float(whole),
                "reckons with a full turn a round",
                "You reckoned with a full turn. Pulled down so fast on one side, a cover bends for good.",
            ),
            Mistake(
                float(right * 2),
                "halves the turn once more",
                "You halved the way once more. Who counts too many rounds loses count and skips a bolt.",
            ),
        ),
        why=f"{right} rounds bring it down level. A cover that goes down askew bends, and the pedal pulses.",
        step=f"One turn moves a bolt by its pitch, {pitch:g} mm. So {turn} moves it by {a_round:g} mm.",
        solution=f"{gap:g} / {a_round:g} = {gap / a_round:.1f}, so {right} rounds.",
        source="derived",
        vehicle=car.id,
    )


@exercise(
    "assembly.self-adjusting",
    lesson="assembly",
    outcome=CLUTCH,
    minutes=1.5,
    title="Self-adjusting cover",
)
def self_adjusting(draw: Draw) -> Choice:
    height, form = draw.integer(6, 12) * 10, draw.form(3)
    itself = Mistake(
        "Fit it: it adjusts itself",
        "misunderstands the name",
        "It follows wear, nothing else. Out of place, it makes the pedal heavy, and the clutch does not release.",
    )
    screw = Mistake(
        "Push the ring back with a screwdriver",
        "resets the ring by hand",
        "Pushed by hand it stands unevenly. The cover lifts askew, and the clutch drags.",
    )
    bolts = Mistake(
        "Draw it down with its bolts",
        "draws a self-adjusting cover down by its bolts",
        "The adjuster feels wear that is not there and runs on. Then the clutch does not release.",
    )
    cases = (
        Case(
            f"The new self-adjusting cover of training vehicle C fell {height} cm from the bench. Its ring has turned. What now?",
            "Do not fit it: stop and ask",
            (itself, screw, bolts),
            "A new cover, or a reset with the proper tool by an instructor if the sheet allows it.",
            "What does the ring do once it has moved, and who could bring it back evenly?",
        ),
        Case(
            f"The self-adjusting cover of training vehicle C lies on its dowels, {height // 10} mm off the flywheel. "
            "How does it go down?",
            "With the preloading tool; then the bolts go in without force",
            (
                bolts,
                Mistake(
                    "With two long bolts first, then the others",
                    "pulls a self-adjusting cover down on two sides",
                    "Two bolts load the spring askew, and the adjuster runs on. The clutch drags.",
                ),
                Mistake(
                    "With a press plate and a hammer",
                    "drives the cover down",
                    "Blows free the ring. It runs on, and the cover is scrap.",
                ),
            ),
            "The tool takes the spring's load, so the adjuster is not moved. It is let go slowly at the end.",
            "Which part must not feel any load while the cover goes down?",
        ),
        Case(
            f"A colleague wants to use the self-adjusting cover of training vehicle C again, after {height} 000 km, with a new plate. "
            "What do you say?",
            "“Not as it is: its ring stands for the worn plate”",
            (
                Mistake(
                    "“Fine, it goes back by itself”",
                    "thinks that the ring runs back",
                    "The ring runs one way only. With a thick plate the clutch is heavy and does not release.",
                ),
                Mistake(
                    "“Fine, if the face looks good”",
                    "looks only at the face",
                    "The face is not the point. The ring stands where the worn plate left it, so the clutch drags.",
                ),
                Mistake(
                    "“Fine, if you draw it down gently”",
                    "draws a self-adjusting cover down by its bolts",
                    "Gently or not, the ring stands wrong for a new plate. The clutch does not release.",
                ),
            ),
            "The ring has followed the wear and does not run back. A clutch kit brings a new cover.",
            "Where did the ring end up when the plate became thin?",
        ),
    )
    return choice_from(draw, cases[form], vehicle="C")
