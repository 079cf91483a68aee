"""What learners may send: damaged, swollen, hostile. Each costs itself and one clear line, never the class."""

import io
import json
import os
import struct
import tracemalloc
import zipfile
import zlib
from pathlib import Path
from typing import Any

import pytest

from bitepoint.bank import exercises
from bitepoint.errors import BadInput
from bitepoint.logbook.record import write_line
from bitepoint.marking import mark_hand_ins
from bitepoint.marking.reading.gather import HandIn
from bitepoint.marking.reading.handins import find_sources, read_source
from bitepoint.marking.reading.notebooks import MIME


def fields(**changes: Any) -> dict[str, Any]:
    """Return the fields of a right answer to the first exercise of the bank."""
    learner, class_word = changes.get("learner", "L01-X"), changes.get("class", "oak-2026")
    exercise = next(iter(exercises().values()))
    question = exercise.draw(class_word=class_word, learner=learner)
    right = {
        "at": "2026-04-14T08:00:00.000Z",
        "learner": learner,
        "class": class_word,
        "device": "0a1b2c3d",
        "exercise": exercise.id,
        "revision": exercise.revision,
        "turn": 1,
        "facts": question.facts_digest(),
        "how": "typed",
        "answer": question.right_answer(),
        "score": 1.0,
        "mistake": None,
        "opened": "2026-04-14T07:59:00.000Z",
        "solution_shown": False,
    }
    return {**right, **changes}


def chain(*all_fields: dict[str, Any]) -> list[str]:
    """Return chained lines."""
    lines: list[str] = []
    for n, each in enumerate(all_fields, start=1):
        prev = json.loads(lines[-1])["hash"] if lines else ""
        lines.append(write_line(each, n=n, prev=prev))
    return lines


def logbook(*all_fields: dict[str, Any]) -> bytes:
    """Return a logbook file; without fields one right answer."""
    return "".join(f"{line}\n" for line in chain(*(all_fields or (fields(),)))).encode("ascii")


def notebook(record: Any, **top: Any) -> bytes:
    """Return a notebook with one output that carries `record`."""
    output = {"output_type": "display_data", "metadata": {}, "data": {"image/png": "AAAA", MIME: record}}
    cells = [{"cell_type": "markdown", "source": "x"}, {"cell_type": "code", "outputs": [output], "source": ""}]
    return json.dumps({"cells": cells, "metadata": {}, "nbformat": 4, "nbformat_minor": 5, **top}).encode("utf-8")


