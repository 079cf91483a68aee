"""The forms files: every form and option is used, every place is filled, and a bad file costs one clear line."""

import re
from pathlib import Path

import msgspec
import pytest

from bitepoint import bank
from bitepoint.bank import exercises_of
from bitepoint.bank.forms import Forms, read_forms
from bitepoint.bank.forms import form as form_module
from bitepoint.bank.lessons import LESSONS
from bitepoint.errors import BadData, NotCovered
from bitepoint.questions.choice import Choice, Several
from bitepoint.questions.draw import Draw
from bitepoint.questions.order import Order

FILES = {key: Path(bank.__file__).parent / key / "forms.toml" for key in LESSONS}
WITH_FORMS = [key for key, path in FILES.items() if path.exists()]
LEARNERS, TURNS = [f"learner-{n}" for n in range(20)], range(1, 7)

CHOICE = """
[tags]

[[tags.form]]
key = "overdue"
ask = "Examined {late} months ago. What now?"
why = "Overdue means not used."
step = "Who may say so?"

[[tags.form.option]]
key = "leave-it"
text = "Leave it down"
right = true

[[tags.form.option]]
key = "by-look"
text = "Use it"
name = "judges by its look"
says = "Cracks cannot be seen."
"""
ORDER = """
[tags]

[[tags.form]]
key = "battery"
ask = "In which order?"
why = "So it is dead."
step = "What first?"

[[tags.form.item]]
key = "off"
text = "Ignition off"

[[tags.form.item]]
key = "minus"
text = "Negative lead off"

[[tags.form.rule]]
first = "off"
then = "minus"
because = "of the data."
kind = "quality"
"""
ENQUIRY = """
[tags]

[[tags.form]]
key = "howl"
ask = "What howls?"
why = "It is the bearing."
step = "When?"
free = ["rest"]

[[tags.form.observation]]
key = "rest"
label = "pedal up"
shows = "quiet"

[[tags.form.suspect]]
key = "bearing"
label = "release bearing"
right = true
shows = { rest = "quiet" }

[[tags.form.suspect]]
key = "gearbox"
label = "gearbox"
name = "blames the gearbox"
says = "That is heard with the pedal up."
shows = { rest = "howls" }
"""
BAD = {
    "a bracket is open": (CHOICE, "[tags]", "[tags", "is no valid TOML"),
    "a key is misspelt": (CHOICE, "step =", "stepp =", "unknown field `stepp`"),
    "a key is missing": (CHOICE, 'why = "Overdue means not used."\n', "", "missing required field `why`"),
    "a yes is a word": (CHOICE, "right = true", 'right = "yes"', "Expected `bool`, got `str`"),
    "there is no such source": (CHOICE, "[tags]", '[tags]\nsource = "hearsay"', "'hearsay' is not in the list"),
    "a key has capitals": (CHOICE, '"by-look"', '"By look"', "a key is small letters, digits and hyphens"),
    "an option stands twice": (CHOICE, '"by-look"', '"leave-it"', "a key stands twice"),
    "a form stands twice": (CHOICE + CHOICE.replace("[tags]", ""), "", "", "a form of this key stands twice"),
    "an offer is no option": (CHOICE, "step =", 'offers = ["by-luck"]\nstep =', "'by-luck' is neither an option"),
    "a wrong option says nothing": (CHOICE, 'says = "Cracks cannot be seen."', "", "needs name and says"),
    "a place is no plain name": (CHOICE, "{late}", "{late:.1f}", "a place is a plain name in braces"),
    "a brace is open": (CHOICE, "{late}", "{late", "a place is a plain name in braces"),
    "no car can have it": (CHOICE, "step =", 'needs = ["wings"]\nstep =', "a trait that no car can have"),
    "there is nothing to answer": (CHOICE.partition("[[tags.form.option]]")[0], "", "", "it has options, items"),
    "a rule names no step": (ORDER, 'then = "minus"', 'then = "plus"', "names a step that is not there"),
    "a step is before itself": (ORDER, 'then = "minus"', 'then = "off"', "a step comes before itself"),
    "a rule is of no known kind": (ORDER, '"quality"', '"taste"', "Invalid enum value 'taste'"),
    "free is not observed": (ENQUIRY, 'free = ["rest"]', 'free = ["push"]', "free names an observation"),
    "what it shows is not observed": (ENQUIRY, '{ rest = "howls" }', '{ push = "howls" }', "a suspect shows"),
    "no suspect is right": (ENQUIRY, "right = true\n", "", "one suspect is right"),
}


def written(tmp_path, text):
    """Return the path of a lesson's forms file with this text."""
    path = tmp_path / "carry" / "forms.toml"
    path.parent.mkdir()
    path.write_text(text, encoding="utf-8")
    return path


@pytest.mark.parametrize("text", [CHOICE, ORDER, ENQUIRY], ids=["choice", "order", "enquiry"])
def test_the_good_file_of_each_kind_is_read(tmp_path, text):
    """What the bad files are made from is without fault."""
    assert {"tags"} == set(read_forms(written(tmp_path, text)))


