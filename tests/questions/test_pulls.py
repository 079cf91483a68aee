"""Pulls: a tightening job written, read and written again."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bitepoint.errors import NotUnderstood
from bitepoint.questions.pulls import MAX_LENGTH, TOOLS, Pull, Stage, read_pulls, write_pulls

JOB = (
    Stage("hand", "Hand", "hand"),
    Stage("stage 1", "Stage 1 · 20 N·m", "torque", 20),
    Stage("angle", "Angle · 50°", "angle", 50),
    Stage("second round", "Second round", "look"),
)
ONE = (Stage("order", "One stage", "order"),)
TORQUE_ONLY = (Stage("stage 1", "Stage 1 · 20 N·m", "torque", 20),)


def test_pulls_are_read_stage_by_stage():
    """Tool and setting may be left out where they are the usual ones."""
    text = "hand: 1 2\nStage 1 at 19,5 Nm: 1, 2; angle with impact: 2; second round: 1 > 2"
    assert read_pulls(text, JOB, 2) == (
        Pull(1, "hand", "fingers"),
        Pull(2, "hand", "fingers"),
        Pull(1, "stage 1", "wrench", 19.5),
        Pull(2, "stage 1", "wrench", 19.5),
        Pull(2, "angle", "impact"),
        Pull(1, "second round", "eye"),
        Pull(2, "second round", "eye"),
    )


@pytest.mark.parametrize(
    "answer", ["1 4 2 5 3 6", "1-4-2-5-3-6", "1, 4, 2, 5, 3, 6", [1, 4, 2, 5, 3, 6], "1→4→2→5→3→6"]
)
def test_pulls_of_one_stage_are_a_bare_list(answer):
    """Numbers with spaces, commas, hyphens or arrows, or a Python list."""
    assert [p.bolt for p in read_pulls(answer, ONE, 6)] == [1, 4, 2, 5, 3, 6]


def test_pulls_of_the_drill_are_read_as_they_are():
    """The drill's own list, one entry a pull, with the setting as a number or as text."""
    drill = [
        {"bolt": 1, "stage": "stage 1", "tool": "wrench", "setting": 20},
        {"bolt": 2, "stage": "stage 1", "tool": "wrench", "setting": "14.8 lbf·ft"},
        {"bolt": 2, "stage": "stage 1", "tool": "impact", "setting": 20},
    ]
    read = read_pulls(drill, JOB, 2)
    assert [(p.bolt, p.tool, p.setting_nm) for p in read] == [
        (1, "wrench", 20),
        (2, "wrench", 20.0661),
        (2, "impact", None),
    ]


def test_pulls_of_one_stage_keep_a_tool_that_is_not_the_usual_one():
    """An impact wrench in a drill of one stage is written down, not lost."""
    pulls = (Pull(1, "order", "impact"), Pull(2, "order", "impact"))
    written = write_pulls(pulls, ONE)
    assert written == "order with impact: 1 2"
    assert read_pulls(written, ONE, 2) == pulls


TOOL = st.sampled_from(sorted(TOOLS))
SETTING = st.none() | st.floats(0.1, 1000).map(lambda nm: float(f"{nm:.6g}"))


@st.composite
def jobs(draw):
    """Return any pulls of the job above; only a wrench in a torque stage has a setting."""
    pulls = []
    for _ in range(draw(st.integers(1, 12))):
        stage, tool = draw(st.sampled_from(JOB)), draw(TOOL)
        setting = draw(SETTING) if stage.needs_setting and tool == "wrench" else None
        pulls.append(Pull(draw(st.integers(1, 6)), stage.key, tool, setting))
    return tuple(pulls)


@given(jobs())
@settings(deadline=None, max_examples=300)
def test_pulls_written_are_read_the_same(pulls):
    """What is written into the logbook gives the same pulls back."""
    assert read_pulls(write_pulls(pulls, JOB), JOB, 6) == pulls


