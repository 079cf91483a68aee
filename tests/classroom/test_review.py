"""What a practising fitter is sent: every statement of a lesson, its source, a place to judge, and whose judgement it is."""

import re
from html import unescape
from pathlib import Path

import pytest

from bitepoint.bank.lessons import LESSONS
from bitepoint.classroom.claims import NO_SOURCE, lesson_sections, rule_sections
from bitepoint.classroom.lesson_text import cells_of
from bitepoint.classroom.review import RULES, review_page
from bitepoint.cli import main
from bitepoint.sources import SOURCES
from bitepoint.workshop.criteria import criteria
from bitepoint.workshop.hazards import hazards
from bitepoint.workshop.operations import job
from bitepoint.workshop.vehicles import FRAME

LEFT_OUT = {"what-you-do", "outcomes", "stop", "stop-one", "stop-two", "your-record"}


@pytest.mark.parametrize("key", LESSONS)
def test_every_cell_that_teaches_is_to_be_judged(key: str) -> None:
    """The last line of each cell is found again; left out is only what promises or pauses, and the customer's own words."""
    said = " ".join(
        re.sub(r"<[^>]+>", "", unescape(str(claim.says)))
        for section in lesson_sections(key)
        for claim in section.claims
    )
    last = [cell.source.strip().splitlines()[-1] for cell in cells_of(key) if cell.text and cell.id not in LEFT_OUT]
    lines = [line for line in last if not line.startswith(("#", "**TRAINING VEHICLE", "**The case"))]
    plain = [re.sub(r"^([-*+]|\d+\.)\s+|\*+|`", "", line).strip() for line in lines]
    assert [line for line in plain if line not in said] == []
    assert {"Recap", "Sources and cautions"} <= {section.title for section in lesson_sections(key)}


def test_a_line_of_working_is_judged_with_what_it_works_out() -> None:
    """A row that holds a bare sum asks nothing that a fitter could say yes or no to; no line of it is lost."""
    section = next(s for s in lesson_sections("star") if s.title == "Out of balance, counted in bolts")
    worked = [str(claim.says) for claim in section.claims if "Four bolts" in claim.says]
    assert worked == [
        "<strong>Worked.</strong> Four bolts; 1 at the top and 2 at the right are tight. "
        "Up: 1 + 0 = 1; Across: 0 + 1 = 1; Together: √(1² + 1²) = 1.41 bolts"
    ]


@pytest.mark.parametrize("name", [*LESSONS, RULES])
def test_every_claim_has_its_row(name: str) -> None:
    """Number, claim, source, yes, no, comment, initials; name, trade and date at the head, a signature at the end."""
    page = review_page(name)
    sections = rule_sections() if name == RULES else lesson_sections(name)
    claims = [claim for section in sections for claim in section.claims]
    rows = re.findall(r'<tr><td class="c">(\d+)</td><td>(.+?)</td><td>(.+?)</td>', page)
    assert [(str(n), str(c.says), c.source) for n, c in enumerate(claims, start=1)] == [
        (n, says, unescape(source)) for n, says, source in rows
    ]
    assert 2 * len(claims) == page.count('<span class="tick">')
    assert [text in page for text in ("Initials", "Signature", "Trade, and years in it", FRAME)] == [True] * 4
    assert "No practising fitter has reviewed it yet." in page


def test_a_source_is_one_of_the_courses_or_said_to_be_none() -> None:
    """A claim whose exercise rests on a manual names it; nothing is invented, and some rest on nothing outside."""
    own = {"As in the lesson above", "Named in the row"}
    titles = {source.title for source in SOURCES.values()}
    found = {c.source for key in LESSONS for s in lesson_sections(key) for c in s.claims} - own
    assert [source for source in found if not all(one in titles for one in _parts(source, titles))] == []
    assert NO_SOURCE in found
    assert any("US Army" in source for source in found)


def _parts(source: str, titles: set[str]) -> list[str]:
    """The titles that a source names; a title may hold a semicolon itself."""
    parts, rest = [], source
    while rest:
        known = max((title for title in titles if rest.startswith(title)), key=len, default=rest)
        parts.append(known)
        rest = rest[len(known) :].removeprefix("; ")
    return parts


def test_the_rules_of_the_data_are_all_to_be_judged() -> None:
    """Dangers, decisions by eye and by figure, order of work."""
    counts = [len(section.claims) for section in rule_sections()]
    expected = [len(hazards()), len(criteria().seen), len(criteria().measured)]
    assert expected == counts[:3]
    assert [len(job().rules), len(job().never)] == counts[-2:]


def test_the_pages_are_written_one_file_a_lesson(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """And one for the rules."""
    assert main(["sheets", "--review", "--out", str(tmp_path / "out")]) == 0
    made = [Path(p).name for p in capsys.readouterr().out.split()]
    assert [*(f"review-{one.notebook[:2]}.html" for one in LESSONS.values()), "review-rules.html"] == made


@pytest.mark.parametrize("document", ["README.md", "docs/safety.md"])
def test_the_documents_say_that_no_practising_fitter_has_reviewed_the_course(document: str) -> None:
    """Until one has: then this test, the pages and the documents change together."""
    text = (Path(__file__).parents[2] / document).read_text(encoding="utf-8")
    assert "No practising fitter has reviewed" in " ".join(text.split())
