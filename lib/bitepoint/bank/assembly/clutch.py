"""Lesson 9, assembly: the plate's side and the centring tool."""

from bitepoint.bank.assembly.common import CLUTCH, mark_of
from bitepoint.bank.cases import Case, choice_from
from bitepoint.bank.registry import exercise
from bitepoint.questions.choice import Choice
from bitepoint.questions.draw import Draw
from bitepoint.questions.question import Mistake

_REVERSED = "The wrong way round, hub or springs touch the flywheel bolts. The clutch does not release."


@exercise(
    "assembly.plate-side",
    lesson="assembly",
    outcome=CLUTCH,
    minutes=1.5,
    title="The side of the plate",
)
def plate_side(draw: Draw) -> Choice:
    car, form = draw.vehicle(), draw.form(3)
    mark = mark_of(car)
    away = "GEARBOX" in mark
    to, off = "With the marked side to the flywheel", "With the marked side to the gearbox"
    blind = Mistake(
        to if away else off,
        "does not read the word of the mark",
        f"The word says which way the side looks. {_REVERSED}",
    )
    either = Mistake(
        "Either way: it has facings on both sides",
        "thinks that a plate fits both ways",
        f"Facings look alike, hubs do not. {_REVERSED}",
    )
    longer = Mistake(
        "Always with the longer hub to the gearbox",
        "works by a rule of thumb",
        f"That is often so, but not always. Mark and sheet come first. {_REVERSED}",
    )
    cases = (
        Case(
            f"The plate of {car.name} carries the words {mark} on one side. How does it go in?",
            off if away else to,
            (blind, either, longer),
            f"{mark.capitalize()} means: this side looks to the {'gearbox' if away else 'flywheel'}.",
            "Read the word, then think which way you look when you stand behind the engine.",
        ),
        Case(
            f"The plate for {car.name} carries no mark that you can find. What do you do?",
            "Hold it to the flywheel, turn it by hand, then ask before you go on",
            (
                either,
                longer,
                Mistake(
                    "Fit it like the last one that you saw",
                    "copies another car",
                    f"Another car has another hub. {_REVERSED}",
                ),
            ),
            "On the wrong side the hub touches the bolt heads. What you found by trial, a second person confirms.",
            "What can hub or springs touch on the flywheel, and how would you feel it by hand?",
        ),
        Case(
            f"You look onto the fitted plate of {car.name} from the gearbox side and read {mark}. What does that mean?",
            "It sits the right way round" if away else "It sits the wrong way round",
            (
                Mistake(
                    "It sits the wrong way round" if away else "It sits the right way round",
                    "takes the mark for its own side",
                    "Ask which side you see from there, and which side the word names. "
                    "A reversed plate means everything apart again.",
                ),
                Mistake(
                    "Nothing: the mark only helps the maker",
                    "thinks that marks are for the maker",
                    f"The mark is for the person who fits it. {_REVERSED}",
                ),
                Mistake(
                    "Nothing: the springs decide",
                    "goes by the springs",
                    f"Springs stand out on one side or on both. {_REVERSED}",
                ),
            ),
            "From the gearbox you see the side that looks to the gearbox. The word on it must say so.",
            "You stand at the gearbox side. Which side of the plate do you see from there?",
        ),
    )
    return choice_from(draw, cases[form], source="common-practice", vehicle=car.id)


@exercise("assembly.centring-tool", lesson="assembly", outcome=CLUTCH, minutes=1.5)
def centring_tool(draw: Draw) -> Choice:
    bolts = draw.pick(6, 8, 9)
    force = Mistake(
        "Push the gearbox on harder; its shaft centres the plate",
        "lets the gearbox centre the plate",
        "A gearbox that hangs on the hub bends the plate, and it can fall. The clutch then drags.",
        True,
    )
    tap = Mistake(
        "Tap the plate into place with a drift",
        "moves a clamped plate by force",
        "Several kilonewtons hold it. Blows bend the hub and crack the facings, and the clutch judders.",
    )
    cases = (
        Case(
            f"All {bolts} cover bolts are tight. The centring tool sticks and comes out only by force. What do you do?",
            "Slacken the cover in star order, centre the plate, tighten again",
            (
                force,
                tap,
                Mistake(
                    "Leave it: it came out after all",
                    "takes a stuck tool for a centred plate",
                    "A tool that sticks shows a plate off centre. The input shaft will not go in.",
                ),
            ),
            "A centred plate lets the tool slide in and out by hand. Nothing else proves it.",
            "The cover clamps the plate. What has to happen before it can move at all?",
        ),
        Case(
            f"The cover is on by hand with {bolts} bolts. The tool rattles in the pilot bore. What do you do?",
            "Fit the pilot of the right size before tightening",
            (
                Mistake(
                    "Tighten: the play will even out",
                    "thinks that play does not matter",
                    "With play the plate sits anywhere. The shaft meets the hub's edge, and the gearbox does not go in.",
                ),
                force,
                Mistake(
                    "Centre the plate by eye",
                    "centres by eye",
                    "An eye cannot see a millimetre in there. The gearbox does not go in, and you do it twice.",
                ),
            ),
            "The tool stands in for the input shaft, so it must fit as closely as the shaft.",
            "What does the tool stand in for, and how much play does that part have?",
        ),
        Case(
            f"You find the centring tool still in the hub when {bolts} bolts are tight. What comes next?",
            "Slide it out and in again by hand, then take it out",
            (
                Mistake(
                    "Leave it in; it is only plastic",
                    "leaves the tool in",
                    "The input shaft meets it, and the gearbox does not go home. Forced, it breaks in the crankshaft.",
                ),
                tap,
                Mistake(
                    "Pull it out and throw the kit card away",
                    "leaves out the check",
                    "Pulled once, it may have come askew. Sliding in again is what proves the centre.",
                ),
            ),
            "Out and in by hand is the proof of the centre. Then it goes back to the tool board and is counted.",
            "What does the tool tell you while it slides, and what happens when it stays in?",
        ),
    )
    return choice_from(draw, cases[draw.form(3)])
