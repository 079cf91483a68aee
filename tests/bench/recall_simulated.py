"""Simulate what docs/recall.md says, and write it: `PYTHONPATH=lib python tests/bench/recall_simulated.py`."""

import argparse
from collections import defaultdict
from collections.abc import Sequence
from pathlib import Path
from statistics import mean, median, stdev

from recall_term import (
    LEARNERS,
    WEEKS,
    Asked,
    Plan,
    TermEnd,
    another,
    asked_again,
    at_random,
    class_at_the_end,
    massed,
    nothing,
    safety,
    scheduled,
)

from bitepoint.bank import exercises
from bitepoint.marking.figures.forgetting import BANDS, Forgetting, RecallCount, RecallShare, band_of
from bitepoint.recall.memory import WANTED

ROOT = Path(__file__).parents[2]
COMMAND = "python tests/bench/recall_simulated.py"
PLANS: dict[str, Plan] = {
    "schedule": scheduled,
    "as many at random": at_random,
    "as many massed at the start": massed,
    "nothing asked again": nothing,
}
PACES = {90.0: "as rehearsed", 32.0: "three times as fast"}
OTHERS = (0.8, 0.85, 0.95)
Runs = dict[str, list[list[TermEnd]]]


def runs_of(seeds: int) -> Runs:
    """Return each plan's classes, seed by seed; every plan with the same learners."""
    found: Runs = {name: [] for name in PLANS}
    for seed in range(seeds):
        counts: dict[int, list[int]] = {}
        for name, plan in PLANS.items():
            found[name].append(class_at_the_end(seed, plan, counts if name == "schedule" else dict(counts)))
    return found


def left(people: Sequence[TermEnd], ids: Sequence[str]) -> float:
    """Return the mean chance of being right at the end over these exercises."""
    return mean(end.chances[id] for end in people for id in ids)


def faded(people: Sequence[TermEnd]) -> float:
    """Return the share of exercises that would be wrong more often than right."""
    return mean(end.chances[id] < 0.5 for end in people for id in asked_again())


def spread(values: Sequence[float]) -> str:
    """Return mean and standard deviation over the seeds, in hundredths."""
    return f"{100 * mean(values):.1f} ± {100 * stdev(values):.1f}"


def plan_rows(found: Runs) -> str:
    """Return a row of the table for each plan; the difference is to the schedule, class by class."""
    rows, base = [], [left(people, asked_again()) for people in found["schedule"]]
    for name, classes in found.items():
        whole = [left(people, asked_again()) for people in classes]
        ahead = [100 * (a - b) for a, b in zip(whole, base, strict=True)]
        questions = mean(len(end.asked) for people in classes for end in people)
        difference = "" if name == "schedule" else f"{mean(ahead):+.1f} ({min(ahead):+.1f} to {max(ahead):+.1f})"
        rows.append(
            f"| {name} | {questions:.0f} | {spread(whole)} | {difference} | "
            f"{spread([left(people, safety()) for people in classes])} | {spread([faded(p) for p in classes])} |"
        )
    return "\n".join(rows)


def wanted_rows(seeds: int, pace: float) -> str:
    """Return a row for each other chance that the schedule could aim at."""
    rows = []
    for wanted in sorted((*OTHERS, WANTED)):
        with another(wanted=wanted, pace_days=pace):
            classes = [class_at_the_end(seed, scheduled, {}) for seed in range(seeds)]
        questions = mean(len(end.asked) for people in classes for end in people)
        rows.append(
            f"| {wanted:.2f} | {questions:.0f} | {spread([left(p, asked_again()) for p in classes])} | "
            f"{spread([left(p, safety()) for p in classes])} |"
        )
    return "\n".join(rows)


def cells_of(answers: Sequence[Asked]) -> dict[tuple[str, int | None], list[float]]:
    """Return the true chances by outcome ("" for all) and band (None for all bands)."""
    found: dict[tuple[str, int | None], list[float]] = defaultdict(list)
    for answer in answers:
        if (band := band_of(answer.days)) is not None:
            outcome = exercises()[answer.exercise].outcome
            for cell in ((outcome, band), (outcome, None), ("", band)):
                found[cell].append(answer.chance)
    return found


def _holds(share: RecallShare, truth: float) -> bool:
    return share.least <= truth <= share.most


