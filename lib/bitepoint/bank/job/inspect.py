"""Lesson 12, the whole job: the parts on the bench, found and decided, and what follows from them."""

from msgspec import structs

from bitepoint.bank.forms import form_of, forms_of
from bitepoint.bank.job.outcomes import INSPECTS, OWN_KIT, other_car, own_first
from bitepoint.bank.job.parts import BenchPart, finding, limit_table, planted_parts
from bitepoint.bank.job.story import Story, story_of
from bitepoint.bank.registry import exercise
from bitepoint.questions.choice import Choice, Option, Several
from bitepoint.questions.draw import Draw


def bench_of(draw: Draw) -> tuple[BenchPart, ...]:
    """Return the parts of this turn: at the first turn those of the learner's own job, then of another car."""
    return planted_parts(draw.story() if draw.turn == 1 else draw, draw.vehicle())


@exercise("job.inspect", lesson="job", outcome=INSPECTS, minutes=8, title="Find what may not go back", needs=OWN_KIT)
def inspect(draw: Draw) -> Several:
    car, parts = draw.vehicle(), bench_of(draw)
    bad = [part for part in parts if part.verdict.decision != "reuse"]
    return Several.of(
        draw,
        options=[_option(part) for part in parts],
        ask=f"On the bench lie parts of {other_car(draw.turn, car)}. The sheet's limits stand in the table. "
        "Pick every one that may NOT go back as it is. The bench may hold faults or none; some parts are always new.",
        table=limit_table(car),
        why=f"{len(bad)} of {len(parts)} may not go back. Each one found now is one that does not come back later.",
        step="Go through them one by one: figure against limit, then what is seen, then what is always new.",
        solution="\n".join(f"{p.name}: {p.verdict.decision}. {_spoken(p.verdict.reason)}" for p in parts),
        source="common-practice",
        vehicle=car.id,
    )


def _option(part: BenchPart) -> Option:
    text = f"{part.name}: {part.told}"
    name = f"misjudges: {part.name[0].lower()}{part.name[1:]}"
    if part.verdict.decision == "reuse":
        sound = f"{part.name}: that one is sound. Thrown away, it costs money and cures nothing."
        return Option(text, False, name, sound, key=part.key)
    left = f"{part.name}: you would put it back. {_spoken(part.verdict.reason.partition(': ')[2])} {_consequence(part)}"
    return Option(text, True, name, left, part.hurts, part.key)


def _spoken(reason: str) -> str:
    """Return a reason in short sentences: what stands behind a colon or a semicolon becomes one of its own."""
    parts = [part.strip() for part in reason.rstrip(".").replace(": ", "; ").split("; ")]
    return " ".join(f"{part[0].upper()}{part[1:]}." for part in parts if part)


def _consequence(part: BenchPart) -> str:
    if part.hurts:
        return "Somebody could be hurt by it."
    return "The job would come back, and the gearbox out once more."


@exercise("job.decide", lesson="job", outcome=INSPECTS, minutes=3, title="Decide about one part", needs=OWN_KIT)
def decide(draw: Draw) -> Choice:
    car = draw.vehicle()
    part = _asked(planted_parts(draw.story(), car))[own_first(draw, 3)]
    offers = _offered(part)
    choice = form_of(draw).choice(
        draw,
        right=offers[0],
        offers=offers,
        table=limit_table(car) if part.measured else (),
        vehicle=car.id,
        car=car.name,
        part=part.name,
        told=part.told,
        reason=_spoken(part.verdict.reason.partition(": ")[2].partition(";")[0]),
    )
    return structs.replace(choice, source=part.verdict.source)


@exercise(
    "job.call", lesson="job", outcome=INSPECTS, minutes=2.5, title="Say what follows from the bench", needs=OWN_KIT
)
def call(draw: Draw) -> Choice:
    story = story_of(draw)
    keys = ("stopped", "said-no", "more-parts", "nothing-more")
    own = keys.index(follows_from(story))
    form = forms_of(draw)[keys[(own + draw.turn - 1) % len(keys)]]
    stops = [(p.name, p.told) for p in story.stopped_by] if draw.turn == 1 else []
    stops = stops or [("Bell housing", finding("housing-crack"))]
    more = [p.name for p in story.bench if p.state == "planted"] if draw.turn == 1 else ["Rear crankshaft seal"]
    return form.choice(
        draw,
        vehicle=story.car.id,
        whose=other_car(draw.turn, story.car),
        found=". ".join(f"{name}: {told}" for name, told in stops),
        more=" and ".join(more).lower(),
    )


def follows_from(story: Story) -> str:
    """Return what the bench of the learner's own job leads to: a call, an end, further parts, or nothing."""
    if story.stopped_by:
        return "stopped" if story.agreed else "said-no"
    return "more-parts" if any(part.state == "planted" for part in story.bench) else "nothing-more"


def _asked(parts: tuple[BenchPart, ...]) -> tuple[BenchPart, BenchPart, BenchPart]:
    """The most dangerous planted part or the old flywheel bolts, another part that is always new, and a sound one."""
    bolts, new = (p for p in parts if p.state == "always new")
    worst = max((p for p in parts if p.state == "planted"), key=lambda p: p.verdict.weight, default=bolts)
    sound = next(p for p in parts if p.state == "sound")
    return worst, new, sound


def _offered(part: BenchPart) -> tuple[str, ...]:
    """Return the keys of what may be decided, the right decision first; some would hurt with a dangerous part."""
    danger = "-danger" if part.hurts else ""
    again, later = f"use-again{danger}", f"later{danger}"
    return {
        "reuse": ("use-again", "replace-sound", "ask", later),
        "replace": ("replace", again, "ask", later),
        "stop and ask": ("ask", again, "replace", later),
    }[part.verdict.decision]