def zipped(**contents: bytes) -> bytes:
    """Return a zip; two underlines in a name stand for a slash, one for a dot."""
    packed = io.BytesIO()
    with zipfile.ZipFile(packed, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, content in contents.items():
            archive.writestr(name.replace("__", "/").replace("_", "."), content)
    return packed.getvalue()


def read(path: Path) -> list[HandIn]:
    """Return the hand-ins under a path."""
    return [hand_in for source in find_sources([path])[0] for hand_in in read_source(source)]


def read_one(folder: Path, name: str, content: bytes) -> HandIn:
    """Write one file and return the one hand-in it is."""
    (folder / name).write_bytes(content)
    (found,) = read(folder / name)
    return found


def test_a_zip_that_is_none(tmp_path: Path) -> None:
    """Text named .zip."""
    found = read_one(tmp_path, "a.zip", b"Dear teacher, my zip does not open.")

    assert found.problems == ("a.zip: is no zip file, or is cut off or damaged. Ask for the hand-in again.",)


def test_a_zip_that_is_cut_off(tmp_path: Path) -> None:
    """Every shorter piece of a zip is refused or read, never raised."""
    whole = zipped(logbook__star_a_jsonl=logbook())
    for length in range(0, len(whole), 7):
        found = read_one(tmp_path, "a.zip", whole[:length])
        assert found.problems == ("a.zip: is no zip file, or is cut off or damaged. Ask for the hand-in again.",)


def test_a_zip_with_a_changed_byte(tmp_path: Path) -> None:
    """Damage anywhere in a zip is one line, or shows in the chain, or harms nothing; it is never raised."""
    whole = zipped(logbook__star_a_jsonl=logbook())
    for at in range(0, len(whole), 5):
        found = read_one(tmp_path, "a.zip", whole[:at] + bytes([whole[at] ^ 0x55]) + whole[at + 1 :])
        assert found.problems or found.breaks or len(found.lines) == 1


@pytest.mark.parametrize("name", ["../../x.jsonl", "/etc/x.jsonl", "C:\\x.jsonl", "a/../../x.jsonl", "..\\x.jsonl"])
def test_names_that_lead_out_of_a_zip(tmp_path: Path, name: str) -> None:
    """Such an entry is not read, and nothing is written anywhere; the rest counts."""
    packed = io.BytesIO()
    with zipfile.ZipFile(packed, "w") as archive:
        archive.writestr(zipfile.ZipInfo(name), logbook(fields(turn=2)))
        archive.writestr("logbook/star.a.jsonl", logbook())
    found = read_one(tmp_path, "a.zip", packed.getvalue())

    assert len(found.lines) == 1
    assert len(found.problems) == 1
    assert "has a name that leads out of the hand-in and was not read." in found.problems[0]
    assert [p.name for p in tmp_path.rglob("*")] == ["a.zip"]


def zip_bomb(declared: int) -> bytes:
    """Return a zip of 10 MB whose one entry unpacks to 10 GB of zeros and says that it holds `declared` bytes."""
    packer = zlib.compressobj(9, zlib.DEFLATED, -15)
    block = packer.compress(bytes(10_000_000)) + packer.flush(zlib.Z_FULL_FLUSH)
    packed = io.BytesIO()
    with zipfile.ZipFile(packed, "w", zipfile.ZIP_STORED) as archive:
        archive.writestr("logbook/star.a.jsonl", block * 1000 + packer.flush(zlib.Z_FINISH))
    content = bytearray(packed.getvalue())
    table = content.rfind(b"PK\x01\x02")
    for method, size in ((8, 22), (table + 10, table + 24)):
        struct.pack_into("<H", content, method, zipfile.ZIP_DEFLATED)
        struct.pack_into("<I", content, size, declared)
    return bytes(content)


@pytest.mark.parametrize(
    ("declared", "said"), [(0xFFFF_FFFE, "holds more than 16 MB of logbooks"), (100, "is damaged inside the zip")]
)
def test_a_zip_bomb_is_stopped_by_the_counter(tmp_path: Path, declared: int, said: str) -> None:
    """10 GB of zeros, whatever size is declared: refused after 16 MB, in little memory."""
    (tmp_path / "bomb.zip").write_bytes(zip_bomb(declared))
    tracemalloc.start()
    (found,) = read(tmp_path / "bomb.zip")
    peak = tracemalloc.get_traced_memory()[1]
    tracemalloc.stop()

    assert said in found.problems[0]
    assert peak < 20_000_000


def test_a_bomb_in_a_zip_of_zips_costs_only_itself(tmp_path: Path) -> None:
    """The next hand-in of the class is read."""
    packed = zipped(L01_zip=zip_bomb(0xFFFF_FFFE), L02_zip=zipped(logbook__star_a_jsonl=logbook()))
    (tmp_path / "class.zip").write_bytes(packed)
    bomb, good = read(tmp_path / "class.zip")

    assert "unpacks to more than 2 MB, far more than a hand-in of its size" in bomb.problems[0]
    assert (len(good.lines), good.problems) == (1, ())


def test_a_zip_of_too_many_files(tmp_path: Path) -> None:
    """2,001 entries are refused."""
    packed = io.BytesIO()
    with zipfile.ZipFile(packed, "w") as archive:
        for number in range(2001):
            archive.writestr(f"{number}", b"")
    found = read_one(tmp_path, "a.zip", packed.getvalue())

    assert found.problems == ("a.zip: holds more than 2,000 files and was not read further. Look at it by hand.",)


def test_a_swollen_table_of_contents_is_not_loaded(tmp_path: Path) -> None:
    """Names of 60 kB for 60 entries are no hand-in."""
    packed = io.BytesIO()
    with zipfile.ZipFile(packed, "w") as archive:
        for number in range(60):
            archive.writestr(f"{number:060000d}", b"")
    found = read_one(tmp_path, "a.zip", packed.getvalue())

    assert found.problems == (
        "a.zip: has a table of contents too big for a hand-in and was not read. Ask for a new hand-in.",
    )


def test_zips_in_zips_in_zips_are_not_read(tmp_path: Path) -> None:
    """Depth 2 is read, depth 3 is one line."""
    inner = zipped(L01_zip=zipped(logbook__star_a_jsonl=logbook()))
    found = read_one(tmp_path, "a.zip", zipped(b_zip=inner))

    assert found.problems == (
        "a.zip/b.zip: holds zips inside a zip inside a zip, which are not read. Ask for the plain hand-in.",
    )


def test_a_zip_with_strokes_as_on_windows_is_read(tmp_path: Path) -> None:
    """Whose it is stands in it, and a zip of zips is a class, whichever way the strokes lean."""
    packed = io.BytesIO()
    names = {"L01-X\\workbook.toml": b'learner = "L01-X"', "L01-X\\logbook\\star.a.jsonl": logbook(), "L01-X\\": b""}
    with zipfile.ZipFile(packed, "w") as archive:
        for name, content in names.items():
            entry = zipfile.ZipInfo("x")
            entry.filename = name
            archive.writestr(entry, content)
    found = read_one(tmp_path, "a.zip", packed.getvalue())

    assert ("L01-X", 1, ()) == (found.hint, len(found.lines), found.problems)


def test_links_in_a_zip_and_other_packings_are_not_read(tmp_path: Path) -> None:
    """An entry marked as a link, and one packed so that it could swell without bound."""
    packed = io.BytesIO()
    with zipfile.ZipFile(packed, "w") as archive:
        link = zipfile.ZipInfo("link.jsonl")
        link.external_attr = 0o120777 << 16
        archive.writestr(link, "/etc/passwd")
        archive.writestr("odd.jsonl", logbook(), zipfile.ZIP_BZIP2)
    found = read_one(tmp_path, "a.zip", packed.getvalue())

    assert found.problems == (
        "a.zip, link.jsonl: is a link and was not read.",
        "a.zip, odd.jsonl: is packed in a way that is not read. Ask for an ordinary zip.",
    )


@pytest.mark.parametrize("name", ["pipe.jsonl", "pipe.zip", "pipe.ipynb", "pipe"])
def test_a_pipe_is_not_opened(tmp_path: Path, name: str) -> None:
    """Nobody waits for a pipe that nobody writes to; named alone or in a folder."""
    os.mkfifo(tmp_path / name)
    sources, problems = find_sources([tmp_path])
    said = problems + [problem for source in sources for hand_in in read_source(source) for problem in hand_in.problems]

    assert len(said) == 1
    assert said[0].startswith(f"{name}: is ")


def test_links_are_not_followed(tmp_path: Path) -> None:
    """A link to a file, a link to a folder, a link named by hand, a linked logbook folder."""
    good = tmp_path / "good"
    good.mkdir()
    (good / "a.jsonl").write_bytes(logbook())
    hand_ins = tmp_path / "hand-ins"
    (hand_ins / "L01").mkdir(parents=True)
    (hand_ins / "L01" / "workbook.toml").write_text('learner = "L01-X"', encoding="utf-8")
    (hand_ins / "L01" / "logbook").symlink_to(good)
    (hand_ins / "L01" / "b.jsonl").symlink_to(good / "a.jsonl")
    (hand_ins / "c.jsonl").symlink_to(good / "a.jsonl")
    (hand_ins / "d").symlink_to(good)
    found = read(hand_ins)

    assert [line for hand_in in found for line in hand_in.lines] == []
    assert len([problem for hand_in in found for problem in hand_in.problems if "is a link" in problem]) == 3
    assert (find_sources([hand_ins])[1]) == [
        "d: is no zip, notebook or logbook and was not read. Ask for the zip of “Make my hand-in”."
    ]
    assert find_sources([hand_ins / "d"])[1] == [
        "d: is a link and was not followed. Name the file or folder it points to."
    ]


def three() -> list[str]:
    return chain(fields(), fields(turn=2), fields(turn=3))


@pytest.mark.parametrize(
    ("content", "lines", "breaks", "problems"),
    [
        ("\n".join(three()) + "\n", 3, [], []),
        (
            "\n".join(three()).replace('"turn":2', '"turn":7') + "\n",
            3,
            ["Line 2: was changed after it was written."],
            [],
        ),
        ("\n".join([three()[0], three()[2]]) + "\n", 2, ["Line 2: does not follow the line before it"], []),
        ("\n".join(three())[:-40], 2, [], ["the last line is torn (power cut or full disk) and was left out."]),
        ("\n".join([three()[0], "\x00\x13noise", three()[2]]) + "\n", 2, ["Line 2: cannot be read."], []),
        ("\n".join([three()[0], "[" * 100_000 + "]" * 100_000]) + "\n", 1, ["Line 2: nested too deeply."], []),
        ("\n".join([three()[0], '{"n":1,"n":2}']) + "\n", 1, ["Line 2: a key stands twice."], []),
        ("\n".join([three()[0], '{"n":NaN}']) + "\n", 1, ["Line 2: cannot be read."], []),
        ("\n".join([three()[0], three()[1].replace("typed", "\\udc00")]) + "\n", 1, ["Line 2: cannot be read."], []),
        ("\n".join([three()[0], "x" * 3_000_000]) + "\n", 1, ["Line 2: longer than 1 MB."], []),
        ("\ufeff" + "\r\n".join(three()) + "\r\n", 3, [], []),
    ],
    ids=["whole", "edited", "dropped", "torn", "noise", "brackets", "twice", "nan", "surrogate", "long", "bom"],
)
def test_damage_costs_its_line_and_not_the_file(
    tmp_path: Path, content: str, lines: int, breaks: list[str], problems: list[str]
) -> None:
    """Each kind of damage in a logbook: the other lines are read, and one sentence names file, line and damage."""
    found = read_one(tmp_path, "star.a.jsonl", content.encode("utf-8"))

    assert lines == len(found.lines)
    assert len(breaks) == len(found.breaks)
    assert all(seen.startswith(f"star.a.jsonl: {said}") for seen, said in zip(found.breaks, breaks, strict=True))
    assert [f"star.a.jsonl: {problem}" for problem in problems] == list(found.problems)


def test_a_file_of_noise_is_a_few_lines_not_thousands(tmp_path: Path) -> None:
    """After five breaks the rest is counted."""
    found = read_one(tmp_path, "star.a.jsonl", b"\xff\xfe\x00\n" * 10_000)

    assert len(found.breaks) == 6
    assert found.breaks[-1] == "star.a.jsonl: and 9995 more."


def test_a_notebook_gives_its_lines(tmp_path: Path) -> None:
    """Out of the outputs, pictures skipped."""
    found = read_one(tmp_path, "08.ipynb", notebook({"lines": three()}))

    assert (len(found.lines), found.breaks, found.problems) == (3, (), ())


@pytest.mark.parametrize(
    ("content", "lines", "said"),
    [
        (notebook({"lines": three()}, nbformat=3), 0, "is a notebook of format 3, and only format 4 is read."),
        (notebook({"lines": [*three(), 7, None]}), 3, "2 record lines in an output are no text and were left out."),
        (notebook({"lines": "x"}), 0, "one output with a record cannot be read and was left out."),
        (notebook([1, 2]), 0, "one output with a record cannot be read and was left out."),
        (notebook({"lines": three()})[:-20], 3, "is damaged as a notebook; 3 record lines were found in it and read."),
        (notebook({"lines": three()}, metadata="@").replace(b'"@"', b"[" * 100_000), 3, "is damaged as a notebook"),
        (notebook({"lines": three()}, metadata="@").replace(b'"@"', b'"\\ud800"'), 3, "is damaged as a notebook"),
        (notebook({"lines": three()}, metadata="@").replace(b'"@"', b"NaN"), 3, "is damaged as a notebook"),
        (b"\x89PNG\x00\xff", 0, "is damaged as a notebook; no record line was found in it."),
        (b"", 0, "is damaged as a notebook; no record line was found in it."),
    ],
    ids=["format", "numbers", "text", "list", "cut", "brackets", "surrogate", "nan", "png", "empty"],
)
def test_a_damaged_notebook_still_gives_what_can_be_found(
    tmp_path: Path, content: bytes, lines: int, said: str
) -> None:
    """One sentence, and the lines that stand in it."""
    found = read_one(tmp_path, "08.ipynb", content)

    assert lines == len(found.lines)
    assert len(found.problems) == 1
    assert found.problems[0].startswith(f"08.ipynb: {said}")


def test_a_notebook_with_a_byte_order_mark_is_whole(tmp_path: Path) -> None:
    """An editor that puts one before the text has damaged nothing."""
    found = read_one(tmp_path, "a.ipynb", b"\xef\xbb\xbf" + notebook({"lines": three()}).replace(b"\n", b"\r\n"))

    assert (3, (), ()) == (len(found.lines), found.problems, found.breaks)


def test_an_edited_line_in_a_notebook_is_told_and_the_logbook_wins(tmp_path: Path) -> None:
    """Of two copies of a line the unchanged one counts."""
    edited = [line.replace('"turn":2', '"turn":9') for line in three()]
    content = zipped(a_ipynb=notebook({"lines": edited}), logbook__star_a_jsonl="\n".join([*three(), ""]).encode())
    found = read_one(tmp_path, "a.zip", content)

    assert sorted(line.record.turn for line in found.lines if line.record) == [1, 2, 3]
    assert found.breaks == ("a.zip, a.ipynb: A record: was changed after it was written.",)


def test_the_workbook_file_is_only_a_hint(tmp_path: Path) -> None:
    """Whatever it says, the lines say who answered; a damaged one is one line."""
    good = read_one(tmp_path, "a.zip", zipped(workbook_toml=b'learner = "L02-M"', logbook__star_a_jsonl=logbook()))
    bad = read_one(tmp_path, "b.zip", zipped(workbook_toml=b"[" * 100_000, logbook__star_a_jsonl=logbook()))

    assert (good.hint, [line.record.learner for line in good.lines if line.record]) == ("L02-M", ["L01-X"])
    assert bad.problems == ("b.zip, workbook.toml: cannot be read; who it is from is taken from its lines alone.",)


def test_an_empty_hand_in_says_so(tmp_path: Path) -> None:
    """A zip with pictures only."""
    found = read_one(tmp_path, "a.zip", zipped(photo_png=b"x"))

    assert found.problems == (
        "a.zip: holds no logbook and no notebook with answers. Ask the learner for the zip of “Make my hand-in”.",
    )


def test_what_is_not_there_is_wrong_use(tmp_path: Path) -> None:
    """A path that does not exist, a folder with nothing in it."""
    with pytest.raises(BadInput, match=r"^nowhere: is not there\. Check the path\.$"):
        mark_hand_ins([tmp_path / "nowhere"], out=tmp_path / "out")
    (tmp_path / "empty").mkdir()
    with pytest.raises(BadInput, match=r"^empty: holds no hand-in\. Put the hand-in zips into it"):
        mark_hand_ins([tmp_path / "empty"], out=tmp_path / "out")


def test_marks_that_cannot_be_written_are_one_line(tmp_path: Path) -> None:
    """A file stands where the folder should be."""
    (tmp_path / "a.jsonl").write_bytes(logbook())
    (tmp_path / "out").write_text("", encoding="utf-8")

    with pytest.raises(BadInput, match=r"out is a file\. Name a folder for the results: --out marks-2$"):
        mark_hand_ins([tmp_path / "a.jsonl"], out=tmp_path / "out")


def test_folders_deeper_than_two_are_told(tmp_path: Path) -> None:
    """Class, learner, attempt: two folders down are read, three are one line."""
    deep = tmp_path / "in" / "a" / "b"
    (deep / "c").mkdir(parents=True)
    (deep / "x.jsonl").write_bytes(logbook())
    sources, problems = find_sources([tmp_path / "in"])

    assert [source.name for source in sources] == ["a/b/x.jsonl"]
    assert problems == ["a/b/c: lies more than 2 folders deep. Name that folder itself."]
