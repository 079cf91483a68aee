"""The rules that a question of a college's keeps, whatever is drawn: its key, its forms, its options, its order of steps."""

import re
from collections.abc import Iterator, Sequence

from bitepoint.bank.forms.form import Form
from bitepoint.bank.forms.reading import broken_rules, with_shared
from bitepoint.bank.forms.rows import FormRule
from bitepoint.bank.own.number_rules import figure_faults, mistake_faults
from bitepoint.bank.own.rows import OwnQuestion
from bitepoint.bank.own.texts import text_faults
from bitepoint.questions.order import ADVICE_ONLY

Fault = tuple[str, str]
"""Where in a question, and what is wrong there with what to do."""

_TOPIC = re.compile(r"[a-z0-9]+(-[a-z0-9]+)*")
_LONGEST_KEY, _MOST_FORMS, _MOST_MINUTES = 40, 4, 20
_OPTIONS, _STEPS = (3, 6), (3, 10)


def faults_of(row: OwnQuestion) -> list[Fault]:
    """Return what is wrong with a question; the first is the one to put right first."""
    # A later check takes for granted what an earlier one has found to hold.
    for check in (_common, _forms, figure_faults, text_faults, _dangers, mistake_faults):
        if found := list(check(row)):
            return found
    return []


def _common(row: OwnQuestion) -> Iterator[Fault]:
    if not _TOPIC.fullmatch(row.topic) or len(row.topic) > _LONGEST_KEY:
        yield "topic", f"must be small letters, digits and hyphens, {_LONGEST_KEY} at most, such as crow-foot-van"
    if not 0 < row.minutes <= _MOST_MINUTES:
        yield "minutes", f"must be above 0 and at most {_MOST_MINUTES}"
    if not 1 <= len(row.form) <= _MOST_FORMS:
        yield "form", f"there must be 1 to {_MOST_FORMS} forms, but there are {len(row.form)}"
    if not row.source.strip():
        yield "source", "is empty; name your document with its page, or write “common practice, no source”"
    yield from _of_this_kind(row)


def _forms(row: OwnQuestion) -> Iterator[Fault]:
    for form in row.form:
        yield from _form_faults(row, form)


def _dangers(row: OwnQuestion) -> Iterator[Fault]:
    hurting = _hurting(row)
    if hurting and not row.danger:
        yield "danger", "is missing; say in a sentence how somebody could be hurt by what is marked hurts = true"
    if row.danger and not hurting:
        yield "danger", "no mistake, option or rule is marked hurts = true; mark one, or leave danger out"


def _of_this_kind(row: OwnQuestion) -> Iterator[Fault]:
    """Yield what a kind of question does not have."""
    numbers = {
        "calculator": row.calculator,
        "fields": row.fields,
        "unit": row.unit,
        "within": row.within,
        "decimals": row.decimals,
        "mistake": row.mistake,
    }
    if not row.of_kind.worked_out:
        for key, value in numbers.items():
            if value:
                yield key, f'belongs to kind = "number", not to {row.kind!r}; leave it out'
    if row.shared and not row.of_kind.options:
        yield "shared", f"options belong to a choice or several, not to {row.kind!r}; leave them out"


def _hurting(row: OwnQuestion) -> bool:
    options = [*row.shared.values(), *(option for form in row.form for option in form.option)]
    rules = [rule for form in row.form for rule in form.rule]
    return any(m.hurts for m in row.mistake) or any(o.hurts for o in options) or any(r.hurts for r in rules)


def _form_faults(row: OwnQuestion, form: Form) -> Iterator[Fault]:
    where = f"form {form.key!r}"
    whole = with_shared(form, row.shared)
    if form.source:
        yield where, "source stands once, with the question; leave it out of the form"
        return
    parts = {
        "option": whole.option,
        "item": whole.steps,
        "rule": whole.rule,
        "observation": whole.observation,
        "suspect": whole.suspect,
    }
    wanted = row.of_kind.parts
    for key, there in parts.items():
        if there and key not in wanted:
            yield where, f"{key} does not belong to kind = {row.kind!r}; leave it out"
            return
        if key in wanted and not there:
            yield where, f"has no {key}; kind = {row.kind!r} needs [[question.form.{key}]]"
            return
    keyless = "it has options, items with rules, or observations with suspects" if row.of_kind.worked_out else ""
    for rule in broken_rules(whole, [f.key for f in row.form]):
        if rule != keyless:
            yield where, rule
            return
    yield from ((where, rule) for rule in _rules_of_kind(row, whole))


def _rules_of_kind(row: OwnQuestion, form: Form) -> Iterator[str]:
    if row.of_kind.options:
        yield from _option_rules(row, form)
    elif row.of_kind.parts:
        yield from _order_rules(form)


def _option_rules(row: OwnQuestion, form: Form) -> Iterator[str]:
    offered = [o for o in form.option if not form.offers or o.key in form.offers]
    rights = sum(option.right for option in offered)
    least, most = _OPTIONS
    if not least <= len(offered) <= most:
        yield f"there must be {least} to {most} options, but there are {len(offered)}"
    elif twice := _twice([option.text for option in offered]):
        yield f"the options say the same twice: {twice[:60]!r}"
    elif not rights:
        yield "no option is right; mark one with right = true"
    elif rights == len(offered):
        yield "all options are right; at least one must be wrong"
    elif row.of_kind.one_right and rights > 1:
        yield f'{rights} options are right; a choice has one. For more write kind = "several"'
    elif twice := _twice([option.name for option in offered if option.name]):
        yield f"two mistakes have the same name: {twice[:60]!r}; give each its own"


def _order_rules(form: Form) -> Iterator[str]:
    least, most = _STEPS
    keys = [item.key for item in form.steps]
    counted = [rule for rule in form.rule if rule.kind not in ADVICE_ONLY]
    if not least <= len(keys) <= most:
        yield f"there must be {least} to {most} items, but there are {len(keys)}"
    elif twice := _twice([item.text for item in form.steps]):
        yield f"two items say the same: {twice[:60]!r}"
    elif not counted:
        yield "no rule counts: economy and evidence only advise; give one of kind physical, safety or quality"
    elif circle := _circle(keys, form.rule):
        yield f"the rules go round in a circle: {' before '.join(circle)}; no order keeps them all"
    elif wrong := next((r for r in form.rule if keys.index(r.first) > keys.index(r.then)), None):
        yield f"the items must stand in a right order, but {wrong.then!r} stands before {wrong.first!r}"
    elif len({(r.first, r.then) for r in form.rule}) < len(form.rule):
        yield "two rules are about the same two items; write one"


def _twice(texts: Sequence[str]) -> str:
    plain = [" ".join(text.casefold().split()) for text in texts]
    return next((text for text in plain if plain.count(text) > 1), "")


def _circle(keys: Sequence[str], rules: Sequence[FormRule]) -> list[str]:
    """Return steps that each have to come before the next and the last before the first; none where an order exists."""
    left = list(keys)
    while free := [key for key in left if not any(r.then == key and r.first in left for r in rules)]:
        left = [key for key in left if key not in free]
    if not left:
        return []
    walk = [left[0]]
    while walk[-1] not in walk[:-1]:
        walk.append(next(r.first for r in rules if r.then == walk[-1] and r.first in left))
    return walk[walk.index(walk[-1]) :][::-1]
