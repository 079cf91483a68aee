"""The tightening drill: a bolt circle, stage by stage, judged by mechanics and not by a printed list."""

from collections.abc import Iterable
from functools import lru_cache
from typing import Any, Literal

import msgspec
from msgspec import Struct

from bitepoint.mechanics import tightening as mechanics
from bitepoint.questions.facts import plain
from bitepoint.questions.fitted import Fitted
from bitepoint.questions.pulls import TOOLS, USUAL_TOOL, Pull, Stage, read_pulls, write_pulls
from bitepoint.questions.question import Answer, Question, Verdict
from bitepoint.questions.tipping import are_neighbours, wrong_step
from bitepoint.questions.wrong_jobs import wrong_jobs

SETTING_TOLERANCE = 0.02
"""Share by which a wrench setting may miss: half the 4 % a wrench of its class may err (our rule; source: derived)."""


class Fault(Struct, frozen=True):
    """One thing done wrong in a tightening job."""

    name: str
    says: str
    critical: bool


class Tightening(Question, frozen=True, kw_only=True):
    """Tighten every bolt of a circle, stage by stage.

    Right: every bolt once a stage, stages in order, peak out-of-balance within the allowance of the best possible,
    the right tool and setting. A printed order on the sheet wins over the balance rule. The hand start and the second
    round may go in any order. A neighbour straight after a neighbour is advice.
    """

    angles_deg: tuple[float, ...]
    stages: tuple[Stage, ...]
    fitted: Fitted = Fitted()
    printed_order: tuple[int, ...] = ()
    dowel_deg: float | None = None
    part: Literal["cover", "flywheel"] = "flywheel"

    def pulls(self, answer: object) -> tuple[Pull, ...]:
        """Return the job pull by pull."""
        return read_pulls(answer, self.stages, len(self.angles_deg))

    def read(self, answer: object) -> Answer:
        return write_pulls(self.pulls(answer), self.stages)

    def mark(self, answer: object) -> Verdict:
        pulls = self.pulls(answer)
        understood = write_pulls(pulls, self.stages)
        faults = list(dict.fromkeys(self._faults(pulls)))
        faults.sort(key=lambda f: not f.critical)
        advice = tuple(dict.fromkeys(self._advice(pulls)))
        if not faults:
            return Verdict(1.0, understood, self.why, "Every bolt once a stage, balanced, rightly set.", advice=advice)
        mixed = len({f.critical for f in faults}) > 1
        says = "\n".join(f"{'⚠ ' if mixed and f.critical else ''}{f.says}" for f in faults)
        names = tuple(dict.fromkeys(f.name for f in faults))
        dangers = tuple(dict.fromkeys(f.name for f in faults if f.critical))
        reason = f"Done wrong: {'; '.join(names)}."
        return Verdict(0.0, understood, says, reason, names, faults[0].critical, advice, dangers)

    def _faults(self, pulls: tuple[Pull, ...]) -> Iterable[Fault]:
        yield from self._stage_order_faults(pulls)
        for stage in self.stages:
            mine = [p for p in pulls if p.stage == stage.key]
            if mine:
                yield from self._bolt_faults(stage, mine)
                yield from self._tool_faults(stage, mine)
                yield from self._balance_faults(stage, mine)
        missed = [f"“{stage.label}”" for stage in self.stages if all(p.stage != stage.key for p in pulls)]
        if missed:
            left_out = f"{missed[0]} was" if len(missed) == 1 else f"{', '.join(missed[:-1])} and {missed[-1]} were"
            yield Fault(
                "stage missed",
                f"{left_out} left out. The stages bring the preload up evenly and find the bolt that was forgotten; "
                "a joint that skipped one can work loose.",
                True,
            )

    def _stage_order_faults(self, pulls: tuple[Pull, ...]) -> Iterable[Fault]:
        place = {stage.key: i for i, stage in enumerate(self.stages)}
        labels = {stage.key: stage.label for stage in self.stages}
        highest = pulls[0].stage
        for pull in pulls:
            if place[pull.stage] < place[highest]:
                yield Fault(
                    "stages mixed",
                    f"Bolt {pull.bolt} got “{labels[pull.stage]}” after “{labels[highest]}” had begun. Finish a stage "
                    "on every bolt before the next one starts.",
                    False,
                )
                return
            highest = pull.stage

    def _bolt_faults(self, stage: Stage, mine: list[Pull]) -> Iterable[Fault]:
        done = [p.bolt for p in mine]
        count = len(self.angles_deg)
        if len(done) == count == len(set(done)):
            return
        missed = [b for b in range(1, count + 1) if b not in done]
        if missed:
            yield Fault(
                "bolt missed",
                f"{_bolts(missed)} never got “{stage.label}”. A bolt left behind carries less than its share: it works "
                "loose, and the others carry its load until they break.",
                True,
            )
        twice = sorted({b for b in done if done.count(b) > 1})
        if twice and stage.kind == "angle":
            yield Fault(
                "angle turned twice",
                f"{_bolts(twice)} got the angle twice. That stretches the bolt far past its proof load: it may break "
                "at once or in service. Take it out, fit a new one.",
                True,
            )
        elif twice and stage.kind not in ("hand", "look"):
            yield Fault(
                "bolt pulled twice",
                f"{_bolts(twice)} had more than one pull in “{stage.label}”. A second pull after the click adds torque: "
                "each bolt once a stage.",
                False,
            )

    def _tool_faults(self, stage: Stage, mine: list[Pull]) -> Iterable[Fault]:
        used = {p.tool for p in mine}
        if "impact" in used:
            yield Fault(
                "impact tool",
                f"An impact wrench in “{stage.label}”: it burns off the locking patch and crosses a thread before you "
                "feel it. Nobody knows the torque. Never on these bolts, not even to run them in.",
                True,
            )
        if stage.kind == "look" and used & {"wrench", "gauge"}:
            yield Fault(
                "angle turned twice",
                "The second round on angle-tightened bolts is a look at the paint marks. Turning them again stretches "
                "them past their proof load.",
                True,
            )
            return
        other = used - {USUAL_TOOL[stage.kind], "impact"}
        if other and stage.kind != "order":
            needed, taken = TOOLS[USUAL_TOOL[stage.kind]], TOOLS[sorted(other)[0]]
            yield Fault("wrong tool", f"“{stage.label}” needs the {needed}, not the {taken}.", False)
        if stage.needs_setting and "wrench" in used:
            yield from self._setting_faults(stage, [p for p in mine if p.tool == "wrench"])

    def _setting_faults(self, stage: Stage, mine: list[Pull]) -> Iterable[Fault]:
        right = self.fitted.setting_nm(stage.target)
        for setting in dict.fromkeys(p.setting_nm for p in mine):
            if setting is not None and abs(setting - right) <= right * SETTING_TOLERANCE:
                continue
            yield self._setting_fault(stage, setting, right)

    def _setting_fault(self, stage: Stage, setting: float | None, right: float) -> Fault:
        if setting is None:
            return Fault("wrong wrench setting", f"The wrench was not set for “{stage.label}”.", True)

        def near(value: float) -> bool:
            return abs(setting - value) <= value * SETTING_TOLERANCE

        if self.fitted.kind == "crow-foot" and near(stage.target):
            at_bolt = stage.target * stage.target / right
            return Fault(
                "crow-foot ignored",
                f"“{stage.label}”: {setting:g} N·m set as if nothing were fitted. The crow-foot moves the drive, so the "
                f"bolt got {at_bolt:.1f} N·m instead of {stage.target:g}. Work the setting out from lever and offset.",
                True,
            )
        if self.fitted.kind == "straight bar" and near(self.fitted.tempting_nm(stage.target)):
            return Fault(
                "straight bar corrected for",
                f"“{stage.label}”: {setting:g} N·m set, but a straight bar between wrench and socket changes nothing. "
                f"The bolt stays {100 * (1 - setting / stage.target):.0f} % too loose.",
                True,
            )
        return Fault(
            "wrong wrench setting",
            f"“{stage.label}”: the wrench was set to {setting:g} N·m, which is {'above' if setting > right else 'below'} "
            "the right setting. Too low works loose, too high stretches the bolt.",
            True,
        )

    def _balance_faults(self, stage: Stage, mine: list[Pull]) -> Iterable[Fault]:
        order = list(dict.fromkeys(p.bolt for p in mine))
        # A bolt turned in by finger pulls nothing down, so the hand start may go round as it likes.
        if stage.kind in ("hand", "second torque", "look") or len(order) < len(self.angles_deg):
            return
        if self.printed_order:
            if tuple(order) != self.printed_order:
                place = next(i for i, (a, b) in enumerate(zip(order, self.printed_order, strict=True), 1) if a != b)
                yield Fault(
                    "printed order not kept",
                    f"“{stage.label}”: from place {place} on you left the order of the sheet. Its maker may know what "
                    "you cannot see, so a printed order wins. Otherwise the part can seat badly.",
                    False,
                )
            return
        if not _is_star(self.angles_deg, tuple(order)):
            best = mechanics.best_peak_out_of_balance(self.angles_deg)
            allowed = best + mechanics.BALANCE_ALLOWANCE
            name = "round the circle" if _is_ring_walk(order) else "one-sided order"
            before, taken, across = _wrong_step(self.angles_deg, tuple(order), allowed)
            beside = "its neighbour " if are_neighbours(before, taken, len(order)) else ""
            yield Fault(
                name,
                f"“{stage.label}”: {before}, then {beside}{taken}: go across to {across}. With bolts on one side tight and none "
                "opposite, that side is drawn down first and the part can seat tilted.",
                False,
            )

    def _advice(self, pulls: tuple[Pull, ...]) -> Iterable[str]:
        for stage in self.stages:
            if stage.kind in ("hand", "second torque", "look"):
                continue
            order = tuple(dict.fromkeys(p.bolt for p in pulls if p.stage == stage.key))
            if not _is_star(self.angles_deg, order):
                continue
            for a, b in _neighbours(self.angles_deg, order):
                yield f"Balanced, but bolt {b} follows its neighbour {a}. Crossing over each time is easier to keep up."

    def right_pulls(self) -> list[Pull]:
        """Return one job done right, pull by pull."""
        order = self.printed_order or mechanics.star_order(self.angles_deg)
        return [
            Pull(
                bolt, s.key, USUAL_TOOL[s.kind], round(self.fitted.setting_nm(s.target), 1) if s.needs_setting else None
            )
            for s in self.stages
            for bolt in order
        ]

    def right_answer(self) -> Answer:
        return write_pulls(self.right_pulls(), self.stages)

    def own_facts(self) -> dict[str, Any]:
        return {
            "angles": plain(self.angles_deg),
            "stages": [[s.key, s.kind, plain(s.target)] for s in self.stages],
            "fitted": plain(msgspec.to_builtins(self.fitted)),
            "printed_order": self.printed_order,
            "dowel": plain(self.dowel_deg),
            "part": self.part,
            "allowed": [SETTING_TOLERANCE, mechanics.BALANCE_ALLOWANCE],
        }

    def known_mistakes(self) -> list[tuple[Answer, str]]:
        jobs = wrong_jobs(self.right_pulls(), self.stages, self.fitted, printed_order=bool(self.printed_order))
        return [(write_pulls(job, self.stages), name) for job, name in jobs]


# Marking a job asks for each stage's order twice, and a class takes the same few orders again and again.
@lru_cache(maxsize=1024)
def _is_star(angles_deg: tuple[float, ...], order: tuple[int, ...]) -> bool:
    return mechanics.is_star(angles_deg, order)


@lru_cache(maxsize=1024)
def _neighbours(angles_deg: tuple[float, ...], order: tuple[int, ...]) -> tuple[tuple[int, int], ...]:
    return mechanics.neighbours_in_a_row(angles_deg, order)


@lru_cache(maxsize=1024)
def _wrong_step(angles_deg: tuple[float, ...], order: tuple[int, ...], allowed: float) -> tuple[int, int, int]:
    return wrong_step(angles_deg, order, allowed)


def _is_ring_walk(order: list[int]) -> bool:
    n = len(order)
    steps = {(b - a) % n for a, b in zip(order, order[1:], strict=False)}
    return steps in ({1}, {n - 1})


def _bolts(numbers: list[int]) -> str:
    text = ", ".join(map(str, numbers))
    return f"Bolt {text}" if len(numbers) == 1 else f"Bolts {text}"
