"""Set the course up in this folder and open it, or pass its tests: `python3 lib/set_up.py open` or `... test`.

What follows on the line goes on to `bitepoint open` or to pytest. Everything is put into `.venv` of this folder; the second
time nothing is installed again unless a file of the course has changed. In a bundle the parts lie beside this folder in
`wheels`: then nothing is loaded from the net, and the environment stands in the home folder, because a stick goes on to
the next computer. Written in letters and words that any old Python
can read: it then says in one line what is missing, where pip would say it in twenty.
"""

import hashlib
import io
import os
import platform
import shutil
import subprocess
import sys

NEEDED = (3, 11)
NEWEST_ASKED_FOR = 30
DONE, WRONG, MACHINE = 0, 2, 3
ROOT = os.path.dirname(os.path.dirname(os.path.abspath(__file__)))
WHEELS = os.path.join(ROOT, "wheels")
MADE_FOR = os.path.join(WHEELS, "made-for.txt")
BUNDLE = os.path.isfile(MADE_FOR)
ENVIRONMENT = os.path.join(os.path.expanduser("~"), "clutch-course-program") if BUNDLE else os.path.join(ROOT, ".venv")
STAMP = os.path.join(ENVIRONMENT, "set-up.txt")
# Windows has its own name for the folder of programs.
PROGRAMS = os.path.join(ENVIRONMENT, "Scripts" if os.name == "nt" else "bin")
PARTS = {"open": "bitepoint"} if BUNDLE else {"open": ".", "test": ".[test]"}
# Nothing that this computer says to pip otherwise counts: neither an index nor other versions. What is needed is compiled
# when it is first loaded; all of it would take longer than the rest.
FROM_BUNDLE = ["--isolated", "--no-index", "--no-compile", "--find-links", WHEELS]


def main(arguments):
    """Do what was asked for and return the exit status."""
    what = arguments[0] if arguments else ""
    if what not in PARTS:
        more = "" if BUNDLE else ", ... test (passes the tests)"
        return failed("say what to do: python3 lib/set_up.py open (opens the course)" + more + ".", WRONG)
    problem = other_machine() or too_old(tuple(sys.version_info[:3]), what) or no_environments()
    if problem:
        return failed(problem, MACHINE)
    os.chdir(ROOT)
    return installed(what) or run(what, arguments[1:])


def other_machine():
    """Return in one line why this bundle is not for this Python or this system, "" if it is or there is no bundle."""
    if not BUNDLE:
        return ""
    # Python 2 has no such argument at its own open.
    with io.open(MADE_FOR, encoding="ascii") as made_for:  # noqa: UP020
        least, system, processor = made_for.read().split()
    wanted = tuple(int(part) for part in least.split("."))
    here = (platform.system(), platform.machine())
    right_python = sys.version_info[:2] == wanted[:2] and sys.version_info[:3] >= wanted
    if right_python and here == (system, processor):
        return ""
    python = "Python " + dotted(wanted[:2]) + " (" + least + " or later)"
    said = "this bundle is for " + python + " on " + named(system, processor)
    said += ", and this is Python " + dotted(sys.version_info[:3]) + " on " + named(*here) + ". "
    if here != (system, processor):
        return said + "Ask for a bundle made on a computer like this one."
    return said + "Install " + python + " and start again; or ask for a bundle made with this one."


def named(system, processor):
    """Return system and processor as they are said."""
    return ("macOS" if system == "Darwin" else system) + " (" + processor + ")"


def too_old(version, what):
    """Return in one line why this Python will not do, "" if it will."""
    if version >= NEEDED:
        return ""
    said = "this is Python " + dotted(version) + ", and the course needs " + dotted(NEEDED) + " or newer. "
    # A Python before 3.3 cannot look for another.
    newer = newer_python() if hasattr(shutil, "which") else ""
    if newer:
        return said + "This computer has one: type " + newer + " lib/set_up.py " + what
    return (
        said + "Install a newer one beside it and type the same line with its name, such as python3.13; or ask your IT."
    )


def newer_python():
    """Return the command of a Python on this computer that will do, the newest first; "" if none answers."""
    for minor in range(NEWEST_ASKED_FOR, NEEDED[1] - 1, -1):
        name = "python3." + str(minor)
        # A command may be there and lead nowhere.
        if shutil.which(name) and quiet([name, "-c", "import venv, ensurepip"]):
            return name
    return ""


