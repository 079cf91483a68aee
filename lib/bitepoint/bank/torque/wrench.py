"""Lesson 7, torque and the torque wrench: which wrench, what to set, what the scale shows."""

from bitepoint.bank.cases import Case, choice_from
from bitepoint.bank.registry import exercise
from bitepoint.bank.torque.common import CHOOSES
from bitepoint.questions.choice import Choice
from bitepoint.questions.draw import Draw
from bitepoint.questions.number import Number, percent
from bitepoint.questions.question import Mistake
from bitepoint.workshop.tools import workshop

IN_DOUBT = "None of them: stop and ask"
_OUT_OF_DATE = "The record of that wrench has run out. Nobody knows what it does, so a bolt can stay loose."


@exercise("torque.which-wrench", lesson="torque", outcome=CHOOSES, minutes=2, title="Which wrench")
def which_wrench(draw: Draw) -> Choice:
    form = draw.form(3)
    torque = (draw.integer(6, 18), draw.integer(62, 98), draw.integer(110, 180))[form]
    where = ("The bolts of a slave cylinder get", "The wheel bolts get", "The hub nut gets")[form]
    rows = ((w.id, f"{w.lowest_nm:g} to {w.highest_nm:g} N·m", f"{w.due:%d.%m.%Y}") for w in workshop().torque_wrenches)
    small, middle, large = (w.id for w in workshop().torque_wrenches)
    ask_first = Mistake(
        IN_DOUBT,
        "asks although one wrench fits",
        "Asking is never wrong, but here the table is enough. Compare range and date once more, then go on.",
    )
    below = Mistake(
        middle,
        "thinks that a bigger wrench does all",
        "The torque lies below the start of its scale. It clicks late or not at all, and the small bolt is torn off.",
    )
    too_small = Mistake(
        small,
        "goes beyond the end of the scale",
        "The torque lies beyond the end of its scale. The wrench is bent, and the bolt stays too loose.",
    )
    overdue = Mistake(large, "takes a wrench whose record has run out", _OUT_OF_DATE, True)
    beyond = Mistake(
        middle,
        "stretches a scale that ends too early",
        "Its scale ends well below that torque. What you cannot set, you guess, and a guessed nut comes loose.",
        True,
    )
    right, others, why = (
        (small, (below, overdue, ask_first), "Its range holds the torque and its record holds on the day."),
        (
            middle,
            (too_small, overdue, ask_first),
            "The largest wrench reaches that far too, but its record has run out.",
        ),
        (
            IN_DOUBT,
            (too_small, beyond, overdue),
            "Two scales end too early, and the third record has run out. Someone gets you a wrench that may be used.",
        ),
    )[form]
    return choice_from(
        draw,
        Case(
            ask=f"It is 14 April 2026. {where} {torque} N·m. Which wrench may you use?",
            right=right,
            wrong=others,
            why=why,
            step=f"First strike out every wrench whose record ended before the day. Which scale holds {torque} N·m?",
        ),
        table=(("Wrench", "Scale", "Record holds until"), *rows),
        source="iso-6789",
    )


@exercise("torque.trusted", lesson="torque", outcome=CHOOSES, minutes=1.5, title="A wrench to trust")
def trusted(draw: Draw) -> Choice:
    metres, months = draw.integer(8, 15) / 10, draw.integer(2, 9)
    use = Mistake(
        "Use it: it still clicks",
        "trusts the click",
        "The click comes, but nobody knows at which torque. A flywheel tightened with it can come off.",
        True,
    )
    margin = Mistake(
        "Set it a little higher to be on the safe side",
        "adds a margin by guess",
        "Nobody knows in which direction it is off. Too high stretches the bolts until they break.",
        True,
    )
    third = (
        Mistake(
            "Compare it with another wrench by feel",
            "checks by feel",
            "A hand cannot feel a few per cent. The fault stays, and bolt after bolt is wrong.",
        ),
        Mistake(
            "Work it up and down ten times, then use it",
            "thinks that use mends a tired spring",
            "Moving it frees the grease but mends no spring. The scale still shows what the spring no longer gives.",
        ),
        Mistake(
            "Use it for loosening only from now on",
            "uses a torque wrench as a lever",
            "Loosening ruins it further, and the next person takes it for a good one. A bolt stays loose.",
        ),
    )
    asks = (
        f"A click wrench fell about {metres:.1f} m onto concrete. Its record holds for {months} more months. What now?",
        f"A click wrench has lain {months} months wound up to its highest mark. Its record still holds. What now?",
        f"Someone broke a seized bolt loose with a click wrench, with a tube {metres:.1f} m long on its grip. What now?",
    )
    right = "Label it and hand it in to be checked"
    why = (
        "A fall can shift the spring or the ratchet.",
        "A spring left wound up tires and reads wrong.",
        "A torque wrench is no lever: overloaded, it may be bent.",
    )[draw.form(3)]
    return choice_from(
        draw,
        Case(
            ask=asks[draw.form(3)],
            right=right,
            wrong=(use, margin, third[draw.form(3)]),
            why=f"{why} The date alone does not make it right. The label keeps others from using it.",
            step="Ask what you really know about its torque today. The record was written before this happened.",
        ),
        source="faa-ac-43-13-1b",
    )


@exercise(
    "torque.spread", lesson="torque", outcome=CHOOSES, minutes=2, beyond=True, title="How far off a wrench may be"
)
def spread(draw: Draw) -> Number:
    share, torque, upper = draw.pick(3, 4, 5, 6), draw.integer(20, 65), draw.form(2) == 0
    sign = 1 if upper else -1
    right = torque * (1 + sign * share / 100)
    end = "most" if upper else "least"
    return Number(
        ask=f"A wrench may be off by {share} % either way. You set {torque} N·m. "
        f"What is the {end} that the bolt may really have got, in N·m?",
        answer=right,
        unit="N·m",
        within=percent(0.5),
        decimals=1,
        mistakes=(
            Mistake(
                float(torque + sign * share),
                "takes per cent for N·m",
                "You took it as N·m. It is a share of the setting, so small bolts would seem far too uncertain.",
            ),
            Mistake(
                torque * (1 + sign * share / 10),
                "puts the point in the wrong place",
                "You reckoned with ten times the share. A wrench as bad as that would be thrown away.",
            ),
        ),
        why=f"The bolt got {right:.1f} N·m at the {end}. That is normal for a wrench in order, so nothing is added.",
        step=f"{share} % of {torque} N·m is {share / 100:g} × {torque} = {torque * share / 100:.2f} N·m.",
        solution=f"{torque} × (1 {'+' if upper else '−'} {share / 100:g}) = {right:.1f} N·m.",
        source="iso-6789",
    )
