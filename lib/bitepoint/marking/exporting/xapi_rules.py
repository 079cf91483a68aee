"""Strict rules for xAPI 1.0.3 statements, as far as ours go: each rule has a name, and a broken one is named."""

import re
import uuid
from collections.abc import Iterator, Mapping
from datetime import datetime
from typing import Any

from bitepoint.errors import BadData

INTERACTIONS = (
    "true-false",
    "choice",
    "fill-in",
    "long-fill-in",
    "matching",
    "performance",
    "sequencing",
    "likert",
    "numeric",
    "other",
)
_IRI = re.compile(r"[A-Za-z][A-Za-z0-9+.-]*:[^\s<>\"{}|\\^`]+")
_DURATION = re.compile(
    r"P(?:\d+W|(?=\d|T)(?:\d+Y)?(?:\d+M)?(?:\d+D)?(?:T(?=\d)(?:\d+H)?(?:\d+M)?(?:\d+(?:\.\d{1,2})?S)?)?)", re.ASCII
)
_IDENTIFIERS = ("mbox", "mbox_sha1sum", "openid", "account")
_STATEMENT = {"id", "actor", "verb", "object", "result", "context", "timestamp", "version"}
_RESULT = {"score", "success", "completion", "response", "duration", "extensions"}
_DEFINITION = {"name", "description", "type", "moreInfo", "interactionType", "correctResponsesPattern", "extensions"}


class BrokenStatement(BadData):
    """A statement that breaks a rule; `rule` is its name."""

    def __init__(self, rule: str, says: str) -> None:
        self.rule = rule
        super().__init__(f"xAPI rule “{rule}”: {says}")


def check_statement(statement: Any) -> None:
    """Check one statement.

    Raises
    ------
    BrokenStatement
        Names the first rule that it breaks.
    """
    for rule, says in broken_rules(statement):
        raise BrokenStatement(rule, says)


def broken_rules(statement: Any) -> Iterator[tuple[str, str]]:
    """Yield (name of the rule, what is wrong) for each rule a statement breaks."""
    if not isinstance(statement, dict):
        yield "statement is an object", f"it is {type(statement).__name__}"
        return
    yield from _nulls(statement)
    yield from _keys("statement", statement, _STATEMENT)
    for key in ("actor", "verb", "object"):
        if not isinstance(statement.get(key), dict):
            yield f"statement has {key}", f"{key} is missing or no object"
            return
    if "id" in statement and not _is_uuid(statement["id"]):
        yield "id is a UUID", f"it is {statement['id']!r}"
    if "timestamp" in statement and not _is_timestamp(statement["timestamp"]):
        yield "timestamp is ISO 8601 with a zone", f"it is {statement['timestamp']!r}"
    yield from _actor(statement["actor"])
    yield from _verb(statement["verb"])
    yield from _object(statement["object"])
    if "result" in statement:
        yield from _result(statement["result"])
    if "context" in statement:
        yield from _context(statement["context"])


def _nulls(value: Any, where: str = "statement") -> Iterator[tuple[str, str]]:
    if value is None:
        yield "no null", f"{where} is null"
    elif isinstance(value, dict):
        for key, item in value.items():
            yield from _nulls(item, f"{where}.{key}")
    elif isinstance(value, list):
        for item in value:
            yield from _nulls(item, f"{where}[]")


def _keys(what: str, found: Mapping[str, Any], allowed: set[str]) -> Iterator[tuple[str, str]]:
    for key in sorted(set(found) - allowed):
        yield "no unknown property", f"{what} has {key!r}"


def _is_uuid(value: Any) -> bool:
    try:
        return isinstance(value, str) and str(uuid.UUID(value)) == value.casefold()
    except ValueError:
        return False


def _is_timestamp(value: Any) -> bool:
    try:
        return isinstance(value, str) and datetime.fromisoformat(value).tzinfo is not None
    except ValueError:
        return False


def _is_iri(value: Any) -> bool:
    return isinstance(value, str) and _IRI.fullmatch(value) is not None