@pytest.mark.parametrize(("text", "old", "new", "rule"), BAD.values(), ids=BAD.keys())
def test_a_bad_file_costs_one_clear_line(tmp_path, text, old, new, rule):
    """The line names the file with its lesson and the rule that is broken, and says what to correct."""
    assert old in text
    with pytest.raises(BadData) as caught:
        read_forms(written(tmp_path, text.replace(old, new, 1) if old else text))
    told = str(caught.value)
    assert told.startswith("carry/forms.toml: ")
    assert rule in told
    assert re.search(r"Correct that (key|line)", told)
    assert "\n" not in told


def test_a_missing_file_costs_one_clear_line(tmp_path):
    """The line says that the file goes back into its folder."""
    with pytest.raises(BadData, match=r"^carry/forms\.toml: cannot be read .*Put the forms file back"):
        read_forms(tmp_path / "carry" / "forms.toml")


def draw_of(**more):
    """Return the draw of an exercise that has the forms above."""
    return Draw(class_word="amber", learner="ada", exercise="carry.tags", turn=1, **more)


def test_a_place_that_nobody_fills_is_named(tmp_path):
    """The line names lesson, exercise, form and place."""
    form = read_forms(written(tmp_path, CHOICE))["tags"]["overdue"]
    assert form.choice(draw_of(), late=3).ask == "Examined 3 months ago. What now?"
    with pytest.raises(BadData, match=r"carry/forms\.toml: tags\.overdue: the place \{late\} is not filled"):
        form.choice(draw_of())
    with pytest.raises(TypeError, match="text or a whole number, not 2.5"):
        form.choice(draw_of(), late=2.5)


def test_what_is_right_can_be_said_by_who_draws(tmp_path):
    """A key that the form does not offer, or two right options of a choice, is an error in one line."""
    form = read_forms(written(tmp_path, CHOICE))["tags"]["overdue"]
    assert next(o.key for o in form.choice(draw_of(), right="by-look", late=3).options if o.right) == "by-look"
    with pytest.raises(BadData, match="offers no option 'by-luck'"):
        form.choice(draw_of(), right="by-luck", late=3)
    both = msgspec.structs.replace(form, option=[msgspec.structs.replace(o, right=True) for o in form.option])
    with pytest.raises(BadData, match=r"tags\.overdue: one option must be right"):
        both.choice(draw_of(), late=3)


def test_an_option_that_is_right_here_is_nobodys_mistake(tmp_path):
    """Where the figures make an option right that is wrong in other cases, its mistake is not told."""
    form = read_forms(written(tmp_path, CHOICE))["tags"]["overdue"]
    as_usual = msgspec.structs.replace(form.option[0], right=False, name="is too careful", says="It may be used.")
    drawn = msgspec.structs.replace(form, option=(as_usual, form.option[1])).choice(draw_of(), right="leave-it", late=3)
    assert [("leave-it", "", "")] == [(o.key, o.name, o.says) for o in drawn.options if o.right]


def test_an_option_with_a_place_is_made_in_each_draw(tmp_path):
    """It says what this draw fills it with; one without a place stays what it is."""
    filled = CHOICE.replace('text = "Use it"', 'text = "Use it {late} months more"')
    form = read_forms(written(tmp_path, filled))["tags"]["overdue"]
    for late in (3, 4, 3):
        texts = {o.key: o.text for o in form.choice(draw_of(), late=late).options}
        assert {"leave-it": "Leave it down", "by-look": f"Use it {late} months more"} == texts


def test_a_choice_without_places_is_that_of_what_was_asked_for(tmp_path):
    """Which option is right, which are on offer: asked for in turn, nothing of the question before is left."""
    third = '\n[[tags.form.option]]\nkey = "wash"\ntext = "Wash it"\nname = "trusts soap"\nsays = "It stays old."\n'
    form = read_forms(written(tmp_path, CHOICE.replace("{late} months", "long") + third))["tags"]["overdue"]
    for right, offers in [
        ("", ()),
        ("by-look", ()),
        ("", ("wash", "leave-it")),
        ("wash", ("wash", "by-look")),
        ("", ()),
    ] * 2:
        question = form.choice(draw_of(), right=right, offers=offers)
        (text,) = [option.text for option in question.options if option.right]
        assert text == {"": "Leave it down", "by-look": "Use it", "wash": "Wash it"}[right]
        assert question.solution == f"{text}. Overdue means not used."
        assert {option.key for option in question.options} == set(offers or ("leave-it", "by-look", "wash"))


def test_only_some_choices_are_kept_put_together(tmp_path, monkeypatch):
    """Where what is on offer is drawn, there may be very many; one that is not kept is the same."""
    monkeypatch.setattr(form_module, "_MOST_READY", 1)
    form = read_forms(written(tmp_path, CHOICE))["tags"]["overdue"]
    offers = [("leave-it", "by-look"), ("by-look", "leave-it"), ("leave-it", "by-look")]
    found = [form.choice(draw_of(), offers=some, late=3) for some in offers]
    assert found[0] == found[2]
    assert len(form._ready_choices) == 1
    assert [o.key for o in found[0].options] == [o.key for o in found[1].options][::-1]


