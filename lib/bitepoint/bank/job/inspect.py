"""Lesson 12, the whole job: the parts on the bench, found and decided."""

from bitepoint.bank.cases import Case, choice_from
from bitepoint.bank.job.common import INSPECTS, other_car, own_first, spoken
from bitepoint.bank.job.parts import BenchPart, limit_table, planted_parts
from bitepoint.bank.registry import exercise
from bitepoint.questions.choice import Choice, Option, Several, needed, wrong
from bitepoint.questions.draw import Draw
from bitepoint.questions.question import Mistake

REUSE = "Use it again: the sheet allows it"
REPLACE = "Replace it, and write the finding down"
STOP = "Stop and ask, with the finding in hand"
LATER = "Fit it now and look again at the first service"


def bench_of(draw: Draw) -> tuple[BenchPart, ...]:
    """Return the parts of this turn: at the first turn those of the learner's own job, then of another car."""
    return planted_parts(draw.story() if draw.turn == 1 else draw, draw.vehicle())


@exercise("job.inspect", lesson="job", outcome=INSPECTS, minutes=9, title="The parts on the bench")
def inspect(draw: Draw) -> Several:
    car, parts = draw.vehicle(), bench_of(draw)
    bad = [part for part in parts if part.verdict.decision != "reuse"]
    return Several.of(
        draw,
        options=[_option(part) for part in parts],
        ask=f"On the bench lie parts of {other_car(draw.turn, car)}. The sheet's limits stand in the table. "
        "Pick every one that may NOT go back as it is. Some are always new, whatever they look like.",
        table=limit_table(car),
        why=f"{len(bad)} of {len(parts)} may not go back. Each one found now is one that does not come back later.",
        step="Go through them one by one: figure against limit, then what is seen, then what is always new.",
        solution="\n".join(f"{p.name}: {p.verdict.decision}. {spoken(p.verdict.reason)}" for p in parts),
        source="common-practice",
        vehicle=car.id,
    )


def _option(part: BenchPart) -> Option:
    text = f"{part.name}: {part.told}"
    name = f"misjudges: {part.name[0].lower()}{part.name[1:]}"
    if part.verdict.decision == "reuse":
        return wrong(text, name, f"{part.name}: that one is sound. Thrown away, it costs money and cures nothing.")
    left = f"{part.name}: you would put it back. {spoken(part.verdict.reason.partition(': ')[2])} {_consequence(part)}"
    return needed(text, name, left, critical=part.hurts)


def _consequence(part: BenchPart) -> str:
    if part.hurts:
        return "Somebody could be hurt by it."
    return "The job would come back, and the gearbox out once more."


@exercise("job.decide", lesson="job", outcome=INSPECTS, minutes=3, title="Decide one part")
def decide(draw: Draw) -> Choice:
    car, parts = draw.vehicle(), planted_parts(draw.story(), draw.vehicle())
    part = _asked(parts)[own_first(draw, 3)]
    measured = part.told.endswith(" mm")
    wrongs = {
        "reuse": (REPLACE, STOP, LATER),
        "replace": (REUSE, STOP, LATER),
        "stop and ask": (REUSE, REPLACE, LATER),
    }[part.verdict.decision]
    right = {"reuse": REUSE, "replace": REPLACE, "stop and ask": STOP}[part.verdict.decision]
    case = Case(
        f"From the bench of {car.name}. {part.name}: {part.told}. What do you decide?",
        right,
        tuple(_mistake(text, part) for text in wrongs),
        part.verdict.reason.rstrip(".").partition(": ")[2].partition(";")[0].capitalize() + ".",
        "Is there a figure? Hold it against the limit. If not: could it fail while somebody drives or stands beside it?",
    )
    return choice_from(
        draw, case, source=part.verdict.source, table=limit_table(car) if measured else (), vehicle=car.id
    )


def _asked(parts: tuple[BenchPart, ...]) -> tuple[BenchPart, BenchPart, BenchPart]:
    """The most dangerous planted part, an always-new one, and a sound one."""
    worst = max((p for p in parts if p.state == "planted"), key=lambda p: p.verdict.weight)
    new = next(p for p in parts if p.state == "always new")
    sound = next(p for p in parts if p.state == "sound")
    return worst, new, sound


def _mistake(text: str, part: BenchPart) -> Mistake:
    decision = part.verdict.decision
    if text == REUSE:
        return Mistake(text, "puts a bad part back", _consequence(part), part.hurts)
    if text == LATER:
        says = "Closed up, nobody looks at it again until it fails. The bench is the last chance."
        return Mistake(text, "puts the decision off", says, part.hurts)
    if text == REPLACE and decision == "reuse":
        return Mistake(
            text, "throws a sound part away", "The sheet lets it stay. The owner pays, and nothing is better."
        )
    if text == REPLACE:
        says = "That is not yours alone to decide. A new part on a bad seat can fail just the same."
        return Mistake(text, "decides what a senior decides", says)
    says = "Here the rule decides by itself. Asking is never wrong, but the lift stands still meanwhile."
    return Mistake(text, "asks where the sheet decides", says)
