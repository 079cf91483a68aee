"""What of the course runs in the Python of a browser: by hand, `python tests/bench/browser_python.py`, with node and npm.

npm brings that Python (Pyodide) into a temporary folder, pip the packages that are made for it; node stands in place of the
browser, it runs the same program. Both Pythons say what they drew and marked, and the two are compared.
"""

import json
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Callable
from datetime import datetime
from hashlib import blake2b
from importlib.util import find_spec
from pathlib import Path
from time import perf_counter
from typing import Any

LIB = Path(__file__).parents[2] / "lib"
PYODIDE = "314.0.7"
MADE_FOR = ["--python-version", "3.14", "--platform", "pyemscripten_2026_0_wasm32", "--implementation", "cp"]
PURE = ["filelock", "jinja2", "fsrs", "typing-extensions", "icalendar", "python-dateutil", "tzdata"]
PLOTS = ("order-spectrum", "slip-plot")
LEARNERS = ("L01-X", "L02-M", "L03-C", "L04-E", "L05-G")
# Each goes by itself: what stops one does not stop the others.
PARTS: dict[str, Callable[[], str]] = {}

NODE = """
import { readFileSync } from "node:fs";
const { loadPyodide } = await import(process.argv[2] + "/node_modules/pyodide/pyodide.mjs");
const py = await loadPyodide();
for (const wheel of process.argv.slice(5))
  py.unpackArchive(new Uint8Array(readFileSync(wheel)), "wheel", { extractDir: "/lib/python3.14/site-packages" });
py.FS.mkdir("/course");
py.FS.mount(py.FS.filesystems.NODEFS, { root: process.argv[3] }, "/course");
py.FS.mkdir("/pure");
py.FS.mount(py.FS.filesystems.NODEFS, { root: process.argv[2] + "/pure" }, "/pure");
py.runPython("import sys; sys.path[:0] = ['/course/lib', '/pure']");
py.runPython(readFileSync(process.argv[4], "utf8"), { globals: py.toPy({ __name__: "__main__", __file__: "/course/tests/bench/x.py" }) });
"""


def part(work: Callable[[], str]) -> Callable[[], str]:
    """Name one part of the course to try."""
    PARTS[work.__name__.replace("_", " ")] = work
    return work


@part
def draw_and_mark_every_exercise() -> str:
    """All exercises for five learners: facts, words, and the verdicts on the right answer and each known mistake."""
    from bitepoint import bank

    seen: list[object] = []
    for id, exercise in bank.exercises().items():
        for learner in LEARNERS:
            question = exercise.draw(class_word="oak-2026", learner=learner)
            answers = [question.right_answer(), *(answer for answer, _ in question.known_mistakes())]
            verdicts = [question.mark(answer) for answer in answers]
            seen.append([id, learner, question.facts_digest(), question.words_digest()])
            seen.append([[verdict.score, verdict.feedback, *verdict.mistakes] for verdict in verdicts])
    return digest(seen)


@part
def keep_a_logbook_hand_in_and_mark_it() -> str:
    """Two answers with their chain in a folder of the browser's Python, packed, and the packed file marked into results."""
    from bitepoint import bank
    from bitepoint.bank.version import bank_digest
    from bitepoint.logbook import Identity, Logbook, read_folder
    from bitepoint.logbook.handin import make_hand_in
    from bitepoint.logbook.identity import write_identity

    with tempfile.TemporaryDirectory() as folder:
        workbook = Path(folder, "work")
        workbook.mkdir()
        write_identity(Identity(learner="L01-X", class_word="oak-2026"), workbook)
        book = Logbook(workbook, lesson="start", device="0a1b2c3d")
        question = bank.exercise_named("start.number").draw(class_word="oak-2026", learner="L01-X")
        fields = {"at": "2026-04-14T08:00:00.000Z", "learner": "L01-X", "class": "oak-2026", "device": "0a1b2c3d"}
        fields |= {"exercise": question.exercise, "revision": 1, "turn": 1, "facts": question.facts_digest()}
        fields |= {"how": "form", "bank": bank_digest()}
        for answer in ("1 N·m", question.right_answer()):
            book.append(fields | {"answer": str(answer)})
        assert [2] == [len(lines) for lines in read_folder(workbook).values()]
        return digest(marked(make_hand_in(workbook), Path(folder, "results")))


