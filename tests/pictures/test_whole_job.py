"""The whole job as a picture: every stage with its count, how far it is, and the way from one to the next."""

import pytest

from bitepoint.errors import OutOfRange
from bitepoint.pictures import draw
from bitepoint.workshop.operations import job


def test_every_stage_stands_in_the_picture_with_its_count() -> None:
    """Titles, numbers of operations that add up to the list, nine arrows between ten boxes."""
    drawing = draw("whole-job")
    for at, stage in enumerate(job().stages, start=1):
        assert f">{stage.title}<" in str(drawing.content)
        assert f"{at} {stage.title}: " in drawing.alt
    counts = [sum(step.stage == stage.id for step in job().operations) for stage in job().stages]
    assert sum(counts) == 80
    assert all(f">{count} operation" in str(drawing.content) for count in counts)
    assert str(drawing.content).count("<polygon") == 9
    assert "done" not in drawing.alt


def test_what_is_done_and_what_comes_now_is_said_and_drawn() -> None:
    """A tick and the word done; the next stage has the word now; the rest stays as it was."""
    drawing = draw("whole-job", done=["diagnose", "identify"])
    assert drawing.alt.count(", done: ") == str(drawing.content).count("operations, done<") == 2
    assert str(drawing.content).count("<polyline") == 2
    assert "3 Plan, now: " in drawing.alt
    assert ">1 operation, now<" in str(drawing.content)


def test_a_finished_job_has_no_stage_that_comes_now() -> None:
    """Ten ticks."""
    drawing = draw("whole-job", done=[stage.id for stage in job().stages])
    assert str(drawing.content).count("<polyline") == 10
    assert "now" not in drawing.alt


def test_an_unknown_stage_is_one_clear_line() -> None:
    """The stages there are stand in the message."""
    with pytest.raises(OutOfRange, match="done must be one of diagnose, identify, plan") as refused:
        draw("whole-job", done=["paint"])
    assert "'paint'" in str(refused.value)
