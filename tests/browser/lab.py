"""One real JupyterLab server and one Chromium, with the few moves a test makes in them.

Nothing here waits on a text or a fixed time: JupyterLab says by promises when it is ready. After a text such as
"Idle" a Run All is now and then silently dropped; after these promises it never was.
"""

import json
import shutil
import time
import urllib.request
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any, NamedTuple, Self
from urllib.parse import quote

import pytest
from playwright.sync_api import Browser, Page, expect, sync_playwright

from bitepoint.workbook.runtime_folder import runtime_folder_of
from bitepoint.workbook.serve import Server

# A busy machine takes its time; what is expected to be seen is waited for no longer than it needs.
expect.set_options(timeout=20_000)

CHROMIUM_NAMES = ("chromium", "chromium-browser", "google-chrome")
CHROMIUM_OPTIONS = [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--no-first-run",
    "--host-resolver-rules=MAP * ~NOTFOUND, EXCLUDE 127.0.0.1",
]
PANEL = "window.jupyterapp.shell.currentWidget"
READY = """async () => {
  const until = async (test) => {
    while (!test()) await new Promise((next) => setTimeout(next, 20));
  };
  await until(() => window.jupyterapp);
  await window.jupyterapp.restored;
  await until(() => window.jupyterapp.shell.currentWidget?.sessionContext);
  const panel = window.jupyterapp.shell.currentWidget;
  await panel.context.ready;
  await panel.sessionContext.ready;
  await until(() => panel.sessionContext.session?.kernel);
  await panel.sessionContext.session.kernel.info;
  await panel.revealed;
}"""

AXE = """async () => {
  const roots = [...document.querySelectorAll('.bp-root, .jp-RenderedHTMLCommon > div')];
  const found = await axe.run({include: roots}, {resultTypes: ['violations', 'passes']});
  const told = found.violations.flatMap((rule) => rule.nodes.map((node) => `${rule.id}: ${node.html.slice(0, 160)}`));
  return [roots.length, found.passes.length, told];
}"""
"""Runs axe-core in our own output: how much of it there is, rules passed, violations."""


def chromium() -> str | None:
    """Path of a Chromium on this machine, or None."""
    return next((path for name in CHROMIUM_NAMES if (path := shutil.which(name))), None)


def notebook(*cells: str) -> dict[str, Any]:
    """A notebook of code cells, as JSON, ready to be written to disk."""
    return {
        "cells": [
            {
                "cell_type": "code",
                "id": f"cell-{number}",
                "metadata": {},
                "execution_count": None,
                "outputs": [],
                "source": source,
            }
            for number, source in enumerate(cells, start=1)
        ],
        "metadata": {"kernelspec": {"name": "python3", "display_name": "Python 3", "language": "python"}},
        "nbformat": 4,
        "nbformat_minor": 5,
    }


def write(path: Path, *cells: str) -> None:
    """Write a notebook of code cells to a file."""
    path.write_text(json.dumps(notebook(*cells), ensure_ascii=False), encoding="utf-8")


class Served(NamedTuple):
    """A JupyterLab that runs: the folder it shows, the folder of its own things, its address, and the program's state."""

    work: Path
    runtime: Path
    url: str
    token: str
    state: Path

    def start_kernel(self, name: str) -> None:
        """Start a notebook's kernel before its page: both come up side by side, and the page finds its session there."""
        session = {"path": name, "type": "notebook", "name": name, "kernel": {"name": "python3"}}
        headers = {"Authorization": f"token {self.token}"}
        request = urllib.request.Request(f"{self.url}api/sessions", json.dumps(session).encode(), headers)
        urllib.request.urlopen(request, timeout=60).close()


@contextmanager
def served(place: Path, *, work: str = "work", projector: bool = False) -> Iterator[Served]:
    """JupyterLab as `bitepoint open` starts it, on the folder `work` of a place of its own."""
    folder, state = place / work, place / "state"
    folder.mkdir(parents=True)
    options = ("--LabApp.expose_app_in_browser=True",)
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("BITEPOINT_STATE", str(state))
        server = Server(folder, runtime_folder_of(folder), port=9100, options=options, projector=projector).__enter__()
    try:
        found = server.wait_ready()
        yield Served(folder, server.runtime, found.address, found.token, state)
    finally:
        server.stop()


@contextmanager
def browser() -> Iterator[Browser]:
    """Chromium, unable to reach any host but this one."""
    with sync_playwright() as driver:
        opened = driver.chromium.launch(executable_path=chromium(), args=CHROMIUM_OPTIONS)
        yield opened
        opened.close()


