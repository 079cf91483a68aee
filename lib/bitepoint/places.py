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
