"""Lesson 11, hand-over: label, running-in, warranty evidence, waste."""

from bitepoint.bank.cases import Case, choice_from
from bitepoint.bank.refit.common import HANDS
from bitepoint.bank.registry import exercise
from bitepoint.questions.choice import Choice, Several, needed, right, wrong
from bitepoint.questions.draw import Draw
from bitepoint.questions.question import Mistake


@exercise("refit.label", lesson="refit", outcome=HANDS, minutes=2, title="Label a changed flywheel type")
def label(draw: Draw) -> Several:
    km = draw.integer(60, 190)
    number = needed(
        "Part number of the kit, as wanted for service",
        "label without the part number",
        "Something is missing that the next fitter orders by. By the car's own number the wrong parts come.",
    )
    customer = wrong(
        "Name and telephone number of the customer",
        "writes personal data on the car",
        "No personal data on the car: everybody who opens the bonnet reads it.",
    )
    if draw.form(2):
        ask = f"At {km} 000 km a rigid flywheel replaced a dual-mass flywheel. Where does this have to be written?"
        options = [
            right("On the bell housing"),
            needed(
                "In the engine bay", "nothing in the engine bay", "Something is missing where a fitter looks first."
            ),
            needed(
                "In the service record",
                "nothing in the service record",
                "Something is missing that goes with the car for life.",
            ),
            wrong(
                "Only on the invoice",
                "trusts the invoice",
                "The next fitter sees the car, not the invoice. The wrong parts are ordered.",
            ),
            wrong(
                "On the clutch cover, inside",
                "writes where nobody looks",
                "Who reads that has the gearbox out already, and the wrong kit on the bench.",
            ),
        ]
        why = "Three places: where it is fitted, where one looks first, and in the papers."
    else:
        ask = f"At {km} 000 km a rigid flywheel replaced a dual-mass flywheel. What goes on the label?"
        options = [
            right("Rigid flywheel and long-travel plate fitted"),
            number,
            right("Date and kilometres"),
            right("Order parts by this label"),
            customer,
            wrong(
                "Price of the repair",
                "writes the price on the car",
                "The price helps nobody who orders parts. It hides the line that counts.",
            ),
        ]
        why = "What is in, what to order, when it was done. The next kit then fits."
    return Several.of(
        draw,
        ask=ask,
        options=options,
        why=why,
        step="Think of the fitter who opens this car in eight years and has to order a clutch.",
        solution="; ".join(o.text for o in options if o.right) + f". {why}",
        source="common-practice",
    )


@exercise("refit.running-in", lesson="refit", outcome=HANDS, minutes=1.5, title="Running-in advice")
def running_in(draw: Draw) -> Choice:
    form, weeks = draw.form(3), draw.integer(1, 4)
    none = Mistake(
        "Nothing special: the parts are finished",
        "thinks that new parts need no bedding in",
        "Facing and steel must first bed in. Full load before that glazes the facing, and it slips.",
    )
    motorway = Mistake(
        "A long, steady motorway drive beds it in best",
        "takes steady for gentle",
        "At a steady speed the clutch does nothing. It comes back as new as it left, and then meets full load.",
    )
    hard = Mistake(
        "A few hard starts, so that it grips early",
        "beds in by force",
        "Hard starts burn the surface before it carries evenly. It judders from then on.",
    )
    slip = Mistake(
        "Hold it on hills with the clutch, that beds it in",
        "beds in by slipping",
        "Held on a hill it burns within seconds. The facing is spoiled, and so is the flywheel.",
    )
    good = "300 to 500 km of mixed driving, many soft take-ups, no trailer"
    cases = (
        Case(
            f"The customer leaves for town driving and asks what to mind in the first {weeks} weeks. What do you say?",
            good,
            (none, hard, slip),
            "Many soft take-ups bed the facing in. Then it carries its full torque.",
            "What happens at a take-up that does not happen on a steady road?",
        ),
        Case(
            f"In {weeks} weeks the customer wants to tow a caravan. What do you advise until then?",
            good,
            (none, motorway, hard),
            "Bed it in first, tow afterwards. And come back for the check that was agreed.",
            "When does a new facing carry full torque? What gets it there?",
        ),
        Case(
            f"The customer drives long ways only, and comes back in {weeks} weeks. What do you advise?",
            good,
            (motorway, hard, slip),
            "It needs take-ups, not kilometres alone. Some town driving in between does it.",
            "How many take-ups are there in an hour of motorway?",
        ),
    )
    return choice_from(draw, cases[form])


