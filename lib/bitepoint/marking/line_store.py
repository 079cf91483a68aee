"""Marked lines by learner: of a small class as they were made, of a large one in a temporary file, so that memory stays small."""

from collections.abc import Sequence
from typing import IO

import msgspec

from bitepoint.marking.line_marking import MarkedLine

_MOST_HELD = 20_000
"""Lines that a class may have in memory; what comes after them is written."""
_DECODER = msgspec.json.Decoder(list[MarkedLine])


class MarkedLines:
    """Marked lines of one learner from one hand-in: as they were made where they were marked, encoded wherever they go."""

    __slots__ = ("_encoded", "_made")

    def __init__(self, made: Sequence[MarkedLine] | None = None, *, encoded: bytes = b"[]") -> None:
        self._made, self._encoded = made, encoded

    @property
    def made(self) -> Sequence[MarkedLine] | None:
        """The lines, None where they came from another process and would have to be decoded."""
        return self._made

    @property
    def encoded(self) -> bytes:
        """The lines as they go to another process or into a file."""
        return self._encoded if self._made is None else msgspec.json.encode(self._made)

    def lines(self) -> Sequence[MarkedLine]:
        """Return the lines, decoded where they have to be."""
        return _DECODER.decode(self._encoded) if self._made is None else self._made

    def hashes(self) -> set[str]:
        """Return the hashes of the lines."""
        return {line.record.hash for line in self.lines()}

    def __reduce__(self) -> tuple[object, ...]:
        return _from_elsewhere, (self.encoded,)


def _from_elsewhere(encoded: bytes) -> MarkedLines:
    return MarkedLines(encoded=encoded)


class LineStore:
    """Takes marked lines hand-in by hand-in and gives them back learner by learner."""

    def __init__(self, file: IO[bytes]) -> None:
        self._file, self._held = file, 0
        self._parts: dict[str, list[MarkedLines | tuple[int, int]]] = {}

    def put(self, learner: str, lines: MarkedLines) -> None:
        """Keep the marked lines of one learner from one hand-in."""
        parts = self._parts.setdefault(learner, [])
        if lines.made is not None and self._held + len(lines.made) <= _MOST_HELD:
            self._held += len(lines.made)
            parts.append(lines)
            return
        encoded = lines.encoded
        start = self._file.seek(0, 2)
        self._file.write(encoded)
        parts.append((start, len(encoded)))

    def learners(self) -> set[str]:
        """Return the case-folded ids of everyone who has lines."""
        return set(self._parts)

    def get(self, learner: str) -> list[MarkedLine]:
        """Return a learner's lines, each hash once; of two copies the one that was not changed."""
        found: dict[str, MarkedLine] = {}
        for part in self._all(learner):
            for line in part.lines():
                older = found.setdefault(line.record.hash, line)
                if older.changed and not line.changed:
                    found[line.record.hash] = line
        return list(found.values())

    def encoded(self, learner: str) -> list[bytes]:
        """Return a learner's lines as they go to another process, hand-in by hand-in."""
        return [part.encoded for part in self._all(learner)]

    def _all(self, learner: str) -> list[MarkedLines]:
        return [self._read(*part) if isinstance(part, tuple) else part for part in self._parts.get(learner, ())]

    def _read(self, start: int, length: int) -> MarkedLines:
        self._file.seek(start)
        return MarkedLines(encoded=self._file.read(length))
