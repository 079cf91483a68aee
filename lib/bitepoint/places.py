"""Where the course and the data files are: inside the installed wheel, or in a checkout."""

from pathlib import Path

_PACKAGE = Path(__file__).parent
_CHECKOUT = _PACKAGE.parent.parent


def _folder(name: str) -> Path:
    in_wheel = _PACKAGE / name
    return in_wheel if in_wheel.is_dir() else _CHECKOUT / name


def assets() -> Path:
    """Folder of the data files (vehicles, kits, drawings)."""
    return _folder("assets")


def course() -> Path:
    """Folder of the lessons as shipped."""
    return _folder("course")


def checkout() -> Path | None:
    """The checkout that this course runs from, None where it is installed."""
    return _CHECKOUT if (_CHECKOUT / "pyproject.toml").is_file() and set_up().parent != _PACKAGE else None


def set_up() -> Path:
    """The script that sets the course up on another computer."""
    in_wheel = _PACKAGE / "set_up.py"
    return in_wheel if in_wheel.is_file() else _CHECKOUT / "lib" / "set_up.py"
