"""What comes before what: rules between steps, carried over steps that are left out, and orders that keep them."""

from collections.abc import Callable, Iterable, Sequence
from typing import Literal

from bitepoint.errors import BadData
from bitepoint.workshop.reading import StrictStruct

Kind = Literal["physical", "safety", "quality", "economy", "evidence", "never"]
GRAVITY: dict[str, int] = {"never": 0, "safety": 1, "quality": 2, "physical": 3, "evidence": 4, "economy": 5}
ADVICE = ("economy", "evidence")


class Rule(StrictStruct, frozen=True, kw_only=True):
    """`before` comes before `after` (ids of operations), because of something; `via` lists steps left out between.

    Rules of kind physical, safety, quality bind; economy and evidence advise. `never` forbids `after` altogether,
    and then `before` is empty.
    """

    before: str
    after: str
    kind: Kind
    because: str
    source: str = "common-practice"
    via: tuple[str, ...] = ()

    @property
    def binds(self) -> bool:
        """Whether breaking it is an error and not only less handy."""
        return self.kind not in ADVICE

    @property
    def critical(self) -> bool:
        """Whether breaking it on a car could hurt somebody."""
        return self.kind in ("safety", "never")


def rules_among(steps: Sequence[str], rules: Sequence[Rule], words: Callable[[str], str]) -> tuple[Rule, ...]:
    """Rules between the listed steps; a chain of rules over steps that are not listed becomes one rule.

    A chain binds only when each of its rules binds, and is as grave as its gravest. `words` names a step that is
    left out, for the reason. Order: as the steps are listed.
    """
    listed = set(steps)
    found: list[Rule] = []
    for start in steps:
        chains = _chains(start, listed, [rule for rule in rules if rule.binds])
        advised = _chains(start, listed, rules)
        ends = [step for step in steps if step in advised]
        found += [_joined(chains.get(end, advised[end]), words) for end in ends]
    return tuple(found)


def _chains(start: str, listed: set[str], rules: Sequence[Rule]) -> dict[str, tuple[Rule, ...]]:
    """The shortest chain of rules to each listed step that is reached without crossing another listed step."""
    after: dict[str, list[Rule]] = {}
    for rule in rules:
        after.setdefault(rule.before, []).append(rule)
    chains: dict[str, tuple[Rule, ...]] = {}
    waiting: list[tuple[str, tuple[Rule, ...]]] = [(start, ())]
    seen = {start}
    while waiting:
        step, chain = waiting.pop(0)
        for rule in after.get(step, []):
            if rule.after in seen:
                continue
            seen.add(rule.after)
            if rule.after in listed:
                chains[rule.after] = (*chain, rule)
            else:
                waiting.append((rule.after, (*chain, rule)))
    return chains


def _joined(chain: tuple[Rule, ...], words: Callable[[str], str]) -> Rule:
    if len(chain) == 1:
        return chain[0]
    grave = min(chain, key=lambda rule: GRAVITY[rule.kind])
    kind = grave.kind if all(rule.binds for rule in chain) else max(chain, key=lambda r: GRAVITY[r.kind]).kind
    via = tuple(rule.after for rule in chain[:-1])
    between = " and ".join(f"“{words(step)}”" for step in via)
    lies = "lies" if len(via) == 1 else "lie"
    return Rule(
        before=chain[0].before,
        after=chain[-1].after,
        kind=kind,
        because=f"{between} {lies} between them: {'; '.join(rule.because for rule in chain)}",
        source=grave.source,
        via=via,
    )


def open_rules(done: Iterable[str], step: str, rules: Sequence[Rule]) -> list[Rule]:
    """Rules that doing `step` now would break, the gravest first."""
    over = set(done)
    broken = [rule for rule in rules if rule.after == step and rule.before not in over]
    return sorted(broken, key=lambda rule: GRAVITY[rule.kind])


def sample(steps: Sequence[str], rules: Sequence[Rule], choose: Callable[[Sequence[str]], str]) -> tuple[str, ...]:
    """One order that keeps every rule: `choose` picks from the steps that are free, in the order listed.

    Raises
    ------
    BadData
        The rules go round in a circle, or `choose` returned a step that is not free.
    """
    left, order = list(steps), list[str]()
    while left:
        free = [step for step in left if not open_rules(order, step, rules)]
        if not free:
            raise BadData(f"The rules go round in a circle: {' → '.join(cycle(left, rules) or left)}.")
        step = choose(free)
        if step not in free:
            raise BadData(f"{step!r} is not free yet. Choose one of {', '.join(free)}.")
        left.remove(step)
        order.append(step)
    return tuple(order)


def cycle(steps: Sequence[str], rules: Sequence[Rule]) -> tuple[str, ...] | None:
    """Return steps that go round in a circle, first and last the same, or None."""
    left = list(steps)
    while left:
        blocked = [s for s in left if any(rule.after == s and rule.before in left for rule in rules)]
        if len(blocked) == len(left):
            break
        left = blocked
    if not left:
        return None
    walk = [left[0]]
    while walk[-1] not in walk[:-1]:
        walk.append(next(rule.before for rule in rules if rule.after == walk[-1] and rule.before in left))
    return tuple(reversed(walk[walk.index(walk[-1]) :]))


def loose_ends(steps: Sequence[str], rules: Sequence[Rule]) -> tuple[str, ...]:
    """Steps without a rule before them, the first apart, or without one after them, the last apart."""
    inner = [rule for rule in rules if rule.before in steps and rule.after in steps]
    after, before = {rule.after for rule in inner}, {rule.before for rule in inner}
    return tuple(s for s in steps if (s not in after and s != steps[0]) or (s not in before and s != steps[-1]))
