"""Lesson 5, strip-down and inspection: reuse, replace, or stop and ask."""

from typing import Literal

from bitepoint.bank.cases import Case, choice_from
from bitepoint.bank.registry import exercise
from bitepoint.bank.strip.common import DECIDES
from bitepoint.questions.choice import Choice, Option, Several, needed, wrong
from bitepoint.questions.draw import Draw
from bitepoint.questions.question import Mistake
from bitepoint.workshop.criteria import Decision, Seen, criteria, judge_seen
from bitepoint.workshop.vehicles import vehicle

_SETS: tuple[tuple[Decision, tuple[str, ...]], ...] = (
    ("replace", ("rear-seal-wet", "guide-tube-step", "housing-dowel-missing", "mount-torn", "ring-gear-burr", "splines-burr")),
    ("stop and ask", ("flange-fretting", "thread-damaged", "splines-step", "input-seal-damp", "flange-burr", "ring-gear-broken")),
    ("reuse", ("flange-burr", "rear-seal-dry", "housing-dent", "fork-worn", "slave-wet", "flywheel-crack")),
)  # fmt: skip
"""Decision that is asked for, and the findings on offer (ids of the criteria)."""

_ASKED = {
    "replace": "Tick those that are replaced now",
    "stop and ask": "Tick those where you stop and ask",
    "reuse": "Tick those that may stay, dressed or cleaned",
}
_SAID: dict[Decision, Literal["may stay", "is replaced", "is for stop and ask"]] = {
    "reuse": "may stay",
    "replace": "is replaced",
    "stop and ask": "is for stop and ask",
}


def _option(item: Seen, asked: Decision) -> Option:
    """Taking a dangerous part for a good one is critical; stopping to ask never is."""
    text = f"{item.part[0].upper()}{item.part[1:]}: {item.finding}"
    verdict = judge_seen(item.id)
    if verdict.decision == asked:
        return needed(
            text, f"leaves out: {item.id}", "Something is missing. Read each line once more: what happens if it stays?"
        )
    reason = f"{item.because[0].upper()}{item.because[1:]}."
    says = f"“{item.part[0].upper()}{item.part[1:]}” {_SAID[verdict.decision]}. {reason.replace('; ', '. ').replace(': ', ', ')}"
    return wrong(text, f"ticks: {item.id}", says, critical=asked == "reuse" and verdict.weight == 3)


@exercise("strip.decide-each", lesson="strip", outcome=DECIDES, minutes=3, title="Six findings, three decisions")
def decide_each(draw: Draw) -> Several:
    asked, ids = _SETS[draw.form(3)]
    known = {item.id: item for item in criteria().seen}
    options = [_option(known[name], asked) for name in ids]
    return Several.of(
        draw,
        options=options,
        ask=f"Six findings from {draw.integer(2, 6)} cars. {_ASKED[asked]}.",
        why="A wear part is replaced, a burr is dressed, and what carries the engine is not decided alone.",
        step="For each: can it be put right here? Can somebody be hurt if you are wrong?",
        solution="\n".join(o.text for o in options if o.right),
        source="common-practice",
    )


@exercise("strip.always-new", lesson="strip", outcome=DECIDES, minutes=2, title="Always new in this job")
def always_new(draw: Draw) -> Several:
    form, hours = draw.form(2), draw.integer(4, 7)
    car = vehicle("B") if form == 0 else vehicle(draw.pick("C", "D"))
    bearing = (
        needed("Concentric slave cylinder", "keeps a concentric slave that looks dry",
               f"Something is missing. What sits inside the housing costs {hours} hours when it leaks."),
        needed("Release bearing", "keeps a bearing that runs smoothly",
               f"Something is missing. What sits inside the housing costs {hours} hours when it howls."),
    )[form]  # fmt: skip
    by_finding = (
        wrong("Guide tube and pipe, whatever they look like", "renews everything",
              "These go by what you find. Money spent here is missing where it counts."),
        wrong("Fork and pivot, whatever the mileage", "renews everything",
              "Fork and pivot go by what you find; in doubt or after a high mileage they are renewed."),
    )[form]  # fmt: skip
    options = (
        bearing,
        needed("Flywheel bolts", "uses flywheel bolts again",
               "Something is missing. Among it is what holds a flywheel that would go through the floor.", critical=True),
        needed("Parts that the sheet lists as single-use", "uses single-use parts again",
               "Something is missing. A nut or clip that held once does not hold again."),
        needed("Washer of the drain plug", "uses the washer again",
               "Something is missing. A squeezed ring lets oil past, drop by drop."),
        by_finding,
        wrong("Bell-housing bolts, all of them", "takes all bolts alike",
              "They are not stretched for good. Damaged ones or single-use ones are replaced, the rest goes back."),
    )  # fmt: skip
    return Several.of(
        draw,
        options=options,
        ask=f"{car.name[0].upper()}{car.name[1:]} gets its clutch; the labour is {hours} hours. "
        "What is always new in this job, however good it looks? Pick all.",
        why="What cannot be measured, was squeezed or stretched, or lies under hours of labour, is new. The rest goes by finding.",
        step="Ask of each: can you see or measure that it is still good? What does a mistake cost?",
        solution="\n".join(o.text for o in options if o.right),
        source="common-practice",
        vehicle=car.id,
    )


