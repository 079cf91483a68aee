"""Lesson 12, the whole job: from the words on the phone to a fault that is proved."""

from bitepoint.bank.cases import Case, choice_from
from bitepoint.bank.job.common import FINDS, own_first
from bitepoint.bank.job.story import Story, story_of
from bitepoint.bank.registry import exercise
from bitepoint.questions.choice import Choice
from bitepoint.questions.draw import Draw
from bitepoint.questions.number import Number, plus_minus
from bitepoint.questions.question import Mistake


@exercise("job.words", lesson="job", outcome=FINDS, minutes=2, title="The words on the phone")
def words(draw: Draw) -> Choice:
    story = story_of(draw)
    case = (_ask_back, _price_now, _before_the_drive)[draw.form(3)](story)
    return choice_from(draw, case, vehicle=story.car.id)


def _ask_back(story: Story) -> Case:
    return Case(
        f"A customer rings up about {story.car.name}, {story.km} km on the clock. “For {story.weeks} weeks now, on a hill, "
        "the engine howls and the car gets no faster.” What do you ask first?",
        "“In which gear, at what speed, and was your foot off the clutch?”",
        (
            Mistake(
                "“How old is the clutch?”",
                "asks for age before signs",
                "Age proves nothing. You still do not know when it happens, and the road test has no aim.",
            ),
            Mistake(
                "“May we order the kit today?”",
                "orders before the fault is known",
                "Nothing is proved yet. If it is something else, the customer pays for the wrong job.",
            ),
            Mistake(
                "“Do you ride the clutch?”",
                "looks for somebody to blame",
                "Blame first, and people stop telling you things. You lose the sign that you needed.",
            ),
        ),
        "When it happens tells you where to look, and how to make it happen again on the road.",
        "Think of the road test: what must you know to make it happen again?",
    )


def _price_now(story: Story) -> Case:
    return Case(
        f"The customer with {story.car.name}, {story.km} km, is in a hurry. “Just name the price and fit a clutch tomorrow.” "
        "What do you say?",
        "“First a test drive with figures, then a price in writing”",
        (
            Mistake(
                "“Fine, tomorrow at eight”",
                "sells the job the customer names",
                "Nobody has tested anything. A wrong part may be changed, and the fault goes home with the car.",
            ),
            Mistake(
                "“It is the clutch, I hear that daily”",
                "decides by ear on the phone",
                "The same words fit spinning wheels. A clutch changed on a guess is paid for twice.",
            ),
            Mistake(
                "“We take it apart, then we see”",
                "strips to find the fault",
                "Apart, the car cannot be driven any more. The best proof, the road test, is lost.",
            ),
        ),
        "Test first, agree next, order after that. So the customer pays for the right job.",
        "What must be known before anybody can name a price?",
    )


def _before_the_drive(story: Story) -> Case:
    return Case(
        f"{story.name} is in the yard, {story.km} km. Before the road test: what comes first, and who drives?",
        "Look at fluids, pedal play and tyres; then a licensed driver whom the workshop allows",
        (
            Mistake(
                "Drive at once; whoever is free drives",
                "lets anybody drive",
                "Without licence, insurance and leave, a crash is your ruin. And nobody looked at the tyres.",
                True,
            ),
            Mistake(
                "Look at fluids, pedal play and tyres; then the apprentice drives",
                "lets an apprentice drive without leave",
                "Only a licensed and insured driver with the workshop's leave drives. You note the figures.",
                True,
            ),
            Mistake(
                "Try it against the brakes, in the yard",
                "tests against the brakes",
                "In the yard it may jump at somebody. It also cooks a clutch that might have been good.",
                True,
            ),
        ),
        "Wrong play or bald tyres can be the whole fault. And figures need one who drives and one who writes.",
        "Which faults can you see before the engine runs? And who may take a car on the road?",
    )