class Lesson:
    """One notebook open in JupyterLab: `page` is Playwright's, the methods are what a person does.

    `errors` gathers what a control's script raised and nobody caught. JupyterLab's own errors are not ours: now and
    then it fails to take its old theme's style sheet off the page.
    """

    def __init__(
        self, server: Served, browser: Browser, *, width: int = 1100, height: int = 1000, touch: bool = False
    ) -> None:
        self.server = server
        self.page: Page = browser.new_page(
            viewport={"width": width, "height": height}, reduced_motion="reduce", has_touch=touch, is_mobile=touch
        )
        self.page.set_default_timeout(20_000)
        self.errors: list[str] = []
        self.page.on("pageerror", self._keep_error)

    def _keep_error(self, error: Any) -> None:
        # A control's script is loaded from a blob: address, JupyterLab's from http:.
        if "blob:" in (error.stack or ""):
            self.errors.append(str(error))

    def open(self, name: str, *, run: bool = True) -> Self:
        """Open a notebook of the server's folder, wait until its kernel answers, run it all."""
        self.page.goto(f"{self.server.url}doc/tree/{quote(name)}?token={self.server.token}&reset")
        self.wait_ready()
        if run:
            self.run_all()
        return self

    def reload(self) -> None:
        """Load the page again; the kernel stays alive."""
        self.page.reload()
        self.wait_ready()

    def wait_ready(self) -> None:
        """Wait for the application, the notebook, its session and its kernel."""
        self.page.evaluate(READY)

    def command(self, name: str, **arguments: Any) -> None:
        """Run one of JupyterLab's commands and wait for it."""
        self.page.evaluate(
            "async ([name, args]) => { await window.jupyterapp.commands.execute(name, args); }",
            [name, arguments],
        )

    def run_all(self) -> None:
        """Run every cell and wait until the kernel has answered them all."""
        self.command("notebook:run-all-cells")

    def run_instead(self, at: int, source: str) -> None:
        """Write something else into a cell and run it."""
        self.page.evaluate(
            f"""([at, source]) => {{
              {PANEL}.content.activeCellIndex = at;
              {PANEL}.content.activeCell.model.sharedModel.setSource(source);
            }}""",
            [at, source],
        )
        self.command("notebook:run-cell")

    def save(self) -> None:
        """Save the notebook and wait until it is on disk."""
        self.page.evaluate(f"async () => {{ await {PANEL}.context.save(); }}")

    def theme(self, dark: bool) -> None:
        """Switch JupyterLab's theme."""
        self.command("apputils:change-theme", theme="JupyterLab Dark" if dark else "JupyterLab Light")
        self.page.wait_for_function(f"() => document.body.dataset.jpThemeLight === '{str(not dark).lower()}'")

    def cells(self) -> list[dict[str, Any]]:
        """The cells as JupyterLab holds them now (unsaved changes included)."""
        found: list[dict[str, Any]] = self.page.evaluate(f"() => {PANEL}.content.model.toJSON().cells")
        return found

    def ask_kernel(self, expression: str) -> Any:
        """Value of a Python expression in the notebook's kernel, by way of JSON; no cell is touched."""
        code = f"import json as _json; print(_json.dumps({expression}))"
        reply = self.page.evaluate(
            f"""async (code) => {{
              const kernel = {PANEL}.sessionContext.session.kernel;
              const future = kernel.requestExecute({{code, store_history: false}});
              let text = '';
              future.onIOPub = (message) => {{ text += message.content.text ?? message.content.evalue ?? ''; }};
              await future.done;
              return text;
            }}""",
            code,
        )
        return json.loads(reply)

    def wait_kernel(self, expression: str, expected: Any, *, seconds: float = 5) -> None:
        """Ask the kernel until it gives what is expected; fail with what it gave last."""
        until = time.monotonic() + seconds
        while (found := self.ask_kernel(expression)) != expected and time.monotonic() < until:
            self.page.wait_for_timeout(50)
        assert expected == found

    def close(self) -> None:
        """Shut the kernel down and close the page."""
        self.page.evaluate(f"async () => {{ await {PANEL}.sessionContext.shutdown(); }}")
        self.page.context.close()


def found_by_axe(lesson: Lesson, axe: Path, *, dark: bool) -> list[str]:
    """Run all of a notebook in one of the themes; return what axe-core finds wrong inside its controls and cards."""
    lesson.run_all()
    lesson.theme(dark)
    lesson.page.add_script_tag(path=axe)
    expect(lesson.page.locator(".bp-root").first).to_be_visible()
    # The colours of a theme fade in.
    lesson.page.wait_for_timeout(300)
    roots, passed, violations = lesson.page.evaluate(AXE)
    lesson.theme(False)
    assert roots >= 1, "nothing of ours is on the page"
    assert passed >= 5, f"only {passed} rules were tried"
    return list(violations)
