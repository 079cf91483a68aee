"""Report, learner pages and marks.csv: texts are shown as texts, nothing is fetched, nothing promises too much."""

import csv
import io
import re
import subprocess
import sys
from html.parser import HTMLParser
from pathlib import Path

import pytest
from appeal_room import HOME, IN, SECOND, WORD, Marked, Room, answer, asked, chained, right, wrong
from hypothesis import given
from hypothesis import strategies as st
from test_flags import OAK, ONE, TWO, line

from bitepoint.bank import exercises
from bitepoint.marking import mark_hand_ins
from bitepoint.marking.arrived import HELD, NOTHING, UNREAD
from bitepoint.marking.flagging.clocks import UNREADABLE
from bitepoint.marking.flagging.sittings import CLAIM
from bitepoint.marking.marks import COLUMNS, cell, decimal, mark_lines
from bitepoint.marking.pages.appeal_list import appeal_list
from bitepoint.marking.pages.render import TRAINING
from bitepoint.marking.registry.entries import Entry
from bitepoint.marking.registry.register import Register
from bitepoint.marking.rehearsal.rehearse import rehearse
from bitepoint.marking.result import Row

EVIL = "<script>alert(1)</script><img src=x onerror=alert(2)>"
CSP = "default-src 'none'; style-src 'unsafe-inline'; img-src data:"


class Page(HTMLParser):
    """What a page holds: its tags with attributes, and its text."""

    def __init__(self, path: Path) -> None:
        super().__init__()
        self.tags: list[tuple[str, dict[str, str | None]]] = []
        self.text = ""
        self.source = path.read_text(encoding="utf-8")
        self.feed(self.source)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append((tag, dict(attrs)))

    def handle_data(self, data: str) -> None:
        self.text += data

    def all(self, tag: str) -> list[dict[str, str | None]]:
        """Return the attributes of every such tag."""
        return [attributes for name, attributes in self.tags if name == tag]


