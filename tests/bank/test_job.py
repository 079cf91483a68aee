"""Lesson job: one story in every exercise, parts that can be decided, a careful fitter and a careless one."""

import re
from collections import Counter
from datetime import date

import pytest

from bitepoint.bank import exercises, exercises_of
from bitepoint.bank.job.inspect import bench_of
from bitepoint.bank.job.measure import UNCERTAINTY_MM
from bitepoint.bank.job.parts import PLANTED, planted_parts
from bitepoint.bank.job.story import FULL, story_of
from bitepoint.bank.star.common import flywheel_stages
from bitepoint.logbook.identity import learner_id
from bitepoint.logbook.record import read_line, write_line
from bitepoint.marking.line_marking import mark_line
from bitepoint.marking.passing import MORE_WORK, count, evidence_words
from bitepoint.marking.rows import rows_of
from bitepoint.marking.rules import ClassRules
from bitepoint.mechanics.decisions import decide
from bitepoint.mechanics.wrench import wrench_setting_nm
from bitepoint.questions.draw import Draw
from bitepoint.questions.keys import letters_for
from bitepoint.workshop.criteria import criteria, limits_of
from bitepoint.workshop.kits import fitting, found_on
from bitepoint.workshop.roadtests import road_test
from bitepoint.workshop.tools import torque_wrench
from bitepoint.workshop.vehicles import vehicle

BANK = exercises()
LEARNERS = [f"learner-{n}" for n in range(200)]
OAK = "oak-2026"
CLASS = [learner_id(OAK, n) for n in range(1, 201)]
MEASURED = {
    "Crankshaft end float": "crank-end-float",
    "Input-shaft play": "input-shaft-play",
    "Flywheel, deepest score": "flywheel-scoring",
    "Flywheel, gap under the straight edge": "flywheel-flatness",
    "New plate, run-out at the rim": "plate-runout",
}


def marked(exercise, answer, *, learner):
    """Return a line of the logbook as marking reads it; without an answer the right one."""
    found = BANK[exercise]
    question = found.draw(class_word=OAK, learner=learner)
    fields = {
        "at": "2026-04-14T08:00:30.000Z", "learner": learner, "class": OAK, "device": "0a1b2c3d", "exercise": exercise,
        "revision": found.revision, "turn": 1, "facts": question.facts_digest(), "how": "form", "score": 1.0,
        "answer": question.right_answer() if answer is None else answer, "opened": "2026-04-14T07:59:00.000Z",
    }  # fmt: skip
    return mark_line(read_line(write_line(fields, n=1, prev="").encode("ascii")))


def draw_for(learner, exercise="job.inspect", turn=1):
    return Draw(class_word="amber", learner=learner, exercise=exercise, turn=turn)


def drawn(id, learners=60):
    """Yield the exercise's questions for some learners and three turns."""
    for learner in LEARNERS[:learners]:
        for turn in (1, 2, 3):
            yield BANK[id].draw(class_word="amber", learner=learner, turn=turn)


def one(pattern, text):
    """Return the one figure that a pattern finds."""
    return float(re.search(pattern, text)[1])


def marks_of(learner, spoilt=None):
    """Return the rows that marking makes of a whole capstone, every answer right but those in `spoilt`."""
    lines = []
    for exercise in exercises_of("job"):
        answer = (spoilt or {}).get(exercise.id)
        lines.append(marked(exercise.id, answer, learner=learner))
    return rows_of(learner, lines, OAK)


def overlooked(learner):
    """Return an answer to the bench that leaves out one part that could hurt somebody: planted, or the old bolts."""
    question = BANK["job.inspect"].draw(class_word=OAK, learner=learner)
    draw = Draw(class_word=OAK, learner=learner, exercise="job.inspect", turn=1)
    parts = planted_parts(draw.story(), draw.vehicle())
    hurting = next(f"{p.name}: {p.told}" for p in parts if p.hurts)
    letters = zip(letters_for(len(question.options)), question.options, strict=True)
    missed = next(letter for letter, option in letters if option.text == hurting)
    return [letter for letter in question.right_answer() if letter != missed]


