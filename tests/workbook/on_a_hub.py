"""Run as root in mounts, a network and a list of processes of its own: hold a class on a hub and say as JSON what was seen.

Arguments: a folder to put everything in, the folder of the class. Passwords, homes and /srv are replaced by copies that end
with the mounts: nothing that happens here can be left behind. The files of docs/hosting are run as they stand.
"""

import ast
import json
import os
import pwd
import re
import shutil
import signal
import subprocess
import sys
import time
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from typing import Any
from uuid import uuid4

import httpx
import websocket

sys.path.insert(0, str(Path(__file__).parents[1] / "classroom"))
from without_routes import raise_loopback

HOSTING = Path(__file__).parents[2] / "docs" / "hosting"
HUB = "http://127.0.0.1:8000"
STAFF = "hart"
LESSON, EXERCISE = "00-start-here.ipynb", "start.number"
MOST_SECONDS = 240
PASSED_ON = {key: value for key, value in os.environ.items() if key in {"PATH", "PYTHONPATH", "LANG", "LC_ALL"}}

# What the page asks, runs and presses; and what a curious learner types.
SAFE = '__import__("sys").flags.safe_path and "" not in __import__("sys").path'
HAND_IN = '__import__("bitepoint.page.progress", fromlist=["progress"]).hand_in("start")'
CURIOUS = """
import os
def tried(do):
    try:
        return repr(do())
    except OSError as error:
        return type(error).__name__
other, work = {other!r}, "/srv/clutch/work/"
seen = dict(
    own=sorted(os.listdir(work + {own!r}))[0],
    listed=tried(lambda: os.listdir(work + other)),
    read=tried(lambda: open(work + other + "/workbook.toml").read()),
    written=tried(lambda: open(work + other + "/{lesson}", "a")),
    all=tried(lambda: os.listdir(work)),
    home=tried(lambda: os.listdir("/home/" + other)),
    hub=tried(lambda: os.listdir("/srv/clutch/hub")),
    start=tried(lambda: open("/srv/clutch/start/" + {own!r} + ".toml", "a")),
)
"""
ENCRYPTED = "__import__('ipykernel.kernelapp', fromlist=['x']).IPKernelApp.instance().curve_publickey is not None"


def make_own_places(base: Path) -> None:
    """Put copies of their own in place of the accounts, the homes and what the hub serves."""
    shutil.copytree("/etc", base / "etc", symlinks=True)
    for name in ("etc", "home", "srv"):
        (base / name).mkdir(exist_ok=True)
        (base / name).chmod(0o755)
        subprocess.run(["mount", "--bind", base / name, f"/{name}"], check=True)


def show_program(base: Path) -> None:
    """Where Python or the course lie in a closed home, show them there to every account, and nothing else of that home."""
    wanted = {Path(sys.base_prefix), Path(sys.prefix), Path(__file__).parents[2]}
    closed = {found for path in wanted if (found := closed_above(path))}
    for number, home in enumerate(sorted(closed)):
        shown = base / f"shown-{number}"
        for path in sorted(path for path in wanted if home in path.parents):
            (shown / path.relative_to(home)).mkdir(parents=True, exist_ok=True)
            subprocess.run(["mount", "--bind", path, shown / path.relative_to(home)], check=True)
        subprocess.run(["mount", "--rbind", shown, home], check=True)


def closed_above(path: Path) -> Path | None:
    """The uppermost folder above a path that other accounts cannot pass through."""
    return next((p for p in reversed(path.parents) if not p.stat().st_mode & 0o001), None)


def make_accounts(class_folder: Path) -> dict[str, str]:
    """Make the accounts of the class by the script of the page, and one of the staff; return the passwords by account."""
    script = ["sh", str(HOSTING / "add_learners.sh"), str(class_folder)]
    said = subprocess.run(script, check=True, capture_output=True, text=True, encoding="utf-8").stdout
    again = subprocess.run(script, check=True, capture_output=True, text=True, encoding="utf-8").stdout
    assert re.sub(r"password \w+", "has its password", said) == again
    subprocess.run(["useradd", "--create-home", "--groups", "clutch-staff", STAFF], check=True)
    return dict(re.findall(r"^(\S+) password (\S+)$", said, re.M))


def start_hub(log: Path) -> None:
    """The hub as the page starts it, given once it answers. It ends with its list of processes, and they all do."""
    line = [sys.executable, "-P", "-m", "jupyterhub", "--config", str(HOSTING / "jupyterhub_config.py")]
    with log.open("wb") as stream:
        process = subprocess.Popen(line, env=PASSED_ON, cwd="/", stdout=stream, stderr=subprocess.STDOUT)
    while not answers():
        if process.poll() is not None:
            raise SystemExit(f"the hub ended: {log.read_text(encoding='utf-8')[-2000:]}")
        time.sleep(0.05)