@exercise("strip.flywheel", lesson="strip", outcome=DECIDES, minutes=2, title="Cracks, colour, a loose bolt")
def flywheel(draw: Draw) -> Choice:
    form = draw.form(3)
    car = draw.vehicle()
    car = car if car.flywheel.fitted_now == "rigid" else vehicle(draw.pick("A", "D"))
    limit = car.flywheel.scoring_depth_limit_mm
    scored = round(limit * draw.integer(4, 8) / 10, 2)
    torque, bolts = car.flywheel.tightening.final_nm, car.flywheel.bolt_count
    grind = Mistake(
        "Smooth it with a disc grinder",
        "thinks that shiny is flat",
        "By hand it gets uneven, and heat under the face stays. The clutch judders.",
    )
    cases = (
        Case(
            f"Flywheel of {car.name}: scores {scored:g} mm deep, limit {limit:g} mm. Near the outer edge of the face "
            "a fine crack can be seen. Decide.",
            "Do not use it again",
            (
                Mistake(
                    "Use it: the scores are within their limit",
                    "looks at one value only",
                    "The crack decides. It grows with heat and speed, and a flywheel that bursts kills.",
                    True,
                ),
                Mistake(
                    "Use it: the crack does not catch a nail",
                    "measures a crack with a fingernail",
                    "No crack is small enough. Each start of the car opens it further, until it bursts.",
                    True,
                ),
                Mistake(
                    "Grind the crack out",
                    "grinds a crack out",
                    "A crack goes deeper than you see. Thinner, the flywheel is weaker still, and may burst.",
                    True,
                ),
            ),
            "Any visible crack in or near the face or at a bolt hole ends its life.",
            "Two findings. Which of the two can hurt somebody?",
        ),
        Case(
            f"Flywheel of {car.name}: blue patches, flat, no hard spots, no crack, scores {scored:g} mm of {limit:g} mm. Decide.",
            "Stop and ask; re-face it only if the sheet allows",
            (
                Mistake(
                    "Use it: every figure is within its limit",
                    "takes colour for nothing",
                    "No limit stands for colour. How deep the heat went, nobody has looked at, and hard spots may come.",
                ),
                grind,
                Mistake(
                    "Clean it with emery cloth until it is grey",
                    "cleans the sign away",
                    "The colour goes, the heat damage stays. And the next fitter cannot see it any more.",
                ),
            ),
            "Colour alone does not tell how deep the heat went. Somebody senior decides, with the sheet.",
            "What do the figures not tell you here?",
        ),
        Case(
            f"{draw.pick('One', 'Two')} of the {bolts} flywheel bolts of {car.name} turned with hardly any force; "
            f"the last torque on the sheet is {torque:g} N·m. The flywheel itself is sound and goes back on. How?",
            "New bolts, clean threads, all stages from the first, written down",
            (
                Mistake(
                    f"Tighten the loose ones to {torque:g} N·m",
                    "tightens only the loose ones",
                    "Nobody knows what the others carry; they held for their neighbours. The flywheel can come off.",
                    True,
                ),
                Mistake(
                    "New bolts for the loose ones, the rest stays",
                    "renews only the loose ones",
                    "The others were pulled too hard for their neighbours. They break one by one.",
                    True,
                ),
                Mistake(
                    "Old bolts with thread-lock, all stages",
                    "uses old bolts with thread-lock",
                    "Thread-lock mends no stretched bolt and changes the torque. The flywheel can come off.",
                    True,
                ),
            ),
            "One loose bolt throws doubt on all of them. So all are slackened, and all are new.",
            "While one was loose, who carried its share?",
        ),
    )
    return choice_from(
        draw, cases[form], source="tm-9-2320-361-24-1" if form == 1 else "common-practice", vehicle=car.id
    )


