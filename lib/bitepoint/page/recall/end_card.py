"""What a round came to: what was dangerous, what to read again, what is firm, what fades, when to come back."""

from collections import Counter
from collections.abc import Sequence

from markupsafe import Markup

from bitepoint.bank.lessons import lessons_in_use
from bitepoint.page import html, output
from bitepoint.page.recall.recall_session import RecallSession
from bitepoint.page.recall.remembering import Remembered, end_of_day
from bitepoint.page.recall.saying import counted, day_words, quoted, read_again, titles
from bitepoint.page.recall.stages import Ended, NothingDue
from bitepoint.recall.outlook import FIRMNESS, come_back, firmness, unseen_for_long

ON_A_CAR = "On a car this would hurt someone or let a part come loose. Read it again before you next do it."
MODEL = (
    "Firm: should still be there in a week. Fading: is asked again soon. Faded: may well be gone; read it again before a job. "
    "Each right answer here makes a question firmer. "
    "A model of memory works this out from your answers; nobody has measured you."
)
KEPT = "Your answers are kept and go with your next hand-in. They change no mark of a lesson."
PHONE = (
    "For the calendar of your phone: save the date below, or send yourself the file keep-it.ics of your course folder."
)


def end_card(ended: Ended) -> output.Static:
    """Return the end of a round."""
    answered, learned = ended.round.answered, ended.learned
    right = sum(session.right for session in answered)
    title = f"Done: {right} of {len(answered)} right."
    dangers = [session for session in answered if session.dangers_open]
    missed = [session for session in answered if not session.right and not session.dangers_open]
    parts = [html.title(title), *_dangerous(dangers), *_missed(missed)]
    parts.append(html.paragraphs("\n\n".join([*more_words(learned), *_come_back(learned, PHONE)])))
    parts += [*_firm(learned), html.paragraphs(KEPT)]
    state = "danger" if dangers else "right" if right == len(answered) else ""
    return output.Static(title, html.card(html.joined(parts), state=state))


def nothing_due_card(stage: NothingDue) -> output.Static:
    """Return the page where nothing is asked today: when to come back, and what is firm."""
    learned = stage.learned
    if not learned.items:
        title = "Nothing to ask yet."
        words = (
            "This page asks again what you have answered in the lessons 1 to 11. Answer some exercises there first. The "
            "first of them come back here from the next day on."
        )
        return output.Static(title, html.card(html.joined([html.title(title), html.paragraphs(words)])))
    title = "Nothing is due today."
    many = counted(len(learned.items), "exercise")
    parts = [
        html.title(title),
        html.paragraphs("\n\n".join([*_come_back(learned), f"So far you have answered {many} that come back here."])),
    ]
    return output.Static(title, html.card(html.joined([*parts, *_firm(learned)]), state="right"))


def _dangerous(sessions: Sequence[RecallSession]) -> list[Markup]:
    if not sessions:
        return []
    lines = [
        html.line(
            html.lead(quoted(s.exercise.title)),
            f": {'; '.join(s.dangers_open)}. Why: {s.question().why} Read again: ",
            _link(s.exercise.id),
        )
        for s in sessions
    ]
    return [html.panel("danger", "Dangerous:", html.joined([html.paragraphs(ON_A_CAR), *lines]))]


def _missed(sessions: Sequence[RecallSession]) -> list[Markup]:
    lines = [html.line(html.lead(quoted(s.exercise.title)), ". Read again: ", _link(s.exercise.id)) for s in sessions]
    return [html.paragraphs("Not right this time:"), *lines] if lines else []


def _link(exercise: str) -> Markup:
    return html.link(*read_again(exercise))


def _firm(learned: Remembered) -> list[Markup]:
    """Return how many exercises are firm, fading and faded, by lesson in the order of the course, and which are asked next."""
    rows = []
    for key, lesson in lessons_in_use().items():
        items = [item for item in learned.items if item.lesson == key]
        if items:
            counts = Counter(firmness(item, learned.now) for item in items)
            rows.append((lesson.title, ", ".join(f"{counts[word]} {word}" for word in FIRMNESS if counts[word])))
    table = html.table([("Lesson", "How well it sits"), *rows])
    return [table, html.paragraphs(f"{MODEL}\n\nAsked next: {titles([item.exercise for item in learned.items])}.")]


def _come_back(learned: Remembered, *more: str) -> list[str]:
    at = come_back(learned.items, learned.now)
    return [" ".join([f"Come back {day_words(at, learned.now)}.", *more])] if at else []


def more_words(learned: Remembered) -> list[str]:
    """Say how many questions in which a mistake could hurt someone are unseen for eight weeks, or soon; or that more are due."""
    now, soon = unseen_for_long(learned.items, learned.now)
    said = []
    if now:
        said.append(f"{counted(now, 'question')} in which a mistake could hurt someone: not seen for eight weeks.")
    if soon:
        which = f"{soon} more of them" if now else f"{counted(soon, 'question')} in which a mistake could hurt someone"
        said.append(f"{which}: not seen for eight weeks by this day next week.")
    if said:
        return [" ".join([*said, "Do another round now if you can."])]
    return ["More questions are due: you can do another round now."] if is_more_due(learned) else []


def is_more_due(learned: Remembered) -> bool:
    """Whether another round can be done now."""
    return any(item.due <= end_of_day(learned.now) for item in learned.items)