def test_a_perfect_fitter_gets_full_marks():
    """Whoever gives the right answer to everything has full marks under the pass rule, for 200 learners."""
    rules = ClassRules(lessons=("job",))
    for learner in CLASS:
        rows = marks_of(learner)
        assert [1.0] * len(exercises_of("job")) == [row.mark for row in rows]
        counted = count(rows, rules)
        assert counted.met
        assert counted.right == counted.rest == len([e for e in exercises_of("job") if not e.beyond])


def test_a_careless_fitter_is_stopped():
    """Whoever overlooks one part that could hurt somebody does not pass, all else right, for 200 learners."""
    rules = ClassRules(lessons=("job",))
    for learner in CLASS:
        rows = marks_of(learner, {"job.inspect": overlooked(learner)})
        counted = count(rows, rules)
        assert ("job.inspect",) == counted.critical_open
        assert not counted.met
        assert MORE_WORK == evidence_words(counted)


def test_every_planted_fault_must_be_found():
    """Whichever part that may not go back is left out, the bench is not right, for 200 learners."""
    for learner in CLASS:
        question = BANK["job.inspect"].draw(class_word=OAK, learner=learner)
        right = question.right_answer()
        assert len(right) - 2 in PLANTED
        for letter in right:
            assert question.mark([k for k in right if k != letter]).score < 1


def test_generated_parts_can_be_decided():
    """None or a few planted faults, one of them dangerous; a figure lies at least two steps off its limit, on the side told."""
    limits = {item.id: item for item in criteria().measured}
    for learner in LEARNERS:
        draw = draw_for(learner)
        car = draw.vehicle()
        parts = planted_parts(draw.story(), car)
        states = Counter(p.state for p in parts)
        assert states["planted"] in PLANTED
        assert states["always new"] == 2
        assert not states["planted"] or any(p.hurts for p in parts if p.state == "planted")
        for part in parts:
            assert (part.state == "sound") == (part.verdict.decision == "reuse")
            if part.name in MEASURED:
                limit = limits_of(limits[MEASURED[part.name]], car)[1]
                value = float(part.told.removesuffix(" mm"))
                assert value > 0
                assert abs(value - limit) > 0.0199
                assert (value > limit) == (part.state == "planted")


def test_every_slot_is_met_sound_and_planted():
    """No part is always good or always bad, so nobody passes by learning the list by heart."""
    met = {}
    for learner in LEARNERS:
        draw = draw_for(learner)
        for part in planted_parts(draw.story(), draw.vehicle()):
            met.setdefault(part.name, set()).add(part.state)
    changing = {name: states for name, states in met.items() if "always new" not in states}
    assert all({"sound", "planted"} == states for states in changing.values())
    assert 11 == len(changing)


def test_the_bench_is_the_story_first_and_new_afterwards():
    """At the first turn the bench is that of the job; a new turn brings other parts."""
    same = 0
    for learner in LEARNERS[:50]:
        first, again = bench_of(draw_for(learner)), bench_of(draw_for(learner, turn=2))
        assert planted_parts(draw_for(learner, "job.decide", 3).story(), draw_for(learner).vehicle()) == first
        same += first == again
    assert same < 5


def test_the_story_is_one_in_every_exercise():
    """Vehicle, log, kit, bar and crow-foot are the same wherever they show."""
    for learner in LEARNERS[:40]:
        story = story_of(draw_for(learner))
        assert story == story_of(draw_for(learner, "job.tighten", 3))
        questions = {e.id: e.draw(class_word="amber", learner=learner) for e in exercises_of("job")}
        assert {story.car.id} == {q.vehicle for q in questions.values()}
        assert story.before.table == questions["job.log"].table
        assert story.before.plot == questions["job.log"].picture
        assert story.before.channels == questions["job.verdict"].picture
        assert story.after.table == questions["job.road-test"].table
        assert story.bar_mm == questions["job.tighten"].fitted.offset_mm
        assert f"moves the drive {story.crow_foot_mm} mm" in questions["job.setting"].ask


