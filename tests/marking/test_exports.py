"""Exports: statements that keep every rule of xAPI 1.0.3, OneRoster 1.1 tables, plain CSV; the same at each run."""

import copy
import csv
import json
import uuid
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from appeal_room import IN, NEXT_DAY, WORD, Room, chained, critical, right, wrong
from test_flags import ONE

from bitepoint.bank import exercises
from bitepoint.cli import main
from bitepoint.errors import BadInput
from bitepoint.marking import mark_hand_ins
from bitepoint.marking.exporting.exports import export
from bitepoint.marking.exporting.gradebook import LINE_ITEMS, PRACTICE, RESULTS, SITTINGS
from bitepoint.marking.exporting.xapi import opaque_name, statements
from bitepoint.marking.exporting.xapi_rules import BrokenStatement, broken_rules, check_statement
from bitepoint.marking.registry.register import Entry, Register
from bitepoint.marking.rehearsal.rehearse import rehearse
from bitepoint.marking.rules import read_rules


@pytest.fixture(scope="module")
def results(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return the marks of a class of six, with one override."""
    folder = tmp_path_factory.mktemp("class")
    rehearse(folder, learners=6, seed=2)
    learner = next(p for p in (folder / "hand-ins").iterdir()).name.partition("-2026")[0]
    entry = Entry(kind="override", learner=learner, exercise="start.number", score=0.25, by="A", text="why")
    Register(folder / "register").add(entry)
    mark_hand_ins([folder / "hand-ins"], out=folder / "marks", register=folder / "register")
    return folder / "marks"


def read(path: Path) -> list[dict[str, str]]:
    """Return the rows of a table."""
    with open(path, encoding="utf-8-sig", newline="") as file:
        return list(csv.DictReader(file))


def statement() -> dict[str, Any]:
    """Return a statement that keeps every rule."""
    return {
        "id": "12345678-1234-5678-1234-567812345678",
        "actor": {"objectType": "Agent", "account": {"homePage": "https://college.example", "name": "a1"}},
        "verb": {"id": "http://adlnet.gov/expapi/verbs/answered", "display": {"en": "answered"}},
        "object": {"id": "https://college.example/x", "definition": {"interactionType": "numeric"}},
        "result": {"score": {"scaled": 1}, "success": True, "response": "1", "duration": "PT4H35M59.14S"},
        "timestamp": "2026-04-14T08:00:00Z",
    }


def broken(change: Callable[[dict[str, Any]], object]) -> str:
    """Return the name of the rule that a changed statement breaks."""
    found = copy.deepcopy(statement())
    change(found)
    with pytest.raises(BrokenStatement) as raised:
        check_statement(found)
    assert f"xAPI rule “{raised.value.rule}”: " in str(raised.value)
    return raised.value.rule


@pytest.mark.parametrize(
    ("change", "rule"),
    [
        (lambda s: s.pop("verb"), "statement has verb"),
        (lambda s: s.pop("actor"), "statement has actor"),
        (lambda s: s.pop("object"), "statement has object"),
        (lambda s: s["result"]["score"].update(scaled=1.2), "scaled is from -1 to 1"),
        (lambda s: s["result"]["score"].update(scaled=True), "score holds numbers"),
        (lambda s: s["result"]["score"].update(min=1, max=1), "min is below max"),
        (lambda s: s["result"].update(success="true"), "success is a boolean"),
        (lambda s: s["result"].update(completion=1), "completion is a boolean"),
        (lambda s: s["result"].update(response=84.2), "response is a string"),
        (lambda s: s["result"].update(extensions={"turn": 1}), "extensions are keyed by IRIs"),
        (lambda s: s.update(extra=1), "no unknown property"),
        (lambda s: s["actor"].update(mbox="mailto:a@college.example"), "exactly one identifier"),
        (lambda s: s["actor"].pop("account"), "exactly one identifier"),
        (lambda s: s["actor"]["account"].pop("name"), "account has homePage and name"),
        (lambda s: s["verb"].update(id="answered"), "verb.id is an IRI"),
        (lambda s: s["object"].update(id="x"), "object.id is an IRI"),
        (lambda s: s["object"]["definition"].update(interactionType="order"), "interactionType"),
        (lambda s: s["verb"].update(display="answered"), "language map"),
        (lambda s: s.update(id="7"), "id is a UUID"),
        (lambda s: s.update(timestamp="2026-04-14T08:00:00"), "timestamp is ISO 8601 with a zone"),
        (lambda s: s["result"].update(response=None), "no null"),
    ],
)
def test_a_wrong_statement_is_refused_with_the_rule_named(
    change: Callable[[dict[str, Any]], object], rule: str
) -> None:
    """One rule broken each, one rule named."""
    assert rule == broken(change)


@pytest.mark.parametrize("duration", ["PT4H35M59.14S", "PT16559.14S", "P3Y", "P4W", "P1DT2H", "PT0.00S"])
def test_durations_that_the_specification_calls_valid(duration: str) -> None:
    """Seconds to a hundredth, years, weeks alone."""
    found = statement()
    found["result"]["duration"] = duration

    assert list(broken_rules(found)) == []


@pytest.mark.parametrize("duration", ["P4W1D", "20 minutes", "P", "PT", "PT1.234S", "P1DT", "", 5])
def test_durations_that_are_none(duration: object) -> None:
    """Weeks beside days, an empty time, words, a number."""
    assert broken(lambda s: s["result"].update(duration=duration)) == "duration is ISO 8601"


def test_every_statement_of_a_class_is_valid_stable_and_in_order(results: Path, tmp_path: Path) -> None:
    """UUID version 5, no learner id inside, three types of interaction at least, the same bytes twice."""
    for name in ("a", "b"):
        export(results, tmp_path / name, form="xapi", home="https://college.example/")
    text = (tmp_path / "a" / "statements.jsonl").read_text("utf-8")
    found = [json.loads(x) for x in text.splitlines()]
    types = {s["object"]["definition"]["interactionType"] for s in found}
    answered = [s for s in found if s["verb"]["display"]["en"] == "answered"]

    assert text == (tmp_path / "b" / "statements.jsonl").read_text("utf-8")
    assert [r for s in found for r in broken_rules(s)] == []
    assert {5} == {uuid.UUID(s["id"]).version for s in found}
    assert len({s["id"] for s in found}) == len(found)
    assert {"numeric", "choice", "sequencing"} <= types
    assert [s["timestamp"] for s in found] == sorted(s["timestamp"] for s in found)
    assert all("result" in s for s in answered)
    assert len(found) - len(answered) == len(
        {(r["learner"], r["exercise"]) for r in read(results / "marks.csv") if r["tries"] != "0"}
    )
    assert not any(r["learner"] in text for r in read(results / "learners.csv"))
    assert opaque_name("L07-K") == opaque_name("l07-k") != opaque_name("L07-K", "https://other.example")


def trail(**changes: Any) -> dict[str, Any]:
    """Return a line of the trail."""
    whole = {"line": "ab", "learner": ONE, "exercise": "start.number", "turn": 1, "status": "marked", "score": 1.0}
    whole |= {"right": True, "kind": "number", "answer": "84,2 N·m", "at": "2026-04-14T08:01:00.000Z", "opened": ""}
    return {**whole, **changes}


@pytest.mark.parametrize(
    ("kind", "answer", "type_", "response"),
    [
        ("number", "84,2 N·m", "numeric", "84.2"),
        ("choice", "b", "choice", "b"),
        ("several", "a, c", "choice", "a[,]c"),
        ("tightening", "1 4 2 5 3 6", "sequencing", "1[,]4[,]2[,]5[,]3[,]6"),
        ("enquiry", "x > y", "other", "x > y"),
    ],
)
def test_answers_as_responses(kind: str, answer: str, type_: str, response: str) -> None:
    """Numbers as plain digits, choices and orders with the specification's delimiter."""
    _, found = statements([trail(kind=kind, answer=answer)])

    assert type_ == found["object"]["definition"]["interactionType"]
    assert response == found["result"]["response"]


def test_a_line_in_two_hand_ins_counts_once_and_a_changed_question_has_no_result() -> None:
    """Nothing is marked against other figures."""
    found = statements([trail(), trail(), trail(line="cd", status="question changed", score=None, right=None)])

    assert ["attempted", "answered", "answered"] == [s["verb"]["display"]["en"] for s in found]
    assert [False, True, False] == ["result" in s for s in found]


def test_gradebook_tables_hold_together(results: Path, tmp_path: Path) -> None:
    """Columns of the standard, every required cell, each result with its line item; overrides count."""
    export(results, tmp_path, form="oneroster")
    items, rows = read(tmp_path / "lineItems.csv"), read(tmp_path / "results.csv")
    optional = {"status", "dateLastModified", "description", "comment"}
    marks = [r for r in read(results / "marks.csv") if r["mark"]]
    manifest = {r["propertyName"]: r["value"] for r in read(tmp_path / "manifest.csv")}

    assert list(LINE_ITEMS) == list(items[0])
    assert list(RESULTS) == list(rows[0])
    assert all(v for r in (*items, *rows) for k, v in r.items() if k not in optional)
    assert {r["lineItemSourcedId"] for r in rows} == {i["sourcedId"] for i in items}
    assert len({r["sourcedId"] for r in rows}) == len(rows) == len(marks)
    assert {"fully graded"} == {r["scoreStatus"] for r in rows}
    assert any(r["score"] == "0.25" and r["comment"].startswith("override by A; computed ") for r in rows)
    assert ("1.1", "bulk", "absent") == tuple(manifest[k] for k in ("oneroster.version", "file.results", "file.users"))
    assert {i["title"] for i in items} <= {e.title for e in exercises().values()}
    assert {PRACTICE} == {i["categorySourcedId"] for i in items}


def test_due_is_that_of_the_class_file_and_days_are_those_of_its_zone(results: Path, tmp_path: Path) -> None:
    """An answer after the due date moves no due date; ten hours west of Greenwich the morning is the day before."""
    hand_ins, rules = results.parent / "hand-ins", tmp_path / "class.toml"
    days = []
    for zone in ("UTC", "Pacific/Honolulu"):
        rules.write_text(f'due = 2026-04-01\nzone = "{zone}"\n', "utf-8")
        mark_hand_ins([hand_ins], out=tmp_path / "marks", rules=read_rules(rules), class_file=rules)
        export(tmp_path / "marks", tmp_path / "out", form="oneroster")
        assert {"2026-04-01"} == {i["dueDate"] for i in read(tmp_path / "out" / "lineItems.csv")}
        days.append([r["scoreDate"] for r in read(tmp_path / "out" / "results.csv")])
    assert min(days[0]) > "2026-04-01"
    assert days[0] != days[1]


def test_a_sitting_has_line_items_of_its_own(tmp_path: Path) -> None:
    """Wrong in the sitting and right at home: two line items, two results, not pooled; unsupervised goes out nowhere."""
    room = Room(tmp_path)
    room.zip(f"{ONE}-a", chained(wrong(WORD), IN))
    room.zip(f"{ONE}-b", chained(right(), NEXT_DAY))
    room.marked(out="alone")
    room.sits()
    room.marked(out="marks")
    found = {}
    for name in ("alone", "marks"):
        export(tmp_path / name, tmp_path / f"of-{name}", form="oneroster")
        items = {i["sourcedId"]: i for i in read(tmp_path / f"of-{name}" / "lineItems.csv")}
        rows = read(tmp_path / f"of-{name}" / "results.csv")
        found[name] = [(items[r["lineItemSourcedId"]], r) for r in rows]
    assert {PRACTICE} == {item["categorySourcedId"] for item, _ in found["alone"]}
    title = exercises()[critical()[0]].title
    ours = {
        (i["categorySourcedId"], i["title"], r["score"], r["scoreDate"])
        for i, r in found["marks"]
        if i["title"].startswith(title)
    }
    assert {(PRACTICE, title, "1", NEXT_DAY[:10]), (SITTINGS, f"{title} (sitting {WORD})", "0", IN[:10])} == ours
    assert all(r["comment"].startswith("supervised by A. Assessor") for i, r in found["marks"] if WORD in i["title"])


def test_plain_tables_are_those_of_the_marking(results: Path, tmp_path: Path) -> None:
    """marks.csv and learners.csv, cell for cell."""
    export(results, tmp_path, form="csv")

    for name in ("marks.csv", "learners.csv"):
        assert read(results / name) == read(tmp_path / name)


def test_wrong_use_is_one_line(tmp_path: Path, results: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Unknown format, no results there, an address that is none."""
    with pytest.raises(BadInput, match=r"There is no format 'pdf'\. Choose one of xapi, oneroster, csv\."):
        export(results, tmp_path, form="pdf")
    with pytest.raises(BadInput, match="--home must be an address such as"):
        export(results, tmp_path, form="xapi", home="college")
    assert main(["export", "--format", "csv", str(tmp_path), "--out", str(tmp_path / "x")]) == 2
    assert "holds no results that can be read." in capsys.readouterr().err
    assert main(["export", "--format", "csv", str(results), "--out", str(tmp_path / "x")]) == 0