@exercise("job.log", lesson="job", outcome=FINDS, minutes=4, title="Slip from the road log")
def log(draw: Draw) -> Number:
    story = story_of(draw)
    row = story.before.rows[3 + draw.form(3)]
    arrives = row.kmh / story.kmh_per_1000 * 1000
    right = 100 * (1 - arrives / row.rpm)
    gear = story.car.gearbox.slip_test_gear
    return Number(
        ask=f"Road test of {story.car.name}, dry road. The table holds six moments of the plot, all in gear {gear}, clutch "
        f"pedal up. If nothing slips, {story.kmh_per_1000:g} km/h belong to 1000 rpm. "
        f"How much does the clutch slip at {row.second} s, in per cent of engine speed?",
        table=story.before.table,
        picture=story.before.plot,
        answer=right,
        unit="%",
        within=plus_minus(0.3),
        decimals=1,
        mistakes=(
            Mistake(
                100 * (row.rpm / arrives - 1),
                "divides by the reckoned speed",
                "Slip is the part of the engine speed that does not arrive. So divided, it looks worse than it is.",
            ),
            Mistake(
                100 - right,
                "gives the part that arrives",
                "That share still reaches the gearbox. Written as slip, it would condemn any clutch.",
            ),
        ),
        why=f"Of {row.rpm} rpm only {arrives:.0f} arrive. With a light foot nothing is lost: that is real slip.",
        step=f"At {row.kmh} km/h the gearbox turns {row.kmh} ÷ {story.kmh_per_1000:g} × 1000 = {arrives:.0f} rpm.",
        solution=f"({row.rpm} − {arrives:.0f}) ÷ {row.rpm} × 100 = {right:.1f} %.",
        source="derived",
        vehicle=story.car.id,
    )


@exercise("job.verdict", lesson="job", outcome=FINDS, minutes=3, title="Clutch or not?")
def verdict(draw: Draw) -> Choice:
    story = story_of(draw)
    case = (_slips, _no_play, _wet_road)[own_first(draw, 3)](story)
    return choice_from(draw, case, picture=story.before.channels, vehicle=story.car.id)


_WAIT = Mistake(
    "It will bed in: drive on",
    "hopes that slip goes away",
    "A clutch that slips gets hot and slips more. The driver stands still on the next hill.",
)
_KIT = Mistake(
    "Order the kit at once",
    "orders before the cheap causes are out",
    "A new kit would slip again, because the cause is still in the car.",
)


def _slips(story: Story) -> Case:
    return Case(
        f"The full-throttle part of your log of {story.car.name}. The customer says: “My foot was off the pedal.” "
        f"Free play is {story.free_play_mm:g} mm, as the sheet wants. Driven and free wheels showed one speed. "
        "What do you decide?",
        "The clutch slips: it has to come out",
        (
            _WAIT,
            Mistake(
                "The wheels spin: fit tyres",
                "mixes up slip and spin",
                "All wheels turned at one speed. New tyres change nothing, and the clutch burns out.",
            ),
            Mistake(
                "The engine is weak",
                "blames the engine",
                "The engine turns faster than the car uses. A weak engine would turn slower, not faster.",
            ),
        ),
        "At full load speed gets lost, with a light foot it does not. Play and wheels are ruled out.",
        "Compare the graphs before and after the throttle opens. What could lose speed only at full load?",
    )


def _no_play(story: Story) -> Case:
    return Case(
        f"Another car of the model of {story.car.name} shows this very log. But its pedal free play is 0 mm. "
        "What comes first?",
        "Find out why the play is gone, set it, and drive again",
        (
            _KIT,
            _WAIT,
            Mistake(
                "Leave the play: it makes a short pedal",
                "does not know what free play is for",
                "Without play the bearing always presses. The clutch is half open, gets hot and slips.",
            ),
        ),
        "The cheap cause first. If it slips on with the right play, the facing is burnt and comes out.",
        "What does the release bearing do all day when there is no play?",
    )


def _wet_road(story: Story) -> Case:
    return Case(
        f"A colleague brings this log of the model of {story.car.name}. The road was wet. "
        "Speed was taken from the driven wheels alone. What may you say?",
        "Not sure yet: drive again in the dry, with a second speed",
        (
            _KIT,
            Mistake(
                "The clutch is proved good",
                "takes doubt for proof",
                "Doubt is not proof. Handed back so, it may leave its driver on the next hill.",
            ),
            Mistake(
                "Throw the log away and ask the customer",
                "gives up measuring",
                "Words sent you to measure. Without figures the next fitter guesses as well.",
            ),
        ),
        "A log is as good as its two speeds. A second run costs half an hour, a wrong kit costs a day.",
        "Which of the two speeds could be wrong here, and how would you find out?",
    )
