"""Lessons star and start: the words alone lead to the right answer, and what is dangerous is called so."""

import re
from itertools import permutations
from math import hypot

import pytest

from bitepoint.bank import exercises, exercises_of
from bitepoint.bank.star.common import flywheel_stages
from bitepoint.mechanics.tightening import is_star
from bitepoint.workshop.vehicles import vehicle, vehicles

BANK = exercises()
LEARNERS = [f"learner-{n}" for n in range(60)]
NUMBER = re.compile(r"\d+(?:\.\d+)?")


def drawn(id):
    """Yield the exercise's questions for sixty learners and three turns."""
    for learner in LEARNERS:
        for turn in (1, 2, 3):
            yield BANK[id].draw(class_word="amber", learner=learner, turn=turn)


def figures(text):
    """Return the figures of a text in order."""
    return [float(n) for n in NUMBER.findall(text)]


def from_words_stage_torque(q):
    """Take the torque that is named last as final, and the share of the round that is asked for."""
    if "maintenance manual" in q.ask:
        _, share, _, final = figures(q.ask)
        return share / 100 * final
    final, first, second, _ = figures(q.ask)
    return final * (first if "the first stage" in q.ask else second) / 100


def from_words_pulls_count(q):
    """Bolts times every torque, angle and second round with a tool."""
    bolts = int(re.search(r"has (\d+) bolts", q.ask)[1])
    stages, _, second = q.ask.partition("Stages: ")[2].partition("Second round: ")
    rounds = len(figures(stages.partition(" %")[0] if "%" in stages else stages))
    return bolts * (rounds + ("again" in second.partition(".")[0]))


def from_words_out_of_balance(q):
    """Add the columns of the bolts that are tight."""
    tight = [int(b) for b in NUMBER.findall(re.search(r"bolts ([\d, and]+)\.", q.ask)[1])]
    rows = {int(row[0]): tuple(float(part.replace("−", "-")) for part in row[2:]) for row in q.table[1:]}
    return hypot(sum(rows[b][0] for b in tight), sum(rows[b][1] for b in tight))


def from_words_weakest_bolt(q):
    """Walk the order round by round on paper."""
    bolts, near = int(figures(q.ask)[0]), figures(q.ask)[1]
    far = re.search(r"takes ([\d.]+) % from the next but one", q.ask)
    order, rounds = re.search(r"Order: ([\d ]+), (.*) of the target", q.ask).groups()
    targets = figures(rounds) * (2 if "both" in rounds else 1)
    loss = {1: near / 100, bolts - 1: near / 100}
    if far:
        loss |= {2: float(far[1]) / 100, bolts - 2: float(far[1]) / 100}
    load = dict.fromkeys(range(1, bolts + 1), 0.0)
    for target in targets:
        for bolt in map(int, order.split()):
            rise = target - load[bolt]
            for other in load:
                if load[other] > 0 and other != bolt:
                    load[other] -= loss.get((other - bolt) % bolts, 0) * rise
            load[bolt] = target
    return min(load.values())


def from_words_start_number(q):
    """Figure times what one of it is."""
    given, factor = figures(q.ask)
    return given * factor


FROM_WORDS = {
    "star.stage-torque": from_words_stage_torque,
    "star.pulls-count": from_words_pulls_count,
    "star.out-of-balance": from_words_out_of_balance,
    "star.weakest-bolt": from_words_weakest_bolt,
    "start.number": from_words_start_number,
}


@pytest.mark.parametrize("id", FROM_WORDS)
def test_the_words_alone_lead_to_the_right_figure(id):
    """Whoever reads only the words and the table of a number question gets its right answer."""
    for question in drawn(id):
        assert question.mark(FROM_WORDS[id](question)).score == 1, question.ask


@pytest.mark.parametrize("lesson", ["star", "start"])
def test_every_number_question_is_worked_from_its_words(lesson):
    """No number question of these lessons escapes the check above."""
    numbers = [e.id for e in exercises_of(lesson) if e.draw(class_word="amber", learner="ada").kind == "number"]
    assert set(numbers) == {id for id in FROM_WORDS if id.startswith(f"{lesson}.")}


@pytest.mark.parametrize(
    ("letter", "pulls"), [("A", 6 * (3 + 1)), ("B", 8 * (2 + 1)), ("C", 6 * (2 + 1)), ("D", 9 * (3 + 1))]
)
def test_the_flywheel_stages_follow_the_data_sheet(letter, pulls):
    """Torque stages, angle and second torque of each sheet make the pulls counted by hand from it."""
    stages = flywheel_stages(vehicle(letter))
    rounds = [s for s in stages if s.kind in ("torque", "angle", "second torque")]
    assert pulls == len(rounds) * vehicle(letter).flywheel.bolt_count
    assert stages[0].kind == "hand"
    assert stages[-1].kind in ("second torque", "look")


