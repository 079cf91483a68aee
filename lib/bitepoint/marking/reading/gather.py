"""One hand-in while it is read: lines by hash, chains checked file by file, problems kept as sentences."""

from collections.abc import Iterable
from hashlib import sha256

from msgspec import Struct

from bitepoint.errors import BadInput
from bitepoint.logbook.identity import FILE, key_of
from bitepoint.logbook.record import MAX_LINE, Line, Record, answer_length, chain_problems, read_without_text
from bitepoint.logbook.toml_file import MAX_TOML, decode_toml
from bitepoint.marking.reading.files import Readable, blocks, lines
from bitepoint.marking.reading.limits import MAX_BYTES, MAX_NOTEBOOK_BYTES, Allowance, Counter, NotReadFurther, Share
from bitepoint.marking.reading.notebooks import read_notebook
from bitepoint.printable import printable

_SHOWN = 5


class HandIn(Struct, frozen=True, kw_only=True):
    """What one hand-in holds.

    `hint` is the learner that its workbook.toml names, never trusted; `breaks` says where a chain does not
    hold, `problems` what could not be read, `size` how many bytes were. `lines` is the union over logbooks and notebooks,
    `cards` the card of each exercise as it stands in a notebook.
    """

    name: str
    sha256: str
    hint: str = ""
    lines: tuple[Line, ...] = ()
    breaks: tuple[str, ...] = ()
    problems: tuple[str, ...] = ()
    cards: dict[str, bytes] = {}
    size: int = 0


class Gatherer:
    """Collects the files of one hand-in within its limits; those with a share lie in a zip, which has a hash of its own."""

    def __init__(self, name: str, share: Share | None = None) -> None:
        self.name = printable(name)
        self.allowed = Allowance(share)
        self._is_zip = share is not None
        self._lines: dict[str, Line] = {}
        self._breaks: list[str] = []
        self._problems: list[str] = []
        self._digests: list[str] = []
        self._hint = ""
        self._written: set[str] = set()
        self._learners: set[str] = set()
        self._cards: dict[str, bytes] = {}

    def problem(self, what: str, where: str = "") -> None:
        """Keep one sentence about something that could not be read."""
        self._problems.append(printable(f"{self.name}{f', {where}' if where else ''}: {what}"))

    def add(self, where: str, source: Readable) -> None:
        """Read one file: a logbook, a notebook or the workbook's own file; any other is left alone."""
        digest = sha256()

        def counted(limit: Counter | None = None) -> Iterable[bytes]:
            for block in blocks(source, self.allowed.bytes):
                if limit:
                    limit.take(len(block))
                if not self._is_zip:
                    digest.update(block)
                yield block

        kind = where.rpartition("/")[2].casefold()
        inside = "" if printable(where) == self.name else where
        try:
            if kind == FILE:
                self._read_hint(b"".join(counted(Counter(MAX_TOML))))
            elif kind.endswith(".jsonl"):
                self._add_logbook(inside, counted(self.allowed.logbooks))
            elif kind.endswith(".ipynb"):
                self._add_notebook(inside, counted(Counter(MAX_NOTEBOOK_BYTES)))
        except NotReadFurther:
            raise
        except BadInput as error:
            self.problem(str(error), inside)
        finally:
            self._digests.append(digest.hexdigest())

    def _read_hint(self, content: bytes) -> None:
        try:
            learner = decode_toml(content, dict).get("learner")
        except BadInput:
            self.problem("cannot be read; who it is from is taken from its lines alone.", FILE)
            return
        self._hint = learner[:40] if isinstance(learner, str) else ""

    def _add_logbook(self, where: str, stream: Iterable[bytes]) -> None:
        found: list[Line] = []
        try:
            for raw, is_whole in lines(iter(stream)):
                self.allowed.lines.take()
                if not is_whole:
                    self.problem("the last line is torn (power cut or full disk) and was left out.", where)
                elif len(raw) > MAX_LINE:
                    found.append(Line("", None, "longer than 1 MB"))
                elif raw.strip():
                    found.append(read_without_text(raw))
        finally:
            # What stood before the limit counts, so that nobody loses work by a file that grew.
            self._keep_breaks(where, chain_problems(found))
            self._keep(found)

    def _add_notebook(self, where: str, stream: Iterable[bytes]) -> None:
        found = read_notebook(b"".join(stream), self.allowed.lines)
        self._cards |= found.cards
        for problem in found.problems:
            self.problem(problem, where)
        bad = [f"A record: {line.problem}." for line in found.lines if line.problem]
        self._keep_breaks(where, list(dict.fromkeys(bad)))
        self._keep(found.lines)

    def _keep_breaks(self, where: str, found: list[str]) -> None:
        prefix = printable(f"{self.name}{f', {where}' if where else ''}")
        self._breaks += [f"{prefix}: {text}" for text in found[:_SHOWN]]
        if len(found) > _SHOWN:
            self._breaks.append(f"{prefix}: and {len(found) - _SHOWN} more.")

    def _keep(self, found: Iterable[Line]) -> None:
        for line in found:
            record = line.record
            if record is None:
                continue
            older = self._lines.get(record.hash)
            if older is None:
                self._count(record)
            if older is None or (older.problem and not line.problem):
                self._lines[record.hash] = line

    def _count(self, record: Record) -> None:
        self.allowed.kept.take()
        self.allowed.answers.take(answer_length(record.answer))
        if record.learner not in self._written:
            self._written.add(record.learner)
            self._count_learner(key_of(record.learner))

    def _count_learner(self, key: str) -> None:
        if key not in self._learners:
            self.allowed.learners.take()
            self._learners.add(key)

    def result(self, digest: str = "") -> HandIn:
        """Return the hand-in; its hash is that of the one file it came in, else over the files read."""
        if not self._lines and not self._problems and not self._breaks:
            self.problem(
                "holds no logbook and no notebook with answers. Ask the learner for the zip of “Make my hand-in”."
            )
        together = sha256("".join(sorted(self._digests)).encode("ascii")).hexdigest()
        return HandIn(
            name=self.name,
            sha256=digest or (self._digests[0] if len(self._digests) == 1 else together),
            hint=self._hint,
            lines=tuple(self._lines.values()),
            breaks=tuple(self._breaks),
            problems=tuple(self._problems),
            cards=self._cards,
            size=MAX_BYTES - self.allowed.bytes.left,
        )
