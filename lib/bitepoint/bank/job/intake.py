"""Lesson 12, the whole job: words on the phone, slip that is proved, one kit out of ten, what is settled before a bolt."""

from bitepoint.bank.forms import form_of, forms_of
from bitepoint.bank.job.outcomes import FINDS, ORDERS, OWN_KIT, own_first, own_form
from bitepoint.bank.job.story import Story, story_of
from bitepoint.bank.kit.common import kit_table
from bitepoint.bank.registry import exercise
from bitepoint.questions.choice import Choice, Option
from bitepoint.questions.draw import Draw
from bitepoint.questions.number import Number, plus_minus
from bitepoint.questions.question import Mistake
from bitepoint.workshop.kit_list import Kit, kits_for
from bitepoint.workshop.kits import found_on, kit_verdict
from bitepoint.workshop.tools import torque_wrench


@exercise("job.words", lesson="job", outcome=FINDS, minutes=2, title="Answer the telephone", needs=OWN_KIT)
def words(draw: Draw) -> Choice:
    story = story_of(draw)
    return form_of(draw).choice(
        draw, vehicle=story.car.id, car=story.car.name, opened=story.name, km=f"{story.km:,}", weeks=story.weeks
    )


@exercise("job.log", lesson="job", outcome=FINDS, minutes=4, title="Work out the slip from the log", needs=OWN_KIT)
def log(draw: Draw) -> Number:
    story = story_of(draw)
    row = story.before.rows[3 + draw.form(3)]
    arrives = row.kmh / story.kmh_per_1000 * 1000
    right, divided = 100 * (1 - arrives / row.rpm), 100 * (row.rpm / arrives - 1)
    gear = story.car.gearbox.slip_test_gear
    return Number(
        ask=f"Road test of {story.car.name}, dry road. The table holds six moments of the plot, all in gear {gear}, clutch "
        f"pedal up. If nothing slips, {story.kmh_per_1000:g} km/h belong to 1000 rpm. "
        f"How much does the clutch slip at {row.second} s, in per cent of engine speed?",
        table=story.before.table,
        picture=story.before.plot,
        answer=right,
        unit="%",
        # On a car of a college's own little may slip: then the known mistake lies near, and the answer must be nearer.
        within=plus_minus(0.3 if divided - right > 0.65 else round((divided - right) / 3, 2)),
        decimals=1,
        mistakes=(
            Mistake(
                divided,
                "divides by the speed that arrives",
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


@exercise("job.verdict", lesson="job", outcome=FINDS, minutes=3, title="Decide: clutch or not", needs=OWN_KIT)
def verdict(draw: Draw) -> Choice:
    story = story_of(draw)
    return own_form(draw).choice(
        draw,
        picture=story.before.channels,
        vehicle=story.car.id,
        car=story.car.name,
        play=f"{story.free_play_mm:g}",
    )


@exercise(
    "job.kit",
    lesson="job",
    outcome=FINDS,
    minutes=4,
    title="Choose one kit out of ten",
    needs=(*OWN_KIT, "two kits for its engine"),
)
def kit(draw: Draw) -> Choice:
    story = story_of(draw)
    if own_first(draw, 2) == 0:
        return _which(draw, story)
    near = _near(story)
    return forms_of(draw)["wrong-box"].choice(
        draw,
        table=kit_table(kits_for(story.car.id)),
        vehicle=story.car.id,
        car=story.car.name,
        read=_read_on(story),
        near=near.kit,
        against=_against(story, near),
    )


def _read_on(story: Story) -> str:
    car = story.car
    return (
        f"identification number {car.build.vin_sample}, the same on body and papers. Engine code {car.engine.code}, "
        f"built {car.build.build_date}, gearbox {car.gearbox.code}, option code {story.option}. "
        f"Plate {car.clutch.plate_od_mm:g} mm, {car.clutch.splines} splines, release: {story.kit.release}"
    )


def _near(story: Story) -> Kit:
    """The row that is nearest to the right one: the same engine, another column that says no."""
    mine = story.kit
    return next(k for k in kits_for(story.car.id) if k.engine_code == mine.engine_code and k.kit != mine.kit)


def _against(story: Story, other: Kit) -> str:
    found = found_on(story.car, options={story.option}, flywheel_wanted="rigid")
    return kit_verdict(found, other).check


def _which(draw: Draw, story: Story) -> Choice:
    """Return the choice among the rows of the kit list; so its options are made from that list."""
    code, mine = story.car.engine.code, story.kit.kit
    why = "Every column agrees with the car. One that does not is enough to say no."
    near = _near(story)
    left = f"The engine agrees, but the {_against(story, near)} does not. The car would stand in pieces."
    options = [
        Option(mine, True, key=mine),
        Option(near.kit, False, "stops at the engine code", left, key=near.kit),
        *_other_rows(story, code),
    ]
    return Choice(
        form="right-row",
        options=tuple(draw.shuffle(options)),
        ask=f"Read on {story.car.name}: {_read_on(story)}. Agreed is a rigid flywheel. Which kit do you order?",
        why=why,
        step=f"Cross out every row without the engine code {code}. Two rows at most are left.",
        solution=f"{mine}. {why}",
        table=kit_table(kits_for(story.car.id)),
        source="invented",
        vehicle=story.car.id,
    )


def _other_rows(story: Story, code: str) -> list[Option]:
    others = [kit for kit in kits_for(story.car.id) if kit.engine_code != code]
    return [
        Option(
            other.kit,
            False,
            f"reads past the engine code, row {row}",
            f"This kit says no at the {_against(story, other)}. It would be paid for and sent back.",
            key=other.kit,
        )
        for row, other in enumerate(others, start=1)
    ]


@exercise("job.plan", lesson="job", outcome=ORDERS, minutes=3, title="Settle it before the first bolt", needs=OWN_KIT)
def plan(draw: Draw) -> Choice:
    story, late = story_of(draw), torque_wrench("TW3")
    agreed = "change-agreed" if story.changes_flywheel else "kept-agreed"
    return forms_of(draw)[(agreed, "tools", "safe")[draw.form(3)]].choice(
        draw,
        vehicle=story.car.id,
        car=story.car.name,
        kit=story.kit.kit,
        final=f"{story.car.flywheel.tightening.final_nm:g}",
        highest=f"{late.highest_nm:g}",
        due=str(late.due),
        kg=f"{story.car.masses.gearbox_kg:g}",
    )
