"""JupyterLab on one workbook: started, watched and stopped. On loopback only, with a token."""

import contextlib
import os
import secrets
import socket
import subprocess
import sys
import time
from pathlib import Path
from typing import Self

from bitepoint.errors import CannotRun
from bitepoint.workbook.running import Running, running
from bitepoint.workbook.runtime_folder import environment, write_settings
from bitepoint.workshop.datafiles import DataFiles

FIRST_PORT = 8888
PORTS_TRIED = 50
START_SECONDS = 60
STOP_SECONDS = 10
LOG = "server.log"


def free_port(first: int = FIRST_PORT) -> int:
    """Return the first port from `first` on that nobody listens on.

    Raises
    ------
    CannotRun
        Fifty ports in a row are taken.
    """
    last = min(first + PORTS_TRIED, 65536)
    for port in range(first, last):
        with socket.socket() as probe, contextlib.suppress(OSError):
            if os.name == "posix":
                probe.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
            probe.bind(("127.0.0.1", port))
            return port
    raise CannotRun(f"The ports {first} to {last - 1} are taken. Choose another: bitepoint open --port 9500")


def is_root() -> bool:
    """Whether the program runs with the rights of the system's administrator (as in a container)."""
    return hasattr(os, "geteuid") and os.geteuid() == 0


def command(workbook: Path, *, port: int, options: tuple[str, ...] = ()) -> list[str]:
    """Return the command line of the server: this very Python, nothing searched for on the PATH."""
    line = [sys.executable, "-P", "-m", "bitepoint.workbook.lab_process", "--no-browser", "--ip=127.0.0.1"]
    line += [f"--ServerApp.port={port}", f"--ServerApp.port_retries={PORTS_TRIED}"]
    line += [f"--ServerApp.root_dir={workbook}", *options]
    return [*line, "--allow-root"] if is_root() else line


class Server:
    """A server on a workbook. `with Server(workbook, runtime) as server:` starts it and stops it."""

    def __init__(
        self,
        workbook: Path,
        runtime: Path,
        *,
        port: int = FIRST_PORT,
        options: tuple[str, ...] = (),
        projector: bool = False,
        files: DataFiles | None = None,
    ) -> None:
        self.files = files
        self.workbook, self.runtime, self.port, self.options = workbook, runtime, port, options
        self.projector = projector
        self.token = secrets.token_hex(20)
        self._process: subprocess.Popen[bytes] | None = None

    def __enter__(self) -> Self:
        write_settings(self.runtime, projector=self.projector, files=self.files)
        line = command(self.workbook, port=free_port(self.port), options=self.options)
        with self.log.open("wb") as log:
            self._process = subprocess.Popen(
                line,
                cwd=self.runtime,
                env=environment(self.runtime, token=self.token),
                stdin=subprocess.DEVNULL,
                stdout=log,
                stderr=subprocess.STDOUT,
                # Ctrl+C reaches us alone; we stop the server, and it stops its kernels.
                start_new_session=os.name == "posix",
                creationflags=getattr(subprocess, "CREATE_NEW_PROCESS_GROUP", 0),
            )
        return self

    def __exit__(self, *reason: object) -> None:
        self.stop()

    @property
    def log(self) -> Path:
        """The file with everything the server prints."""
        return self.runtime / LOG

    def wait_ready(self) -> Running:
        """Return where the server answers, as soon as it does.

        Raises
        ------
        CannotRun
            It ended, or did not answer within a minute; the message has its last words.
        """
        until = time.monotonic() + START_SECONDS
        while time.monotonic() < until and self.alive:
            if found := running(self.runtime):
                return found
            time.sleep(0.03)
        raise CannotRun(f"JupyterLab did not start: {last_words(self.log)} Next: bitepoint check-machine")

    @property
    def alive(self) -> bool:
        """Whether the server process runs."""
        return self._process is not None and self._process.poll() is None

    def stop(self) -> None:
        """Stop the server and its kernels: asked first, told next, ended last."""
        process = self._process
        if process is None or process.poll() is not None:
            return
        found = running(self.runtime)
        if not (found and found.stop()):
            process.terminate()
        for step in (process.terminate, process.kill):
            try:
                process.wait(STOP_SECONDS)
                return
            except subprocess.TimeoutExpired:
                step()
        process.wait(STOP_SECONDS)


def last_words(log: Path) -> str:
    """Return the last line of a log that says what went wrong, or its last line at all."""
    try:
        lines = [line.strip() for line in log.read_text(encoding="utf-8", errors="replace").splitlines()]
    except OSError:
        lines = []
    lines = [line for line in lines if line]
    telling = [line for line in lines if line.startswith(("[C ", "[E ")) or "Error:" in line]
    return ([*lines[-1:], *telling[-1:]] or ["it printed nothing."])[-1][:300]