@pytest.fixture(scope="module")
def marks(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return the marks of a class of eight, one of whom hands nothing in, one hostile, one file no hand-in."""
    folder = tmp_path_factory.mktemp("class")
    rehearse(folder, learners=8, seed=3)
    (folder / "hand-ins" / "<b>essay.pdf").write_bytes(b"x")
    text = line("start.number", EVIL, learner=EVIL, facts=EVIL).text
    (folder / "hand-ins" / "evil.jsonl").write_text(text + "\n", encoding="ascii")
    wrong = line("start.number", EVIL, facts=EVIL).text
    (folder / "hand-ins" / "changed.jsonl").write_text(wrong + "\n", encoding="ascii")
    with open(folder / "roster.csv", "a", encoding="utf-8") as file:
        file.write(f"L99-Q,{OAK}\n")
    mark_hand_ins([folder / "hand-ins"], roster=folder / "roster.csv", out=folder / "marks")
    return folder / "marks"


def pages(marks: Path) -> list[Path]:
    """Return the report and every learner's three pages."""
    return [marks / "report.html", *sorted(marks.glob("*/*.html"))]


def test_pages_run_and_fetch_nothing(marks: Path) -> None:
    """No script, no frame, no picture from outside, and the policy forbids them all."""
    for path in pages(marks):
        page = Page(path)
        policies = [m["content"] for m in page.all("meta") if m.get("http-equiv") == "Content-Security-Policy"]
        links = [a["href"] or "" for a in page.all("a")]

        assert policies == [CSP]
        assert set() == {tag for tag, _ in page.tags} & {"script", "img", "iframe", "object", "link", "form", "base"}
        assert [a for _, attributes in page.tags for a in attributes if a.startswith("on")] == []
        assert [href for href in links if re.match(r"[a-z]+:|//", href)] == []
        assert [href for href in links if not href.startswith("#") and not (path.parent / href).is_file()] == []


def test_hostile_text_is_shown_as_text(marks: Path) -> None:
    """Tags in an id, an answer, a digest and a file name are letters."""
    report = Page(marks / "report.html")
    unknown = next((marks / "assessor").glob("unknown-*"))

    assert "The lines are of “<script>alert(1)</script><img src=x oner”" in report.text
    assert "<b>essay.pdf: is no zip, notebook or logbook" in report.text
    assert EVIL in Page(unknown).text
    assert EVIL in Page(marks / "assessor" / f"{ONE}.html").text


def test_pages_can_be_read_by_ear(marks: Path) -> None:
    """Language, one heading of the first order, captions on tables, scope on heads, words for bars."""
    for path in pages(marks):
        page = Page(path)

        assert [h["lang"] for h in page.all("html")] == ["en"]
        assert len(page.all("h1")) == 1
        assert len(page.all("table")) == len(page.all("caption"))
        assert {"col", "row", "rowgroup"} >= {th.get("scope") for th in page.all("th")}
        assert all(d.get("aria-label") for d in page.all("div") if d.get("role") == "img")


def test_pages_promise_nothing_about_a_person(marks: Path) -> None:
    """Practice evidence only, observation still required, invented figures; the forbidden word is nowhere."""
    for path in pages(marks):
        page = Page(path)
        first = re.search(r"<p[^>]*>(.*?)</p>", page.source, re.S)

        assert first
        assert first[1].startswith("Unsupervised work is practice evidence only.")
        assert "practical observation still required" in page.text
        assert TRAINING in page.text
        assert "competent" not in page.source.casefold()
        assert "knowledge evidence complete" not in page.text.casefold()


def test_the_report_says_where_the_class_stands(marks: Path) -> None:
    """Each exercise with its counts, who handed nothing in, every learner with a link."""
    report = Page(marks / "report.html")

    assert "Nothing that counts was handed in: L99-Q." in report.text
    assert {f"assessor/{p.name}" for p in (marks / "assessor").iterdir()} <= {a["href"] for a in report.all("a")}
    assert all(e in report.text for e in exercises())
    for heading in ("Where the class is stuck", "Critical mistakes still open", "Flags: a person should look"):
        assert heading in report.text


def test_the_marks_are_sorted_and_have_their_columns(marks: Path) -> None:
    """By learner, then in the order of the bank."""
    with open(marks / "marks.csv", encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(file))
    places = {id: n for n, id in enumerate(exercises())}
    keys = [(row["learner"].casefold(), places[row["exercise"]]) for row in rows]

    assert list(COLUMNS) == list(rows[0])
    assert sorted(keys) == keys
    assert len(set(keys)) == len(keys)
    assert b"\r" not in (marks / "marks.csv").read_bytes()


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("-3.2", "-3.2"),
        ("+5", "+5"),
        ("-3,2", "-3,2"),
        ("=1+1", "'=1+1"),
        ("@SUM(A1)", "'@SUM(A1)"),
        ("-3.2+A1", "'-3.2+A1"),
        ("+cmd|' /C calc'!A0", "'+cmd|' /C calc'!A0"),
        ("\t=1", "' =1"),
        ("a\nb", "a b"),
        ("  =1", "'  =1"),
        ("round the circle", "round the circle"),
    ],
)
def test_formulas_are_text_and_numbers_stay_numbers(text: str, shown: str) -> None:
    """A spreadsheet shows what was written and works nothing out."""
    assert shown == cell(text)


@given(st.text(max_size=60))
def test_no_cell_begins_like_a_formula(text: str) -> None:
    """Whatever stands in an answer, marks.csv holds one line for it that no spreadsheet works out."""
    row = Row(learner=TWO, exercise="start.number", first_score=0.0, last_score=2 / 3, reason=text)
    text = mark_lines([(row, None)])
    (row,) = csv.reader(io.StringIO(text, newline=""))
    reason = row[COLUMNS.index("reason")]

    assert text.count("\n") == 1
    assert row[COLUMNS.index("last_score")] == "0.6667"
    assert not reason.strip().startswith(("=", "+", "-", "@")) or re.fullmatch(r"\s*[+-][0-9]+([.,][0-9]+)?\s*", reason)


@pytest.mark.parametrize(("score", "shown"), [(1.0, "1"), (0.0, "0"), (0.75, "0.75"), (1 / 3, "0.3333"), (None, "")])
def test_scores_are_plain_decimals(score: float | None, shown: str) -> None:
    """No exponent, no trailing noughts, nothing for no mark."""
    assert shown == decimal(score)


