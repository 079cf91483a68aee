"""What may be read of one hand-in, and of all in one source together: counted, never timed.

The same files so give the same marks on a slow computer as on a fast one. The limits are our own choice, each many times
what twelve lessons with every exercise answered ten times come to.
"""

from bitepoint.errors import BadInput

MAX_BYTES = 64_000_000
"""Bytes that are read of one hand-in, after unpacking."""
MAX_CLASS_BYTES = 1_000_000_000
"""Bytes read of all hand-ins that lie in one zip."""
MAX_LOGBOOK_BYTES, MAX_NOTEBOOK_BYTES = 16_000_000, 16_000_000
"""Bytes of all logbooks of a hand-in; bytes of one notebook."""
MAX_INNER_ZIP = 24_000_000
MAX_ENTRIES, MAX_CLASS_ENTRIES = 2_000, 20_000
MAX_LINES = 20_000
"""Lines read of one hand-in, those that say nothing and second copies counted."""
MAX_KEPT = 5_000
"""Different record lines of one hand-in that are marked."""
MAX_ANSWERS = 200_000
"""Characters of all answers of one hand-in; 400 answers of an invented learner have 4,500."""
MAX_LEARNERS = 20
"""Learners whose lines one hand-in may hold: a laptop that a whole room shared."""
_SWELL, _LINE_PACKED = 50, 20


class NotReadFurther(BadInput):
    """A whole hand-in is read no further; what was read before counts."""


class Counter:
    """What may still be read of one file.

    Parameters
    ----------
    limit : int
        How much may be taken.
    said : str
        What a person reads when more is there; else that it holds more.
    """

    _refused: type[BadInput] = BadInput
    _within: "Counter | None" = None

    def __init__(self, limit: int, said: str = "") -> None:
        self.left = limit
        self._said = said or f"holds more than {_size(limit)} and was not read further. Look at it by hand."

    def take(self, count: int = 1) -> None:
        """Count what was read, here and in the source that it lies in.

        Raises
        ------
        BadInput
            It is more than one of the limits.
        """
        counter: Counter | None = self
        while counter:
            counter.left -= count
            if counter.left < 0:
                raise counter._refused(counter._said)
            counter = counter._within


class HandInCounter(Counter):
    """What may still be read of one hand-in, and with it of the source that it lies in: NotReadFurther when it is more."""

    _refused = NotReadFurther

    def __init__(self, limit: int, said: str = "", within: Counter | None = None) -> None:
        super().__init__(limit, said or f"holds more than {_size(limit)} and was not read further. {_LOOK}")
        self._within = within


_LOOK = "Look at it by hand and ask the learner for the plain hand-in zip."


def _size(count: int) -> str:
    return f"{count // 1_000_000} MB" if count >= 1_000_000 else f"{count // 1_000} kB"


class Share:
    """Bytes, entries, lines and characters of answers that a packed file may come to, so that a small file costs little.

    Hand-ins of an invented class of 20 unpack to 4 to 6 times their size and have 74 bytes or more a line, packed, because
    each line holds digests that cannot be packed; of their answers a character stands in seven bytes. So fifty times,
    twenty bytes a line and a byte a character refuse nobody. Beside that each file has something free.

    Parameters
    ----------
    packed : int
        Its size as it stands in the file or zip that it came in.
    within : Share or None
        That of the zip it lies in, which takes the same amounts. Each hand-in has a share of its own beside it, so that
        one that is swollen costs the others nothing.
    """

    def __init__(
        self, packed: int, *, free_bytes: int, free_lines: int, free_answers: int, within: "Share | None" = None
    ) -> None:
        most, lines = min(MAX_CLASS_BYTES, free_bytes + _SWELL * packed), free_lines + packed // _LINE_PACKED
        self.bytes: HandInCounter = HandInCounter(
            most,
            f"unpacks to more than {_size(most)}, far more than a hand-in of its size, and was not read further. {_LOOK}",
            within.bytes if within else None,
        )
        self.entries: HandInCounter = HandInCounter(
            MAX_CLASS_ENTRIES,
            f"lies in a zip that holds more than {MAX_CLASS_ENTRIES:,} files and was not read further. {_LOOK}",
            within.entries if within else None,
        )
        self.lines: HandInCounter = HandInCounter(
            lines,
            f"holds more than {lines:,} lines, far more than a hand-in of its size, and was not read further. {_LOOK}",
            within.lines if within else None,
        )
        characters = free_answers + packed
        self.answers: HandInCounter = HandInCounter(
            characters,
            f"holds answers of more than {characters:,} characters, far more than a hand-in of its size, and was not "
            f"read further. {_LOOK}",
            within.answers if within else None,
        )


def share_of_zip(packed: int) -> Share:
    """Return the share of a zip that is one hand-in."""
    return Share(packed, free_bytes=16_000_000, free_lines=MAX_LINES, free_answers=MAX_ANSWERS)


def share_of_class(packed: int) -> Share:
    """Return the share of a zip of hand-ins; what is free in it lets four hostile ones be before others lose any."""
    return Share(packed, free_bytes=MAX_BYTES, free_lines=8_000, free_answers=MAX_ANSWERS)


def share_inside(packed: int, within: Share) -> Share:
    """Return the share of one hand-in in a zip of hand-ins."""
    return Share(packed, free_bytes=2_000_000, free_lines=2_000, free_answers=MAX_ANSWERS // 5, within=within)


class Allowance:
    """What may still be read of one hand-in."""

    def __init__(self, share: Share | None = None) -> None:
        self.bytes: HandInCounter = HandInCounter(MAX_BYTES, within=share.bytes if share else None)
        self.logbooks = HandInCounter(
            MAX_LOGBOOK_BYTES,
            f"holds more than {_size(MAX_LOGBOOK_BYTES)} of logbooks and was not read further. {_LOOK}",
        )
        self.entries: HandInCounter = HandInCounter(
            MAX_ENTRIES,
            f"holds more than {MAX_ENTRIES:,} files and was not read further. Look at it by hand.",
            share.entries if share else None,
        )
        self.lines: HandInCounter = HandInCounter(
            MAX_LINES,
            f"holds more than {MAX_LINES:,} lines and was not read further. {_LOOK}",
            share.lines if share else None,
        )
        self.learners = HandInCounter(
            MAX_LEARNERS,
            f"holds answers of more than {MAX_LEARNERS} learners and was not read further. Ask each for a hand-in.",
        )
        self.answers = HandInCounter(
            MAX_ANSWERS,
            f"holds answers of more than {MAX_ANSWERS:,} characters and was not read further. {_LOOK}",
            share.answers if share else None,
        )
        self.kept = HandInCounter(
            MAX_KEPT, f"holds more than {MAX_KEPT:,} different answers and was not read further. {_LOOK}"
        )