@exercise("strip.release-parts", lesson="strip", outcome=DECIDES, minutes=1.5, title="Bearing, fork, push-rod")
def release_parts(draw: Draw) -> Choice:
    form = draw.form(4)
    car = vehicle(draw.pick("C", "D"))
    low, high = draw.integer(15, 35), draw.integer(65, 110)
    cases = (
        Case(
            f"The release bearing of {car.name} turns smoothly at {low} thousand miles. The kit is on the bench. Decide.",
            "Replace it",
            (
                Mistake(
                    "Reuse it: it runs like new",
                    "judges a sealed bearing by hand",
                    "By hand it carries nothing. If it howls next month, the gearbox comes out again.",
                ),
                Mistake(
                    "Reuse it after packing it with fresh grease",
                    "greases a sealed bearing",
                    "It is sealed, and the grease ends up on the facing. Judder and a second job follow.",
                ),
                Mistake(
                    "Wash it in solvent, then decide",
                    "washes the release bearing",
                    "Solvent takes its grease for good. It runs dry within weeks.",
                ),
            ),
            "In a clutch job the release bearing or the concentric slave is always new.",
            "What would it cost if you were wrong, and what does the part cost?",
        ),
        Case(
            f"The fork of {car.name}: straight, no crack, no flat, {low} thousand miles. Decide.",
            "Reuse it",
            (
                Mistake(
                    "Replace it: everything in there is always new",
                    "renews everything",
                    "Only bearing or slave is always new. The fork goes by what you find, and the customer pays.",
                ),
                Mistake(
                    "Reuse it, with grease on all its faces",
                    "greases everything",
                    "Too much grease flies onto the facing. Grease goes only where the sheet says.",
                ),
                Mistake(
                    "Bend it a little to gain travel",
                    "bends the fork",
                    "A bent fork cracks, and one day it breaks under the foot. Then the car does not come free.",
                    True,
                ),
            ),
            "Fork, pivot, guide tube and external slave go by finding.",
            "Which findings would speak against it? Is there one?",
        ),
        Case(
            f"The fork of {car.name} shows a trace on its pads; you are not sure whether it is a flat. {high} thousand miles. Decide.",
            "Replace it, with its pivot",
            (
                Mistake(
                    "Reuse it: no crack is to be seen",
                    "waits for a crack",
                    "Lost travel comes before the crack: the clutch drags. Then the gearbox comes out again.",
                ),
                Mistake(
                    "File the pads smooth",
                    "files the pads",
                    "Filing takes away more travel, and the hard skin. It wears faster from now on.",
                ),
                Mistake(
                    "Reuse it: under 120 thousand miles all is good",
                    "decides by mileage alone",
                    "Mileage is a rule of thumb, finding comes first. A worn fork costs travel at any mileage.",
                ),
            ),
            "In doubt or after a high mileage it is renewed. About 60,000 miles is a rule of thumb, not a limit.",
            "What costs more here, a fork or a second job?",
        ),
        Case(
            f"External slave of {car.name}: dry, {low} thousand miles, but its push-rod sticks halfway when you slide it by hand. Decide.",
            "Replace the slave cylinder",
            (
                Mistake(
                    "Reuse it: it does not leak",
                    "looks for leaks only",
                    "A piston that sticks does not come back. The clutch then slips or drags.",
                ),
                Mistake(
                    "Oil the push-rod until it slides",
                    "oils a brake-fluid seal",
                    "Mineral oil swells the seal. It jams altogether, and the pedal stays down.",
                ),
                Mistake(
                    "Press the pedal hard to free it",
                    "presses the pedal with the gearbox out",
                    "Nothing holds the piston. It shoots out, and fluid goes into your eyes.",
                    True,
                ),
            ),
            "An external slave goes by finding, and this finding is clear: it must slide by hand.",
            "The seal is dry. What else must a slave do?",
        ),
    )
    return choice_from(draw, cases[form], vehicle=car.id)
