"""One question of a round of recall: asked once, told at once, a line of recall's own chain."""

from collections.abc import Sequence

from bitepoint.bank import Exercise
from bitepoint.errors import NotUnderstood
from bitepoint.logbook import Identity, Record
from bitepoint.logbook.asked import asked_fields
from bitepoint.logbook.identity import same_name
from bitepoint.logbook.record import OWN_WORDS, RECALL, RECALL_BOOK
from bitepoint.logbook.standing import Marked
from bitepoint.page.answer_book import refuse_long
from bitepoint.page.exercise_session import ExerciseSession
from bitepoint.questions.kinds import kind_of

MOST_LETTERS = 600
"""Of a reason in the learner's own words: it is one line."""


class RecallSession(ExerciseSession):
    """One exercise asked again, in one turn of recall.

    `reason_waits`: the reason why the answer is right is held back until the learner has written one or passed.
    """

    def __init__(self, exercise: Exercise, identity: Identity, turn: int) -> None:
        self._asked_as = turn
        self.reason_waits = False
        super().__init__(exercise, identity, sitting=RECALL, book=RECALL_BOOK)
        self.turn = turn

    def _mine(self, record: Record | None) -> bool:
        return (
            record is not None
            and record.is_recall
            and record.exercise == self.exercise.id
            and record.turn == self._asked_as
            and same_name(record.learner, self.identity.learner)
            and same_name(record.class_word, self.identity.class_word)
        )

    def _records(self) -> list[Record]:
        return [record for record in super()._records() if not record.in_own_words]

    @property
    def decisions(self) -> list[Record]:
        """The lines that answer it, be it one that this program cannot mark any more: one, or one a device."""
        return self._records()

    @property
    def answered(self) -> bool:
        """Whether a decision is recorded."""
        return bool(self.decisions)

    @property
    def decides(self) -> bool:
        """Whether it asks for a decision between options, of which one can say why; a figure or a place is none."""
        question = self.question()
        return bool(kind_of(question).judged(question))

    @property
    def closed(self) -> bool:
        """Whether it takes no more answers: it is asked once."""
        return self.answered

    @property
    def may_go_on(self) -> bool:
        """Never: another turn of it comes weeks later."""
        return False

    @property
    def dangers_open(self) -> list[str]:
        """Name what was dangerous in the answer."""
        last = self.answers()[-1:]
        return [name for a in last if a.verdict.critical for name in a.verdict.named_dangers or ("a dangerous answer",)]

    @property
    def still_open(self) -> str:
        """Nothing: the verdict says it."""
        return ""

    @property
    def draft_name(self) -> str:
        """What a draft of it is kept under: its lesson may have one of the same exercise."""
        return f"{RECALL_BOOK}.{self.exercise.id}"

    @property
    def own_words(self) -> str:
        """The reason that the learner wrote, "" where there is none."""
        written = [line.record.answer for line in self.lines if line.record and line.record.in_own_words]
        return next((text for text in reversed(written) if isinstance(text, str)), "")

    def feedback(self) -> tuple[str, str, str]:
        """Return what may be said now as (tone, leading word, text): after a miss the mistake's words and the solution."""
        answers = self.answers()
        if not answers:
            return (
                ("note", "Recorded.", "Its question has changed since, so it is not shown.")
                if self.answered
                else ("", "", "")
            )
        last = answers[-1].verdict
        if last.right:
            # Beside the learner's own words the course's reason has a place of its own.
            reason = [] if self.reason_waits or self.own_words else [last.feedback]
            return "right", "Right.", "\n\n".join([*reason, *last.advice])
        question = self.question()
        said = [last.feedback, f"The solution: {question.solution or question.why}", *last.advice]
        if last.critical:
            return (
                "danger",
                "Dangerous:",
                "\n\n".join(["On a car this could hurt someone or let a part come loose.", *said]),
            )
        return "not yet", "Not right.", "\n\n".join(said)

    def _refuse_finished(self, turn: int, before: Sequence[Marked]) -> None:
        if self.answered:
            raise NotUnderstood("This question is answered already, perhaps on another page. Its answer stands.")

    def keep_reason(self, text: str) -> None:
        """Keep a reason in the learner's own words beside the decision; once, and marked by no machine.

        Raises
        ------
        NotUnderstood
            Nothing is written, or too much; or there is no decision yet, or a reason already.
        NotRecorded
            The workbook or lines of it are gone, or the logbook does not take it.
        """
        words = " ".join(text.split())
        if not words:
            raise NotUnderstood("Write a line first, or press “Skip”.")
        if len(words) > MOST_LETTERS:
            raise NotUnderstood(f"That is {len(words):,} letters; {MOST_LETTERS} is the most. Write it shorter.")
        refuse_long(words)
        if self.identity.kept:
            self.lines = self.book.lines_before_answer(self._mine)
        if not self.answered or self.own_words:
            raise NotUnderstood("There is a reason of yours already, perhaps from another page. It stands.")
        asked = asked_fields(self.question(), self.turn, self.identity.vehicles)
        fields = self.book.fields(**asked, how=OWN_WORDS, answer=words, opened=self.opened, sitting=RECALL)
        self.lines.append(self.book.append(fields, after=len(self.lines)))
