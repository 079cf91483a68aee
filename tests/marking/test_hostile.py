"""Hostile text in answers, names, ids and the register: shown as text, worked out by no spreadsheet, loading nothing."""

import csv
import json
import re
import shutil
from pathlib import Path

import pytest
from test_flags import ONE, line
from test_report import CSP, Page

from bitepoint.errors import BadInput
from bitepoint.marking import mark_hand_ins
from bitepoint.marking.exporting.exports import export
from bitepoint.marking.pages import pdf
from bitepoint.marking.registry.register import Entry, Register

EVIL = "<script>alert(1)</script><img src=//x.example/y onerror=alert(2)>{{ 7*7 }}"
FORMULAS = ("=1+1", "+1+1", "-1+1", "@SUM(A1)", "\t=1", '=HYPERLINK("http://x.example")')


@pytest.fixture
def marks(tmp_path: Path) -> Path:
    """Return marks of hostile hand-ins with a register that repeats their words."""
    texts = [EVIL, *FORMULAS, "-3.2"]
    for n, text in enumerate(texts):
        lines = [
            line("start.choice", text, learner=text if n else ONE),
            line("start.number", text, facts=text, how=text, device=text),
            line("start.number", "-3.2 N·m", at=text, opened=text),
        ]
        (tmp_path / f"{n}.jsonl").write_text("\n".join(x.text for x in lines) + "\n", "ascii")
    book = Register(tmp_path / "register")
    for kind in ("appeal", "adjustment"):
        book.add(Entry(kind=kind, learner=ONE, by=EVIL, text=EVIL))
    book.add(Entry(kind="override", learner=ONE, exercise="start.choice", score=0.5, by="=1+1", text=EVIL))
    book.add(Entry(kind="observation", learner=ONE, criterion=EVIL, result="done right", by=EVIL, text=EVIL))
    book.add(Entry(kind="verification", by=EVIL, text=EVIL, action=EVIL))
    mark_hand_ins([tmp_path], out=tmp_path / "marks", register=tmp_path / "register")
    return tmp_path / "marks"


def test_pages_show_it_as_text_and_load_nothing(marks: Path) -> None:
    """No tag, no handler, no address of a learner's making; the policy stands on every page."""
    for path in (marks / "report.html", *marks.glob("*/*.html")):
        page = Page(path)

        assert [CSP] == [m["content"] for m in page.all("meta") if m.get("http-equiv") == "Content-Security-Policy"]
        assert set() == {t for t, _ in page.tags} & {"script", "img", "iframe", "object", "link", "form", "base", "svg"}
        assert [a for _, attributes in page.tags for a in attributes if a.startswith("on") or a == "src"] == []
        assert "onerror=alert(2)>49" not in page.text
        assert "url(" not in page.source
    own = Page(marks / "assessor" / f"{ONE}.html")
    assert own.text.count(EVIL) >= 6


def test_tables_hold_no_formula_and_a_number_stays_a_number(marks: Path, tmp_path: Path) -> None:
    """marks.csv, learners.csv and every export; −3.2 is never quoted."""
    export(marks, tmp_path / "plain", form="csv")
    export(marks, tmp_path / "gradebook", form="oneroster")
    tables = [*marks.glob("*.csv"), *(tmp_path / "plain").iterdir(), *(tmp_path / "gradebook").iterdir()]
    cells = []
    for path in tables:
        with open(path, encoding="utf-8-sig", newline="") as file:
            cells += [c for row in csv.reader(file) for c in row]

    assert len(tables) == 9
    assert [c for c in cells if c.strip().startswith(("=", "+", "-", "@")) and not re.fullmatch(r"-?[\d.]+", c)] == []
    assert "'-3.2" not in cells
    assert "'=1+1" in cells


def test_statements_carry_it_as_strings(marks: Path, tmp_path: Path) -> None:
    """Valid JSON with the answer as a string; times that are none are left out."""
    export(marks, tmp_path / "out", form="xapi")
    found = [json.loads(x) for x in (tmp_path / "out" / "statements.jsonl").read_text("utf-8").splitlines()]

    assert found
    assert all(re.match(r"\d{4}-", s.get("timestamp", "2026-")) for s in found)


def test_without_a_browser_one_line_says_what_to_do(monkeypatch: pytest.MonkeyPatch) -> None:
    """No traceback, no half-made file."""
    monkeypatch.setenv("BITEPOINT_CHROMIUM", "/no/such/browser")

    with pytest.raises(
        BadInput, match=r"^No Chromium was found on this computer, so no PDF was made\. Open report\.html"
    ):
        pdf.find_browser()


def test_a_browser_that_fails_is_one_line(tmp_path: Path) -> None:
    """It ran and made nothing."""
    page = tmp_path / "report.html"
    page.write_text("<p>x</p>", "utf-8")

    with pytest.raises(BadInput, match=r"^report\.html: the browser made no PDF\."):
        pdf.print_pdf(page, shutil.which("true") or "true")


@pytest.mark.browser
def test_a_page_becomes_a_pdf(marks: Path) -> None:
    """The report prints to a PDF with pages."""
    try:
        browser = pdf.find_browser()
    except BadInput:
        pytest.skip("no Chromium on this machine")
    made = pdf.print_pdf(marks / "report.html", browser)

    assert made.read_bytes().startswith(b"%PDF-")
    assert made.stat().st_size > 10_000


@pytest.mark.parametrize("does", ["exit 1", 'printf "%%PDF-1.7 half" > "$target"', 'rm -f "$target"'])
def test_a_browser_that_fails_leaves_the_former_pdf(tmp_path: Path, does: str) -> None:
    """It made nothing, or stopped in the middle: the PDF that was there stays, and nothing lies beside it."""
    page = tmp_path / "report.html"
    page.write_text("<p>x</p>", "utf-8")
    (tmp_path / "report.pdf").write_bytes(b"%PDF-former")
    browser = tmp_path / "browser"
    take = 'for a in "$@"; do case "$a" in --print-to-pdf=*) target="${a#--print-to-pdf=}";; esac; done'
    browser.write_text(f"#!/bin/sh\n{take}\n{does}\n", "utf-8")
    browser.chmod(0o755)

    with pytest.raises(BadInput, match=r"^report\.html: the browser made no PDF\."):
        pdf.print_pdf(page, str(browser))
    assert b"%PDF-former" == (tmp_path / "report.pdf").read_bytes()
    assert {"browser", "report.html", "report.pdf"} == {p.name for p in tmp_path.iterdir()}
