"""A tightening job as a learner does it: pull by pull, written and read as one line of text.

Grammar of a written job, passes apart by ";" or line ends::

    STAGE [with TOOL] [at SETTING]: BOLT BOLT …
    stage 1 at 20 N·m: 1 4 2 5 3 6; second round at 65 N·m: 1 2 3 4 5 6

A bare list of bolts is one pass of a job that has only one stage.
"""

import re
from collections.abc import Sequence
from functools import lru_cache
from itertools import groupby
from typing import Any, Literal

from msgspec import Struct

from bitepoint import units
from bitepoint.errors import NotUnderstood

StageKind = Literal["order", "hand", "torque", "angle", "second torque", "look"]
TOOLS = {
    "fingers": "fingers",
    "wrench": "torque wrench",
    "gauge": "bar with angle gauge",
    "impact": "impact wrench",
    "eye": "eye on the paint mark",
}
USUAL_TOOL: dict[str, str] = {
    "order": "wrench",
    "hand": "fingers",
    "torque": "wrench",
    "angle": "gauge",
    "second torque": "wrench",
    "look": "eye",
}
MAX_LENGTH = 4000
LOWEST_SETTING_NM, HIGHEST_SETTING_NM = 0.1, 1000.0
"""Settings outside can only be typing errors (our rule; source: derived)."""
_PASS = re.compile(
    r"\s*(?P<stage>[a-z]+(?:\s+(?:round|[0-9]))?)(?:\s+with\s+(?P<tool>[a-z ]+?))?(?:\s+at\s+(?P<at>[^:]{1,30}?))?\s*:(?P<bolts>[^:]*)"
)

_BOLT = re.compile(r"[0-9]{1,2}", re.ASCII)
_PARTS, _BOLTS, _PASSES, _SPACES = map(re.compile, (r"[^\s,;>→-]+", r"[^\s,>→-]+", r"[;\n]+", r"\s+"))


class Stage(Struct, frozen=True):
    """One stage of a tightening job: its key as typed, its label, its kind and the torque wanted [N·m] or angle [°]."""

    key: str
    label: str
    kind: StageKind
    target: float = 0.0

    @property
    def needs_setting(self) -> bool:
        """Whether the wrench must be set for it."""
        return self.kind in ("torque", "second torque")


class Pull(Struct, frozen=True):
    """One bolt, once: stage and tool by key, wrench setting in N·m where a wrench was set."""

    bolt: int
    stage: str
    tool: str
    setting_nm: float | None = None


def read_pulls(answer: object, stages: Sequence[Stage], bolts: int) -> tuple[Pull, ...]:
    """Read a job: text as written, a list of bolt numbers, or the drill's own list of pulls.

    Raises
    ------
    NotUnderstood
        Says which part cannot be read and how to write it.
    """
    if isinstance(answer, str):
        pulls = _from_text(answer, stages, bolts)
    elif isinstance(answer, (list, tuple)) and answer and all(isinstance(item, dict) for item in answer):
        if len(answer) > MAX_LENGTH:
            raise NotUnderstood(f"The job has more than {MAX_LENGTH} pulls. Start the drill again.")
        pulls = [_from_drill(item, stages, bolts) for item in answer]
    elif isinstance(answer, (list, tuple)):
        pulls = _bare(answer, stages, bolts)
    else:
        raise NotUnderstood("That is no order of bolts. Write the bolt numbers, such as 1 4 2 5 3 6.")
    if not pulls:
        raise NotUnderstood("No bolt was tightened. Write the bolt numbers, such as 1 4 2 5 3 6.")
    return tuple(pulls)


def write_pulls(pulls: Sequence[Pull], stages: Sequence[Stage]) -> str:
    """Return the job as text; `read_pulls` gives the same pulls back."""
    kinds = {s.key: s.kind for s in stages}
    if len(stages) == 1 and all(kinds[p.stage] == "order" and p.tool == USUAL_TOOL["order"] for p in pulls):
        return " ".join(str(p.bolt) for p in pulls)
    passes = []
    for (stage, tool, setting), group in groupby(pulls, key=lambda p: (p.stage, p.tool, p.setting_nm)):
        with_tool = "" if tool == USUAL_TOOL[kinds[stage]] else f" with {tool}"
        at = "" if setting is None else f" at {units.unambiguous(f'{setting:.6g}')} N·m"
        passes.append(f"{stage}{with_tool}{at}: {' '.join(str(p.bolt) for p in group)}")
    return "; ".join(passes)


