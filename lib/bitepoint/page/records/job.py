"""The job record of the capstone: filled in from the learner's own answers, with room for those who watch and sign."""

from collections.abc import Sequence
from typing import NamedTuple

from markupsafe import Markup

from bitepoint.bank.job.story import Story, story_of
from bitepoint.logbook import Identity
from bitepoint.logbook.standing import Marked
from bitepoint.mechanics.metrology import run_out_mm
from bitepoint.page import html
from bitepoint.page.exercise_session import ExerciseSession
from bitepoint.page.kinds import view_of
from bitepoint.questions.draw import Draw
from bitepoint.workshop.vehicles import Vehicle

_NBSP = "\N{NO-BREAK SPACE}"
OBSERVE = "practical observation still required"
_LINES = {
    "job.words": "Customer, first words",
    "job.log": "Slip at full load",
    "job.verdict": "Decision after the road test",
    "job.kit": "Kit",
    "job.plan": "Before the first bolt",
    "job.order": "Order of work",
    "job.inspect": "Parts not put back",
    "job.decide": "The part that was in question",
    "job.call": "After the bench",
    "job.tighten": "Flywheel bolts",
    "job.run-out": "Run-out of the flywheel",
    "job.finger-level": "Finger level",
    "job.refit": "Gearbox and release",
    "job.setting": "Wrench at the housing bolts",
    "job.checks": "Standing checks, put right",
    "job.road-test": "Slip run after the running-in",
    "job.label": "Label",
    "job.record": "Record, put right",
}
"""What each exercise is called in the record, in the order of the job."""


class RecordLine(NamedTuple):
    """One line of the record: what, value or act, what the sheet says, and its state."""

    what: str
    done: str
    sheet: str
    state: str


def story_for(identity: Identity) -> Story:
    """Return the job of this learner."""
    return story_of(
        Draw(
            class_word=identity.class_word,
            learner=identity.learner,
            exercise="job.record",
            turn=1,
            sitting=identity.sitting,
            vehicle=identity.vehicle or None,
            cars=identity.vehicles,
        )
    )


def record_lines(sessions: Sequence[ExerciseSession], story: Story) -> list[RecordLine]:
    """Return the lines of the record; what was not answered right yet stays open."""
    by_id = {session.exercise.id: session for session in sessions}
    sheet = _sheet(story.car)
    row = story.after.rows[4]
    more = {
        "job.call": f"; {story.since_bench.strip()}" if story.since_bench else "",
        "job.run-out": f"; off, cleaned, fitted again: {run_out_mm(story.second_readings_mm):.2f} mm",
        "job.road-test": f"; {row.rpm} rpm at {row.kmh:.1f} km/h",
    }
    return [
        _line(what, by_id[id], sheet.get(id, "").replace(" ", _NBSP), more.get(id, ""))
        for id, what in _LINES.items()
        if id in by_id
    ]


def _sheet(car: Vehicle) -> dict[str, str]:
    bolts = car.flywheel.tightening
    angle = f" + {bolts.angle_deg:g}°" if bolts.angle_deg is not None else ""
    return {
        "job.log": "above 3 %: slip",
        "job.tighten": f"{bolts.final_nm:g} N·m{angle}",
        "job.run-out": f"at most {car.flywheel.face_runout_limit_mm:.2f} mm",
        "job.finger-level": f"at most {car.clutch.finger_coplanarity_limit_mm:.2f} mm",
        "job.setting": f"{car.gearbox.bell_bolts[0].torque_nm:g} N·m at bolt",
        "job.checks": f"rev test to {car.engine.static_test_max_rpm:g} rpm",
        "job.road-test": f"gear {car.gearbox.slip_test_gear}",
    }


def _line(what: str, session: ExerciseSession, sheet: str, more: str = "") -> RecordLine:
    answers = session.answers()
    if not answers:
        return RecordLine(what, "", sheet, "to do")
    if session.withheld:
        return RecordLine(what, _told(session, answers[-1]), sheet, "recorded")
    right = next((a for a in answers if a.verdict.right), None)
    if right is None:
        return RecordLine(what, "", sheet, "not yet")
    turn = right.record.turn
    return RecordLine(what, _told(session, right) + more, sheet, "done" if turn == 1 else f"done, turn {turn}")


def _told(session: ExerciseSession, answer: Marked) -> str:
    question = session.asked_in(answer.record)
    return view_of(question).record(question, answer.verdict.understood)


def page_html(sessions: Sequence[ExerciseSession], identity: Identity) -> Markup:
    """Return the record as a page: the car, the lines, and two boxes for people."""
    story = story_for(identity)
    lines = record_lines(sessions, story)
    head = [
        ("Vehicle", story.car.name),
        ("Mileage", f"{story.km:,} km"),
        ("Date of the job", story.car.job_date),
        ("Complaint", "engine howls on a hill, the car gets no faster"),
    ]
    if story.ended:
        head.append(("From the flywheel on", "a second car of the model: the first one's job ended at the bench"))
    rows = [("What", "Value or act", "Sheet", "State"), *lines]
    return html.render("records/job.html.jinja", frame=story.car.frame, head=head, rows=rows, observe=OBSERVE)
