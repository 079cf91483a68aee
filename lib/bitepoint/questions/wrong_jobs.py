"""Tightening jobs done wrong in each known way, for worked examples, rehearsal and tests."""

from collections.abc import Iterable, Sequence

import msgspec

from bitepoint.mechanics.wrench import wrench_setting_nm
from bitepoint.questions.fitted import Fitted
from bitepoint.questions.pulls import Pull, Stage

Job = list[Pull]


def wrong_jobs(
    good: Job, stages: Sequence[Stage], fitted: Fitted, *, printed_order: bool = False
) -> Iterable[tuple[Job, str]]:
    """Yield jobs that are right but for one thing, each with the name of the mistake; `good` is the job done right."""
    first, last = stages[0], stages[-1]
    worked = next((s for s in stages if s.kind in ("order", "torque")), first)
    n = max(p.bolt for p in good)
    if n >= 4 and not printed_order:
        yield _round_the_circle(good, worked, n), "round the circle"
    if printed_order:
        yield _round_the_circle(good, worked, n), "printed order not kept"
    yield [p for p in good if p.stage != worked.key or p.bolt != n], "bolt missed"
    if worked.kind == "order":
        yield [*good, good[0]], "bolt pulled twice"
        return
    yield [p for p in good if p.stage != last.key], "stage missed"
    yield _with(good, worked, tool="impact", setting_nm=None), "impact tool"
    yield from _angle_jobs(stages, good)
    yield from _setting_jobs(fitted, good, worked)


def _round_the_circle(good: Job, stage: Stage, n: int) -> Job:
    ring = iter(range(1, n + 1))
    return [msgspec.structs.replace(p, bolt=next(ring)) if p.stage == stage.key else p for p in good]


def _with(good: Job, stage: Stage, **changes: object) -> Job:
    return [msgspec.structs.replace(p, **changes) if p.stage == stage.key else p for p in good]


def _angle_jobs(stages: Sequence[Stage], good: Job) -> Iterable[tuple[Job, str]]:
    angle = next((s for s in stages if s.kind == "angle"), None)
    if angle:
        turned = [p for p in good if p.stage == angle.key]
        rest = [p for p in good if p.stage == stages[-1].key and p.stage != angle.key]
        before = [p for p in good if p not in rest]
        yield [*before, turned[0], *rest], "angle turned twice"


def _setting_jobs(fitted: Fitted, good: Job, stage: Stage) -> Iterable[tuple[Job, str]]:
    if not stage.needs_setting:
        return
    if fitted.kind == "crow-foot" and abs(fitted.setting_nm(stage.target) / stage.target - 1) > 0.05:
        yield _with(good, stage, setting_nm=stage.target), "crow-foot ignored"
    if fitted.kind == "straight bar":
        wrong = wrench_setting_nm(stage.target, lever_mm=fitted.lever_mm, offset_mm=fitted.offset_mm)
        yield _with(good, stage, setting_nm=round(wrong, 1)), "straight bar corrected for"
    # Too low with a crow-foot, too high without: the other way round it could hit one of the two mistakes above.
    off = 0.7 if fitted.kind == "crow-foot" else 1.3
    yield _with(good, stage, setting_nm=round(fitted.setting_nm(stage.target) * off, 1)), "wrong wrench setting"