def marked(hand_in: Path, out: Path) -> str:
    """Return marks.csv without what is different at each run."""
    from bitepoint.marking.run import mark_hand_ins

    mark_hand_ins([hand_in], out=out, workers=1, marked=datetime.fromisoformat("2026-06-30T12:00+00:00"))
    return (out / "marks.csv").read_text(encoding="utf-8").replace(hand_in.name, "")


@part
def draw_the_pictures() -> str:
    """Each picture that needs no parameters; the plots, which need matplotlib, are named."""
    from bitepoint.pictures import registry

    drawn, left = {}, []
    for key in registry.keys():  # noqa: SIM118 - a function of the registry
        if key in PLOTS:
            left.append(key)
        else:
            drawn[key] = repr(registry.draw(key))
    return f"{digest(drawn)}, {len(drawn)} drawn, not {' and '.join(left)}"


@part
def draw_a_plot() -> str:
    """One of the pictures that matplotlib draws."""
    from bitepoint.pictures import registry

    return digest(repr(registry.draw(PLOTS[0])))


@part
def show_a_lesson() -> str:
    """What a lesson begins with."""
    from bitepoint import ask

    return ask.__name__


def digest(what: object) -> str:
    """Return sixteen digits that stand for a value of lists, texts and figures."""
    return blake2b(json.dumps(what, ensure_ascii=False, default=str).encode(), digest_size=8).hexdigest()


def tried() -> dict[str, Any]:
    """Do every part and return what each came to, and how long it took."""
    found = {}
    for name, work in PARTS.items():
        begun = perf_counter()
        try:
            came = work()
        except Exception as error:  # the parts are tried for what stops them
            came = f"no: {type(error).__name__}: {error}"[:200]
        found[name] = [came, round(perf_counter() - begun, 1)]
    return found


def in_node(base: Path) -> dict[str, Any]:
    """Set the other Python up in a folder and have it do the same."""
    subprocess.run(
        ["npm", "install", "--silent", "--no-audit", "--no-fund", "--prefix", base, f"pyodide@{PYODIDE}"], check=True
    )
    pip = [sys.executable, "-m", "pip", "download", "-q", "--no-deps", "--only-binary", ":all:", "-d", str(base)]
    subprocess.run([*pip, *MADE_FOR, "--abi", "cp314", "msgspec"], check=True)
    subprocess.run([*pip, *PURE], check=True)
    # No wheel of it for a browser lies in the registry; without its compiled part it does the same in Python.
    found = find_spec("markupsafe")
    assert found
    assert found.origin
    shutil.copytree(
        Path(found.origin).parent,
        base / "pure" / "markupsafe",
        ignore=shutil.ignore_patterns("*.so", "*.pyd", "__pycache__"),
    )
    (base / "run.mjs").write_text(NODE, encoding="utf-8")
    wheels = sorted(map(str, base.glob("*.whl")))
    line = ["node", str(base / "run.mjs"), str(base), str(LIB.parent), __file__, *wheels]
    run = subprocess.run(line, capture_output=True, text=True, encoding="utf-8", check=False)
    if run.returncode:
        raise SystemExit(run.stderr[-2000:])
    return dict(json.loads(run.stdout))


def main() -> None:
    """Compare what the two Pythons came to."""
    sys.path.insert(0, str(LIB))
    with tempfile.TemporaryDirectory() as folder:
        there, here = in_node(Path(folder)), tried()
    for name, (came, seconds) in there.items():
        same = "as here" if came == here[name][0] else f"here: {here[name][0]}"
        print(f"{name}: {came}; {same}; {seconds} s there, {here[name][1]} s here")


if __name__ == "__main__":
    if sys.platform == "emscripten":
        print(json.dumps(tried()))
    else:
        main()
