"""When a line was written, as far as a clock can be believed."""

from datetime import timedelta

from lines import START, line

from bitepoint.recall.times import present, times_of

NOW = START + timedelta(days=30)


def test_a_clock_set_back_turns_nothing_round() -> None:
    """A line counts as no earlier than the line before it in its chain; another device's chain is not touched."""
    first, back = line("torque.units", 10, n=1), line("torque.units", -300, n=2)
    other = line("torque.units", 3, n=1, device="b")
    found = times_of([back, first, other], NOW)
    assert found == {
        first.hash: START + timedelta(days=10),
        back.hash: START + timedelta(days=10),
        other.hash: START + timedelta(days=3),
    }


def test_a_clock_that_was_years_ahead_is_not_believed() -> None:
    """What leaps 400 days and more past today has the time of the line before it, and so have none that follow."""
    first, ahead, after = line("torque.units", 1, n=1), line("torque.units", 30_000, n=2), line("torque.units", 2, n=3)
    found = times_of([first, ahead, after], NOW)
    assert [found[r.hash] for r in (first, ahead, after)] == [START + timedelta(days=d) for d in (1, 1, 2)]


def test_a_line_without_a_time_has_that_before_it() -> None:
    """A time that cannot be read costs that time alone; where none is before it, the line tells no day."""
    lost, first, odd = (
        line("torque.units", n=1, at="?"),
        line("torque.units", 1, n=2),
        line("torque.units", 2, n=3, at="soon"),
    )
    assert times_of([lost, first, odd], NOW) == {
        first.hash: START + timedelta(days=1),
        odd.hash: START + timedelta(days=1),
    }


def test_a_chain_of_recall_is_one_of_its_own() -> None:
    """Line 1 of recall is not put in order with line 1 of a lesson."""
    lesson, recalled = line("torque.units", 9, n=5), line("torque.units", 8, n=6, recall=True)
    assert times_of([lesson, recalled], NOW)[recalled.hash] == START + timedelta(days=8)


def test_the_present_is_never_before_the_newest_line() -> None:
    """Where the clock was set back since, due dates are compared with the newest line."""
    assert present([START + timedelta(days=40)], NOW) == START + timedelta(days=40)
    assert present([], NOW) == NOW
