"""How a mark came about, said to the learner in a sentence or two."""

from bitepoint.marking.marks import decimal
from bitepoint.marking.pages.render import day
from bitepoint.marking.result import Row


def how_it_came(row: Row) -> str:
    """Return how the mark of one exercise came about; no figures and no id but the learner's own.

    Examples
    --------
    >>> how_it_came(Row(learner="L01", exercise="star.impact", first_score=0.0, last_score=1.0, tries=3, turns=2))
    'Right after 3 tries, in the second of 2 sets of figures: mark 1.'
    """
    said = [_computed(row)]
    if row.solutions_seen:
        times = "once" if row.solutions_seen == 1 else f"{row.solutions_seen} times"
        said.append(f"The solution was shown {times}.")
    if row.withdrawn:
        said.append(f"The question was withdrawn: {row.withdrawn}")
    if row.critical_dropped:
        said.append("A critical mistake in the withdrawn question counts against nobody.")
    if row.critical_open:
        said.append("A critical mistake is open.")
    if row.override:
        said.append(
            f"{row.override.by} gave {decimal(row.override.score)} on {day(row.override.date)}: “{row.override.text}” "
            "This is a decision of this person, not of the program."
        )
    return " ".join(said)


def _computed(row: Row) -> str:
    if row.last_score is None:
        return "No mark: the question has changed since it was asked. A person marks it by hand." if row.tries else ""
    if row.last_score >= 1 and (row.first_score or 0) >= 1:
        return "Right at the first try: mark 1."
    tries = "1 try" if row.tries == 1 else f"{row.tries} tries"
    if row.last_score >= 1:
        return f"Right after {tries}{_sets(row)}: mark 1."
    if row.last_score > 0:
        return f"Partly right after {tries}: mark {decimal(row.last_score)}."
    return f"Not right yet after {tries}: mark 0."


def _sets(row: Row) -> str:
    if row.turns < 2:
        return ""
    place = {1: "first", 2: "second", 3: "third"}.get(row.turn, f"{row.turn}th")
    return f", in the {place} of {row.turns} sets of figures"
