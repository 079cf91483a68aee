"""Marked lines by learner in a temporary file, so that no more than one learner's lines are in memory at a time."""

from typing import IO

import msgspec

from bitepoint.marking.line_marking import MarkedLine


class LineStore:
    """Takes encoded marked lines hand-in by hand-in and gives them back learner by learner."""

    def __init__(self, file: IO[bytes]) -> None:
        self._file = file
        self._where: dict[str, list[tuple[int, int]]] = {}
        self._decoder = msgspec.json.Decoder(list[MarkedLine])

    def put(self, learner: str, encoded: bytes) -> None:
        """Keep the marked lines of one learner from one hand-in."""
        start = self._file.seek(0, 2)
        self._file.write(encoded)
        self._where.setdefault(learner, []).append((start, len(encoded)))

    def learners(self) -> set[str]:
        """Return the case-folded ids of everyone who has lines."""
        return set(self._where)

    def get(self, learner: str) -> list[MarkedLine]:
        """Return a learner's lines, each hash once; of two copies the one that was not changed."""
        found: dict[str, MarkedLine] = {}
        for encoded in self.encoded(learner):
            for line in self._decoder.decode(encoded):
                older = found.setdefault(line.record.hash, line)
                if older.changed and not line.changed:
                    found[line.record.hash] = line
        return list(found.values())

    def encoded(self, learner: str) -> list[bytes]:
        """Return a learner's lines as they were put, hand-in by hand-in."""
        found = []
        for start, length in self._where.get(learner, ()):
            self._file.seek(start)
            found.append(self._file.read(length))
        return found


def hashes_of(encoded: bytes) -> set[str]:
    """Return the hashes of encoded marked lines."""
    return {line.record.hash for line in msgspec.json.decode(encoded, type=list[MarkedLine])}
