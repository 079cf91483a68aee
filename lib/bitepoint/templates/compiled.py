"""Compiled templates kept beside them, where Python keeps its compiled modules."""

import marshal
from contextlib import suppress
from hashlib import sha256
from importlib.util import MAGIC_NUMBER
from pathlib import Path

import jinja2
from jinja2.bccache import Bucket, BytecodeCache

from bitepoint import beside

_KIND = "template"


def _made_by(folder: Path) -> str:
    """Return the digest of whatever decides what code is made of a template: how Jinja is set up, our generator, this Python."""
    return sha256(b"".join([MAGIC_NUMBER, *(path.read_bytes() for path in sorted(folder.glob("*.py")))])).hexdigest()


_MAKER = _made_by(Path(__file__).parent)


class Compiled(BytecodeCache):
    """Keeps the code of a template under its source, the place that tracebacks name, Jinja's version and what made it."""

    def get_cache_key(self, name: str, filename: str | None = None) -> str:
        """Return where the template lies, "" for one that is no file."""
        return filename or ""

    def load_bytecode(self, bucket: Bucket) -> None:
        """Take the code that is kept, where it is that of this template."""
        if found := beside.found(bucket.key, _KIND, _key(bucket)):
            with suppress(EOFError, ValueError, TypeError):
                bucket.code = marshal.loads(found)

    def dump_bytecode(self, bucket: Bucket) -> None:
        """Keep the code."""
        beside.keep(bucket.key, _KIND, _key(bucket), marshal.dumps(bucket.code))


def _key(bucket: Bucket) -> str:
    return "\n".join((bucket.key, bucket.checksum, jinja2.__version__, _MAKER))