@pytest.mark.parametrize(
    ("answer", "message"),
    [
        ("1 2 7", "'7' is no bolt of this circle. Bolts are numbered 1 to 6"),
        ("1 two", "'two' is no bolt"),
        ([1, 0], "0 is no bolt"),
        ([1, 2.0], "no bolt"),
        ([1, True], "no bolt"),
        ([10**5000], "That is no bolt"),
        ([None], "That is no bolt"),
        ("", "No bolt was tightened"),
        ([], "No bolt was tightened"),
        (None, "no order of bolts"),
        ("1 " * 3000, "longer than"),
        ([1] * (MAX_LENGTH + 1), "too long"),
        ([{"bolt": 1, "stage": "order", "tool": "wrench"}] * (MAX_LENGTH + 1), "more than"),
        ([{"bolt": 1, "stage": "order", "tool": "wrench"}, 5], "no bolt"),
        ([{}], "is no stage"),
        ([{"bolt": 1, "stage": "order", "tool": "hammer"}], "no tool on the bench"),
    ],
)
def test_pulls_of_one_stage_say_what_cannot_be_read(answer, message):
    """Whatever comes, one line tells which part and how to write it."""
    with pytest.raises(NotUnderstood, match=message):
        read_pulls(answer, ONE, 6)


@pytest.mark.parametrize(
    ("answer", "message"),
    [
        ("1 2 3", "several stages"),
        ("stage 3 at 20 Nm: 1", "is no stage of this job. Use: hand, stage 1, angle, second round"),
        ("stage 1 at 20 mm: 1", "mm measures length"),
        ("stage 1 at lots: 1", "does not start with a number"),
        ("stage 1 at 99999999999: 1", "No torque wrench can be set"),
        ("stage 1 at -5 Nm: 1", "No torque wrench can be set"),
        ("stage 1 at 0.00001 Nm: 1", "No torque wrench can be set"),
        ("stage 1 with spoon: 1", "no tool on the bench"),
        ("stage 1: 1: 2", "cannot be read"),
        ([{"bolt": 1, "stage": "stage 1", "tool": "wrench", "setting": float("nan")}], "too large"),
    ],
)
def test_pulls_of_a_job_say_what_cannot_be_read(answer, message):
    """A wrong stage, unit, setting or tool is told in one line."""
    with pytest.raises(NotUnderstood, match=message):
        read_pulls(answer, JOB, 6)


def test_pulls_of_a_single_torque_stage_take_the_setting_as_right():
    """A bare list in a drill of one torque stage means the setting that the stage asks for."""
    assert read_pulls([1, 2], TORQUE_ONLY, 2)[0] == Pull(1, "stage 1", "wrench", 20)


WORDS = st.sampled_from(
    ["hand", "stage 1", "at", "with", "impact", ":", ";", "\n", "20 N·m", "1", "6", "7", "angle", "1e9"]
)
ANYTHING = (
    st.text(max_size=120)
    | st.lists(WORDS, max_size=14).map(" ".join)
    | st.lists(st.integers() | st.text(max_size=3) | st.none() | st.floats(), max_size=8)
    | st.lists(
        st.fixed_dictionaries(
            {},
            optional={
                "bolt": st.integers(-1, 8) | st.text(max_size=2) | st.none(),
                "stage": st.sampled_from(["hand", "stage 1", "order"]) | st.integers(),
                "tool": TOOL | st.none(),
                "setting": st.none() | st.floats() | st.text(max_size=6) | st.integers() | st.booleans(),
            },
        ),
        max_size=5,
    )
    | st.integers()
    | st.none()
)


@given(ANYTHING)
@settings(deadline=None, max_examples=600)
def test_pulls_read_or_refuse_anything(answer):
    """Random input never raises anything but NotUnderstood, and what was read is read the same again."""
    for stages in (JOB, ONE, TORQUE_ONLY):
        try:
            pulls = read_pulls(answer, stages, 6)
        except NotUnderstood:
            continue
        assert read_pulls(write_pulls(pulls, stages), stages, 6) == pulls