@exercise("refit.warranty", lesson="refit", outcome=HANDS, minutes=2, title="Evidence for a warranty claim")
def warranty(draw: Draw) -> Several:
    km = draw.integer(8, 60) * 100
    washed = wrong(
        "The parts, washed and shiny",
        "washes the evidence off",
        "Traces are the evidence. Washed parts prove nothing, and the claim is refused.",
    )
    only = wrong(
        "The broken part alone",
        "sends the broken part only",
        "The pattern on the other parts shows the cause. Without them the claim is refused.",
    )
    first = [
        needed(
            "All parts of the kit, unwashed",
            "keeps parts back",
            "Something is missing: not all of it is there as it came out.",
        ),
        needed(
            "The job record with its measured values",
            "no record",
            "Something is missing: nobody sees how it was fitted.",
        ),
        right("Kilometres at fitting and at the fault"),
    ]
    second = [
        needed(
            "Photographs made before cleaning",
            "no photographs",
            "Something is missing: nobody sees how it lay when found.",
        ),
        needed(
            "Number and date of the torque wrench",
            "no wrench number",
            "Something is missing: nobody sees what it was tightened with.",
        ),
        right("The driver's own words for the fault"),
    ]
    guess = wrong(
        "A letter that says whose fault it was",
        "judges before the parts are looked at",
        "You send facts. A guess in writing binds you, whatever the parts show later.",
    )
    options = [*first, washed, only] if draw.form(2) == 0 else [*second, washed, guess]
    why = "Facts as they were found: parts, figures, photographs, words. Whoever judges was not there."
    return Several.of(
        draw,
        ask=f"After {km} km the clutch comes back under warranty. What of this do you send or show?",
        options=options,
        why=why,
        step="Which of these still tells what happened, to someone who was not there? Which one destroys it?",
        solution="; ".join(o.text for o in options if o.right) + f". {why}",
        source="common-practice",
    )


@exercise("refit.waste", lesson="refit", outcome=HANDS, minutes=1.5, title="Where the waste goes")
def waste(draw: Draw) -> Choice:
    form, ml = draw.form(3), draw.integer(15, 45) * 10
    household = Mistake(
        "Into the household waste",
        "throws workshop waste away at home's price",
        "Dust and oil get out of the bag, and somebody breathes or touches them. It is against the rules, too.",
    )
    oil = Mistake(
        "Into the drum for used oil",
        "takes every liquid for oil",
        "Brake fluid spoils the whole drum. It can no longer be recycled, and that costs the workshop.",
    )
    drain = Mistake(
        "Down the drain with much water",
        "pours it away",
        "It poisons water, and nobody gets it out again. The workshop is fined.",
    )
    again = Mistake(
        "Back into the bottle, for the next car",
        "keeps old fluid for the next car",
        "Old fluid holds water and dirt. In somebody's brakes it boils.",
        True,
    )
    blow = Mistake(
        "Blow them out, then use them again",
        "blows dust off",
        "The dust hangs in the air for hours, and everybody breathes it.",
        True,
    )
    steel = Mistake(
        "Onto the plain steel scrap",
        "forgets the grease inside",
        "Grease leaks out there into the ground. The scrap dealer sends the load back.",
    )
    cut = Mistake(
        "Cut it open first and wipe it out",
        "opens a part full of springs",
        "Springs under load fly out, and grease with them. Nobody has to open it.",
        True,
    )
    cases = (
        Case(
            f"From bleeding, {ml} ml of old brake fluid are in the jar. Where does it go?",
            "Into its own labelled drum for brake fluid",
            (oil, drain, again),
            "Brake fluid has a drum of its own, because it spoils oil and poisons water.",
            "Is it oil? And would you want it in any car?",
        ),
        Case(
            f"There are {ml // 50} dusty wet cloths from cleaning the bell housing. Where do they go?",
            "Into a closed bag for contaminated cloths",
            (household, blow, drain),
            "Closed and marked, the dust stays in. Where asbestos is suspected: its own marked bag, and report it.",
            "How does fine dust stay where it is, on the way out of the workshop?",
        ),
        Case(
            f"An old dual-mass flywheel lies there, and {ml} g of grease are inside. Warranty does not need it. Where does it go?",
            "To the oily metal, apart from plain scrap",
            (steel, cut, household),
            "Cover, plate and rigid flywheel are plain steel. This one has grease inside and goes apart.",
            "What is in it that a rigid flywheel does not have?",
        ),
    )
    return choice_from(draw, cases[form])