def test_steps_and_reasons_with_a_place_are_made_in_each_draw(tmp_path):
    """They say what this draw fills them with, and the rules meet the steps."""
    steps = ORDER.replace('"Ignition off"', '"Ignition off for {wait} s"').replace(
        '"of the data."', '"{wait} s save the data."'
    )
    form = read_forms(written(tmp_path, steps))["tags"]["battery"]
    for wait in (5, 9, 5):
        order = form.order(draw_of(), wait=wait)
        assert order.example == (f"Ignition off for {wait} s", "Negative lead off")
        assert [(order.example[0], f"{wait} s save the data.")] == [(r.first, r.because) for r in order.rules]


def test_an_option_that_is_one_of_several_right_ones_keeps_its_words(tmp_path):
    """Where it alone is right nobody leaves it out; what was made for the one question is not taken for the other."""
    form = read_forms(written(tmp_path, CHOICE))["tags"]["overdue"]
    named = msgspec.structs.replace(form.option[0], name="leaves it up", says="It falls.")
    form = msgspec.structs.replace(form, option=(named, form.option[1]))
    for _ in range(2):
        (alone,) = (o for o in form.choice(draw_of(), late=3).options if o.right)
        (among,) = (o for o in form.several(draw_of(), late=3).options if o.right)
        assert [("", ""), ("leaves it up", "It falls.")] == [(o.name, o.says) for o in (alone, among)]


def test_the_steps_that_are_asked_for_bring_their_own_rules(tmp_path):
    """A rule about a step that is not asked for is left out, in every draw."""
    more = '[[tags.form.item]]\nkey = "wait"\ntext = "Wait"\n\n[[tags.form.rule]]\nfirst = "minus"\nthen = "wait"\nbecause = "so."\n'
    form = read_forms(written(tmp_path, ORDER + more))["tags"]["battery"]
    for _ in range(2):
        assert [("minus", "wait")] == [r.keys for r in form.order(draw_of(), steps=("minus", "wait")).rules]
        assert 2 == len(form.order(draw_of()).rules)


def test_a_solution_may_list_what_is_right_in_one_line(tmp_path):
    """`{listed}` stands for the right options of several, one behind the other, in the order of the form."""
    form = read_forms(written(tmp_path, CHOICE))["tags"]["overdue"]
    form = msgspec.structs.replace(form, solution="{listed}. {why}")
    told = form.several(draw_of(), right=["leave-it", "by-look"], late=3).solution
    assert told == "Leave it down; Use it. Overdue means not used."


def test_a_form_that_speaks_of_a_car_is_only_drawn_where_the_class_has_it(tmp_path):
    """A class without such a car gets the other forms in turn; where none is left it is not covered."""
    form = read_forms(written(tmp_path, CHOICE))["tags"]["overdue"]
    cable = msgspec.structs.replace(form, key="cable", needs=("cable release",))
    assert {form.key, cable.key} == {Forms([form, cable]).drawn(d).key for d in drawn_by(20, ("A", "B"))}
    assert {form.key} == {Forms([form, cable]).drawn(d).key for d in drawn_by(20, ("B", "C"))}
    with pytest.raises(NotCovered, match="no car of this class has: cable release"):
        Forms([cable]).drawn(draw_of(cars=("B",)))


def drawn_by(count, cars):
    """Yield the draws of some learners of a class with these cars."""
    for number in range(count):
        yield Draw(class_word="amber", learner=f"learner-{number}", exercise="carry.tags", turn=1, cars=cars)


def kept(question):
    """Return every key that a question shows."""
    if isinstance(question, Choice | Several):
        return {o.key for o in question.options}
    if isinstance(question, Order):
        return set(question.keys)
    return {s.key for s in question.suspects} | {o.key for o in question.observations}


def written_keys(form):
    """Return every key that stands in a form."""
    return {k.key for group in (form.option, form.steps, form.observation, form.suspect) for k in group}


def asked(lesson, topics):
    """Return, by topic and form, the keys that a few learners are shown."""
    found = {}
    for exercise in exercises_of(lesson):
        topic = exercise.id.partition(".")[2]
        for learner in LEARNERS if topic in topics else ():
            for turn in TURNS:
                question = exercise.draw(class_word="amber", learner=learner, turn=turn)
                found.setdefault((topic, question.form), set()).update(kept(question))
    return found


@pytest.mark.parametrize("lesson", WITH_FORMS)
def test_every_form_and_option_of_a_lesson_is_used(lesson):
    """A few learners meet every form of every file, with its places filled, and every option of every form."""
    known = read_forms(FILES[lesson])
    found = asked(lesson, known)
    for topic, of_topic in known.items():
        for form in of_topic.forms:
            assert written_keys(form) == found.get((topic, form.key)), f"{lesson}.{topic}: {form.key}"


@pytest.mark.parametrize("lesson", WITH_FORMS)
def test_every_shared_option_is_offered(lesson):
    """What no form offers does not stand in a file."""
    raw = msgspec.toml.decode(FILES[lesson].read_bytes())
    for topic, told in raw.items():
        offered = {key for form in told["form"] for key in form.get("offers", ())}
        assert set(told.get("shared", ())) <= offered, topic