def test_the_flywheel_job_is_drawn_with_each_thing_that_can_be_fitted():
    """Nothing, a straight bar and a crow-foot come up for every vehicle; only the crow-foot changes the setting."""
    met = set()
    for question in drawn("star.flywheel-job"):
        met.add((question.vehicle, question.fitted.kind))
        settings = [(p.setting_nm, p.stage) for p in question.right_pulls() if p.setting_nm]
        wanted = {s.key: s.target for s in question.stages}
        changed = any(abs(nm / wanted[stage] - 1) > 0.02 for nm, stage in settings)
        assert changed == (question.fitted.kind == "crow-foot")
    assert met == {(letter, kind) for letter in vehicles() for kind in ("", "straight bar", "crow-foot")}


@pytest.mark.parametrize("id", ["star.flywheel-job", "star.cover-job"])
def test_each_setting_lies_well_inside_the_scale_of_a_wrench_that_is_at_hand(id):
    """Up to 25 N·m the small wrench, above it the middle one, which nobody sets at the bottom of its scale."""
    for question in drawn(id):
        scales = {(float(a), float(b)) for a, b in re.findall(r"from (\d+) to (\d+) N·m", question.ask)}
        assert scales
        for pull in question.right_pulls():
            if pull.setting_nm:
                wanted = (5.0, 25.0) if pull.setting_nm <= 25 else (20.0, 100.0)
                assert wanted in scales, question.ask
                assert wanted[0] <= pull.setting_nm <= wanted[1]


@pytest.mark.parametrize("id", ["star.flywheel-job", "star.cover-job"])
def test_the_nearest_step_of_the_scale_is_a_right_setting(id):
    """The small wrench goes in steps of 0.2 N·m, the middle one of 0.5: who sets the nearest step is right."""
    for question in drawn(id):
        written = question.right_answer()
        for setting in {p.setting_nm for p in question.right_pulls() if p.setting_nm}:
            step = 0.2 if setting <= 25 else 0.5
            written = written.replace(f"at {setting:g} N·m", f"at {round(setting / step) * step:g} N·m")
        assert question.mark(written).score == 1, written


def test_an_uneven_ring_is_the_real_ring_whichever_way_it_is_numbered():
    """Turned back, the six holes of vehicle C are always the same six holes."""
    holes = {float(a) for a in vehicle("C").flywheel.hole_angles_deg}
    for question in drawn("star.uneven-six"):
        by = question.angles_deg[0]
        assert holes == {(a - by) % 360 for a in question.angles_deg}


def test_the_step_of_an_uneven_ring_names_the_bolt_that_is_out_of_place():
    """All but the named bolt lie on even places, and the bolt across from it is the nearest to its far side."""
    for question in drawn("star.uneven-six"):
        odd, off, across = map(int, re.match(r"Bolt (\d) sits (\d+)° off .* still bolt (\d)", question.step).groups())
        angle = dict(enumerate(question.angles_deg, start=1))
        (place,) = {a % 60 for n, a in angle.items() if n != odd}
        assert off == min((angle[odd] - place) % 60, (place - angle[odd]) % 60)
        assert across == min(angle, key=lambda n: abs((angle[n] - angle[odd]) % 360 - 180))


def test_the_usual_torque_of_a_record_follows_from_the_sheet():
    """By hand: pull at the last stage and the angle's share of it, times nut factor and diameter."""
    for question in drawn("star.angle-log"):
        sheet, bolt = vehicle(question.vehicle).flywheel.tightening, vehicle(question.vehicle).flywheel.bolt
        stretched_kn = sheet.angle_deg / 360 * bolt.pitch_mm * sheet.joint_stiffness_kn_per_mm
        usual = sheet.final_nm + stretched_kn * sheet.nut_factor * bolt.d_mm
        assert f"and {usual:.0f} N·m." in question.step


def test_a_printed_order_wins_over_a_star():
    """Where the printed order is no star it is right all the same, and a star is wrong."""
    met = 0
    for question in drawn("star.printed-order"):
        n = len(question.angles_deg)
        if is_star(question.angles_deg, question.printed_order):
            continue
        met += 1
        assert question.mark(list(question.printed_order)).score == 1
        star = next(list(p) for p in permutations(range(1, n + 1)) if is_star(question.angles_deg, p))
        verdict = question.mark(star)
        assert (verdict.score, verdict.mistake, verdict.critical) == (0, "printed order not kept", False)
    assert met > 10


def test_running_bolts_in_with_an_impact_tool_is_critical():
    """Every way of using an impact tool on these bolts is a critical mistake."""
    for question in drawn("star.impact"):
        for option in question.options:
            if "impact" in f"{option.text} {option.name}" and not option.right:
                assert option.critical, option.text


def test_stopping_to_ask_is_never_a_critical_mistake():
    """Stop and ask is right where it is offered as an answer, and never critical."""
    met = 0
    for id, exercise in BANK.items():
        for learner in LEARNERS[:15]:
            question = exercise.draw(class_word="amber", learner=learner)
            for option in getattr(question, "options", ()):
                if option.text.casefold().startswith("stop and ask"):
                    met += 1
                    assert not option.critical, id
    assert met
