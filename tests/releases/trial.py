"""A trial release: the package copied aside, stamped, then changed as developers change it; nothing of it is kept."""

import json
import os
import shutil
import subprocess
import sys
from pathlib import Path
from typing import Any

import bitepoint
from bitepoint import places

LIB = "lib/bitepoint"
BETTERED = {
    "star.why-star": (
        "bank/star/forms.toml",
        "the star only keeps the part level",
        "the star merely keeps the part level",
    ),
    "safe.before-touching": ("bank/safe/forms.toml", "Then the work begins.", "Then the work starts."),
    "safe.dead-car": ("bank/safe/forms.toml", "then the cable that has no fuse.", "then the cable without a fuse."),
    "torque.crow-foot": ("bank/torque/lever.py", "The arm to your hand has grown.", "The arm to your hand is longer."),
    "measure.run-out": ("bank/measure/turn.py", "the hand swings over", "the hand moves over"),
    "start.region": (
        "bank/start/first_tries.py",
        "The square drive sits in the head.",
        "In the head sits the square drive.",
    ),
    "safe.strip-bay": ("bank/safe/bay.py", "settled before the next bolt.", "settled before another bolt."),
    "fault.noise": ("bank/fault/evidence.py", "Then choose the place", "Then take the place"),
    "strip.clutch-off": ("bank/strip/work_order.py", "Dust first, then the lock,", "First the dust, then the lock,"),
    "job.order": ("bank/job/order.py", "prove it before you hand over.", "prove it before you hand it over."),
    "star.printed-order": ("bank/star/drills.py", "A printed order wins over", "A printed order goes before"),
}
"""One sentence bettered in an exercise of each kind: where, what it said, what it says."""


class Trial:
    """A copy of program and data in a folder, run by its own Python process."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        package = Path(bitepoint.__file__).parent
        shutil.copytree(package, folder / LIB, ignore=shutil.ignore_patterns("__pycache__", "course", "assets"))
        shutil.copytree(places.assets(), folder / "assets", ignore=shutil.ignore_patterns("releases"))
        (folder / "assets" / "releases").mkdir()
        self.write_lesson('ask("star.six-bolts")')

    @property
    def releases(self) -> Path:
        """Where the trial keeps what it released."""
        return self.folder / "assets" / "releases"

    def write_lesson(self, *sources: str) -> None:
        """Make the course one lesson of these cells."""
        cells = [{"cell_type": "code", "id": f"cell-{n}", "source": [text]} for n, text in enumerate(sources)]
        course = self.folder / "course"
        course.mkdir(exist_ok=True)
        (course / "08-star-tightening.ipynb").write_text(json.dumps({"cells": cells}), encoding="utf-8")

    def change(self, file: str, old: str, new: str) -> None:
        """Change a sentence or a figure everywhere in a file of the copy."""
        path = self.folder / (file if file.startswith("assets/") else f"{LIB}/{file}")
        text = path.read_text(encoding="utf-8")
        assert old in text, (file, old)
        path.write_text(text.replace(old, new), encoding="utf-8")

    def run(self, program: str, **given: Any) -> Any:
        """Run a program in the copy; `given` is its dictionary of that name, what it prints last is returned."""
        whole = f"import json\ngiven = json.loads({json.dumps(json.dumps(given))})\n{program}"
        environment = {**os.environ, "PYTHONPATH": str(self.folder / "lib"), "PYTHONDONTWRITEBYTECODE": "1"}
        done = subprocess.run(
            [sys.executable, "-c", whole], capture_output=True, text=True, env=environment, cwd=self.folder, check=False
        )
        assert done.returncode == 0, done.stderr[-2000:]
        return json.loads(done.stdout.splitlines()[-1])


STAMP = """
from pathlib import Path
from bitepoint.releases.frozen import freeze, releases_folder
from bitepoint.releases.samples import take_samples, write_release
place = releases_folder()
write_release(place / "0.9.0.json", take_samples("0.9.0", only=given["ids"]))
freeze(place / "0.9.0.zip")
print(json.dumps(str(place)))
"""
ANSWER = """
from pathlib import Path
from bitepoint.bank import exercise_named
from bitepoint.logbook.identity import Identity, write_identity
from bitepoint.page.cards import card_html
from bitepoint.page.exercise_session import ExerciseSession
folder = Path(given["folder"])
folder.mkdir(exist_ok=True)
who = Identity(learner="L1", class_word="oak", folder=folder)
write_identity(who, folder)
cards = {}
for id in given["ids"]:
    session = ExerciseSession(exercise_named(id), who)
    if not session.lines:
        answer = session.question().right_answer() if given["right"] else session.question().known_mistakes()[0][0]
        session.answer(answer, how="form")
    cards[id] = str(card_html(session))
print(json.dumps(cards))
"""
CHECK = """
from bitepoint.releases.__main__ import changes
print(json.dumps([[c.exercise, c.kind, c.said] for c in changes()]))
"""
KNOWN = """
from bitepoint.workbook.awake_lessons import lessons
print(json.dumps(lessons()["known"]))
"""
MARK = """
from pathlib import Path
from bitepoint.marking import mark_hand_ins
mark_hand_ins([Path(given["folder"])], out=Path(given["out"]))
print(json.dumps((Path(given["out"]) / "marks.csv").read_text()))
"""
AS_ASKED = """
from pathlib import Path
from bitepoint.marking.pages.as_asked import write_as_asked
page = Path(given["page"])
count = write_as_asked(page, [Path(given["folder"])], learner="L1")
print(json.dumps([count, page.read_text()]))
"""