def _actor(actor: Mapping[str, Any]) -> Iterator[tuple[str, str]]:
    yield from _keys("actor", actor, {"objectType", "name", *_IDENTIFIERS})
    if actor.get("objectType", "Agent") != "Agent":
        yield "actor is an Agent", f"objectType is {actor['objectType']!r}"
    if sum(key in actor for key in _IDENTIFIERS) != 1:
        yield "exactly one identifier", f"the actor has {sum(key in actor for key in _IDENTIFIERS)}"
    account = actor.get("account")
    if account is None:
        return
    if not isinstance(account, dict):
        yield "account has homePage and name", "it is no object"
        return
    yield from _keys("account", account, {"homePage", "name"})
    if not _is_iri(account.get("homePage")) or not isinstance(account.get("name"), str) or not account["name"]:
        yield "account has homePage and name", "one of them is missing or cannot be used"


def _verb(verb: Mapping[str, Any]) -> Iterator[tuple[str, str]]:
    yield from _keys("verb", verb, {"id", "display"})
    if not _is_iri(verb.get("id")):
        yield "verb.id is an IRI", f"it is {verb.get('id')!r}"
    yield from _language_map("verb.display", verb.get("display", {}))


def _language_map(where: str, found: Any) -> Iterator[tuple[str, str]]:
    if not isinstance(found, dict) or not all(isinstance(v, str) for v in found.values()):
        yield "language map", f"{where} must hold texts by language"


def _object(thing: Mapping[str, Any]) -> Iterator[tuple[str, str]]:
    yield from _keys("object", thing, {"objectType", "id", "definition"})
    if thing.get("objectType", "Activity") != "Activity":
        yield "object is an Activity", f"objectType is {thing['objectType']!r}"
    if not _is_iri(thing.get("id")):
        yield "object.id is an IRI", f"it is {thing.get('id')!r}"
    definition = thing.get("definition", {})
    if not isinstance(definition, dict):
        yield "definition is an object", f"it is {type(definition).__name__}"
        return
    yield from _keys("definition", definition, _DEFINITION)
    if "type" in definition and not _is_iri(definition["type"]):
        yield "definition.type is an IRI", f"it is {definition['type']!r}"
    if "interactionType" in definition and definition["interactionType"] not in INTERACTIONS:
        yield "interactionType", f"{definition['interactionType']!r} is none"
    for key in ("name", "description"):
        yield from _language_map(f"definition.{key}", definition.get(key, {}))


def _result(result: Any) -> Iterator[tuple[str, str]]:
    if not isinstance(result, dict):
        yield "result is an object", f"it is {type(result).__name__}"
        return
    yield from _keys("result", result, _RESULT)
    for key in ("success", "completion"):
        if key in result and not isinstance(result[key], bool):
            yield f"{key} is a boolean", f"it is {result[key]!r}"
    if "response" in result and not isinstance(result["response"], str):
        yield "response is a string", f"it is {result['response']!r}"
    if "duration" in result and not (isinstance(result["duration"], str) and _DURATION.fullmatch(result["duration"])):
        yield "duration is ISO 8601", f"it is {result['duration']!r}"
    yield from _extensions(result)
    if "score" in result:
        yield from _score(result["score"])


def _context(context: Any) -> Iterator[tuple[str, str]]:
    if not isinstance(context, dict):
        yield "context is an object", f"it is {type(context).__name__}"
        return
    yield from _keys("context", context, {"extensions"})
    yield from _extensions(context)


def _extensions(holder: Mapping[str, Any]) -> Iterator[tuple[str, str]]:
    extensions = holder.get("extensions", {})
    if not isinstance(extensions, dict) or not all(_is_iri(key) for key in extensions):
        yield "extensions are keyed by IRIs", "a key is none"


def _score(score: Any) -> Iterator[tuple[str, str]]:
    if not isinstance(score, dict) or not all(_is_number(v) for v in score.values()):
        yield "score holds numbers", f"it is {score!r}"
        return
    yield from _keys("score", score, {"scaled", "raw", "min", "max"})
    if not -1 <= score.get("scaled", 0) <= 1:
        yield "scaled is from -1 to 1", f"it is {score['scaled']}"
    if "min" in score and "max" in score and score["min"] >= score["max"]:
        yield "min is below max", f"{score['min']} and {score['max']}"


def _is_number(value: Any) -> bool:
    return isinstance(value, (int, float)) and not isinstance(value, bool)