def test_importing_the_marking_loads_no_heavy_module() -> None:
    """No plots, no notebooks, no templates until a report is written."""
    code = "import sys, bitepoint.marking; print(*sys.modules)"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, check=True, encoding="utf-8")
    heavy = {"matplotlib", "numpy", "IPython", "ipywidgets", "anywidget", "nbformat", "nbclient", "pint", "jinja2"}

    assert set() == heavy & set(done.stdout.split())


def test_the_report_lists_appeals_open_ones_first(tmp_path: Path) -> None:
    """One a learner and exercise, by its newest entry; reopened it is open again; a deleted learner's is not there."""
    book = Register(tmp_path / "register")
    said = {"kind": "appeal", "by": "A", "date": "2026-07-01", "text": "because"}
    for learner in (ONE, TWO):
        book.add(Entry(**said, learner=learner, exercise="start.choice"))
    book.add(Entry(**said, learner=ONE, exercise="start.choice", outcome="upheld", decided="2026-07-03"))
    listed = appeal_list(book.entries())
    book.add(Entry(**said, learner=ONE, exercise="start.choice"))
    again = appeal_list(book.entries())
    book.add(Entry(kind="deletion", learner=TWO, by="A", text="on request"))

    assert [(TWO, True), (ONE, False)] == [(a.name, a.open) for a in listed]
    assert [True, True] == [a.open for a in again]
    assert [ONE] == [a.name for a in appeal_list(book.entries())]
    (tmp_path / "a.jsonl").write_text(line("start.choice").text + "\n", "ascii")
    mark_hand_ins([tmp_path / "a.jsonl"], out=tmp_path / "marks", register=tmp_path / "register")
    assert "1 of 1 open." in Page(tmp_path / "marks" / "report.html").text


def cells_of(report: Path, learner: str) -> dict[str, str]:
    """Return by head of its column what the report's table of learners says about one."""
    table = report.read_text("utf-8").partition('<h2 id="learners">')[2].partition("</table>")[0]
    heads = [re.sub(r"<[^>]+>", "", h) for h in re.findall(r"<th scope=\"col\"[^>]*>(.*?)</th>", table)]
    (row,) = [r for r in re.findall(r"<tr><th scope=\"row\".*?</tr>", table, re.S) if f">{learner}<" in r]
    cells = re.findall(r"<(?:th|td)[ >].*?</(?:th|td)>", row, re.S)
    return dict(zip(heads, (" ".join(re.sub(r"<[^>]+>", "", c).split()) for c in cells), strict=True))


def test_the_report_keeps_practice_and_sitting_apart(tmp_path: Path) -> None:
    """Who only sat has nothing under practice; who did both has each under its own head."""
    room = Room(tmp_path)
    room.zip(ONE, chained(right(WORD), IN))
    theirs = [chained(wrong(learner=TWO), HOME), chained(right(WORD, learner=TWO, device="bbbbbbbb"), IN)]
    room.zip(TWO, *theirs, hint=TWO)
    room.sits()
    room.marked()
    only_sat, both = (cells_of(tmp_path / "marks" / "report.html", who) for who in (ONE, TWO))
    practice = ("Right (needed) in practice", "First try in practice", "Critical open in practice")

    assert ["none"] * 3 == [only_sat[head] for head in practice]
    assert f"{len(asked())} (5)" == only_sat["Right (needed) in the sitting"] == both["Right (needed) in the sitting"]
    assert ("0", "1") == (only_sat["Critical open in the sitting"], both["Critical open in practice"])
    assert f"{len(asked()) - 1} (4)" == both["Right (needed) in practice"]


def test_a_report_of_practice_alone_has_no_columns_of_a_sitting(marks: Path) -> None:
    """Nobody sat, so the table stays as narrow as it can."""
    assert not [head for head in cells_of(marks / "report.html", "L99-Q") if "sitting" in head]