def test_the_kit_of_the_story_fits_the_car():
    """Exactly one of the ten kits agrees with what is read on the car, and it is the story's."""
    for learner in LEARNERS[:60]:
        story = story_of(draw_for(learner))
        found = found_on(story.car, options={story.option}, flywheel_wanted="rigid")
        assert (story.kit.kit,) == fitting(found)


def test_the_first_seat_is_over_the_limit_and_the_second_within():
    """A chip under the flywheel is found by the gauge, and gone when it is cleaned."""
    for learner in LEARNERS:
        story = story_of(draw_for(learner))
        limit = story.car.flywheel.face_runout_limit_mm
        spreads = [round(max(r) - min(r), 2) for r in (story.first_readings_mm, story.second_readings_mm)]
        assert spreads[0] > limit >= spreads[1]


def test_the_log_slips_at_full_load_only_and_is_cured_afterwards():
    """Reckoned from the shown figures: within 2 % with a light foot and after the job, 9 to 20 % before at full load."""
    for learner in LEARNERS:
        story = story_of(draw_for(learner))
        for drive, cured in ((story.before, False), (story.after, True)):
            assert 4 == sum(row.pedal == FULL for row in drive.rows)
            for row in drive.rows:
                slip = 100 * (1 - row.kmh / story.kmh_per_1000 * 1000 / row.rpm)
                slipping = row.pedal == FULL and not cured
                assert 9 < slip < 20 if slipping else abs(slip) < 2, row
                assert abs(row.kmh - row.driven_kmh) < 0.02 * row.kmh


def test_the_rows_of_the_table_lie_in_the_plot():
    """Every row is a moment of the log that the plot draws, and the part plotted against time holds the full throttle."""
    for learner in LEARNERS[:40]:
        for drive in story_of(draw_for(learner))[4:6]:
            moments = {f"{s.t_s:.1f}": s for s in road_test(drive.log).samples}
            for row in drive.rows:
                assert round(moments[row.second].engine_rpm) == row.rpm
                assert row.pedal != FULL or drive.from_s < float(row.second) < drive.to_s


def test_a_figure_near_the_limit_is_decided_by_the_guard_band():
    """The right option follows from figure, limit and uncertainty in the words; every zone is met."""
    words = {"within": "Within", "outside": "Over", "cannot be told": "Cannot be told"}
    met = set()
    for q in drawn("job.finger-level"):
        found, limit = one(r"finger: ([\d.]+) mm", q.ask), one(r"allows ([\d.]+) mm", q.ask)
        zone = decide(found, upper=limit, uncertainty=UNCERTAINTY_MM)
        met.add(zone)
        assert next(o.text for o in q.options if o.right).startswith(words[zone])
    assert set(words) == met


def from_words_log(q):
    """Road speed over what belongs to 1000 rpm is what arrives."""
    per_1000 = one(r"([\d.]+) km/h belong", q.ask)
    row = next(r for r in q.table if r[0] == re.search(r"slip at ([\d.]+) s", q.ask)[1])
    kmh, rpm = float(row[2].split()[0]), float(row[4].split()[0])
    return 100 * (1 - kmh / per_1000 * 1000 / rpm)


def from_words_run_out(q):
    """Highest less lowest of the table."""
    figures = [float(f.replace("−", "-")) for f in q.table[1][1:]]
    return max(figures) - min(figures)


def from_words_setting(q):
    """Only a crow-foot that stands out changes the setting."""
    wanted = one(r"(?:needs|says) ([\d.]+) N·m", q.ask)
    if "straight out" not in q.ask:
        return wanted
    out, lever = one(r"drive ([\d.]+) mm", q.ask), one(r"lever is ([\d.]+) mm", q.ask)
    return wrench_setting_nm(wanted, lever_mm=lever, offset_mm=out)


