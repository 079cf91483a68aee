"""Lesson 12, the whole job: the standing checks and the second road test."""

from typing import Any

from bitepoint.bank.cases import Case, choice_from
from bitepoint.bank.job.common import HANDS_OVER, own_first
from bitepoint.bank.job.story import LogRow, Story, story_of
from bitepoint.bank.registry import exercise
from bitepoint.questions.choice import Choice, Option, Several, needed, wrong
from bitepoint.questions.draw import Draw
from bitepoint.questions.question import Mistake


@exercise("job.checks", lesson="job", outcome=HANDS_OVER, minutes=4, title="Read the standing checks")
def checks(draw: Draw) -> Several:
    story, form = story_of(draw), draw.form(2)
    options = (_found, _done)[form](story)
    bad = [option for option in options if option.right]
    return Several.of(
        draw,
        options=options,
        ask=f"Standing checks of {story.car.name}, written down as they were done. "
        "Pick every line that must be put right before anybody drives on the road.",
        why=f"{len(bad)} lines stand between the car and the road. The others are figures or facts that hold.",
        step="Ask of each line: is it within the sheet, was it done safely, and does it prove what it should?",
        solution="\n".join(f"{option.text}. {option.says}" for option in bad),
        source="common-practice",
        vehicle=story.car.id,
    )


def _found(story: Story) -> tuple[Option, ...]:
    car = story.car
    low, high = car.release.free_play_mm
    if "mechanical" in car.release.kind:
        release = needed("Cable: a strand stands out at the pedal end", "passes a frayed cable",
                         "It tears soon, and then the car cannot be got out of gear in traffic.", critical=True)  # fmt: skip
    else:
        release = needed("Pedal held down for a minute: it sinks slowly", "passes a pedal that sinks",
                         "Fluid gets past somewhere. In traffic the clutch closes by itself, and the car moves off.",
                         critical=True)  # fmt: skip
    return (
        release,
        needed("Reverse, warm oil: still grates after 8 s with the pedal down", "passes a clutch that drags",
               "The clutch drags. Gears and fork wear away, and the gearbox comes out again."),
        needed("Rev test: a scrape from the housing that grows with speed", "passes a scrape in the housing",
               "Something in there touches. A bolt or the cover may come loose and burst through the housing.", critical=True),
        wrong(f"Pedal free play {story.free_play_mm:g} mm (sheet {low:g} to {high:g} mm)", "doubts a good free play",
              "That lies within the sheet. Set again, it can only get worse."),
        wrong(f"Rev test up to {car.engine.static_test_max_rpm:g} rpm, oil warm, in steps", "doubts a good rev test",
              "That is the figure of the sheet, reached in steps with warm oil. Nothing to put right."),
        wrong("Neutral, pedal up and down: no noise", "doubts a quiet bearing",
              "Quiet with the pedal up and down is just what you listen for."),
    )  # fmt: skip


def _done(story: Story) -> tuple[Option, ...]:
    car = story.car
    drained = round(0.8 * car.gearbox.oil_litre, 1)
    return (
        needed("Gears tried on the lift, engine running, wheels free", "tries gears on the lift",
               "In gear on a lift the wheels turn, and the car can leave it. On the ground, brakes on, again.", critical=True),
        needed(f"Gear oil: filled {drained:g} litres, as much as was drained", "fills what came out",
               f"Some was missing before. The sheet says {car.gearbox.oil_litre:g} litres; fill to the level plug."),
        needed("Flywheel lock: nobody saw it come out", "overlooks the lock",
               "Left in, it breaks ring gear and starter, and pieces fly. Look before anybody starts it.", critical=True),
        wrong(f"Wheel bolts {car.wheels.torque_nm:g} N·m, crosswise, on the ground", "doubts good wheel bolts",
              "That is the sheet's figure, done where it should be. Nothing to put right."),
        wrong("Every gear and reverse, on the ground, foot brake held", "doubts a safe gear check",
              "On the ground, brake held: that is the safe way. Leave it."),
        wrong(f"Rev test ended at {car.engine.static_test_max_rpm:g} rpm", "doubts the lower figure",
              "The sheet's figure is the ceiling. Higher would prove nothing more."),
    )  # fmt: skip


