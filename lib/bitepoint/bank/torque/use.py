"""Lesson 7, torque and the torque wrench: using the click wrench, one pull and one click."""

from bitepoint.bank.cases import Case, choice_from
from bitepoint.bank.registry import exercise
from bitepoint.bank.torque.common import USES
from bitepoint.questions.choice import Choice
from bitepoint.questions.draw import Draw
from bitepoint.questions.order import Before, Order
from bitepoint.questions.question import Mistake

_CHECK, _SET, _LOCK = "Check range, date and damage", "Set the torque, coming from below", "Lock the setting"
_SQUARE, _HAND = "Put the socket on straight", "Take the grip at its mark"
_PULL, _STOP = "Pull slowly to the click", "Stop at the first click"
_TICK, _BACK = "Tick the bolt on the card", "Wind back to the lowest mark and put away"


@exercise("torque.order-of-use", lesson="torque", outcome=USES, minutes=2.5, title="Using the click wrench")
def order_of_use(draw: Draw) -> Order:
    place, low, high = (
        ("a flywheel bolt", 40, 65),
        ("a cover bolt", 20, 32),
        ("a bell housing bolt", 40, 60),
    )[draw.form(3)]
    torque = draw.integer(low, high)
    example = (_CHECK, _SET, _LOCK, _SQUARE, _HAND, _PULL, _STOP, _TICK, _BACK)
    rules = (
        Before(_CHECK, _SET, "a wrench that may not be used is not set at all.", "safety", True),
        Before(_SET, _LOCK, "only a set value can be locked.", "physical"),
        Before(_LOCK, _PULL, "an open setting creeps while you pull, and the torque is unknown.", "quality"),
        Before(_SQUARE, _PULL, "a socket that sits askew slips off, and your hand hits the car.", "safety"),
        Before(_HAND, _PULL, "held elsewhere the wrench clicks at another torque.", "quality"),
        Before(_PULL, _STOP, "the click comes while you pull.", "physical"),
        Before(_STOP, _TICK, "what is ticked first and forgotten then stays loose.", "safety", True),
        Before(_TICK, _BACK, "the wrench is needed until the last bolt is ticked.", "physical"),
    )
    return Order.of(
        draw,
        example=example,
        rules=rules,
        ask=f"You tighten {place} to {torque} N·m with a click wrench; it is the last bolt of the day. "
        "Put the steps in order.",
        why="First the wrench, then the setting, then the hand. One pull, one click, one tick.",
        step=f"It starts with “{_CHECK}”. It ends with “{_BACK}”.",
        solution="\n".join(f"{i}. {text}" for i, text in enumerate(example, start=1)),
        source="navedtra-14113",
    )


@exercise("torque.one-click", lesson="torque", outcome=USES, minutes=1.5, title="One pull, one click")
def one_click(draw: Draw) -> Choice:
    torque, form = draw.integer(22, 65), draw.form(3)
    again = "At the click the torque is reached. Each pull at once adds some, and the bolt goes past its torque."
    cases = (
        Case(
            f"The wrench has clicked at {torque} N·m. What do you do with this bolt now?",
            "Stop, tick it and go to the next one",
            (
                Mistake("Click once more to be sure", "thinks that two clicks are surer", again),
                Mistake(
                    "Pull a little past the click",
                    "pulls past the click",
                    "Beyond the click the wrench is a plain bar. Nobody knows the torque, and bolts are stretched.",
                ),
                Mistake(
                    "Slacken it and pull again",
                    "opens what was tight",
                    "Opened, a bolt starts from the first stage, and a one-time bolt is scrap. You lose a good joint.",
                ),
            ),
            "One smooth pull, one click. The second round comes when all bolts are done.",
            "Think what the wrench does after its click: it cannot hold back your hand.",
        ),
        Case(
            f"All bolts of a torque-only joint had their click at {torque} N·m. The sheet asks for a second round. "
            "How is it done?",
            f"Each bolt once more at {torque} N·m, after all bolts",
            (
                Mistake("Two clicks on each bolt in turn", "thinks that two clicks are surer", again),
                Mistake(
                    f"Each bolt once more at {torque + 10} N·m",
                    "sets more for the second round",
                    "The sheet names one final torque. More stretches the bolts and leaves no reserve.",
                    True,
                ),
                Mistake(
                    "Not at all: every bolt has clicked",
                    "trusts the click",
                    "Later bolts take pull from earlier ones. Without the round one stays weak and works loose.",
                    True,
                ),
            ),
            "Later bolts relax the earlier ones. The second round is a round of its own and finds them.",
            "When has the first bolt lost what its neighbours took: right after its click, or at the end?",
        ),
        Case(
            f"The wrench is set to {torque} N·m. It clicks at once on a bolt that does not move. What does that tell you?",
            "The bolt has at least about that torque",
            (
                Mistake(
                    "The bolt has exactly that torque",
                    "reads a standing bolt",
                    "A bolt at rest sticks. It may have far more than the wrench is set to, and be stretched.",
                ),
                Mistake(
                    "The bolt is too loose",
                    "turns the click round",
                    "A loose bolt would turn before the click. Whoever pulls on stretches a bolt that was tight.",
                ),
                Mistake(
                    "The wrench is faulty",
                    "blames the wrench",
                    "It does what it should. Whoever sets it higher now stretches bolts one by one.",
                ),
            ),
            "A click on a standing bolt only says “not below”. How the joint is checked, the sheet says.",
            "What would a looser bolt do before the click? And what would a much tighter one do?",
        ),
    )
    return choice_from(draw, cases[form], source="navedtra-14113")