def answers() -> bool:
    """Whether the hub answers yet."""
    try:
        return httpx.get(f"{HUB}/hub/health", trust_env=False).is_success
    except httpx.TransportError:
        return False


class Browser:
    """What the browser of one learner does, page after page."""

    def __init__(self, account: str) -> None:
        self.account = account
        self.http = httpx.Client(base_url=HUB, follow_redirects=True, timeout=60, trust_env=False)

    def log_in(self, password: str) -> int:
        """Log in and return the status; the hub's page for it has a field against forged requests."""
        self.http.get("/hub/login")
        form = {"username": self.account, "password": password, "_xsrf": self._xsrf("/hub/")}
        return self.http.post("/hub/login?next=/hub/home", data=form).status_code

    def spawn(self) -> None:
        """Have the server started and wait until the hub says that it is ready."""
        self.http.get(f"/hub/spawn/{self.account}")
        progress = f"/hub/api/users/{self.account}/server/progress"
        headers = {"X-XSRFToken": self._xsrf("/hub/"), "Referer": f"{HUB}/hub/home"}
        with self.http.stream("GET", progress, headers=headers) as events:
            events.raise_for_status()
            for line in events.iter_lines():
                told = json.loads(line[5:]) if line.startswith("data:") else {}
                if told.get("failed"):
                    raise SystemExit(f"{self.account}: {told}")
                if told.get("ready"):
                    return
        raise SystemExit(f"{self.account}: the server never became ready")

    def page(self) -> httpx.Response:
        """Open what the hub leads to after the start."""
        return self.http.get(f"/user/{self.account}/")

    def status(self, path: str) -> int:
        """Return the status that a page is answered with in the end."""
        return self.http.get(path).status_code

    def kernel(self) -> "Kernel":
        """Start a kernel as the page does."""
        headers = {"X-XSRFToken": self._xsrf(f"/user/{self.account}/")}
        asked = {"path": LESSON, "name": LESSON, "type": "notebook", "kernel": {"name": "python3"}}
        made = self.http.post(f"/user/{self.account}/api/sessions", json=asked, headers=headers)
        made.raise_for_status()
        path = f"/user/{self.account}/api/kernels/{made.json()['kernel']['id']}/channels"
        fitting = [cookie for cookie in self.http.cookies.jar if path.startswith(cookie.path)]
        cookies = "; ".join(f"{cookie.name}={cookie.value}" for cookie in fitting)
        socket = websocket.create_connection(HUB.replace("http", "ws") + path, cookie=cookies, origin=HUB, timeout=60)
        return Kernel(socket)

    def _xsrf(self, path: str) -> str:
        return next(c.value or "" for c in self.http.cookies.jar if c.name == "_xsrf" and c.path == path)


class Kernel:
    """A kernel behind the hub, asked over its web socket."""

    def __init__(self, socket: Any) -> None:
        self.socket = socket

    def run(self, code: str, **expressions: str) -> dict[str, Any]:
        """Run code and return what the expressions came to, or stop with the error."""
        header = {"msg_id": uuid4().hex, "msg_type": "execute_request", "username": "", "session": uuid4().hex}
        content = {"code": code, "silent": False, "user_expressions": expressions, "allow_stdin": False}
        message = {"header": header | {"version": "5.3", "date": ""}, "parent_header": {}, "metadata": {}}
        self.socket.send(json.dumps({**message, "content": content, "channel": "shell", "buffers": []}))
        while True:
            reply = json.loads(self.socket.recv())
            if (reply["parent_header"].get("msg_id"), reply["msg_type"]) == (header["msg_id"], "execute_reply"):
                break
        if reply["content"]["status"] != "ok":
            raise SystemExit(f"{code}: {reply['content']}")
        return {key: told.get("data", told) for key, told in reply["content"]["user_expressions"].items()}


