"""Lesson 12, the whole job: the gearbox back in without force, the pedal only when all is tight."""

from bitepoint.bank.cases import Case, choice_from
from bitepoint.bank.job.common import ORDERS
from bitepoint.bank.job.story import Story, story_of
from bitepoint.bank.registry import exercise
from bitepoint.questions.choice import Choice
from bitepoint.questions.draw import Draw
from bitepoint.questions.question import Mistake


@exercise("job.refit", lesson="job", outcome=ORDERS, minutes=3, title="Gearbox back in")
def refit(draw: Draw) -> Choice:
    story = story_of(draw)
    case = (_gap, _pedal_early, _play)[draw.form(3)](story)
    return choice_from(draw, case, vehicle=story.car.id)


def _gap(story: Story) -> Case:
    gap = round(story.crow_foot_mm / 10)
    return Case(
        f"The gearbox of {story.car.name} slides on by hand, then stops. {gap} mm of gap are left all round. What now?",
        "Back off, find out what is not home, and slide it on again by hand",
        (
            Mistake(
                "Pull it shut with the housing bolts",
                "closes the gap with bolts",
                "A gap means that the shaft is not home. Plate, hub or housing breaks, and parts fly later.",
                True,
            ),
            Mistake(
                "Let it hang there and turn the engine",
                "lets the gearbox hang on its shaft",
                "Its weight bends the plate at once, and it can fall on whoever turns.",
                True,
            ),
            Mistake(
                "Grease the shaft well and push harder",
                "uses grease against a misfit",
                "Grease cures no misfit. It gets onto the facing, and the clutch judders.",
            ),
        ),
        "By hand it goes home, or something is wrong: the angle, the centring, a dowel, a cable between.",
        "What keeps the last millimetres open, and what would a bolt do to it?",
    )


def _pedal_early(story: Story) -> Case:
    return Case(
        f"The gearbox of {story.car.name} hangs on two of {story.car.gearbox.bell_bolts[0].n} bolts. "
        "A colleague wants to press the pedal “just to feel it”. What do you say?",
        "“Not before every housing bolt is tight and the release is connected”",
        (
            Mistake(
                "“Yes, but gently”",
                "presses the pedal too early",
                "The release has nothing to press against yet. It is pushed apart or jumps off.",
            ),
            Mistake(
                "“Yes, it shows early whether it works”",
                "tests an open joint",
                "It shows nothing, and two bolts do not hold a gearbox. It can come down on you.",
                True,
            ),
            Mistake(
                "“Take the jack away first”",
                "takes the jack away too early",
                "Two bolts and no mount: the gearbox drops on somebody.",
                True,
            ),
        ),
        "Bolts, mount, jack, release, and only then the pedal.",
        "What does the release bearing press against, and what holds the gearbox just now?",
    )


def _play(story: Story) -> Case:
    low, high = story.car.release.free_play_mm
    found = round(low / 3, 1)
    return Case(
        f"All is tight. The pedal of {story.car.name} has {found:g} mm of free play. "
        f"The sheet says {low:g} to {high:g} mm. What do you do?",
        "Set it by the sheet before the engine is started, and write the figure down",
        (
            Mistake(
                "Nothing: new parts settle",
                "waits for play to come by itself",
                "As the facing wears, the play gets smaller, not larger. The new clutch slips and burns.",
            ),
            Mistake(
                "Start and see whether it shifts",
                "tests before setting",
                "It will shift, and slip all the same. You burn the new facing to find out.",
            ),
            Mistake(
                "Write “ok” in the record",
                "writes ok for a figure",
                "The next fitter looks for a fault you knew of. The figure would have told.",
            ),
        ),
        "Too little play keeps the clutch a little open all day. Set now, it costs minutes.",
        "Compare the figure with the lower end of the sheet. What does wear do to it?",
    )
