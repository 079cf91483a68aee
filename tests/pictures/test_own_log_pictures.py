"""Pictures of a road-test log of one's own: what is marked, read aloud and framed."""

import pytest

from bitepoint.pictures.framing import framed
from bitepoint.pictures.logs.own_log import own_log_course, own_log_pictures, own_log_shake, own_log_slip
from bitepoint.pictures.logs.shake import REFERENCES
from bitepoint.workshop.own_log import LogMap, MappedColumn, OwnLog, OwnLogResult, judge_log, read_log
from bitepoint.workshop.simulator import Fault, simulate
from bitepoint.workshop.vehicles import vehicle

A = vehicle("A")
SLOW = LogMap(
    time=MappedColumn(1, "s"), engine=MappedColumn(2, "rpm"), speed=MappedColumn(3, "km/h"), header=0, first=1
)


def slow(fault: Fault) -> tuple[OwnLog, OwnLogResult]:
    lines = (f"{s.t_s},{s.engine_rpm},{s.driven_wheel_km_h}" for s in simulate(A, fault).samples)
    log = read_log("\n".join(lines).encode(), SLOW, name="drive.csv")
    return log, judge_log(A, log)


def fast(fault: Fault) -> tuple[OwnLog, OwnLogResult]:
    lines = (f"{s.t_s},{s.engine_rpm},{s.input_rpm * 0.00696},{s.vibration_g}" for s in simulate(A, fault).shake)
    log_map = LogMap(
        time=SLOW.time, engine=SLOW.engine, speed=SLOW.speed, vibration=MappedColumn(4, "g"), header=0, first=1
    )
    log = read_log("\n".join(lines).encode(), log_map, name="move-off.csv")
    return log, judge_log(A, log)


def test_the_course_marks_what_was_judged() -> None:
    """Pull and light foot stand between upright lines, named by letter and read in the alternative text."""
    log, result = slow("slip")
    assert result.slip.pull is not None
    assert result.slip.light is not None
    drawn = own_log_course(log, result)
    assert isinstance(drawn.content, str)
    assert drawn.content.count('stroke-dasharray="9 6"') == 2 * 4
    assert f"P from {result.slip.pull.start_s:.1f} to {result.slip.pull.end_s:.1f} s is the pull" in drawn.alt
    assert f"L from {result.slip.light.start_s:.1f}" in drawn.alt
    assert "engine speed, rpm" in drawn.content


@pytest.mark.parametrize("fault", ["healthy", "slip"])
def test_the_slip_is_that_of_the_verdict(fault: Fault) -> None:
    """The figure drawn is the rise over the light foot, with the verdict in words."""
    _, result = slow(fault)
    drawn = own_log_slip(result)
    assert drawn is not None
    assert f"Slip {result.slip.rise_percent:.1f} % ± {result.slip.rise_uncertainty_percent:.1f} %" in drawn.content  # type: ignore[operator]
    assert result.slip.outcome in drawn.alt


def test_the_shake_is_drawn_where_it_was_worked_out() -> None:
    """By frequency and by order; a log without it has no such picture."""
    _, result = fast("judder from geometry")
    drawn = own_log_shake(result)
    assert drawn is not None
    assert isinstance(drawn.content, bytes)
    assert REFERENCES["slip"][0] in drawn.alt
    assert "0.2 to 2;" in drawn.alt
    assert own_log_shake(slow("healthy")[1]) is None


def test_a_job_puts_its_own_words_in_the_frame() -> None:
    """Where the job says what stands in the frame, the training frame is gone."""
    with framed("COMPARE WITH THE REPAIR DATA BEFORE USE"):
        drawn = own_log_course(*slow("slip"))
    assert "COMPARE WITH THE REPAIR DATA" in str(drawn.content)
    assert "TRAINING VEHICLE" not in str(drawn.content)


def test_every_picture_has_words_and_is_small() -> None:
    """Alternative text other than the caption, at most 120 kB."""
    for log, result in (slow("slip"), fast("judder from friction")):
        pictures = own_log_pictures(log, result)
        assert len(pictures) == 2
        for drawn in pictures:
            assert len(drawn.alt) > 40
            assert drawn.alt != drawn.caption
            assert len(drawn.content) < 120_000
