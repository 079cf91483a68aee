"""One real JupyterLab server and one Chromium, with the few moves a test makes in them.

Nothing here waits on a text or a fixed time: JupyterLab says by promises when it is ready. After a text such as
"Idle" a Run All is now and then silently dropped; after these promises it never was.
"""

import json
import os
import secrets
import shutil
import subprocess
import sys
import time
import urllib.request
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any, Self

from playwright.sync_api import Browser, Page, sync_playwright

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
SETTINGS = {
    "@jupyterlab/apputils-extension:notification": {"fetchNews": "false", "checkForUpdates": False},
    "@jupyterlab/docmanager-extension:plugin": {"autosave": False},
}
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


class Server:
    """A JupyterLab on loopback whose settings, data and runtime files stay inside `folder`.

    `work` is the folder the browser sees. Start it with `with Server(folder) as server:`.
    """

    def __init__(self, folder: Path, *, environment: dict[str, str] | None = None) -> None:
        self.folder, self.work = folder, folder / "work"
        self.token = secrets.token_hex(16)
        self._environment = environment or {}
        self._process: subprocess.Popen[bytes] | None = None
        self.url = ""

    def __enter__(self) -> Self:
        self.work.mkdir(parents=True, exist_ok=True)
        settings = self.folder / "config" / "labconfig" / "default_setting_overrides.json"
        settings.parent.mkdir(parents=True)
        settings.write_text(json.dumps(SETTINGS), encoding="utf-8")
        with self._log().open("wb") as log:
            self._process = subprocess.Popen(self._command(), env=self._env(), stdout=log, stderr=log)
        self.url = self._wait_for_url()
        return self

    def __exit__(self, *reason: object) -> None:
        assert self._process is not None
        self._process.terminate()
        try:
            self._process.wait(20)
        except subprocess.TimeoutExpired:
            self._process.kill()
            self._process.wait(20)

    def _log(self) -> Path:
        return self.folder / "server.log"

    def _command(self) -> list[str]:
        options = [
            "--no-browser",
            "--allow-root",
            "--ip=127.0.0.1",
            "--ServerApp.port=0",
            f"--ServerApp.root_dir={self.work}",
            "--LabApp.expose_app_in_browser=True",
            "--LabApp.extension_manager=readonly",
        ]
        return [sys.executable, "-m", "jupyterlab", *options]

    def _env(self) -> dict[str, str]:
        inside = {f"JUPYTER_{kind.upper()}_DIR": str(self.folder / kind) for kind in ("config", "data", "runtime")}
        lab = {f"JUPYTERLAB_{kind.upper()}_DIR": str(self.folder / kind) for kind in ("settings", "workspaces")}
        ours = {"IPYTHONDIR": str(self.folder / "ipython"), "JUPYTER_TOKEN": self.token}
        return os.environ | inside | lab | ours | self._environment

    def _wait_for_url(self) -> str:
        assert self._process is not None
        until = time.monotonic() + 60
        while time.monotonic() < until and self._process.poll() is None:
            for found in (self.folder / "runtime").glob("jpserver-*.json"):
                address = f"http://127.0.0.1:{json.loads(found.read_text(encoding='utf-8'))['port']}/"
                if _answers(f"{address}api/status?token={self.token}"):
                    return address
            time.sleep(0.1)
        raise RuntimeError("JupyterLab did not start:\n" + self._log().read_text(encoding="utf-8")[-3000:])


def _answers(address: str) -> bool:
    try:
        with urllib.request.urlopen(address, timeout=5) as reply:
            return bool(reply.status == 200)
    except (OSError, ValueError):
        return False


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

    def __init__(self, server: Server, browser: Browser, *, width: int = 1100, height: int = 1000) -> None:
        self.server = server
        self.page: Page = browser.new_page(viewport={"width": width, "height": height}, reduced_motion="reduce")
        self.page.set_default_timeout(15_000)
        self.errors: list[str] = []
        self.page.on("pageerror", self._keep_error)

    def _keep_error(self, error: Any) -> None:
        # A control's script is loaded from a blob: address, JupyterLab's from http:.
        if "blob:" in (error.stack or ""):
            self.errors.append(str(error))

    def open(self, name: str, *, run: bool = True) -> Self:
        """Open a notebook of the server's folder, wait until its kernel answers, run it all."""
        self.page.goto(f"{self.server.url}doc/tree/{name}?token={self.server.token}&reset")
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
        self.page.close()