def work(account: str, password: str, other: str) -> dict[str, Any]:
    """One learner's first lesson: log in, start, open it, answer, hand in; and look at the other's work."""
    browser = Browser(account)
    refused, welcomed = browser.log_in("not the password"), browser.log_in(password)
    browser.spawn()
    page = browser.page()
    lesson = browser.http.get(f"/user/{account}/api/contents/{LESSON}").json()
    cells = ["".join(cell["source"]) for cell in lesson["content"]["cells"] if cell["cell_type"] == "code"]
    kernel = browser.kernel()
    safe = kernel.run("", it=SAFE, encrypted=ENCRYPTED)
    for cell in [cells[0], *(cell for cell in cells if cell == f'ask("{EXERCISE}")')]:
        kernel.run(cell)
    kernel.run(f'ask("{EXERCISE}", "49 N·m")')
    kernel.run(CURIOUS.format(own=account, other=other, lesson=LESSON))
    found = kernel.run("", handed=HAND_IN, seen="seen")
    return {
        "logged in": [refused, welcomed],
        "opened": str(page.url.path),
        "awake": "bitepoint-awake" in page.text and browser.status(awake_script(page.text, account)),
        "safe": safe["it"]["text/plain"],
        "encrypted": safe["encrypted"]["text/plain"],
        "handed in": found["handed"]["application/json"],
        "seen": ast.literal_eval(found["seen"]["text/plain"]),
        "browser": browser,
    }


def awake_script(page: str, account: str) -> str:
    """Return the address of what wakes a lesson, from the page's list of extensions."""
    extensions = json.loads(re.findall(r'<script id="jupyter-config-data"[^>]*>(.*?)</script>', page, re.S)[0])
    (ours,) = [entry for entry in extensions["federated_extensions"] if entry["name"] == "bitepoint-awake"]
    return f"/user/{account}/lab/extensions/bitepoint-awake/{ours['load']}"


def across(browser: Browser, other: str) -> dict[str, int]:
    """The statuses that the other's server answers this learner with; the other's runs meanwhile."""
    paths = [f"/user/{other}/{path}" for path in ("lab", "api/contents/workbook.toml", "files/workbook.toml")]
    return {path: browser.status(path) for path in [*paths, f"/hub/api/users/{other}", "/hub/admin"]}


def board(base: Path) -> dict[str, Any]:
    """What the account of the staff sees, and where it may write."""
    out = Path("/home", STAFF, "board.html")
    as_staff = ["setpriv", f"--reuid={STAFF}", f"--regid={STAFF}", "--init-groups"]
    line = [
        *as_staff,
        sys.executable,
        "-P",
        "-m",
        "bitepoint",
        "board",
        "/srv/clutch/work",
        "--names",
        "--once",
        str(out),
    ]
    subprocess.run(line, check=True, env=PASSED_ON | {"HOME": f"/home/{STAFF}"}, cwd="/", capture_output=True)
    folders = sorted(Path("/srv/clutch/work").iterdir())
    writes = [folder.name for folder in folders if not subprocess.run([*as_staff, "test", "-w", folder]).returncode]
    collect = "mkdir hand-ins && cp /srv/clutch/work/*/hand-in/*.zip hand-ins"
    subprocess.run([*as_staff, "sh", "-c", collect], check=True, cwd=f"/home/{STAFF}")
    text = re.sub(r"\s+", " ", re.sub(r"<[^>]+>", " ", out.read_text(encoding="utf-8")))
    shutil.copy(out, base / "board.html")
    handed = sorted(path.name for path in Path("/home", STAFF, "hand-ins").iterdir())
    return {"text": text, "writes": writes, "handed in": handed}


def megabytes(account: str) -> float:
    """Return the memory that an account's server and kernel take now, what they share with others in parts."""
    user = pwd.getpwnam(account).pw_uid
    own = [place for place in Path("/proc").glob("[0-9]*") if place.stat().st_uid == user]
    found = [re.findall(r"^Pss: +(\d+) kB", (place / "smaps_rollup").read_text(), re.M)[0] for place in own]
    return sum(map(int, found)) / 1024


def main(base: Path, class_folder: Path) -> None:
    """Hold the class."""
    signal.alarm(MOST_SECONDS)
    raise_loopback()
    make_own_places(base)
    show_program(base)
    passwords = make_accounts(class_folder)
    first, second = sorted(passwords)
    begun = time.monotonic()
    start_hub(base / "hub.log")
    up = time.monotonic()
    with ThreadPoolExecutor(2) as pool:
        found = list(pool.map(work, (first, second), (passwords[first], passwords[second]), (second, first)))
    for learner, other in zip(found, (second, first), strict=True):
        learner["across"] = across(learner.pop("browser"), other)
    worked = time.monotonic()
    memory = {account: round(megabytes(account)) for account in passwords}
    seen = board(base)
    seconds = {"hub up": up - begun, "learners": worked - up, "board": time.monotonic() - worked}
    learners = dict(zip((first, second), found, strict=True))
    json.dump({"learners": learners, "board": seen, "seconds": seconds, "memory": memory}, sys.stdout)


if __name__ == "__main__":
    main(*map(Path, sys.argv[1:]))
