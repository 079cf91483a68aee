"""What a job prints: every page from one record, with the job's frame, nothing personal once erased, nothing signed by typing."""

import re
from base64 import b64encode
from datetime import date

import pytest
from msgspec import to_builtins
from msgspec.structs import replace

from bitepoint.classroom.job_cards.pages import JOB_FRAME
from bitepoint.classroom.render import _in_style
from bitepoint.errors import BadInput
from bitepoint.job import events
from bitepoint.job.erasing import erase
from bitepoint.job.findings import decide, fit_part, measure
from bitepoint.job.job_file import JobFile
from bitepoint.job.lines import SAID, page_lines
from bitepoint.job.opening import NewJob, open_for_training
from bitepoint.job.pages import pages_of, write_pages
from bitepoint.job.photos import add_photo
from bitepoint.job.reading import read_job
from bitepoint.job.recording import deviation, note, second_check
from bitepoint.job.stages import begin_stage, cautions_read
from bitepoint.job.telling import status
from bitepoint.job.tightening import tighten

from .job_rooms import DAY, PERSONAL, WRENCH, new_job, png

NAMES = {
    *("risk", "order-of-work", "final-check", "inspection", "tightening", "wrench-settings", "figures"),
    *("record", "customer", "manifest"),
}


@pytest.fixture
def folder(tmp_path):
    """A job with an entry of most kinds."""
    job = new_job(tmp_path, personal=PERSONAL)
    begin_stage(job, "diagnose")
    cautions_read(job, "diagnose")
    measure(job, "flywheel-runout", 0.06, instrument="dial gauge", uncertainty=0.006)
    measure(job, "plate-runout", 0.4, instrument="dial gauge")
    decide(job, "flywheel", "reuse", because="run-out and face within the sheet")
    fit_part(job, "driven plate", "TK-K7V-1", lot="L 26-114")
    tighten(job, "clutch.cover", WRENCH, setting_nm=22, second_round="same torque, none moved", on=DAY)
    deviation(job, "sealant of another make", why="the sheet's is not made any more", agreed_by="S. Visor")
    second_check(job, "marks on every cover bolt", checked_by="S. Visor")
    note(job, "<b>bold</b> & so on")
    (tmp_path / "p.png").write_bytes(png())
    add_photo(job, tmp_path / "p.png", shows="the old plate, worn to the rivets")
    return job


def test_every_kind_of_event_has_its_words():
    """A new kind of event without a row on paper fails here."""
    assert set(SAID) == set(events.AnyEvent.__args__)


def test_every_page_is_made_from_one_record(folder):
    """Cards, record, customer's page, photos, manifest: each with the job's frame, and none with that of the course."""
    pages = pages_of(read_job(folder), on=DAY)
    assert set(pages) == {*NAMES, "photos"}
    for page in pages.values():
        assert JOB_FRAME.replace("'", "&#39;") in page
        assert "NEVER USE ON A CAR" not in page
        assert "competent" not in page.casefold()
    assert list(pages)[-1] == "manifest"


def test_the_record_shows_each_entry_once_with_its_figures(folder):
    """As many rows as entries; a measurement with instrument, uncertainty, limit, decision; typed text is escaped."""
    job = read_job(folder)
    page = pages_of(job, on=DAY)["record"]
    assert len(page_lines(job.entries)) == len(job.entries)
    assert page.count('<tr><td class="c">') == len(job.entries)
    assert "0.06 mm ± 0.006 (standard uncertainty), with dial gauge" in page
    assert "Limit on the sheet: at most 0.1 mm" in page
    assert "Decision: reuse" in page
    assert "look it up" in page
    assert "&lt;b&gt;bold&lt;/b&gt; &amp; so on" in page
    assert job.check_code in page
    assert "practical observation still required" in page


def test_the_customers_page_has_no_workshop_figures(folder):
    """What was told, found, fitted, and what to mind; the customer's name while it is there."""
    page = pages_of(read_job(folder), on=DAY)["customer"]
    assert "It slips uphill in fourth" in page
    assert "TK-K7V-1" in page
    assert PERSONAL["customer"] in page
    assert "Calibrated" not in page


