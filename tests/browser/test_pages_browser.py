"""The pages of a marked class in a real browser: how many sheets they print on, and how they read on a telephone."""

import re
from datetime import datetime, timedelta
from pathlib import Path

import msgspec
import pytest

from bitepoint.classroom.bench_sheets.observing import STANDARD
from bitepoint.marking import mark_hand_ins
from bitepoint.marking.pages.evidence import evidence_page
from bitepoint.marking.pages.printing import print_class
from bitepoint.marking.registry.register import Entry
from bitepoint.marking.rehearsal.rehearse import rehearse
from bitepoint.marking.result import Result, SittingWork
from bitepoint.marking.rules import ClassRules

from .lab import Browser

pytestmark = pytest.mark.browser
MARKED = datetime.fromisoformat("2026-06-30T15:00+02:00")
BROKEN = """() => {
  const found = [], walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  for (let node = walk.nextNode(); node; node = walk.nextNode())
    for (const word of node.data.matchAll(/[A-Za-z]{3,18}/g)) {
      const range = document.createRange();
      range.setStart(node, word.index); range.setEnd(node, word.index + word[0].length);
      if (new Set([...range.getClientRects()].map((r) => Math.round(r.top))).size > 1) found.push(word[0]);
    }
  return found;
}"""
"""Words that stand on two lines."""


@pytest.fixture(scope="module")
def marked(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A class of 24 with a sitting and cases to find, marked twice: feedback at once, and after the hand-in."""
    folder = tmp_path_factory.mktemp("class")
    rehearse(folder, learners=24, seed=1, planted=True)
    common = {"roster": folder / "roster.csv", "register": folder / "register", "marked": MARKED}
    rules = ClassRules(title="Autumn group", criteria=tuple(STANDARD))
    withheld = msgspec.structs.replace(rules, withheld=True)
    for name, said in (("marks", rules), ("withheld", withheld)):
        mark_hand_ins([folder / "hand-ins"], out=folder / name, rules=said, **common)  # type: ignore[arg-type]
    return folder


def longest(folder: Path) -> Path:
    """The page with most in it."""
    return max(folder.iterdir(), key=lambda path: path.stat().st_size)


def sheets(chromium: Browser, page: Path) -> int:
    """On how many sheets a page is printed."""
    opened = chromium.new_page()
    opened.goto(page.as_uri())
    return counted(opened.pdf(prefer_css_page_size=True))


def counted(pdf: bytes) -> int:
    """How many pages a PDF has."""
    return len(re.findall(rb"/Type\s*/Page\b(?!s)", pdf))


def test_pages_are_printed_on_few_sheets(chromium: Browser, marked: Path) -> None:
    """At most 12 the report of 24, 6 the learner's page that has most in it, also where it is the feedback; 1 the record."""
    assert sheets(chromium, marked / "marks" / "report.html") <= 12
    assert sheets(chromium, longest(marked / "marks" / "learners")) <= 6
    assert sheets(chromium, longest(marked / "withheld" / "learners")) <= 6
    assert sheets(chromium, longest(marked / "marks" / "evidence")) == 1


@pytest.mark.parametrize("width", [390, 1280])
@pytest.mark.parametrize(
    "where", ["marks/report.html", "marks/learners", "withheld/learners", "marks/assessor", "marks/evidence"]
)
def test_nothing_is_wider_than_the_screen_and_no_word_is_broken(
    chromium: Browser, marked: Path, where: str, width: int
) -> None:
    """On a telephone and on a laptop: no scrolling sideways, every word of ordinary length on one line."""
    page = chromium.new_page(viewport={"width": width, "height": 900})
    path = marked / where
    page.goto((longest(path) if path.is_dir() else path).as_uri())

    assert page.evaluate("() => document.documentElement.scrollWidth") <= width
    assert [] == page.evaluate(BROKEN)


def test_the_records_of_a_class_print_as_one_file(launched: Browser, marked: Path, tmp_path: Path) -> None:
    """A page a learner, by the browser that prints for the command."""
    (made,) = print_class(marked / "marks", "evidence", tmp_path, one_file=True)
    assert len(list((marked / "marks" / "evidence").iterdir())) == counted(made.read_bytes())


def test_a_record_with_much_in_it_is_one_page_all_the_same(chromium: Browser, tmp_path: Path) -> None:
    """Many sittings, criteria with long names, decisions as long as can be: one sheet, and what has no room is said."""
    word = "A criterion of the college's own, as long as such things are"
    rules = ClassRules(criteria=(*STANDARD, *(f"{word}, {n}" for n in range(8))), title="Autumn group")
    began = MARKED - timedelta(days=9)
    sittings = tuple(
        SittingWork(
            word=f"red-kite-{n}", standing="supervised by A. Assessor", begins=began, lessons=("star", "torque", "job")
        )
        for n in range(6)
    )
    said = {"learner": "L01-X", "by": "A. Assessor", "date": "2026-06-29", "criterion": f"{word}, 1"}
    entries = [Entry(kind="decision", text="a reason " * 100, **said) for _ in range(3)]
    found = Result(name="L01-X", class_word="oak-2026", sittings=sittings, entries=tuple(entries), rules=rules)
    (tmp_path / "record.html").write_text(evidence_page(found, MARKED), "utf-8")

    assert "No room here for 6 criteria, 1 decisions, 3 sittings more" in (tmp_path / "record.html").read_text("utf-8")
    assert sheets(chromium, tmp_path / "record.html") == 1
