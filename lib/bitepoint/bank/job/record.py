"""Lesson 12, the whole job: the label, and the record that is read before it is signed."""

from bitepoint.bank.job.build import wrench_for
from bitepoint.bank.job.common import HANDS_OVER
from bitepoint.bank.job.story import Story, story_of
from bitepoint.bank.registry import exercise
from bitepoint.mechanics.metrology import run_out_mm
from bitepoint.questions.choice import Option, Several, needed, wrong
from bitepoint.questions.draw import Draw

_LEFT_OUT = "One is missing. A label fades, a book gets lost: the next fitter must find one of them."


@exercise("job.label", lesson="job", outcome=HANDS_OVER, minutes=2, title="The label")
def label(draw: Draw) -> Several:
    story, form = story_of(draw), draw.form(2)
    own = (
        f"Your {story.car.name}"
        if story.changes_flywheel
        else f"Your {story.car.name} keeps its kind. But a colleague's car"
    )
    options = (
        (
            needed("On the bell housing", "leaves out the bell housing", _LEFT_OUT),
            needed("In the engine bay", "leaves out the engine bay", _LEFT_OUT),
            needed("In the service record", "leaves out the service record", _LEFT_OUT),
            wrong("On the old box only", "labels what is thrown away",
                  "The box goes into the bin. The next fitter orders the old type."),
            wrong("On the key ring", "labels the key", "Keys change hands. The label belongs to the car."),
        ),
        (
            needed("Service part number of the new kit", "leaves out the part number",
                   "Without the number the next fitter orders by the codes, and gets the old type."),
            needed("That the flywheel is rigid now", "leaves out the kind of flywheel",
                   "The kind is what changed. Without it the label says nothing."),
            needed("Date and mileage", "leaves out date and mileage",
                   "Without them nobody knows how old the parts are."),
            wrong("Name and phone number of the customer", "writes personal data on a label",
                  "That is private and helps no fitter."),
            wrong("Price of the job", "writes the price on a label", "The price belongs on the bill. It crowds out the number."),
        ),
    )[form]  # fmt: skip
    question = ("Where do you record it? Pick every place.", "What stands on the label? Pick all.")[form]
    kit = story.kit.kit if story.changes_flywheel else "SK-2235-R"
    rights = [o.text for o in options if o.right]
    return Several.of(
        draw,
        options=options,
        ask=f"{own} came with a dual-mass flywheel and leaves with a rigid one, kit {kit}. {question}",
        why="The codes of the car still lead to the old type. The label leads the next fitter to the right one.",
        step="Think of the next fitter: where does that person look, and what must be ordered?",
        solution=f"{'; '.join(rights)}.",
        source="common-practice",
        vehicle=story.car.id,
    )


@exercise("job.record", lesson="job", outcome=HANDS_OVER, minutes=6, title="Read the record before it is signed")
def record(draw: Draw) -> Several:
    story, form = story_of(draw), draw.form(2)
    options = (_record_of_the_build, _record_of_the_end)[form](story)
    bad = [o for o in options if o.right]
    return Several.of(
        draw,
        options=options,
        ask=f"Your partner wrote up the record of {story.car.name}, {story.car.job_date}. You are to sign it. "
        "Pick every line that cannot stay as it is.",
        why=f"{len(bad)} lines must be put right before the record is signed. Nothing “fails”: it is put right.",
        step="Ask of each line: is there a figure with its unit? Could it be measured then and there? Who may sign?",
        solution="\n".join(f"{o.text}: {o.says}" for o in bad),
        source="common-practice",
        vehicle=story.car.id,
    )


def _record_of_the_build(story: Story) -> tuple[Option, ...]:
    car = story.car
    n, final = car.flywheel.bolt_count, car.flywheel.tightening.final_nm
    wrench = wrench_for(final)
    spread = round(run_out_mm(story.second_readings_mm), 2)
    return (
        needed(f"Flywheel bolts: {n - 1} of {n} ticked", "accepts a count that is one short",
               "One bolt was never tightened, or nobody knows. All out, new ones, again from the first stage.", critical=True),
        needed(f"Run-out {spread:.2f} mm, read after the plate was on", "accepts a figure nobody could measure",
               "The face is hidden then. Nobody can tell what was measured: ask, and measure again."),
        needed("Crankshaft end float: ok", "accepts ok for a figure",
               "“Ok” is no figure. Ask for it, or measure again: the thrust bearing wears on."),
        needed(f"Flywheel bolts at {final:g} N·m with TW3", "overlooks a wrench out of date",
               "That wrench is past its date on this day. Nobody knows what it clicked at: do it again.", critical=True),
        wrong(f"Cover bolts {car.clutch.cover.torque_nm:g} N·m with {wrench_for(car.clutch.cover.torque_nm).id}",
              "strikes a good cover line",
              "That is the sheet's figure and a wrench that is in date. Struck out, the cover is done twice."),
        wrong(f"Plate: side read on the hub before it went in, wrench {wrench.id} put back at its lowest mark",
              "strikes a good note on the plate",
              "That line says what was looked at. Such notes save the next fitter an hour."),
        wrong(f"Mileage {story.km} km, kit {story.kit.kit}", "strikes mileage and kit",
              "Both belong in every record. Without them nobody knows what was fitted when."),
    )  # fmt: skip


def _record_of_the_end(story: Story) -> tuple[Option, ...]:
    car, row = story.car, story.after.rows[4]
    low, high = car.release.free_play_mm
    spread = round(run_out_mm(story.second_readings_mm), 2)
    return (
        needed("Signed at 14:10, road test at 15:00", "accepts a signature before the test",
               "Signed before it was tested, it vouches for what nobody knew. Test, then sign.", critical=True),
        needed(f"Free play {low:g} to {high:g} mm", "accepts the limit for the value",
               "That is what the sheet allows, not what was found. Value and limit are two fields."),
        needed("Flywheel lock: no entry", "overlooks the lock",
               "Left in, it breaks ring gear and starter, and pieces fly. Look before anybody starts it.", critical=True),
        needed("Wheel bolts: tight", "accepts tight for a torque",
               "“Tight” is no torque, and a wheel comes off. Do them again and write the figure.", critical=True),
        wrong(f"Road test: {row.rpm} rpm at {row.kmh:.1f} km/h, full load", "strikes a good road-test line",
              "Figures with units, in the right gear: that is your proof. Keep it."),
        wrong(f"Run-out {spread:.2f} mm, limit {car.flywheel.face_runout_limit_mm:g} mm, read before the plate went on",
              "strikes a value beside its limit", "Value and limit side by side is just how it should be."),
        wrong(f"Kit {story.kit.kit}, old parts shown to the customer", "strikes kit and old parts",
              "The number and the old parts show what was done and why. Leave it."),
    )  # fmt: skip
