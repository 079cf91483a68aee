"""Marked answers as xAPI 1.0.3 statements: attempted once an exercise, answered once a line; always the same."""

import re
import uuid
from collections.abc import Iterator, Sequence
from datetime import datetime
from hashlib import blake2b
from typing import Any

from bitepoint import units
from bitepoint.bank import exercises
from bitepoint.errors import NotUnderstood
from bitepoint.logbook.record import RECALL
from bitepoint.marking.exporting.xapi_rules import check_statement
from bitepoint.questions.kinds import interaction

HOME = "https://bitepoint.invalid"
"""Where accounts and activities are at home unless a college names its own; the ending .invalid leads nowhere."""
_VERBS = "http://adlnet.gov/expapi/verbs"
_INTERACTION = "http://adlnet.gov/expapi/activities/cmi.interaction"

Trail = dict[str, Any]
"""One line of marks.jsonl."""


def statements(trail: Sequence[Trail], *, home: str = HOME) -> list[dict[str, Any]]:
    """Return the statements for a trail, each checked; a line that stands in two hand-ins counts once.

    Ordered by time, learner and line. Answers whose question has changed have no result. What was asked again weeks later
    says so in its context and begins no attempt; reasons in own words are no answers and are left out.

    Raises
    ------
    BrokenStatement
        A statement would break a rule of the specification.
    """
    known = [t for t in trail if "line" in t and t["exercise"] in exercises() and t["status"] != "own words"]
    lines = list({t["line"]: t for t in known}.values())
    lines.sort(key=lambda t: (t["at"], t["learner"], t["line"]))
    found, begun = [], set()
    for line in lines:
        key, recalled = (line["learner"], line["exercise"]), line.get("sitting") == RECALL
        if key not in begun and not recalled:
            begun.add(key)
            found.append(_statement(line, "attempted", home))
        context = {"context": {"extensions": {f"{home}/extensions/recall": True}}} if recalled else {}
        found.append(_statement(line, "answered", home) | _result(line, home) | context)
    for statement in found:
        check_statement(statement)
    return found


def opaque_name(learner: str, home: str = HOME) -> str:
    """Return the account name: sixteen hexadecimal digits, the same wherever the same home is used."""
    return blake2b(f"{home}/{learner.casefold()}".encode("utf-8", "replace"), digest_size=8).hexdigest()


def _statement(line: Trail, verb: str, home: str) -> dict[str, Any]:
    exercise = exercises()[line["exercise"]]
    definition = {
        "name": {"en": exercise.title},
        "description": {"en": exercise.outcome},
        "type": _INTERACTION,
        "interactionType": interaction(line.get("kind", "")),
    }
    made: dict[str, Any] = {
        "id": str(uuid.uuid5(uuid.NAMESPACE_URL, f"{home}/{verb}/{line['learner']}/{line['exercise']}/{line['line']}")),
        "actor": {"objectType": "Agent", "account": {"homePage": home, "name": opaque_name(line["learner"], home)}},
        "verb": {"id": f"{_VERBS}/{verb}", "display": {"en": verb}},
        "object": {"objectType": "Activity", "id": f"{home}/exercises/{exercise.id}", "definition": definition},
    }
    at = _time(line["at"])
    if at:
        made["timestamp"] = line["at"]
    return made


def _result(line: Trail, home: str) -> dict[str, Any]:
    if line["status"] != "marked":
        return {}
    result: dict[str, Any] = {
        "score": {"scaled": round(line["score"], 4), "raw": round(line["score"], 4), "min": 0, "max": 1},
        "success": bool(line["right"]),
        "extensions": {f"{home}/extensions/turn": line["turn"]},
    }
    response = _response(line)
    if response:
        result["response"] = response
    opened, at = _time(line.get("opened", "")), _time(line["at"])
    if opened and at and at >= opened:
        result["duration"] = f"PT{(at - opened).total_seconds():.2f}S"
    return {"result": result}


def _response(line: Trail) -> str:
    kind, answer = interaction(line.get("kind", "")), str(line.get("answer", ""))
    if kind == "numeric":
        try:
            return f"{units.quantity(answer).value:.10g}"
        except NotUnderstood:
            return ""
    if kind in ("choice", "sequencing"):
        return "[,]".join(part for part in re.split(r"[\s,;:→]+", answer) if part)
    return answer


def _time(text: str) -> datetime | None:
    try:
        found = datetime.fromisoformat(text)
    except ValueError:
        return None
    return found if found.tzinfo else None


def lines_of(found: Sequence[dict[str, Any]]) -> Iterator[str]:
    """Yield each statement as one line of JSON."""
    import json

    for statement in found:
        yield json.dumps(statement, ensure_ascii=False, separators=(",", ":"))
