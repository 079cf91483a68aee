"""Which bank this is: a digest over everything that questions are made from."""

from functools import cache
from hashlib import sha256
from pathlib import Path

from bitepoint import places

_PACKAGE = Path(__file__).parent.parent
_CODE = ("bank", "questions", "workshop", "mechanics", "pictures", "units")
_FILES = ("sources.py", "missing.py", "toml_once.py")
_NOT_DRAWN = ("releases",)


@cache
def bank_digest() -> str:
    """Return 12 hexadecimal digits over the code and the data files that questions are made from.

    Two installations with the same digest ask and mark the same.
    """
    whole = sha256()
    for name, path in bank_files():
        content = path.read_bytes().replace(b"\r\n", b"\n")
        whole.update(f"{name} {len(content)}\n".encode())
        whole.update(content)
    return whole.hexdigest()[:12]


def bank_files() -> list[tuple[str, Path]]:
    """Return name and place of every file that questions are made from, in order."""
    code = [p for folder in _CODE for p in (_PACKAGE / folder).rglob("*") if p.suffix in (".py", ".toml")]
    code += [_PACKAGE / name for name in _FILES]
    found = [(p.relative_to(_PACKAGE).as_posix(), p) for p in code]
    assets = places.assets()
    data = [
        p
        for p in assets.rglob("*")
        if p.suffix in (".toml", ".csv") and p.relative_to(assets).parts[0] not in _NOT_DRAWN
    ]
    return sorted(found + [(f"assets/{p.relative_to(assets).as_posix()}", p) for p in data])