def test_after_erasing_nothing_personal_stands_on_any_page(folder):
    """Every page prints without it, and the photos are gone."""
    erase(folder)
    pages = pages_of(read_job(folder), on=DAY)
    assert "photos" not in pages
    assert "erased" in pages["record"]
    for page in pages.values():
        assert not [value for value in PERSONAL.values() if value in page]


def test_the_manifest_names_every_other_page_by_its_digest(folder):
    """The digests are those of the files that are written; a second writing changes none of them."""
    from hashlib import sha256

    written = write_pages(read_job(folder), on=DAY)
    manifest = (folder / "print" / "manifest.html").read_text(encoding="utf-8")
    for path in written:
        if path.stem != "manifest":
            assert sha256(path.read_bytes()).hexdigest() in manifest
    before = {path.name: path.read_bytes() for path in written}
    assert {path.name: path.read_bytes() for path in write_pages(read_job(folder), on=DAY)} == before


def test_a_changed_flywheel_type_gets_its_label_and_no_other_job_does(folder, tmp_path):
    """Filled from the record; where the kind stayed there is no label."""
    assert "label" not in pages_of(read_job(folder), on=DAY)
    job = tmp_path / "c"
    open_for_training(job, "C", NewJob(by="T. P", complaint="rattle", mileage_km=88_000))
    fit_part(job, "rigid flywheel", "SK-3240-R")
    label = pages_of(read_job(job), on=DAY)["label"]
    assert "was dual-mass, is rigid" in label
    # Two beside each other, or the rule that shows the size falls on a page of its own.
    assert "grid-template-columns: 90mm 90mm" in label
    assert "88,000 km" in label
    assert "TRAINING VEHICLE · INVENTED FIGURES · NEVER USE ON A CAR" in label


def test_a_page_fetches_nothing_and_runs_nothing(folder):
    """No script, no address: what is printed is what is there."""
    for page in pages_of(read_job(folder), on=date(2026, 11, 29)).values():
        assert "<script" not in page
        assert not re.search(r"(src|href)=\"(?!data:)", page)


def test_the_frame_at_the_foot_of_a_printed_page_is_written_as_a_style_sheet_reads_it(folder):
    """Between the quotes of a style sheet an entity would be printed as its letters: `VEHICLE&#39;S`."""
    for page in pages_of(read_job(folder), on=DAY).values():
        style = page[page.index("<style>") : page.index("</style>")]
        assert "&#" not in style
        assert "VEHICLE'S REPAIR DATA" in style


def test_a_name_cannot_leave_the_quotes_of_a_style_sheet():
    """Quotes, backslashes and a closing tag are written as code points."""
    made = _in_style('a"; } </style>\\')
    assert made == r"a\22 ; } \3c /style>\5c "


def test_a_photo_that_is_not_printed_is_named(folder, monkeypatch):
    """What is too large for the page, or gone, is a line with its file, not a photo that nobody misses."""
    monkeypatch.setattr("bitepoint.job.pages.pages._MOST_PHOTO", 10)
    page = pages_of(read_job(folder), on=DAY)["photos"]
    assert "the old plate, worn to the rivets: photos/photo-" in page
    assert "is not printed here" in page


def test_the_customer_reads_the_last_decision_about_a_part(folder):
    """A decision that was changed stands in the record twice and on the customer's page once."""
    decide(folder, "Flywheel", "replace", because="crack at hole 3")
    pages = pages_of(read_job(folder), on=DAY)
    assert "run-out and face within the sheet" in pages["record"]
    assert "run-out and face within the sheet" not in pages["customer"]
    assert "crack at hole 3" in pages["customer"]


def test_who_signs_is_not_alone_on_a_page(folder):
    """The lines to sign hold together with what is signed, a photo with what it shows."""
    page = pages_of(read_job(folder), on=DAY)["record"]
    assert '<div class="keep"><p>Check code' in page


def test_figures_that_no_document_has_are_called_worked_out(folder):
    """Beside the sheet's own figures stand some that follow from them; the page says which."""
    page = pages_of(read_job(folder), on=DAY)["figures"]
    assert "Force of the foot, worked out" in page
    assert "nothing is set by it" in page