def _from_text(text: str, stages: Sequence[Stage], bolts: int) -> list[Pull]:
    if len(text) > MAX_LENGTH:
        raise NotUnderstood(f"The answer is longer than {MAX_LENGTH} characters. Write each pass once.")
    if ":" not in text:
        return _bare(_PARTS.findall(text), stages, bolts)
    pulls: list[Pull] = []
    for part in _PASSES.split(text):
        if part and not part.isspace():
            pulls += _from_pass(part, stages, bolts)
    return pulls


def _from_pass(part: str, stages: Sequence[Stage], bolts: int) -> list[Pull]:
    match = _PASS.fullmatch(part.casefold())
    if match is None:
        raise NotUnderstood(f"{part.strip()[:40]!r} cannot be read. Write, for example, {_example(stages)}.")
    stage = _stage(match["stage"], stages)
    tool = _tool(match["tool"] or USUAL_TOOL[stage.kind])
    setting = _setting(match["at"], stage, tool)
    return [Pull(bolt, stage.key, tool, setting) for bolt in _row(match["bolts"], bolts)]


# A class takes the same few orders again and again.
@lru_cache(maxsize=1024)
def _row(text: str, bolts: int) -> tuple[int, ...]:
    return tuple(_bolt(each, bolts) for each in _BOLTS.findall(text))


def _example(stages: Sequence[Stage]) -> str:
    stage = next((s for s in stages if s.needs_setting), stages[0])
    return f"{stage.key}{' at 20 N·m' if stage.needs_setting else ''}: 1 4 2 5 3 6"


def _bare(items: Sequence[Any], stages: Sequence[Stage], bolts: int) -> list[Pull]:
    if len(stages) != 1:
        keys = ", ".join(s.key for s in stages)
        raise NotUnderstood(f"This job has several stages ({keys}). Write each as, for example, {_example(stages)}.")
    if len(items) > MAX_LENGTH:
        raise NotUnderstood("That list is too long. Give each bolt once.")
    stage = stages[0]
    tool = USUAL_TOOL[stage.kind]
    return [Pull(_bolt(item, bolts), stage.key, tool, stage.target if stage.needs_setting else None) for item in items]


def _from_drill(item: dict[str, Any], stages: Sequence[Stage], bolts: int) -> Pull:
    stage = _stage(str(item.get("stage"))[:40], stages)
    tool = _tool(str(item.get("tool"))[:40])
    setting = item.get("setting")
    return Pull(_bolt(item.get("bolt"), bolts), stage.key, tool, _setting(setting, stage, tool))


def _stage(key: str, stages: Sequence[Stage]) -> Stage:
    wanted = _SPACES.sub(" ", key.strip().casefold())
    for stage in stages:
        if stage.key == wanted:
            return stage
    raise NotUnderstood(f"{key.strip()!r} is no stage of this job. Use: {', '.join(s.key for s in stages)}.")


def _tool(name: str) -> str:
    wanted = name.strip()
    for key, label in TOOLS.items():
        if wanted in (key, label):
            return key
    raise NotUnderstood(f"{wanted[:20]!r} is no tool on the bench. Use: {', '.join(TOOLS)}.")


def _setting(typed: object, stage: Stage, tool: str) -> float | None:
    if typed is None or typed == "" or tool != "wrench" or not stage.needs_setting:
        return None
    value = units.quantity(typed)
    setting = units.convert(value.value, value.unit or "N·m", "N·m")
    if not LOWEST_SETTING_NM <= setting <= HIGHEST_SETTING_NM:
        raise NotUnderstood(
            f"No torque wrench can be set to {setting:g} N·m. Write a setting from {LOWEST_SETTING_NM:g} to "
            f"{HIGHEST_SETTING_NM:g} N·m."
        )
    return float(f"{setting:.6g}")


def _bolt(item: object, bolts: int) -> int:
    if isinstance(item, int) and not isinstance(item, bool) and 0 < item <= bolts:
        return item
    text = item if isinstance(item, str) else ""
    if not _BOLT.fullmatch(text) or not 1 <= int(text) <= bolts:
        raise NotUnderstood(f"{_short(item)} is no bolt of this circle. Bolts are numbered 1 to {bolts}.")
    return int(text)


def _short(item: object) -> str:
    """Return what was typed, cut short; a huge whole number cannot be printed at all."""
    if isinstance(item, str):
        return repr(item[:20])
    return str(item) if isinstance(item, (int, float)) and abs(item) < 1e15 else "That"
