"""Lesson 2, working safely: the road test, and where the rules end."""

from bitepoint.bank.cases import Case, choice_from
from bitepoint.bank.registry import exercise
from bitepoint.bank.safe.common import RUNS, STOPS, opened
from bitepoint.questions.choice import Choice
from bitepoint.questions.draw import Draw
from bitepoint.questions.question import Mistake


@exercise("safe.road-test", lesson="safe", outcome=RUNS, minutes=1.5, title="Who drives the road test")
def road_test(draw: Draw) -> Choice:
    car, form, km = draw.vehicle(), draw.form(2), draw.integer(6, 20)
    old_hand = Mistake(
        "You: you have driven the family car for a year",
        "takes a licence for the workshop's word",
        "The workshop's insurance and its word are missing. After a crash you and others stand without cover.",
        True,
    )
    alone = Mistake(
        "The fitter alone, noting figures while driving",
        "lets the driver take notes",
        "Who looks at a dial and a pencil does not look at the road. That has killed people.",
        True,
    )
    cases = (
        Case(
            f"{opened(car)} needs its road test of {km} km after the repair. Who drives, and who notes the figures?",
            "A licensed, insured driver whom the workshop authorised; you note",
            (old_hand, alone, Mistake(
                "The customer, who knows the car best",
                "lets the customer test the repair",
                "A forgotten bolt shows in traffic. The customer does not know what to listen for, nor when to stop.",
                True,
            )),
            "One drives and looks at the road, one notes. Licence, insurance and the workshop's word belong to it.",
            "Three things make a driver, and eyes can be in one place only.",
        ),
        Case(
            f"Before the road test of {km} km {car.name} creeps forward in the workshop with the pedal down. What now?",
            "No road test; stop and ask, and find out why",
            (
                Mistake(
                    "Drive carefully in low gears",
                    "drives with a clutch that drags",
                    "At the first crossing it pushes on while the driver thinks it is free. Someone walks in front.",
                    True,
                ),
                Mistake(
                    "Drive, it will bed in on the way",
                    "hopes for bedding in",
                    "A facing beds in, a clutch that does not free stays so. It pushes the car into whatever is there.",
                    True,
                ),
                Mistake(
                    "Try every gear on the lift first",
                    "tries gears on the lift",
                    "Driven wheels walk a car off its arms. Gears with a running engine are for the ground only.",
                    True,
                ),
            ),
            "What creeps or grates standing is not taken on the road. First the cause, then the test.",
            "What happens at the first red light?",
        ),
    )  # fmt: skip
    return choice_from(draw, cases[form], vehicle=car.id)


@exercise("safe.stop-and-ask", lesson="safe", outcome=STOPS, minutes=1.5, title="Where the rules end")
def stop_and_ask(draw: Draw) -> Choice:
    car, form, minutes = draw.vehicle(), draw.form(3), draw.integer(5, 25)
    guess = Mistake(
        "Take the figure of a similar car",
        "takes a similar car's rule",
        "Similar is not the same. On a wrong point the sill gives way and the car falls.",
        True,
    )
    cases = (
        Case(
            f"The repair data show no lifting points for this body of {car.name}. The lift is free for {minutes} minutes. What now?",
            "Stop and ask before anything is lifted",
            (guess, Mistake(
                "Set the pads where the floor looks thick",
                "guesses the lifting point",
                "What looks thick can be a thin cover. It buckles when someone stands below.",
                True,
            ), Mistake(
                "Lift only half as high, so it falls less deep",
                "makes a wrong thing smaller",
                "Half as high is high enough to crush a person. A wrong point stays wrong at any height.",
                True,
            )),
            "Nobody answers for a guessed point. The question costs minutes, a fallen car costs lives.",
            "Who answers for it if the car slips?",
        ),
        Case(
            f"You loosen the mount of {car.name}, and the engine sinks a little on its beam. {minutes} minutes are left. What now?",
            "Stop, step back, and ask",
            (Mistake(
                "Push it up with a bar and go on",
                "lifts a sinking engine by hand",
                "Something slips already, and nobody knows what. A bar lifts it off the rest of its support.",
                True,
            ), Mistake(
                "Go on quickly before it sinks further",
                "hurries past a warning",
                "It sinks because something gives way. The next bolt may be the one that still held it.",
                True,
            ), Mistake(
                "Reach under it and feel where it hangs",
                "reaches under a sinking load",
                "What sinks can drop. A hand below it is crushed.",
                True,
            )),
            "Something moved that should not. Step back first, then someone with experience looks.",
            "What is the engine telling you, and who can read it?",
        ),
        Case(
            f"Halfway through, your fitter is called away for {minutes} minutes. On {car.name} the gearbox is strapped, "
            "two bolts are left. What now?",
            "Leave it so, and wait or ask another fitter",
            (Mistake(
                "Take the two bolts out yourself, carefully",
                "goes on alone with a load overhead",
                "Now the gearbox comes free above you and nobody is there to guide it. It falls or turns over.",
                True,
            ), Mistake(
                "Slacken the strap meanwhile, to save time",
                "saves time on the strap",
                "The strap is what keeps it on the jack. Without it the next push turns the gearbox over.",
                True,
            ), Mistake(
                "Swing on it to see whether it is free",
                "tries the load with body weight",
                "You pull at a car on arms and at a box on two bolts. One of them gives way.",
                True,
            )),
            "Two bolts and a strap hold it as long as you like. Waiting is safe, the next step alone is not.",
            "Which state is safe to leave, and which is not?",
        ),
    )  # fmt: skip
    return choice_from(draw, cases[form], vehicle=car.id)
