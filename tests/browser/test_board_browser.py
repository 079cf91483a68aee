"""The board in a real browser: it refreshes itself, can be paused, keeps its policy, and axe-core finds nothing."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from bitepoint.bank import exercise_named, exercises
from bitepoint.classroom.boards.board import Board
from bitepoint.classroom.boards.group import Group
from bitepoint.classroom.boards.page import ALL, FOLLOW, View
from bitepoint.classroom.boards.rehearsal import LiveClass
from bitepoint.classroom.boards.server import BoardServer
from bitepoint.marking.rehearsal.rehearse import rehearse

from .lab import Browser

pytestmark = pytest.mark.browser
NUMBER, CHOICE = "start.number", "start.choice"
AXE = """async () => {
  const found = await axe.run(document, {resultTypes: ['violations', 'passes']});
  const told = found.violations.flatMap((rule) => rule.nodes.map((node) => `${rule.id}: ${node.html.slice(0, 160)}`));
  return [found.passes.length, told];
}"""


@pytest.fixture(scope="module")
def live(tmp_path_factory: pytest.TempPathFactory) -> LiveClass:
    """Twelve learners: some right, some stuck, one critical, a hostile folder."""
    made = LiveClass(tmp_path_factory.mktemp("board") / "share", learners=12)
    for place, learner in enumerate(made.ids[:10]):
        for _ in range(1 + place % 3):
            made.answer(learner, NUMBER, right=place % 3 == 0)
        made.answer(learner, CHOICE, right=place > 3)
    odd = made.folder / "<img src=x onerror=document.title='hit'>" / "logbook"
    odd.mkdir(parents=True)
    (odd / "start.x.jsonl").write_bytes(b"rubbish\n")
    return made


@pytest.fixture(scope="module")
def server(live: LiveClass) -> Iterator[BoardServer]:
    """A running board."""
    with BoardServer(Board(live.folder, Group(title="Autumn course")), with_names=True) as opened:
        yield opened


def opened(browser: Browser, address: str, *, scheme: str = "light", width: int = 1920) -> tuple[Page, list[str]]:
    """A page and what its console and its requests complain of or reach for outside."""
    context = browser.new_context(viewport={"width": width, "height": 1080}, color_scheme=scheme)  # type: ignore[arg-type]
    page, found = context.new_page(), []  # type: ignore[var-annotated]
    page.on("console", lambda message: found.append(message.text) if message.type in ("error", "warning") else None)
    page.on("pageerror", lambda error: found.append(str(error)))
    page.on("request", lambda r: None if r.url.startswith(("http://127.0.0.1:", "file:")) else found.append(r.url))
    page.goto(address)
    return page, found


def test_a_new_answer_appears_by_itself(chromium: Browser, server: BoardServer, live: LiveClass) -> None:
    """On the wall within three seconds, on the names too; no error, nothing fetched from outside."""
    wall, wall_errors = opened(chromium, server.address("wall"))
    names, names_errors = opened(chromium, server.address("names"))
    expect(wall.get_by_role("row", name=exercise_named(NUMBER).title)).to_contain_text("10")
    expect(names.get_by_role("row", name=live.ids[10])).to_have_count(0)
    live.answer(live.ids[10], NUMBER)
    expect(wall.get_by_role("row", name=exercise_named(NUMBER).title)).to_contain_text("11", timeout=3000)
    expect(names.get_by_role("row", name=live.ids[10])).to_have_count(1, timeout=3000)
    assert "hit" not in names.title()
    assert [] == wall_errors + names_errors


def test_paused_it_stays_as_it_is(chromium: Browser, server: BoardServer, live: LiveClass) -> None:
    """By keyboard; the button says so; going on brings what was missed."""
    page, errors = opened(chromium, server.address("names"))
    button = page.get_by_role("button", name="Pause")
    page.keyboard.press("Tab")
    expect(button).to_be_focused()
    page.keyboard.press("Enter")
    expect(button).to_have_attribute("aria-pressed", "true")
    expect(page.locator("#told")).to_contain_text("Paused at")
    live.answer(live.ids[11], NUMBER)
    page.wait_for_timeout(3500)
    expect(page.get_by_role("row", name=live.ids[11])).to_have_count(0)
    page.keyboard.press("Enter")
    expect(page.get_by_role("row", name=live.ids[11])).to_have_count(1, timeout=3000)
    expect(button).to_be_focused()
    assert [] == errors


def test_a_board_that_stopped_is_told(chromium: Browser, live: LiveClass) -> None:
    """The page stays, says since when there is no news, and a screen reader hears it."""
    with BoardServer(Board(live.folder)) as passing:
        page, _ = opened(chromium, passing.address("wall"))
        expect(page.locator("#told")).to_contain_text("Up to date at")
    expect(page.locator("#told")).to_contain_text("No news since", timeout=6000)
    expect(page.get_by_role("status")).to_contain_text("Is the board still running?")
    expect(page.get_by_role("row", name=exercise_named(NUMBER).title)).to_be_visible()


def test_lessons_are_links_and_the_wall_has_no_learner(chromium: Browser, server: BoardServer, live: LiveClass) -> None:
    """A chosen lesson stays chosen; no id is on any wall."""
    page, errors = opened(chromium, server.address("wall"))
    page.get_by_role("link", name="Tighten in a star").click()
    expect(page.get_by_role("heading", name="Tighten in a star")).to_be_visible()
    expect(page.get_by_text("Nobody answered here yet.")).to_be_visible()
    page.get_by_role("link", name="All lessons").click()
    expect(page.get_by_role("heading", name="Start here")).to_be_visible()
    assert [who for who in live.ids if who in page.content()] == []
    assert [] == errors


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_type_on_the_wall_is_large(chromium: Browser, server: BoardServer, scheme: str) -> None:
    """On a projector of 1920 by 1080 the rows are 24 pixels at least, and nothing is wider than the screen."""
    page, _ = opened(chromium, server.address("wall"), scheme=scheme)
    sizes = page.evaluate(
        "() => [...document.querySelectorAll('tbody th, td.n')].map(e => parseFloat(getComputedStyle(e).fontSize))"
    )
    assert min(sizes) >= 24
    assert page.evaluate("() => document.documentElement.scrollWidth <= innerWidth")


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("kind", ["wall", "names", "once"])
def test_axe_finds_nothing_on_the_board(
    chromium: Browser, server: BoardServer, axe: Path, tmp_path: Path, kind: str, scheme: str
) -> None:
    """No violation of any rule axe-core knows: wall, names, and the page written once."""
    address = server.address(kind) if kind != "once" else ""
    if not address:
        (tmp_path / "board.html").write_text(server.board.page(View("both", ALL)), encoding="utf-8")
        address = (tmp_path / "board.html").as_uri()
    page, errors = opened(chromium, address, scheme=scheme)
    expect(page.get_by_role("heading", level=1)).to_be_visible()
    page.evaluate(axe.read_text(encoding="utf-8"))
    passed, violations = page.evaluate(AXE)
    assert passed >= 15
    assert [] == violations
    assert [] == errors


@pytest.fixture(scope="module")
def full(tmp_path_factory: pytest.TempPathFactory) -> Board:
    """The board of an invented class of 24 in which every exercise of every lesson was answered."""
    folder = tmp_path_factory.mktemp("full")
    rehearse(folder, learners=24, seed=1)
    board = Board(folder / "hand-ins", Group(title="Replacing a dry clutch, autumn course, first year"))
    board.read_once()
    return board


@pytest.mark.parametrize(("width", "height"), [(1920, 1080), (1280, 720)])
def test_the_wall_needs_no_scrolling(chromium: Browser, full: Board, tmp_path: Path, width: int, height: int) -> None:
    """In every lesson, with all its exercises answered and the links to the others: nothing lies below the screen."""
    page = chromium.new_page(viewport={"width": width, "height": height})
    links = {key: f"?{key}" for key in (FOLLOW, *full.lessons, ALL)}
    below = {}
    for key in full.lessons:
        (tmp_path / "wall.html").write_text(full.page(View("wall", key), address="/part", links=links), "utf-8")
        page.goto((tmp_path / "wall.html").as_uri())
        assert page.locator("tbody tr").count() == sum(e.lesson == key for e in exercises().values())
        below[key] = page.evaluate(
            "() => [document.documentElement.scrollHeight - innerHeight, document.documentElement.scrollWidth - innerWidth]"
        )
    assert {key: [0, 0] for key in full.lessons} == below


@pytest.mark.parametrize("width", [390, 1280])
def test_the_names_are_not_wider_than_the_screen(chromium: Browser, full: Board, tmp_path: Path, width: int) -> None:
    """Also on a telephone in the instructor's hand."""
    (tmp_path / "names.html").write_text(full.page(View("names")), "utf-8")
    page = chromium.new_page(viewport={"width": width, "height": 900})
    page.goto((tmp_path / "names.html").as_uri())
    assert page.evaluate("() => document.documentElement.scrollWidth") <= width
