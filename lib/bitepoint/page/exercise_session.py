"""An exercise as a learner works on it: which turn is open, what was answered, what may be said. No IPython here."""

from collections.abc import Sequence
from contextlib import suppress

from bitepoint.bank import Exercise
from bitepoint.bank.corrections import Correction, Withdrawal, correction_since, withdrawal_of
from bitepoint.errors import BitepointError, NotUnderstood
from bitepoint.logbook import Identity, Line, Record
from bitepoint.logbook.asked import asked_fields
from bitepoint.logbook.book import utc_now
from bitepoint.logbook.identity import same_name
from bitepoint.logbook.standing import Marked, dangers_left, is_closed, places_of
from bitepoint.page.answer_book import AnswerBook, refuse_long
from bitepoint.questions.question import Question
from bitepoint.workshop.traits import lacking
from bitepoint.workshop.vehicles import vehicle


class ExerciseSession:
    """One exercise for one learner.

    The practice learner's answers live in memory only; everybody else's are lines of the logbook, read anew at each
    opening, so that a crash, a reload or another notebook loses nothing.
    """

    def __init__(
        self, exercise: Exercise, identity: Identity, *, sitting: str | None = None, book: str | None = None
    ) -> None:
        self.exercise, self.identity = exercise, identity
        self.opened = utc_now()
        self.sitting = identity.sitting if sitting is None else sitting
        self.book = AnswerBook(identity, book or exercise.lesson)
        self.lines: list[Line] = self.book.lines(self._mine)
        self._drawn: dict[tuple[int, int, str, str, int, tuple[str, ...]], Question] = {}
        self._known: dict[str, Marked] = {}
        self.turn = max((a.record.turn for a in self.answers()), default=1)

    def _mine(self, record: Record | None) -> bool:
        return (
            record is not None
            and not record.is_recall
            and record.exercise == self.exercise.id
            and same_name(record.learner, self.identity.learner)
            and same_name(record.class_word, self.identity.class_word)
        )

    def question(self, turn: int | None = None) -> Question:
        """Return the question of a turn (the open one when none is named).

        A turn that was begun keeps revision, car and edition of its first line, whatever has been released since.
        """
        number = turn or self.turn
        begun = next((r for r in self._in_order() if r.turn == number), None)
        if begun and begun.revision in self.exercise.makers:
            with suppress(BitepointError):
                return self.asked_in(begun)
        who = self.identity
        return self._draw(number, 0, self.sitting, who.vehicle, 0, who.vehicles)

    def asked_in(self, record: Record) -> Question:
        """Return the question that a line answers, as it was asked."""
        return self._draw(
            record.turn, record.revision, record.sitting, record.vehicle, record.edition, record.class_cars
        )

    def _draw(
        self, turn: int, revision: int, sitting: str, vehicle: str, edition: int, cars: tuple[str, ...]
    ) -> Question:
        key = (turn, revision, sitting, vehicle, edition, cars)
        if key not in self._drawn:
            self._drawn[key] = self.exercise.draw(
                class_word=self.identity.class_word,
                learner=self.identity.learner,
                turn=turn,
                revision=revision,
                sitting=sitting,
                vehicle=vehicle or None,
                edition=edition,
                cars=cars,
            )
        return self._drawn[key]

    def _in_order(self) -> list[Record]:
        records = self._records()
        places = places_of(records)
        return sorted(records, key=lambda r: places[r.hash])

    def _records(self) -> list[Record]:
        return [line.record for line in self.lines if line.record]

    def answers(self, turn: int | None = None) -> list[Marked]:
        """Return the answers so far (of one turn, or all), marked afresh, oldest first; changed questions are left out."""
        found = []
        for record in self._in_order():
            if turn is not None and record.turn != turn:
                continue
            marked = self._marked(record)
            if marked:
                found.append(marked)
        return found

    def _marked(self, record: Record) -> Marked | None:
        """Return a line with its mark, worked out once: each card and control asks for it a dozen times.

        One that could not be marked is tried again: a share may have been away for a moment.
        """
        known = self._known.get(record.hash) or self._marked_afresh(record)
        if known:
            self._known[record.hash] = known
        return known

    def _marked_afresh(self, record: Record) -> Marked | None:
        try:
            question = self.asked_in(record)
            if question.facts_digest() != record.facts:
                return None
            return Marked(record, question.mark(record.answer), question.tries_allowed)
        except (BitepointError, KeyError):
            return None

    @property
    def withheld(self) -> bool:
        """Whether this class gets its feedback after the hand-in."""
        return self.identity.feedback == "after hand-in"

    @property
    def right(self) -> bool:
        """Whether the open turn is answered right (never known in a class with feedback after the hand-in)."""
        return not self.withheld and any(a.verdict.right for a in self.answers(self.turn))

    @property
    def closed(self) -> bool:
        """Whether the open turn takes no more answers: its solution was shown, or its question was a danger."""
        if self.dangerous:
            return True
        return not self.withheld and is_closed(self.answers(self.turn))

    @property
    def correction(self) -> Correction | None:
        """What was put right since the question of the open turn was asked; None for one that stands."""
        asked = self.question().revision
        return correction_since(self.exercise.id, asked) if asked < self.exercise.revision else None

    @property
    def dangerous(self) -> bool:
        """Whether doing as the question of the open turn said could hurt someone."""
        return self.correction is not None and self.correction.dangerous

    @property
    def withdrawal(self) -> Withdrawal | None:
        """Why the question of the open turn was withdrawn; None for one that stands."""
        return withdrawal_of(self.exercise.id, self.question().revision)

    @property
    def asked_no_more(self) -> bool:
        """Whether the newest revision is withdrawn, so that nothing is asked in its place."""
        return withdrawal_of(self.exercise.id, self.exercise.revision) is not None

    @property
    def dangers_open(self) -> list[str]:
        """Name the dangerous mistakes that no right answer put right yet, the oldest first: the rule of marking."""
        if self.withheld or self.asked_no_more:
            return []
        return list(
            dict.fromkeys(
                n for a in dangers_left(self.answers()) for n in a.verdict.named_dangers or ("a dangerous answer",)
            )
        )

    @property
    def still_open(self) -> str:
        """One sentence on dangers of earlier answers; "" where there are none, or the last answer's verdict says it."""
        answers = self.answers(self.turn)
        if (answers and answers[-1].verdict.critical) or not self.dangers_open:
            return ""
        return f"⚠ Dangerous, and still to be put right: {'; '.join(self.dangers_open)}. A right answer here does it."

    @property
    def other_car(self) -> str:
        """Why the question is about another car than the learner's own, in a sentence; "" when it is not."""
        question = self.question()
        if not question.vehicle or question.vehicle == question.own_vehicle:
            return ""
        own = vehicle(question.own_vehicle)
        lacks = lacking(own, self.exercise.needs)
        if not lacks and not own.entered_by:
            return ""
        why = f"has {lacks}" if lacks else "has no figure for it on its sheet"
        return f"Your own car, {own.name}, {why}: this one is about {vehicle(question.vehicle).name}."

    @property
    def may_go_on(self) -> bool:
        """Whether the next turn may be opened: answered right, closed, or corrected since; never of a withdrawn one."""
        return not self.asked_no_more and (self.right or self.closed or self.correction is not None)

    @property
    def of_other_questions(self) -> int:
        """How many recorded answers belong to a question that this program does not draw for this learner."""
        return len(self._records()) - len(self.answers())

    def again(self) -> None:
        """Open the next turn: new form, new figures."""
        self.turn += 1
        self.opened = utc_now()

    def answer(self, answer: object, *, how: str, turn: int | None = None) -> None:
        """Take an answer to a turn (the open one when none is named) and record it.

        Another notebook may have answered meanwhile, so the logbook is read once more first.

        Raises
        ------
        NotUnderstood
            It cannot be read, or the turn is closed; nothing is recorded.
        NotRecorded
            The workbook or lines of it are gone, or the logbook does not take it.
        """
        if self.identity.kept:
            self.lines = self.book.lines_before_answer(self._mine)
        wanted = turn or self.turn
        question = self.question(wanted)
        if isinstance(answer, str):
            refuse_long(answer)
        read = question.read(answer)
        refuse_long(read)
        before = self.answers(wanted)
        self._refuse_dangerous(wanted)
        if how == "typed" and self._typed_before(read, turn):
            return
        self._refuse_finished(wanted, before)
        self.turn = max(self.turn, wanted)
        self._record(question, read, how, wanted)

    def _refuse_finished(self, turn: int, before: Sequence[Marked]) -> None:
        """Refuse an answer to a turn that takes no more."""
        if not self.withheld and (is_closed(before) or any(a.verdict.right for a in before)):
            raise NotUnderstood(
                f"This turn is finished. For new figures write ask({self.exercise.id!r}, your answer, turn={turn + 1})."
            )

    def _refuse_dangerous(self, turn: int) -> None:
        """Refuse an answer to a question that was corrected because doing as it said could hurt someone."""
        found = correction_since(self.exercise.id, self.question(turn).revision)
        if found and found.dangerous:
            raise NotUnderstood(
                f"This question was corrected on {found.date.isoformat()}, because doing as it said could hurt someone: "
                f"{found.what} Take the corrected one: ask({self.exercise.id!r}, turn={turn + 1})."
            )

    def _typed_before(self, read: object, turn: int | None) -> bool:
        """Whether this is the last typed answer again: Run All adds no line, whatever turn is open by now."""
        typed = [a.record for a in self.answers(turn) if a.record.how == "typed"]
        return bool(typed) and typed[-1].answer == read

    def _record(self, question: Question, read: object, how: str, turn: int) -> None:
        verdict = question.mark(read)
        fields = self.book.fields(
            **asked_fields(question, turn, self.identity.vehicles), how=how, answer=read, opened=self.opened
        )
        if self.sitting:
            fields["sitting"] = self.sitting
            if self.identity.sitting and self.identity.clock_ahead_s is not None:
                fields["clock_ahead_s"] = self.identity.clock_ahead_s
        if not self.withheld:
            fields["score"], fields["mistake"] = verdict.score, verdict.mistake
        self.lines.append(self.book.append(fields, after=len(self.lines)))

    @property
    def draft_name(self) -> str:
        """What a draft of it is kept under."""
        return self.exercise.id

    @property
    def understood(self) -> str:
        """The last answer of this turn as it was understood, "" when there is none."""
        answers = self.answers(self.turn)
        return answers[-1].verdict.understood if answers else ""

    def feedback(self) -> tuple[str, str, str]:
        """Return what may be said now as (tone, leading word, text); tone "" when nothing was answered yet."""
        answers = self.answers(self.turn)
        if not answers:
            return "", "", ""
        last = answers[-1].verdict
        if self.dangerous:
            return "note", "Kept as asked.", "Your answer stays as it was marked. Now take the corrected question."
        if self.withheld:
            return "note", "Recorded.", "The feedback comes after the hand-in."
        advice = "".join(f"\n\n{a}" for a in last.advice)
        if self.right:
            return "right", "Right.", next(a for a in answers if a.verdict.right).verdict.feedback + advice
        if last.critical:
            return "danger", "Dangerous:", self._miss_text(answers) + advice
        return "not yet", "Not yet.", "\n\n".join(filter(None, (self.still_open, self._miss_text(answers) + advice)))

    def _miss_text(self, answers: Sequence[Marked]) -> str:
        question, last = self.question(), answers[-1].verdict
        hurt = "On a car this could hurt someone or let a part come loose.\n\n" if last.critical else ""
        misses = sum(not a.verdict.right for a in answers)
        if self.closed:
            solution = question.solution or question.why
            return f"{hurt}{last.feedback}\n\nThe solution: {solution}\n\nThis turn is closed as practised."
        if misses >= 2 and question.step:
            return f"{hurt}{last.feedback}\n\nThe next step: {question.step}"
        return f"{hurt}{last.feedback}"
