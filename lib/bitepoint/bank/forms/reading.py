"""Reading a lesson's forms.toml: every rule that a form must keep, each broken one said in one line."""

import re
from collections.abc import Mapping, Sequence
from pathlib import Path

import msgspec

from bitepoint.bank.forms.form import Form, form_texts
from bitepoint.bank.forms.places import plain_places
from bitepoint.bank.forms.rows import FormOption, FormsRow
from bitepoint.errors import BadData, NotCovered
from bitepoint.questions.draw import Draw
from bitepoint.workshop.reading import broken, check_sources, read_toml
from bitepoint.workshop.traits import TRAITS

_KEY = re.compile(r"[a-z0-9]+(-[a-z0-9]+)*")


class _Topic(FormsRow, frozen=True, kw_only=True):
    """The forms of one exercise; `revision` is that of the exercise which asks them."""

    source: str = "common-practice"
    shared: dict[str, FormOption] = {}
    form: tuple[Form, ...]


class Forms:
    """The forms of one exercise, in their order."""

    def __init__(self, forms: Sequence[Form]) -> None:
        self.forms = tuple(forms)
        self._by_key = {form.key: form for form in forms}
        self._for_any_car = not any(form.needs for form in forms)

    def __getitem__(self, key: str) -> Form:
        if key not in self._by_key:
            raise BadData(f"There is no form {key!r} here. Choose one of {', '.join(self._by_key)}.")
        return self._by_key[key]

    def __len__(self) -> int:
        return len(self.forms)

    def drawn(self, draw: Draw) -> Form:
        """Return the form of this turn, of those that speak of no car which the class lacks; each next turn the next.

        Raises
        ------
        NotCovered
            The class has no car for any of them.
        """
        if self._for_any_car and draw.covers():
            return self.forms[draw.form(len(self.forms))]
        forms = [form for form in self.forms if draw.covers(*form.needs)]
        if not forms:
            raise NotCovered(f"no car of this class has: {', '.join(self.forms[0].needs)}")
        return forms[draw.form(len(forms))]


def read_forms(path: Path) -> dict[str, Forms]:
    """Read a forms.toml.

    Raises
    ------
    BadData
        Names the file with its lesson's folder, the key and the rule.
    """
    try:
        return _read(path)
    except BadData as error:
        raise BadData(f"{path.parent.name}/{error}") from None


def _read(path: Path) -> dict[str, Forms]:
    topics = read_toml(path, dict[str, _Topic], what="forms file")
    check_sources(path, [(f"{name}.source", t.source) for name, t in topics.items()])
    return {name: Forms([_checked(path, name, topic, form) for form in topic.form]) for name, topic in topics.items()}


def _checked(path: Path, name: str, topic: _Topic, form: Form) -> Form:
    """Return a form with the shared options that it offers, when it keeps every rule."""
    where = f"{name}.{form.key}"
    whole = with_shared(form, topic.shared)
    whole = msgspec.structs.replace(whole, source=form.source or topic.source)
    check_sources(path, [(f"{where}.source", whole.source)])
    for rule in broken_rules(whole, [f.key for f in topic.form]):
        raise broken(path, where, rule, what="forms file")
    return whole


def with_shared(form: Form, shared: Mapping[str, FormOption]) -> Form:
    """Return a form with those options that it offers and that several forms share."""
    own = {option.key for option in form.option}
    added = [msgspec.structs.replace(shared[key], key=key) for key in form.offers if key in shared and key not in own]
    return msgspec.structs.replace(form, option=(*form.option, *added))


def broken_rules(form: Form, keys: Sequence[str]) -> list[str]:
    """Return the rules that a form with its shared options breaks; `keys` are those of all forms of its exercise."""
    return [rule for rule, holds in _rules(form, keys) if not holds]


def _rules(form: Form, form_keys: Sequence[str]) -> list[tuple[str, bool]]:
    missing = [key for key in form.offers if key not in {option.key for option in form.option}]
    keys = [k.key for group in (form.option, form.steps, form.observation, form.suspect) for k in group]
    steps = {item.key for item in form.steps}
    shows = {o.key for o in form.observation}
    return [
        (f"offers: {missing[0] if missing else ''!r} is neither an option of the form nor shared", not missing),
        ("a key is small letters, digits and hyphens", all(map(_KEY.fullmatch, (form.key, *keys)))),
        ("a key stands twice", len(set(keys)) == len(keys)),
        ("a form of this key stands twice", form_keys.count(form.key) == 1),
        ("needs names a trait that no car can have", set(form.needs) <= set(TRAITS)),
        ("it has options, items with rules, or observations with suspects", bool(keys)),
        ("a wrong option needs name and says", all(o.right or (o.name and o.says) for o in form.option)),
        ("a rule names a step that is not there", all({r.first, r.then} <= steps for r in form.rule)),
        ("a step comes before itself", all(r.first != r.then for r in form.rule)),
        ("free names an observation that is not there", set(form.free) <= shows),
        ("a suspect shows an observation that is not there", all(set(s.shows) <= shows for s in form.suspect)),
        ("one suspect is right", not form.suspect or [s.right for s in form.suspect].count(True) == 1),
        ("a place is a plain name in braces, such as {weeks}", all(map(plain_places, form_texts(form)))),
    ]
