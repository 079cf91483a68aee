"""The made-up tone in the real JupyterLab: silent until it is asked for, one at a time, and as many beats as the strip."""

from collections.abc import Callable
from pathlib import Path

import pytest
from playwright.sync_api import Locator, expect

from bitepoint.pictures import sound

from .drill import HEAD
from .lab import AXE, Lesson

pytestmark = pytest.mark.browser
Open = Callable[..., Lesson]
ASK = """
from bitepoint import pictures
from msgspec import to_builtins
put(AnswerForm(spec={"kind": "choice", "label": "Choose", "options": [{"key": k, "text": f"Choice {k}"} for k in "ab"],
                     "sound": to_builtins(pictures.sound("sound-strip", car="A", part="release-bearing"))}))
"""
SPY = """() => {
  window.bpAudio = [];
  const Real = window.AudioContext;
  window.AudioContext = class extends Real {
    constructor(...given) { super(...given); window.bpAudio.push(this); }
    createBuffer(...given) { return (this.made = super.createBuffer(...given)); }
  };
}"""
STATES = "window.bpAudio.map((audio) => audio.state)"
LOUD = """(moments) => {
  const made = window.bpAudio[0].made, samples = made.getChannelData(0);
  const part = (from, to) => samples.slice(from * made.sampleRate, to * made.sampleRate);
  const most = (from, to) => part(from, to).reduce((found, x) => Math.max(found, Math.abs(x)), 0);
  return moments.map((at) => [most(at - 0.02, at - 0.001), most(at, at + 0.02)]).concat([[0, most(0, made.duration)]]);
}"""
"""The loudest sample just before and just after each beat, then of all."""


@pytest.fixture(scope="module")
def page(lesson: Open) -> Lesson:
    """Two forms with a sound each, the browser's own player watched."""
    opened = lesson("sound", HEAD + ASK, ASK)
    opened.page.evaluate(SPY)
    opened.run_all()
    expect(opened.page.locator(".bp-sound")).to_have_count(2)
    return opened


def player(page: Lesson, number: int) -> Locator:
    return page.page.get_by_role("group", name="Sound").nth(number)


def test_it_plays_by_keyboard_one_at_a_time_and_stops(page: Lesson) -> None:
    """Nothing sounds before a press; a second sound ends the first; Stop ends it and the focus goes back."""
    first, second = player(page, 0), player(page, 1)
    assert page.page.evaluate(STATES) == []
    first.get_by_role("button", name="Play the sound").focus()
    page.page.keyboard.press("Enter")
    page.page.wait_for_function("window.bpAudio[0].state === 'running' && window.bpAudio[0].currentTime > 0")
    expect(first).to_contain_text("1 of 8: Standing in neutral, engine idling, pedal up")
    expect(first.get_by_role("button", name="Stop")).to_be_focused()
    second.get_by_role("button", name="Play the sound").click()
    page.page.wait_for_function(f"{STATES}.join() === 'closed,running'")
    expect(first).to_contain_text("in 8 pieces")
    page.page.keyboard.press("Enter")
    page.page.wait_for_function(f"{STATES}.join() === 'closed,closed'")
    expect(second.get_by_role("button", name="Play the sound")).to_be_focused()
    heard = sound("sound-strip", car="A", part="release-bearing")
    assert heard is not None
    *beats, (_, loudest) = page.page.evaluate(LOUD, [at for at, _, _ in heard.beats])
    assert [before < after / 2 for before, after in beats] == [True] * len(heard.beats)
    assert 0.05 < loudest < 0.5


@pytest.mark.parametrize("dark", [False, True])
def test_nothing_stops_someone_who_hears_or_sees_it_differently(page: Lesson, axe: Path, dark: bool) -> None:
    """axe-core finds no violation in the player, light or dark."""
    page.theme(dark)
    page.page.evaluate(axe.read_text(encoding="utf-8"))
    parts, passes, violations = page.page.evaluate(AXE)
    page.theme(False)
    assert violations == []
    assert parts >= 2
    assert passes > 10