@exercise("job.road-test", lesson="job", outcome=HANDS_OVER, minutes=3, title="Read the second log")
def road_test(draw: Draw) -> Choice:
    story, form = story_of(draw), own_first(draw, 3)
    case = (_cured, _which_gear, _slips_still)[form](story)
    drive = story.before if form == 2 else story.after
    shown: dict[str, Any] = {} if form == 1 else {"table": drive.table, "picture": drive.plot}
    return choice_from(draw, case, vehicle=story.car.id, **shown)


def _told(story: Story, row: LogRow) -> str:
    return f"If nothing slips, {story.kmh_per_1000:g} km/h belong to 1000 rpm. Look at {row.second} s."


def _cured(story: Story) -> Case:
    return Case(
        f"The second log of {story.car.name}, new clutch, same gear, same road. "
        f"{_told(story, story.after.rows[4])} What does it say?",
        "No slip at full load: write the figures into the record",
        (
            Mistake(
                "Still slip: the engine turns faster at full load",
                "takes speed for slip",
                "It turns faster because the car drives faster. Who strips again pays for a sound clutch.",
            ),
            Mistake(
                "Good, so no figures are needed",
                "writes no figure when all is well",
                "When it comes back, nobody knows what it was like today. The figures are your proof.",
            ),
            Mistake(
                "Nothing: one log is worth nothing",
                "distrusts every figure",
                "It is the same road and gear as before. Beside the first log it proves the cure.",
            ),
        ),
        "Engine speed and road speed belong together within 2 % in every row. The first log beside it is the proof.",
        "Divide the road speed by what belongs to 1000 rpm. Does the engine turn faster than that?",
    )


def _which_gear(story: Story) -> Case:
    car = story.car
    gear, top = car.gearbox.slip_test_gear, len(car.gearbox.ratios)
    name = {3: "Third", 5: "Fifth", 6: "Sixth"}[gear]
    return Case(
        f"{story.name} has {top} gears. Road test after the job, limit 90 km/h. "
        "In which gear is slip looked for, and who drives?",
        f"{name}: the engine pulls hardest below the limit; a licensed driver with leave",
        (
            Mistake(
                "The highest that there is, as fast as it takes",
                "tests in top gear because the book says high gear",
                "It takes you past the limit before the engine pulls hardest. People get hurt, and nothing is proved.",
                True,
            ),
            Mistake(
                "First: it pulls hardest there",
                "tests in first gear",
                "In first the wheels let go before the clutch. The log shows spin, and slip stays hidden.",
            ),
            Mistake(
                "Any gear, with the apprentice at the wheel",
                "lets an apprentice drive without leave",
                "No leave, no insurance. In a crash you pay for it all your life.",
                True,
            ),
        ),
        "High enough to load the clutch, low enough for the law. The gear stands on the sheet.",
        "At which road speed does the engine pull hardest in each gear? Which of these are allowed?",
    )


def _slips_still(story: Story) -> Case:
    return Case(
        f"Another car of the model of {story.car.name} shows this log, with a new clutch of yesterday. "
        f"{_told(story, story.before.rows[4])} What now?",
        "Not handed over: check play, oil on the facing and the record",
        (
            Mistake(
                "Hand it over: new facings slip at first",
                "takes slip for running-in",
                "Running-in never slips like this. It burns the new facing, and the driver stops on a hill.",
            ),
            Mistake(
                "Hand it over and ask the customer to watch it",
                "leaves the test to the customer",
                "The fault is known to you now. If it fails in traffic, it is your doing.",
                True,
            ),
            Mistake(
                "Order another kit",
                "changes parts without a cause",
                "The cause stays in the car and ruins the next kit as well.",
            ),
        ),
        "A new clutch that slips has a reason. Cheap ones first: play, then oil or grease, then the record.",
        "Compare the engine speed with what belongs to the road speed. How much does not arrive?",
    )