FROM_WORDS = {"job.log": from_words_log, "job.run-out": from_words_run_out, "job.setting": from_words_setting}


@pytest.mark.parametrize("id", FROM_WORDS)
def test_the_words_alone_lead_to_the_right_figure(id):
    """Whoever reads only words and table of a number question gets its right answer."""
    for question in drawn(id):
        assert question.mark(FROM_WORDS[id](question)).score == 1, question.ask


def test_every_number_question_is_worked_from_its_words():
    """No number question of this lesson escapes the check above."""
    kinds = {e.id: e.draw(class_word="amber", learner="ada").kind for e in exercises_of("job")}
    assert set(FROM_WORDS) == {id for id, kind in kinds.items() if kind == "number"}


def test_the_flywheel_gets_every_stage_of_the_sheet():
    """No stage of the data sheet is left out, and the wrench reaches each of them."""
    for question in drawn("job.tighten"):
        if question.part == "flywheel":
            assert flywheel_stages(vehicle(question.vehicle)) == question.stages
            wrench = next(w for w in map(torque_wrench, ("TW1", "TW2")) if w.lever_mm == question.fitted.lever_mm)
            assert all(wrench.lowest_nm <= s.target <= wrench.highest_nm for s in question.stages if s.needs_setting)


def test_stopping_to_ask_is_never_critical():
    """Stop and ask is never a critical mistake."""
    for exercise in exercises_of("job"):
        for question in (exercise.draw(class_word="amber", learner=name) for name in LEARNERS[:20]):
            for option in getattr(question, "options", ()):
                assert not (option.critical and "stop and ask" in option.text.casefold())


@pytest.mark.parametrize("letter", "ABCD")
def test_the_kit_is_chosen_from_what_every_column_says(letter):
    """The identification number comes first, and no column of the list is left to be guessed."""
    asked = BANK["job.kit"].draw(class_word=OAK, learner=CLASS[0], vehicle=letter).ask
    car = vehicle(letter)
    named = (car.build.vin_sample, car.engine.code, car.gearbox.code, f"{car.clutch.plate_od_mm:g} mm", "release: ")
    assert [asked.index(word) for word in named] == sorted(asked.index(word) for word in named)


@pytest.mark.parametrize(("letter", "small"), [("A", False), ("B", True), ("C", False), ("D", False)])
def test_the_first_stage_of_the_flywheel_is_set_on_the_small_wrench(letter, small):
    """Twenty newton-metres are the bottom of the large wrench; the lever named is that of the largest one used."""
    asked = BANK["job.tighten"].draw(class_word=OAK, learner=CLASS[0], vehicle=letter).ask
    assert ("Up to 25 N·m the small wrench" in asked) is not small
    assert f"lever of the {'small' if small else 'large'} wrench is {260 if small else 410} mm" in asked


@pytest.mark.parametrize("letter", "ABCD")
def test_the_record_is_read_beside_a_wrench_in_date_that_reaches_the_wheels(letter):
    """Whoever reads the line on the wheel bolts finds a wrench with which they could have been done."""
    table = dict(BANK["job.record"].draw(class_word=OAK, learner=CLASS[0], vehicle=letter).table)
    wrench = torque_wrench("TW2" if letter == "A" else "TW4")
    assert table[f"wrench {wrench.id}"] == f"due {wrench.due}"
    assert wrench.check(vehicle(letter).wheels.torque_nm, on=date.fromisoformat(vehicle(letter).job_date)).ok


def test_how_an_answer_is_typed_is_told_to_whom_it_concerns():
    """Who works at the drill is not sent to a line of text: the words for typing stand apart from the question."""
    found = [
        q for turn in (1, 2) for q in [BANK["job.tighten"].draw(class_word="amber", learner="learner-1", turn=turn)]
    ]
    assert [("Typed" in q.ask, q.typed_as.startswith("Typed, ")) for q in found] == [(False, True)] * 2