def no_environments():
    """Return in one line what is missing for an environment; some systems ship Python in parts."""
    try:
        import ensurepip  # noqa: F401
        import venv  # noqa: F401
    except ImportError:
        part = "python" + dotted(sys.version_info[:2]) + "-venv"
        return "this Python comes without its part for environments. On Debian and Ubuntu: sudo apt install " + part
    return ""


def installed(what):
    """Install the course into its environment where that is not so yet; return the exit status."""
    now = state()
    if current(what, now):
        return DONE
    if BUNDLE:
        print("Setting up the course in " + ENVIRONMENT + ", without the net. The first time only: about a minute.")
    else:
        print("Setting up the course in this folder. The first time this loads its parts from the net: a few minutes.")
    sys.stdout.flush()
    # Among wheels pip is content with what is there already, and would leave the course of an older bundle.
    fresh = ["--clear"] if BUNDLE or not same_python() else []
    if subprocess.call([sys.executable, "-m", "venv"] + fresh + [ENVIRONMENT]):
        return failed("no environment could be made in " + ENVIRONMENT + ". Is the folder yours to write in?", MACHINE)
    source = FROM_BUNDLE if BUNDLE else []
    if subprocess.call([program("python"), "-m", "pip", "install", "-q"] + source + [PARTS[what]]):
        mostly = (
            "the copy of the bundle is not whole: copy it again." if BUNDLE else "the net is closed to it: ask your IT."
        )
        return failed("the course could not be installed; pip says why above. Mostly " + mostly, MACHINE)
    with open(STAMP, "w", encoding="ascii") as stamp:
        stamp.write(PARTS[what] + " " + now)
    return DONE


def current(what, now):
    """Whether this very course is installed by this Python, with the tests' parts where they are asked for."""
    try:
        with open(STAMP, encoding="ascii") as stamp:
            parts, _, then = stamp.read().partition(" ")
    except OSError:
        return False
    return then == now and parts in (PARTS[what], PARTS.get("test")) and same_python()


def same_python():
    """Whether the environment's Python answers and is of this version."""
    mine = dotted(sys.version_info[:2])
    return quiet(
        [program("python"), "-c", "import sys; sys.exit(sys.version[:" + str(len(mine)) + "] != '" + mine + "')"]
    )


def state():
    """Return a digest of name, size and time of each file that is installed."""
    # A bundle's folder may lie elsewhere on each computer, or the stick have another letter: its wheels decide.
    found = [] if BUNDLE else [os.path.join(ROOT, "pyproject.toml")]
    for part in ("wheels",) if BUNDLE else ("assets", "course", "lib"):
        for folder, _, names in os.walk(os.path.join(ROOT, part)):
            if "__pycache__" not in folder and ".ipynb_checkpoints" not in folder:
                found += [os.path.join(folder, name) for name in names]
    said = [[os.path.relpath(path, ROOT), os.stat(path).st_size, when(path)] for path in sorted(found)]
    return hashlib.sha256(repr(["" if BUNDLE else ROOT, said]).encode("utf-8", "surrogateescape")).hexdigest()


def when(path):
    """Return a file's time; a stick may tell another one on each computer, so that of a bundle does not count."""
    return 0 if BUNDLE else os.stat(path).st_mtime


def run(what, more):
    """Open the course or run the tests, in place of this program where the system can; return the exit status."""
    line = [program("pytest")] if what == "test" else [program("python"), "-P", "-m", "bitepoint", "open"]
    sys.stdout.flush()
    if os.name != "nt":
        os.execv(line[0], line + more)
    try:
        return subprocess.call(line + more)
    except KeyboardInterrupt:
        # The course heard it too and says itself that it is closed.
        return DONE


def program(name):
    """Return the path of a program of the environment."""
    return os.path.join(PROGRAMS, name + (".exe" if os.name == "nt" else ""))


def quiet(line):
    """Whether a command ends well; what it prints is left out."""
    try:
        return subprocess.call(line, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL) == 0
    except OSError:
        return False


def dotted(version):
    """Return a version as it is written."""
    return ".".join(str(part) for part in version)


def failed(said, status):
    """Say one line and return the exit status."""
    sys.stderr.write("set_up: " + said + "\n")
    return status


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
