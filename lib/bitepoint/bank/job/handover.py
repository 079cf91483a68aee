"""Lesson 12, the whole job: standing checks, the second road test, the label, the record read before it is signed."""

from datetime import date
from typing import Any

from msgspec import structs

from bitepoint.bank.forms import Form, form_of, forms_of
from bitepoint.bank.job.build import wrench_for
from bitepoint.bank.job.outcomes import HANDS_OVER, OWN_KIT, own_form
from bitepoint.bank.job.story import Story, story_of
from bitepoint.bank.registry import exercise
from bitepoint.mechanics.metrology import run_out_mm
from bitepoint.questions.choice import Choice, Several
from bitepoint.questions.draw import Draw
from bitepoint.workshop.kit_list import kits_for
from bitepoint.workshop.tools import torque_wrench, workshop, wrenches_for


@exercise("job.checks", lesson="job", outcome=HANDS_OVER, minutes=4, title="Read the standing checks", needs=OWN_KIT)
def checks(draw: Draw) -> Several:
    story, form = story_of(draw), form_of(draw)
    car = story.car
    low, high = car.release.free_play_mm
    left_out = {"cable-frayed" if car.release.master_bore_mm else "pedal-sinks"}
    if car.wheels.hub_nut is None:
        left_out.add("old-hub-nut")
    offers = [option for option in form.option if option.key not in left_out]
    question = form.several(
        draw,
        offers=[option.key for option in offers],
        count=sum(option.right for option in offers),
        vehicle=car.id,
        car=car.name,
        play=f"{story.free_play_mm:g}",
        low=f"{low:g}",
        high=f"{high:g}",
        rpm=f"{car.engine.static_test_max_rpm:g}",
        drained=f"{round(0.8 * car.gearbox.oil_litre, 1):g}",
        oil=f"{car.gearbox.oil_litre:g}",
        wheels_nm=f"{car.wheels.torque_nm:g}",
        drags=_DRAGS[bool(car.gearbox.reverse_synchronised)],
    )
    return _with_reasons(question, form, ". ")


_DRAGS = {
    False: "Reverse, no synchroniser, warm oil: grates after 8 s",
    True: "First gear, pedal right down, foot on the brake: the car pushes",
}
"""How a clutch that drags is found, by whether reverse has a synchroniser: with one a silent reverse shows nothing."""


def _with_reasons(question: Several, form: Form, between: str) -> Several:
    """Return the question with a solution that gives the reason with every line to be put right."""
    right = {option.key: option for option in question.options if option.right}
    lines = [f"{right[o.key].text}{between}{right[o.key].says}" for o in form.option if o.key in right]
    return structs.replace(question, solution="\n".join(lines))


@exercise("job.road-test", lesson="job", outcome=HANDS_OVER, minutes=3, title="Read the second log", needs=OWN_KIT)
def road_test(draw: Draw) -> Choice:
    story, form = story_of(draw), own_form(draw)
    drive = story.before if form.key == "slips-still" else story.after
    shown: dict[str, Any] = {} if form.key == "which-gear" else {"table": drive.table, "picture": drive.plot}
    gearbox = story.car.gearbox
    return form.choice(
        draw,
        vehicle=story.car.id,
        car=story.car.name,
        opened=story.name,
        kmh=f"{story.kmh_per_1000:g}",
        second=drive.rows[4].second,
        top=len(gearbox.ratios),
        ordinal=_ORDINALS[gearbox.slip_test_gear - 1],
        **shown,
    )


_ORDINALS = ("First", "Second", "Third", "Fourth", "Fifth", "Sixth", "Seventh", "Eighth")


@exercise("job.label", lesson="job", outcome=HANDS_OVER, minutes=2, title="Label the change", needs=OWN_KIT)
def label(draw: Draw) -> Several:
    story, asked = story_of(draw), ("where", "what")[draw.form(2)]
    whose = "own" if story.changes_flywheel else "other"
    kit = story.kit.kit if story.changes_flywheel else _changing_kit(story)
    form = forms_of(draw)[f"{asked}-{whose}"]
    return form.several(draw, vehicle=story.car.id, car=story.car.name, kit=kit)


def _changing_kit(story: Story) -> str:
    """Return the first kit of another engine that changes the kind of flywheel: it brings a label."""
    return next(
        k.kit
        for k in kits_for(story.car.id)
        if "vehicle label" in k.contents and k.engine_code != story.kit.engine_code
    )


@exercise(
    "job.record",
    lesson="job",
    outcome=HANDS_OVER,
    minutes=6,
    title="Read the record before it is signed",
    needs=OWN_KIT,
)
def record(draw: Draw) -> Several:
    story, form = story_of(draw), form_of(draw)
    car, row = story.car, story.after.rows[4]
    n, final, cover_nm = car.flywheel.bolt_count, car.flywheel.tightening.final_nm, car.clutch.cover.torque_nm
    low, high = car.release.free_play_mm
    question = form.several(
        draw,
        vehicle=car.id,
        car=car.name,
        day=car.job_date,
        n=n,
        ticked=n - 1,
        run_out=f"{round(run_out_mm(story.second_readings_mm), 2):.2f}",
        limit=f"{car.flywheel.face_runout_limit_mm:.2f}",
        final=f"{final:g}",
        wrench=wrench_for(final).id,
        cover_nm=f"{cover_nm:g}",
        cover_wrench=wrench_for(cover_nm).id,
        km=f"{story.km:,}",
        kit=story.kit.kit,
        low=f"{low:g}",
        high=f"{high:g}",
        rpm=row.rpm,
        kmh=f"{row.kmh:.1f}",
    )
    return structs.replace(_with_reasons(question, form, ": "), table=record_table(story))


def record_table(story: Story) -> tuple[tuple[str, ...], ...]:
    """Return what the lines of a record are read against: the sheet's figures, and when each wrench is due."""
    car = story.car
    low, high = car.release.free_play_mm
    sheet = (
        (
            "flywheel bolts",
            f"{car.flywheel.bolt_count} at {car.flywheel.tightening.final_nm:g} N·m, the last torque stage",
        ),
        ("cover bolts", f"{car.clutch.cover.torque_nm:g} N·m"),
        ("run-out, read on the bare face", f"at most {car.flywheel.face_runout_limit_mm:.2f} mm"),
        ("free play", f"{low:g} to {high:g} mm"),
        ("wheel bolts", f"{car.wheels.torque_nm:g} N·m"),
        ("1000 rpm in the gear of the slip test", f"{story.kmh_per_1000:g} km/h"),
    )
    own = [wrench.id for wrench in workshop().torque_wrenches]
    for_wheels = wrenches_for(car.wheels.torque_nm, on=date.fromisoformat(car.job_date))
    lent = [wrench.id for wrench in for_wheels if wrench.id not in own]
    due = ((f"wrench {name}", f"due {torque_wrench(name).due}") for name in (*own, *lent))
    return (("what", "sheet or label"), *sheet, *due)