def interval_rows(classes: Sequence[Sequence[TermEnd]]) -> str:
    """Return how often intervals hold the class's truth, and that of all classes together, and how wide they are."""
    pooled = {k: mean(v) for k, v in cells_of([a for people in classes for end in people for a in end.asked]).items()}
    held: dict[str, list[tuple[bool, bool, float]]] = defaultdict(list)
    for people in classes:
        counted = Forgetting()
        for end in people:
            counted.add(RecallCount(a.exercise, a.days, a.right, "") for a in end.asked)
        truth = {k: mean(v) for k, v in cells_of([a for end in people for a in end.asked]).items()}
        shares = {("", n): share for n, share in enumerate(counted.over_all()[:-1])}
        for forgotten in counted.outcomes([]):
            shares |= {(forgotten.outcome, n): share for n, share in enumerate(forgotten.bands)}
            shares[forgotten.outcome, None] = forgotten.together
        for (outcome, band), share in shares.items():
            if share.right is not None:
                kind = "an outcome" if outcome else "all outcomes"
                name = f"{kind}, {'all bands' if band is None else BANDS[band].name}"
                half = (share.most - share.least) / 2
                both = _holds(share, truth[outcome, band]), _holds(share, pooled[outcome, band])
                held[name].append((*both, half))
    rows = []
    for name in sorted(held):
        found = held[name]
        own, other = (sum(row[n] for row in found) for n in (0, 1))
        rows.append(
            f"| {name} | {len(found)} | {own} ({100 * own / len(found):.0f} %) | {other} ({100 * other / len(found):.0f} %) | "
            f"{median(row[2] for row in found):.3f} |"
        )
    return "\n".join(rows)


def plans_said(found: Runs, pace: float) -> str:
    """Return the section about one pace of forgetting."""
    return f"""### Learners who forget {PACES[pace]} (pace {pace:.0f} days)

| what is asked again | questions a learner | right at the end, of 100 | against the schedule, class by class (from, to) | safety-critical alone | of 100 exercises wrong more often than right |
| --- | ---: | ---: | ---: | ---: | ---: |
{plan_rows(found)}
"""


def page(seeds: int) -> str:
    """Return docs/recall.md."""
    sections, schedule = [], []
    for pace in PACES:
        with another(pace_days=pace):
            found = runs_of(seeds)
        schedule = schedule or found["schedule"]
        sections.append(plans_said(found, pace))
    wanted = "\n".join(f"### Pace {pace:.0f} days\n\n{_WANTED_HEAD}\n{wanted_rows(seeds, pace)}\n" for pace in PACES)
    return f"""# Recall over weeks, simulated

**No apprentice was measured.** Everything here is a computer's play with invented learners: it can show that the schedule is
worse than something simpler, and where. It cannot show that a real class remembers more.

Once more, figure for figure: `PYTHONPATH=lib {COMMAND} --seeds {seeds}`.

## The invented term

{seeds} classes of {LEARNERS} learners over {WEEKS} weeks: a lesson a week, and three days after it a round of *Keep it* for whoever is there.
Every fourth learner stays away for four to eight weeks in a row, the others miss a week in seven. They forget by another law than the
schedule believes in: exponentially, to a floor, at a pace of learner and exercise (`marking/rehearsal/memory.py`); the schedule's own is a power of
time. What is compared is the true chance of being right at the end of the last week, over the {len(asked_again())} exercises that recall asks
({len(safety())} of them safety-critical), which a real class would never tell. ± is the standard deviation over the classes.

## With the schedule, at random, massed

*At random*: as many questions in the same weeks, among what was met. *Massed*: as many questions in all, each lesson's share in the
three days after it, nothing later. All with the same learners. That massing helps so little is built into the invented law, in which an answer
slows forgetting the more the longer the pause before it was; between schedule and random the law takes no side of its own.

{"".join(f"{section}{chr(10)}" for section in sections)}
## Would another aim have been better?

The schedule asks when it believes that the chance has fallen to {WANTED:.2f}. Other aims, with the rest as it is (at most ten questions a
round, so a higher aim cannot ask more than that):

{wanted}
## What a class has forgotten: do the intervals hold?

Over the {seeds} classes with the schedule (pace 90 days). An interval holds the class where the mean true chance of the very answers lies in it, and
it holds such classes where that of all {seeds} classes together does. Wanted: 95 %.

| share of | intervals | hold the class | hold such classes | median half-width |
| --- | ---: | ---: | ---: | ---: |
{interval_rows(schedule)}

The interval is Wilson's over the answers that are worth counting after Rao and Scott's design effect, with Student's t
(`marking/figures/clustered.py`); fewer than five learners get no figure.
"""


_WANTED_HEAD = (
    "| aim | questions a learner | right at the end, of 100 | safety-critical alone |\n| ---: | ---: | ---: | ---: |"
)


def main() -> None:
    """Simulate and write."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--seeds", type=int, default=40)
    given = parser.parse_args()
    (ROOT / "docs" / "recall.md").write_text(page(given.seeds), encoding="utf-8", newline="\n")


if __name__ == "__main__":
    main()
