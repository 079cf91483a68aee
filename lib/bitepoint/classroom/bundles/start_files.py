"""The files of a bundle to double-click: they look for a Python and hand over to the script that sets the course up."""

import shlex

SYSTEMS = {"Linux": "sh", "Darwin": "command", "Windows": "bat"}
_EVERY_PYTHON = ("python3", "python")

_POSIX = """\
#!/bin/sh
# Opens the course from this bundle. Nothing is loaded from the net.{tried}
here=$(CDPATH= cd -- "$(dirname -- "$0")/{up}" && pwd) || exit 3
status=3
chosen=
for python in {pythons}; do
    command -v "$python" >/dev/null 2>&1 && "$python" -c "" >/dev/null 2>&1 || continue
    chosen=$python
    "$python" -c "import sys; sys.exit(not {least} <= sys.version_info[:3] < {next})" && break
done
if [ "$chosen" ]; then
    "$chosen" "$here/lib/set_up.py" open{more} "$@" && exit
    status=$?
else
    echo "There is no Python on this computer. This bundle needs Python {version}: see README.html beside it." >&2
fi
[ -t 0 ] && {{ printf 'Press Enter to close this window. '; read -r _; }}
exit $status
"""

_WINDOWS = """\
@echo off
rem Opens the course from this bundle. Nothing is loaded from the net. Not run by us on Windows.
chcp 65001 >nul
set "here=%~dp0{up}."
set "python=py -{version}"
%python% -c "" >nul 2>nul
if errorlevel 1 set "python=python"
%python% -c "" >nul 2>nul
if errorlevel 1 goto none
%python% "%here%\\lib\\set_up.py" open{more} %*
if errorlevel 1 pause
exit /b
:none
echo There is no Python on this computer. This bundle needs Python {version}: see README.html beside it.
pause
exit /b 3
"""


def start_text(system: str, least: str, *, learner: str = "", sitting: str = "") -> str:
    """Return the text of the file for a system; a learner's own stands one folder deeper and names their start file.

    A sitting has a folder of its own, where nothing was practised. `least` is the oldest Python that will do, such as 3.11.5.
    """
    major, minor, micro = map(int, least.split("."))
    version = f"{major}.{minor}"
    if system == "Windows":
        folder = f' "%USERPROFILE%\\{_in_batch("sitting-" + sitting)}"' if sitting else ""
        more = f'{folder} --class-file "%~dp0{learner}.toml"' if learner else ""
        text = _WINDOWS.format(up="..\\" if learner else "", version=version, more=more)
        return text.replace("\n", "\r\n")
    folder = f' "$HOME"/{shlex.quote("sitting-" + sitting)}' if sitting else ""
    more = f'{folder} --class-file "$here/learners/{learner}.toml"' if learner else ""
    pythons = " ".join((f"python{version}", *_EVERY_PYTHON))
    return _POSIX.format(
        up=".." if learner else "",
        version=version,
        pythons=pythons,
        more=more,
        tried=" Not run by us on macOS." if system == "Darwin" else "",
        least=(major, minor, micro),
        next=(major, minor + 1),
    )


def start_name(system: str, learner: str = "") -> str:
    """Return the name of the file that is double-clicked."""
    return f"Open the course{' ' + learner if learner else ''}.{SYSTEMS[system]}"


def _in_batch(text: str) -> str:
    return text.replace("%", "%%")
