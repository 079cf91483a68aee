"""Cells that make each control, and what a learner does at the drill."""

import re

from playwright.sync_api import Locator

from .lab import Lesson

HEAD = """
from IPython.display import display
from bitepoint.page.widgets import AnswerForm, BoltCircle, CalculatorForm
from bitepoint.page.widgets.common import said, view_bundle

def put(control):
    display(view_bundle(control), raw=True)
"""
DRILL = """
drill = BoltCircle(spec={
    "title": "Tighten the cover", "frame": "TRAINING VEHICLE · INVENTED FIGURES · NEVER USE ON A CAR", "part": "cover",
    "angles_deg": [0, 60, 120, 180, 240, 300], "dowel_deg": 30, "setting_unit": "N·m", "fitted": "crow-foot, 60 mm, in line",
    "stages": [{"key": "hand", "label": "Hand start", "kind": "hand"},
               {"key": "stage 1", "label": "Stage 1 · 20 N·m", "kind": "torque"},
               {"key": "angle", "label": "Angle stage · 50°", "kind": "angle"},
               {"key": "check", "label": "Second round", "kind": "look"}],
    "tools": [{"key": "fingers", "label": "Fingers"}, {"key": "wrench", "label": "Torque wrench"},
              {"key": "gauge", "label": "Bar with angle gauge"}, {"key": "impact", "label": "Impact wrench"},
              {"key": "eye", "label": "Look at the paint mark"}]})
heard = []
drill.on_msg(lambda control, content, buffers: heard.append([content["do"], len(control.pulls)]))
put(drill)
"""
FORMS = """
picture = ("<svg xmlns='http://www.w3.org/2000/svg' viewBox='0 0 400 200'><rect width='400' height='200' fill='#fff'/>"
           "<circle cx='100' cy='100' r='60' fill='none' stroke='#333'/></svg>")
specs = {
    "number": {"kind": "number", "label": "What do you set?", "unit": "N·m", "units": ["lbf·ft"]},
    "choice": {"kind": "choice", "label": "Choose", "options": [{"key": k, "text": f"Choice {k}"} for k in "abc"]},
    "several": {"kind": "several", "label": "Tick", "options": [{"key": k, "text": f"Tick {k}"} for k in "abc"]},
    "order": {"kind": "order", "label": "Put in order", "options": [{"key": k, "text": f"Step {k}"} for k in "abc"]},
    "region": {"kind": "region", "label": "Where?", "picture": {"svg": picture, "alt": "A ring", "regions": [
        {"key": "r1", "label": "The ring", "shape": "circle", "points": [100, 100, 60]},
        {"key": "r2", "label": "Beside it", "shape": "rect", "points": [250, 50, 100, 100]},
        {"key": "r3", "label": "Below", "shape": "polygon", "points": [180, 180, 240, 180, 210, 120]}]}},
}
heard = []
forms = {}
for name, spec in specs.items():
    forms[name] = AnswerForm(spec=spec)
    forms[name].on_msg(lambda control, content, buffers: heard.append([content["do"], content.get("answer")]))
    put(forms[name])
"""
CALCULATOR = """
sums = CalculatorForm(spec={"title": "Wrench with a crow-foot", "frame": "", "fields": [
    {"key": "offset", "label": "Crow-foot", "unit": "mm", "kind": "number", "low": 0, "high": 120, "step": 2.5},
    {"key": "way", "label": "How it is fitted", "kind": "choice", "options": ["in line", "square"]}]},
    values={"offset": "60", "way": "in line"}, shown="<p>first</p>")
sums.observe(lambda change: setattr(sums, "shown", f"<p>{change['new']['offset']} {change['new']['way']}</p>"), "values")
put(sums)
"""


def bolt(lesson: Lesson, number: int) -> Locator:
    return lesson.page.get_by_role("button", name=re.compile(rf"^Bolt {number},"))


def pull(lesson: Lesson, *numbers: int) -> None:
    for number in numbers:
        bolt(lesson, number).click()


def take(lesson: Lesson, *, stage: str, tool: str, setting: str = "") -> None:
    """Choose stage and tool, set the wrench."""
    lesson.page.get_by_label(stage).check()
    lesson.page.get_by_label(tool, exact=True).check()
    if setting:
        lesson.page.get_by_label("Wrench setting").fill(setting)


def pulls(lesson: Lesson) -> list[int]:
    return [one["bolt"] for one in lesson.ask_kernel("drill.pulls")]


def status(lesson: Lesson) -> Locator:
    return lesson.page.locator(".bp-drill .bp-status")
