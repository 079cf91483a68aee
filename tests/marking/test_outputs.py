"""The results folder: the old set or the new one, whole, whatever stops a marking; nobody's own file is touched."""

import csv
import json
import os
import re
import subprocess
import sys
from collections.abc import Callable
from datetime import datetime
from hashlib import sha256
from pathlib import Path
from threading import get_ident
from time import sleep
from typing import Any

import pytest
from filelock import FileLock

from bitepoint.cli import main
from bitepoint.errors import BadInput
from bitepoint.marking import mark_hand_ins
from bitepoint.marking.exporting.exports import export
from bitepoint.marking.outputs import new_set
from bitepoint.marking.outputs.manifest import broken, read_manifest
from bitepoint.marking.outputs.results import whole_set
from bitepoint.marking.registry.register import Entry, Register
from bitepoint.marking.rehearsal.rehearse import rehearse

FIXED = ["learners.csv", "marks.csv", "marks.jsonl", "progress.html", "recall.csv", "report.html", "term.jsonl"]
Content = dict[str, bytes]
MARKED = datetime.fromisoformat("2026-06-30T15:00+02:00")


@pytest.fixture(scope="module")
def classes(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return a folder with two classes of one lesson: `old` of two learners, `new` of three."""
    folder = tmp_path_factory.mktemp("classes")
    rehearse(folder / "old", learners=2, seed=1, lessons=["start"])
    rehearse(folder / "new", learners=3, seed=2, lessons=["start"])
    return folder


@pytest.fixture
def out(tmp_path: Path, classes: Path) -> Path:
    """Return a results folder with the marks of the class `old`."""
    mark(classes, "old", tmp_path / "out")
    return tmp_path / "out"


def mark(classes: Path, which: str, out: Path, **more: Any) -> list[str]:
    """Mark one of the classes and return what was told besides."""
    told: list[str] = []
    place = classes / which
    mark_hand_ins([place / "hand-ins"], roster=place / "roster.csv", out=out, tell=told.append, marked=MARKED, **more)
    return told


def content(folder: Path, *, former: bool = False) -> Content:
    """Return every file of a results folder but the lock, without the former set unless it is asked for.

    Who moved since the marking before depends on that one, so it is left out of the report and of its line in the manifest.
    """
    paths = [p for p in sorted(folder.rglob("*")) if p.is_file() and p.name != ".lock"]
    found = {p.relative_to(folder).as_posix(): _without_moved(p) for p in paths}
    return {name: b for name, b in found.items() if former or not name.startswith("former/")}


def _without_moved(path: Path) -> bytes:
    data = path.read_bytes()
    if path.name == "report.html":
        return re.sub(rb'<h2 id="moved">.*?</table></div>\n', b"", data, flags=re.DOTALL)
    if path.name == "manifest.json":
        return re.sub(rb'\{[^{}]*"report\.html"[^{}]*\}', b"{}", data)
    return data


def rows(path: Path) -> list[dict[str, str]]:
    """Return a table."""
    with path.open(encoding="utf-8-sig", newline="") as file:
        return list(csv.DictReader(file))


def refuse(monkeypatch: pytest.MonkeyPatch, name: str, *, only_target: bool = False) -> None:
    """Let no file of this name be moved, as where another program has it open; or only none be put there."""
    replace = os.replace

    def refusing(source: Path, target: Path) -> None:
        held = Path(source).name == name and not only_target or Path(target) == Path(target).parent / name
        if held and not (only_target and ".new" in Path(target).parts):
            raise PermissionError(13, "Permission denied", str(target))
        replace(source, target)

    monkeypatch.setattr(os, "replace", refusing)


def test_the_manifest_says_what_the_set_is_and_what_it_was_made_from(out: Path, classes: Path) -> None:
    """Each file with size and hash, each hand-in, roster, class file and register; the same at every marking."""
    place, book = classes / "old", Register(out.parent / "register")
    entry = book.add(Entry(kind="verification", by="A", text="looked", action="none"))
    (out.parent / "class.toml").write_text("pass_share = 0.5\n", "utf-8")
    made = {"register": book.folder, "class_file": out.parent / "class.toml"}
    mark(classes, "old", out, **made)
    first = (out / "manifest.json").read_bytes()
    mark(classes, "old", out, **made)
    found = json.loads(first)

    assert first == (out / "manifest.json").read_bytes()
    folders = ("learners", "assessor", "evidence")
    pages = [f"{folder}/{row['learner']}.html" for row in rows(out / "learners.csv") for folder in folders]
    assert sorted([*FIXED, *pages]) == [f["name"] for f in found["files"]]
    for file in found["files"]:
        data = (out / file["name"]).read_bytes()
        assert (len(data), sha256(data).hexdigest()) == (file["size"], file["sha256"])
    zips = sorted((place / "hand-ins").iterdir())
    assert [(z.name, sha256(z.read_bytes()).hexdigest()) for z in zips] == [
        (i["name"], i["sha256"]) for i in found["inputs"]
    ]
    assert sha256((place / "roster.csv").read_bytes()).hexdigest() == found["roster"]
    assert sha256(b"pass_share = 0.5\n").hexdigest() == found["class_file"]
    assert {f"register.{entry.device}.jsonl": entry.hash} == found["register"]
    assert found["bitepoint"]
    assert found["bank"]


def test_the_former_set_is_kept_once_and_learners_who_are_gone_go_with_it(out: Path, classes: Path) -> None:
    """Marks of another class, twice: their pages alone in the folder, the set before in former/."""
    old = content(out)
    assert [] == mark(classes, "new", out)
    new = content(out)

    assert old == content(out / "former")
    assert {f"{row['learner']}.html" for row in rows(out / "learners.csv")} == {
        p.name for p in (out / "learners").iterdir()
    }
    assert len(list((out / "learners").iterdir())) == 3
    mark(classes, "old", out)
    assert (old, new) == (content(out), content(out / "former"))
    assert {"former", "learners", "assessor", "evidence", "manifest.json", ".lock", *FIXED} == {
        p.name for p in out.iterdir()
    }


@pytest.mark.parametrize("where", ["notes.txt", "learners/L01 talk.odt", "learners.bak/a.csv"])
def test_an_assessors_own_file_is_never_touched(out: Path, classes: Path, where: str) -> None:
    """Anywhere in the folder, over three markings."""
    (out / where).parent.mkdir(exist_ok=True)
    (out / where).write_text("mine", "utf-8")
    for which in ("new", "old", "new"):
        mark(classes, which, out)

        assert "mine" == (out / where).read_text("utf-8")
        assert where not in content(out / "former")


@pytest.mark.parametrize("where", ["report.html", "learners", "former/marks.csv", "former/own.txt", "learners/{page}"])
def test_an_own_file_where_one_is_to_be_written_stops_marking(
    out: Path, classes: Path, where: str, capsys: pytest.CaptureFixture[str]
) -> None:
    """One line, exit status 2, nothing lost; once it is moved away, marking goes on."""
    ids = [p.name.partition("-2026")[0] for p in sorted((classes / "new" / "hand-ins").iterdir())]
    known = {p.stem for p in (out / "learners").iterdir()}
    own = out / where.format(page=f"{next(i for i in ids if i not in known)}.html")
    if where == "report.html":
        manifest = json.loads((out / "manifest.json").read_text("utf-8"))
        manifest["files"] = [f for f in manifest["files"] if f["name"] != where]
        (out / "manifest.json").write_text(json.dumps(manifest), "utf-8")
    if where == "learners":
        own.rename(out / "pages")
    own.parent.mkdir(exist_ok=True)
    own.write_text("mine", "utf-8")
    before = content(out, former=True)
    assert 2 == main(["mark", str(classes / "new"), "--out", str(out)])

    said = capsys.readouterr().err.strip().splitlines()
    assert own.relative_to(out).as_posix() in said[-1]
    assert "is not of a marking" in said[-1]
    assert before == {k: v for k, v in content(out, former=True).items() if not k.startswith(".new/")}
    own.rename(out.parent / "away")
    assert main(["mark", str(classes / "new"), "--out", str(out)]) in (0, 1)
    assert [] == broken(manifest_of(out), out)
    assert 3 == len(rows(out / "learners.csv"))


def manifest_of(folder: Path) -> Any:
    """Return the manifest of a folder that has one."""
    found = read_manifest(folder / "manifest.json")
    assert found is not None
    return found


@pytest.mark.parametrize(
    "text", ['{"short_name": "x"}', "[]", "{", '{"what": "results of bitepoint mark", "files": [{"name": "../x"}]}']
)
def test_a_manifest_of_something_else_is_an_own_file(out: Path, classes: Path, text: str) -> None:
    """Nothing that it names is removed, least of all outside the folder."""
    (out / "manifest.json").write_text(text, "utf-8")
    before = content(out)
    with pytest.raises(BadInput, match=r"^out: manifest\.json is not of a marking"):
        mark(classes, "new", out)
    assert before == content(out)


def test_a_run_that_fails_leaves_the_old_set_whole(out: Path, classes: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Whatever fails while the new set is written: nothing of it stays."""
    before = content(out)

    def fail(*_: object, **__: object) -> str:
        raise RuntimeError("no report")

    monkeypatch.setattr("bitepoint.marking.writing.report_page", fail)
    with pytest.raises(RuntimeError):
        mark(classes, "new", out)
    assert before == content(out)


@pytest.mark.parametrize("only_target", [False, True])
def test_marks_that_cannot_be_replaced_are_told_and_nothing_is_mixed(
    out: Path, classes: Path, monkeypatch: pytest.MonkeyPatch, only_target: bool
) -> None:
    """The old set stands; the new one waits aside, and the next start moves it in before it marks."""
    before = content(out)
    with monkeypatch.context() as held:
        refuse(held, "marks.csv", only_target=only_target)
        for _ in range(2):
            with pytest.raises(BadInput, match=r"^out: marks\.csv cannot be replaced \(Permission denied\)\. Close it"):
                mark(classes, "new", out)
            assert before == {k: v for k, v in content(out).items() if not k.startswith(".new/")}
            assert out == whole_set(out)
    assert ["out: the results of a marking that was stopped are moved in first."] == mark(classes, "old", out)
    assert before == content(out)
    assert 3 == len(rows(out / "former" / "learners.csv"))


def test_a_move_stopped_halfway_and_held_says_so(out: Path, classes: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """No manifest lies in the folder then; the old set is whole aside, and once nothing is held it is completed."""
    before = content(out)
    replace = os.replace

    def stopped(source: Path, target: Path) -> None:
        if Path(target) == out / "report.html":
            raise KeyboardInterrupt
        replace(source, target)

    with monkeypatch.context() as stop:
        stop.setattr(os, "replace", stopped)
        with pytest.raises(KeyboardInterrupt):
            mark(classes, "new", out)
    with monkeypatch.context() as held:
        refuse(held, "report.html")
        with pytest.raises(
            BadInput, match=r"report\.html cannot be replaced .* until then the new results lie there only"
        ):
            mark(classes, "old", out)
    assert not (out / "manifest.json").exists()
    assert out / ".old" == whole_set(out)
    mark(classes, "old", out)
    assert before == content(out)
    assert 3 == len(rows(out / "former" / "learners.csv"))


def test_a_table_changed_by_hand_is_told_and_kept_once(out: Path, classes: Path) -> None:
    """Saved again by a spreadsheet: marking replaces it, says so, and keeps it with the former set."""
    (out / "marks.csv").write_text("learner;mark\n", "utf-8")
    assert [
        "out: marks.csv was changed since it was marked; as changed it is kept in former/, until the next marking."
    ] == mark(classes, "new", out)
    assert "learner;mark\n" == (out / "former" / "marks.csv").read_text("utf-8")


def test_two_markings_into_one_folder(out: Path, classes: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """The second is told, and changes nothing."""
    before = content(out)
    with FileLock(out / ".lock"):
        assert 2 == main(["mark", str(classes / "new"), "--out", str(out)])
        assert "another marking is writing into this folder" in capsys.readouterr().err
    assert before == content(out)


def test_a_deleted_learner_does_not_survive_in_the_former_set(out: Path, classes: Path) -> None:
    """The set that still held the learner is not kept, nor the one before it; later ones are."""
    mark(classes, "old", out)
    gone = rows(out / "learners.csv")[0]["learner"]
    book = Register(out.parent / "register")
    book.add(Entry(kind="deletion", learner=gone, by="A", text="on request"))
    told = mark(classes, "old", out, register=book.folder)

    assert ["out: the former results hold a learner who was deleted on request, so they are not kept."] == told
    assert not (out / "former").exists()
    for path in (out / "marks.csv", out / "learners.csv", out / "manifest.json"):
        assert gone not in path.read_text("utf-8").replace(f"{gone}-2026", "")
    clean = content(out)
    assert [] == mark(classes, "old", out, register=book.folder)
    assert clean == content(out / "former")


def test_a_set_that_waited_with_a_deleted_learner_goes_too(
    out: Path, classes: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """It is moved in, marked anew without the learner, and not kept."""
    gone = rows(out / "learners.csv")[0]["learner"]
    with monkeypatch.context() as held:
        refuse(held, "marks.csv")
        with pytest.raises(BadInput):
            mark(classes, "old", out)
    book = Register(out.parent / "register")
    book.add(Entry(kind="deletion", learner=gone, by="A", text="on request"))
    mark(classes, "old", out, register=book.folder)

    assert [] == [p for p in out.rglob("*.html") if p.stem == gone]
    assert not (out / "former").exists()


KILLED = """
import json, os, shutil, signal, sys
from datetime import datetime
from pathlib import Path
from bitepoint.marking import mark_hand_ins

base, place, work, room = (*map(Path, sys.argv[1:4]), int(sys.argv[4]))
at = datetime.fromisoformat("2026-06-30T15:00+02:00")
WATCHED = {"open", "os.rename", "os.remove", "os.mkdir", "os.rmdir"}

def marked(out, limit, stop):
    seen = 0
    def hook(event, arguments):
        nonlocal seen
        if event in WATCHED and any(str(out) in str(a) for a in arguments):
            seen += 1
            if seen == stop:
                os.kill(os.getpid(), signal.SIGKILL)
    sys.addaudithook(hook)
    if limit:
        import resource
        resource.setrlimit(resource.RLIMIT_FSIZE, (limit, limit))
    mark_hand_ins([place / "hand-ins"], roster=place / "roster.csv", out=out, marked=at)
    return seen

def child(n, stop, counted=None):
    out = work / f"out-{n}"
    shutil.copytree(base, out) if base.name != "none" else None
    pid = os.fork()
    if pid == 0:
        try:
            seen = marked(out, 0, stop)
            if counted:
                counted.write_text(str(seen))
        finally:
            os._exit(0)
    return os.WTERMSIG(os.waitpid(pid, 0)[1])

mark_hand_ins([place / "hand-ins"], marked=at, out=work / "first")  # so that no child has to read the bank
child("all", 0, work / "count")
count = int((work / "count").read_text())
points = range(1, count + 1) if not room else [1 + (count - 1) * i // (room - 1) for i in range(room)]
print(json.dumps([count, [[n, child(n, n)] for n in points]]))
"""


def killed(base: Path, place: Path, work: Path, room: int = 0) -> list[Path]:
    """Mark a class into copies of a results folder, killed before its first, second … file operation there."""
    work.mkdir()
    arguments = [str(base), str(place), str(work), str(room)]
    run = subprocess.run([sys.executable, "-c", KILLED, *arguments], capture_output=True, text=True, check=True)
    count, points = json.loads(run.stdout)
    assert count > 40
    assert {9} == {signal for _, signal in points}
    return [work / f"out-{n}" for n, _ in points]


@pytest.mark.skipif(not hasattr(os, "fork"), reason="needs fork")
def test_killed_anywhere_one_set_is_whole_and_its_manifest_says_which(out: Path, classes: Path, tmp_path: Path) -> None:
    """The next start completes what was begun, or leaves the old set; another marking then goes through."""
    mark(classes, "new", out)
    mark(classes, "old", out)
    old, older = content(out), content(out / "former")
    places = killed(out, classes / "new", tmp_path / "killed")
    new = content(tmp_path / "killed" / "out-all")
    assert old != new
    came: list[str] = []
    where: set[str] = set()
    for place in places:
        folder = whole_set(place)
        assert folder is not None
        where.add(folder.relative_to(place).as_posix())
        assert [] == broken(manifest_of(folder), folder)
        assert manifest_of(folder) in (manifest_of(out), manifest_of(tmp_path / "killed" / "out-all"))
        whole = {f.name: _without_moved(folder / f.name) for f in manifest_of(folder).files}
        assert whole in ({k: v for k, v in x.items() if k != "manifest.json"} for x in (old, new))

        with pytest.raises(BadInput, match="holds no hand-in"):
            mark_hand_ins([empty(tmp_path)], out=place)
        assert (content(place), content(place / "former")) in ((old, older), (new, old))
        came.append("old" if content(place) == old else "new")
    assert sorted(came, reverse=True) == came
    assert {"old", "new"} == set(came)
    assert {".", ".new", ".old"} == where
    assert came.count("new") > 20


def empty(folder: Path) -> Path:
    """Return a folder without hand-ins."""
    (folder / "empty").mkdir(exist_ok=True)
    return folder / "empty"


@pytest.mark.skipif(not hasattr(os, "fork"), reason="needs fork")
def test_the_first_marking_killed_anywhere(classes: Path, tmp_path: Path) -> None:
    """Nothing or the new set: what lies there is no hindrance to the next."""
    for place in killed(tmp_path / "none", classes / "new", tmp_path / "killed", room=10):
        whole_set(place)
        assert main(["mark", str(classes / "new"), "--out", str(place)]) in (0, 1)
        assert [] == broken(manifest_of(place), place)


def test_a_full_disk_leaves_the_old_set_whole(out: Path, classes: Path) -> None:
    """At every size at which it may fill up: one line, status 2, and nothing of the new set lies about."""
    before = content(out)
    mark(classes, "new", out.parent / "enough")
    largest = max(len(data) for data in content(out.parent / "enough").values())
    code = (
        "import resource, sys; from bitepoint.cli import main; room = int(sys.argv[1]);"
        "resource.setrlimit(resource.RLIMIT_FSIZE, (room, room)); sys.exit(main(sys.argv[2:]))"
    )
    for room in (0, 300, largest // 2, largest - 1):
        arguments = [str(room), "mark", str(classes / "new"), "--out", str(out)]
        run = subprocess.run([sys.executable, "-c", code, *arguments], capture_output=True, text=True, check=False)

        assert 2 == run.returncode
        assert run.stderr == (
            "bitepoint: out: the marks cannot be written (File too large). Make room, or name another folder for "
            "them. The results that were there are untouched.\n"
        )
        assert before == content(out)


def test_results_without_a_manifest_are_not_marked_over(
    out: Path, classes: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Copied by hand, say: another folder is asked for."""
    (out / "manifest.json").unlink()
    before = content(out)
    assert 2 == main(["mark", str(classes / "new"), "--out", str(out)])
    assert "has other files in it (former" not in capsys.readouterr().err
    assert before == content(out)


@pytest.mark.parametrize("form", ["xapi", "oneroster", "csv"])
def test_an_export_that_fails_leaves_the_former_one(
    out: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, form: str
) -> None:
    """A full disk or a table that is open: every file as it was, none half written."""
    place = tmp_path / "exported"
    names = [p.name for p in export(out, place, form=form)]
    for name in names:
        (place / name).write_text("former", "utf-8")

    def full(_: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(BadInput, match="No space left on device"):
        export(out, place, form=form)
    assert dict.fromkeys(names, b"former") == {p.name: p.read_bytes() for p in place.iterdir()}


def test_an_export_takes_whole_results_only(
    out: Path, classes: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A table changed since, a file that is gone, no manifest: told, nothing written."""
    spoilt: dict[str, Callable[[], object]] = {
        r"marks\.csv is not as it was marked": lambda: (out / "marks.csv").write_text("learner\n", "utf-8"),
        r"learners\.csv is not as it was marked": lambda: (out / "learners.csv").unlink(),
        "holds no results that can be read": lambda: (out / "manifest.json").unlink(),
    }
    for says, spoil in spoilt.items():
        spoil()
        with pytest.raises(BadInput, match=says):
            export(out, tmp_path / "exported", form="csv")
        if "marks" in says and "learners" not in says:
            mark(classes, "old", out)
    assert not (tmp_path / "exported").exists()


def test_the_pdfs_belong_to_the_set(out: Path, classes: Path, tmp_path: Path) -> None:
    """Printed aside with the pages, named in the manifest, and gone with the next set that has none."""
    browser = printer(tmp_path, "printf '%%PDF-1.7 x %%%%EOF' > \"$target\"")
    mark(classes, "old", out, browser=browser)
    pages = [f.name for f in manifest_of(out).files if f.name.endswith(".html")]

    assert sorted(p.replace(".html", ".pdf") for p in pages) == [
        f.name for f in manifest_of(out).files if f.name.endswith(".pdf")
    ]
    assert [] == broken(manifest_of(out), out)
    mark(classes, "old", out)
    assert [] == [p for p in content(out) if p.endswith(".pdf")]


def test_a_pdf_that_cannot_be_made_costs_no_marks(out: Path, classes: Path, tmp_path: Path) -> None:
    """The set comes without PDFs, and a person is told."""
    browser = printer(tmp_path, "exit 1")
    place = classes / "new"
    outcome = mark_hand_ins([place / "hand-ins"], roster=place / "roster.csv", out=out, browser=browser)

    assert ["report.html: the browser made no PDF. Open the page in a browser and print it to PDF."] == outcome.problems
    assert [] == [p for p in content(out) if "pdf" in p]
    assert 3 == len(rows(out / "learners.csv"))


def printer(folder: Path, does: str) -> str:
    """Return a program that is called as a browser that prints is, and does one thing with its target."""
    path = folder / "printer"
    take = 'for a in "$@"; do case "$a" in --print-to-pdf=*) target="${a#--print-to-pdf=}";; esac; done'
    path.write_text(f"#!/bin/sh\n{take}\n{does}\n", "utf-8")
    path.chmod(0o755)
    return str(path)


@pytest.mark.parametrize("quick", [True, False])
def test_each_file_is_had_on_the_disk_once(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, quick: bool) -> None:
    """A disk that answers at once is asked for one after the other; of one that takes its time several are asked together."""
    synced: list[tuple[int, int]] = []

    def one(descriptor: int) -> None:
        sleep(0.002)
        synced.append((os.fstat(descriptor).st_ino, get_ident()))

    monkeypatch.setattr(new_set, "sync_file", one)
    monkeypatch.setattr(new_set, "_AT_ONCE_S", 60.0 if quick else 0.0)
    paths = [tmp_path / f"page-{number}.html" for number in range(40)]
    for path in paths:
        path.write_text("a", encoding="utf-8")
    new_set._sync_all([*map(str, paths), str(tmp_path / "gone.html")])
    assert sorted(path.stat().st_ino for path in paths) == sorted(inode for inode, _ in synced)
    threads = {thread for _, thread in synced}
    assert threads == {get_ident()} if quick else len(threads) > 1