def test_held_and_damaged_hand_ins_read_the_same_on_every_page(tmp_path: Path) -> None:
    """Who sent a damaged file, whose hand-in is held, and who sent nothing: each in its own words, everywhere the same."""
    room = Room(tmp_path)
    (tmp_path / "roster.csv").write_text(f"learner,class_word\n{ONE},{OAK}\n{TWO},{OAK}\nL99-Q,{OAK}\n", "utf-8")
    room.zip(f"{ONE}-1", chained(right("", learner="L98-Q"), HOME))
    (room.hand_ins / f"{TWO}-1.zip").write_bytes(b"torn")
    room.marked()

    for who, words in ((ONE, HELD), (TWO, UNREAD), ("L99-Q", NOTHING)):
        report = cells_of(tmp_path / "marks" / "report.html", who)["Knowledge evidence; at the vehicle"]
        assert report.startswith(words)
        assert words == Marked(tmp_path / "marks", who, []).evidence
        for page in ("learners", "assessor", "evidence"):
            text = Page(tmp_path / "marks" / page / f"{who}.html").text
            assert words in text
            assert "more work needed" not in text
        assert "needed;" not in text
    assert f"{UNREAD.capitalize()}: {TWO}." in Page(tmp_path / "marks" / "report.html").text


def test_a_time_that_cannot_be_read_spoils_no_begin_and_no_end(tmp_path: Path) -> None:
    """Left out of the days that report, pages and learners.csv name, and flagged; who has no other time handed in all the same."""
    room = Room(tmp_path)
    room.zip(
        ONE,
        chained(
            [answer(e, at=at) for e, at in zip(asked()[:3], ("0000-00-00", "9999-99-99", HOME), strict=True)], HOME
        ),
    )
    room.zip(TWO, chained([answer(asked()[0], learner=TWO, at="9999-99-99")], HOME), hint=TWO)
    one, two = room.marked(), Marked(tmp_path / "marks", TWO, [])
    report = Page(tmp_path / "marks" / "report.html").text

    assert "Answers from 20 June 2026 to 20 June 2026 by the laptops' own clocks." in report
    assert "unreadable date" not in report
    assert (HOME, "") == (one.learner["last_at"], two.learner["last_at"])
    assert UNREADABLE in one.flags & two.flags
    assert "2 answers have a time that cannot be read: “0000-00-00”, “9999-99-99”." in report
    assert "nothing" not in two.evidence
    assert "No answer has a time that can be read." in Page(tmp_path / "marks" / "learners" / f"{TWO}.html").text


def test_appeals_about_practice_and_about_a_sitting_are_two(tmp_path: Path) -> None:
    """The table says which sitting; one is decided and the other stays open."""
    book = Register(tmp_path / "register")
    said = {"kind": "appeal", "learner": ONE, "exercise": "start.choice", "by": "A", "date": "2026-07-01", "text": "t"}
    book.add(Entry(**said))
    book.add(Entry(**said, word=WORD))
    book.add(Entry(**said, word=WORD.upper(), outcome="upheld", decided="2026-07-03"))
    listed = [(a.about, a.open) for a in appeal_list(book.entries())]

    assert [("start.choice, practice", True), (f"start.choice, sitting {WORD}", False)] == listed


def test_a_confirmation_for_a_room_nobody_sat_in_is_flagged(tmp_path: Path) -> None:
    """Of a word that no answer has, or with which no sitting is recorded, and of a room in which none is; one that fits is not."""
    room = Room(tmp_path)
    room.zip(ONE, chained(right(WORD), IN), chained(right("blue-tit", device="bbbbbbbb"), IN))
    room.sits()
    for more in ({"room": "12"}, {}, {"room": "99"}, {"word": SECOND}, {"word": "blue-tit"}):
        room.confirms(**more)
    done = mark_hand_ins([room.hand_ins], out=tmp_path / "marks", register=tmp_path / "register")
    flagged = [f.evidence for f in done.summary.flags if f.kind == CLAIM]

    assert [
        "no sitting with this word is recorded in room “99”",
        "no hand-in has an answer of it",
        "no sitting with this word is recorded",
    ] == [e.partition(": ")[2].rstrip(".") for e in flagged]
    assert "confirmation “red-kite”" in flagged[0]