@pytest.mark.parametrize(
    "file", ["../../secret.png", "/etc/hostname", "..", "", "a\0b", "C:\\x.png", "sub/x.png", "9" * 5000]
)
def test_a_forged_record_shows_no_file_of_another_place(folder, tmp_path, file):
    """The line is told, and no page holds what lies outside the job's own folder of photos and logs."""
    (tmp_path / "secret.png").write_bytes(png() + b"secret")
    (folder / "sub").mkdir()
    JobFile(folder).add(events.Photo(file=file, salted_sha256="00", shows="somebody's secret"))
    JobFile(folder).add(events.RoadTest(name="a", log_sha256="0", words=(), result="{}", log=file, map=file))
    now = read_job(folder)

    assert any("is no name of a photo" in problem for problem in now.problems)
    assert all(problem.isprintable() for problem in now.problems)
    pages = pages_of(now, on=DAY)
    assert b64encode(png())[:60].decode() not in pages["record"]
    assert pages["photos"].count("data:image/png") == 1


@pytest.mark.parametrize("at", ["", "yesterday", "2026-02-30T08:00:00Z", "2026-11-29T8"])
def test_a_forged_line_without_a_time_is_told_and_not_used(folder, at):
    """Pages print the day of the last entry: a line that says none is no entry, and the job is shown without it."""
    book, before = JobFile(folder), read_job(folder)
    book.append({"at": at, "event": to_builtins(events.JobNote(text="forged"))})
    now = read_job(folder)

    assert before.entries == now.entries
    assert f"job.jsonl: Line {len(before.entries) + 1}: says no time that can be read." in now.problems
    assert pages_of(now)


def test_a_sheets_name_in_a_forged_record_is_shown_on_one_line(tmp_path):
    """Whatever a record says of sheet and people, where the job stands is told in lines that a terminal can show."""
    job = new_job(tmp_path)
    opened = replace(read_job(job).opened, sheet="a\u202e\x1b[2J\n.toml", checked_by="\ufeff")
    (job / "job.jsonl").unlink()
    JobFile(job).add(opened)
    assert all(line.isprintable() for line in status(read_job(job)))


def test_what_a_record_calls_a_personal_field_is_shown_on_one_line(folder):
    """A forged line may call a field anything; what is told of it is what a terminal can show."""
    JobFile(folder).add(events.PersonalKept(hashes={"registra\u202e\ntion": "00"}))
    assert all(problem.isprintable() for problem in read_job(folder).problems)


@pytest.mark.parametrize("name", ["photos", "print"])
def test_nothing_is_deleted_or_written_through_a_link(folder, tmp_path, name):
    """A link in a job's folder leads to files that are not the job's; one line says so and they stay."""
    elsewhere = tmp_path / "elsewhere"
    elsewhere.mkdir()
    (elsewhere / "theirs.html").write_text("theirs")
    if (folder / name).exists():
        (folder / name).rename(tmp_path / "aside")
    (folder / name).symlink_to(elsewhere)
    with pytest.raises(BadInput, match="is a link to another place"):
        erase(folder)
    if name == "print":
        with pytest.raises(BadInput, match="is a link to another place"):
            write_pages(read_job(folder), on=DAY)
    assert [path.name for path in elsewhere.iterdir()] == ["theirs.html"]
    assert not any(isinstance(entry.event, events.PersonalErased) for entry in read_job(folder).entries)


def test_personal_data_are_erased_from_a_job_that_cannot_be_read(folder):
    """Neither a sheet that was changed nor a side file that is torn keeps somebody's name on the disk."""
    kept = (folder / "sheet.toml").read_bytes()
    (folder / "sheet.toml").write_bytes(kept + b"# changed")
    (folder / "personal.json").write_text('{"salt": "00", "fie')
    assert erase(folder)
    assert not (folder / "personal.json").exists()
    (folder / "sheet.toml").write_bytes(kept)
    now = read_job(folder)
    assert now.entries[-1].event.fields == tuple(sorted(PERSONAL))
    assert now.problems == ()
