"""Every error a person may read, in one tree.

A message names the thing, states the rule, shows what was given and says what to do next. It is one line, whatever the
file that it quotes holds.
"""

from bitepoint.printable import printable


class BitepointError(Exception):
    """Root of the tree: catching it catches everything the project raises on purpose."""

    def __init__(self, *said: object) -> None:
        super().__init__(*(printable(part) if isinstance(part, str) else part for part in said))


class OutOfRange(BitepointError, ValueError):
    """A figure outside what its calculator is valid for."""

    def __init__(self, name: str, rule: str, given: object, advice: str) -> None:
        self.name, self.rule, self.given, self.advice = name, rule, given, advice
        super().__init__(f"{name} must be {rule}, but you gave {given}. {advice}")


class NotUnderstood(BitepointError, ValueError):
    """An answer that cannot be read; the message says how to write it."""


class Ambiguous(NotUnderstood):
    """A figure such as 1.200, thousands to one and decimals to another: `readings` holds both, `unit` what followed."""

    def __init__(self, told: str, readings: tuple[float, float], unit: str) -> None:
        self.readings, self.unit = readings, unit
        super().__init__(told)


class BadData(BitepointError, ValueError):
    """A data file of the project that breaks a rule: names the file, the key and the rule."""


class BadInput(BitepointError, ValueError):
    """Something a user handed in or typed on the command line that cannot be used."""


class ReasonNeeded(BadInput):
    """Something that is warned of and may be done all the same, with a reason that is kept: `warned` says of what."""

    def __init__(self, warned: tuple[str, ...], advice: str) -> None:
        self.warned, self.advice = warned, advice
        super().__init__(f"{' '.join(warned)} {advice}")


class CannotRun(BitepointError):
    """The machine could not do it: a server that does not start, lessons missing from the installation."""


class NotRecorded(BitepointError, OSError):
    """A logbook line could not be written; what was written before is untouched."""


class NotCovered(BitepointError, LookupError):
    """An exercise that no car of the class can serve; the message says what is missing."""
