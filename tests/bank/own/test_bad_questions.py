"""A file of a college's that is wrong in one way gives exactly one clear line: file, question, key, what to do."""

import tomllib
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bitepoint.bank.own import examined, template
from bitepoint.bank.own.reading import examined_whole
from bitepoint.cli import main

GOOD = template()
FIRST_ORDER_RULE = GOOD.index("[[question.form.rule]]")
ORDER_END = GOOD.index("# ---- A number")


def changed(old: str, new: str) -> str:
    """Return the good file with the first place of some text changed."""
    assert old in GOOD, old
    return GOOD.replace(old, new, 1)


def number(old: str, new: str) -> str:
    """Return the good file with some text of its number question changed."""
    head, tail = GOOD[:ORDER_END], GOOD[ORDER_END:]
    assert old in tail, old
    return head + tail.replace(old, new, 1)


RIGHT = 'text = "A thin film of the grease that the sheet names, the rest wiped off"\nright = true\n'
BACKWARDS = """
[[question.form.rule]]
first = "starter"
then = "ignition"
because = "somebody wrote it so."

"""
BAD = {
    "unknown key": (changed('kind = "choice"', 'kind = "choice"\nminuts = 3'), "'minuts' is no key here; did you mean minutes"),
    "unknown key in an option": (changed("right = true", "rigth = true"), "form 1, option 1: 'rigth' is no key here; did you mean right"),
    "misspelt kind": (changed('kind = "several"', 'kind = "severl"'), "kind: 'severl' cannot stand here; choose choice, several, order or number"),
    "no source": (changed('source = "common practice, no source"      #', "#"), "question 'wrong-grease': missing required field “source”"),
    "empty source": (changed('source = "common practice, no source"      #', 'source = ""  #'), "source: is empty; name your document"),
    "calculator unknown": (number('"wrench_setting_nm"', '"wrench_seting"'), "did you mean wrench_setting_nm"),
    "function that is no calculator": (number('"wrench_setting_nm"', '"__import__"'), "calculator: there is no calculator '__import__'"),
    "field unknown": (number("offset_mm = { list", "offest_mm = { list"), "fields.offest_mm: wrench_setting_nm has no such field; did you mean offset_mm"),
    "field missing": (number("lever_mm = { from = 320, to = 400, step = 10 }", ""), "fields: lever_mm is missing"),
    "range reversed": (number("from = 320, to = 400", "from = 400, to = 320"), "from must be less than to, but 400 is not less than 320"),
    "step that does not reach": (number("step = 10", "step = 30"), "steps of 30 from 320 do not reach 400"),
    "range and list": (number("{ from = 320, to = 400, step = 10 }", "{ from = 320, to = 400, step = 10, list = [1, 2] }"), "but there is a range and list"),
    "mistake equal to the right answer": (number("with = { angle_deg = 180 }", "with = { angle_deg = 0 }"), "the mistake 'turned-back' ("),
    "two mistakes equal": (number("with = { angle_deg = 180 }", "with = { offset_mm = 0 }"), "lies within the tolerance of the mistake 'not-corrected'"),
    "mistake of no kind": (number("with = { angle_deg = 180 }", ""), "mistake 'turned-back': says nothing of how it comes about"),
    "left out where the calculator cannot": (number("with = { angle_deg = 180 }", 'leave_out = ["lever_mm"]'), "wrench_setting_nm cannot do without lever_mm"),
    "swap with itself": (number('swap = ["lever_mm", "offset_mm"]', 'swap = ["lever_mm", "lever_mm"]'), "swap names two different fields"),
    "unit of another kind": (number('"lbf·ft"', '"mm"'), "taken_as.target_nm: mm measures length, but N·m measures torque"),
    "tolerance of nothing": (number("{ percent = 1 }", "{ percent = 0 }"), "within: must be above 0"),
    "solution outside its own tolerance": (number("percent = 1 }", "percent = 0.01 }").replace("decimals = 1", "decimals = 0"), "which is not marked right"),
    "a path into a private attribute": (number('"flywheel.tightening.final_nm"', '"flywheel.__class__.__init__"'), "'__class__' is not known"),
    "a path to words": (number('"flywheel.tightening.final_nm"', '"engine.code"'), "'engine.code' is no figure of a data sheet"),
    "a figure of the sheet in another unit": (number('"flywheel.tightening.final_nm"', '"flywheel.pcd_mm"'), "mm measures length, but N·m measures torque"),
    "a figure that is printed nowhere": (number("the crow-foot stands straight out by {offset_mm}", "the crow-foot is long"), "{offset_mm} stands neither there nor in the table"),
    "the answer in the question": (number("What do you set?", "What do you set? Not {answer}?"), "form 'straight-out', ask: the place {answer} is filled by nothing"),
    "a formula in a place": (number("{lever_mm} from drive", "{lever_mm*2} from drive"), "a place is a plain name in braces"),
    "an attribute in a place": (number("{lever_mm} from drive", "{lever_mm.__class__} from drive"), "a place is a plain name in braces"),
    "a huge number": (number("from = 320", f"from = {'9' * 400}"), "holds a number of more than 300 digits"),
    "a number too large": (number("from = 320", "from = 1e300"), "a figure must be a plain number"),
    "no number": (number("angle_deg = 0", "angle_deg = nan"), "fields.angle_deg: a figure must be a plain number"),
    "two options equal": (changed("A few drops of fresh engine oil on each spline before it is put on", "No grease at all, since grease and clutches never belong together"), "the options say the same twice"),
    "no right option": (changed("right = true\n\n[[question.form.option]]\nkey = \"packed\"", 'name = "x"\nsays = "Think."\n\n[[question.form.option]]\nkey = "packed"'), "no option is right"),
    "two right options in a choice": (changed('name = "leaves the splines dry"', 'right = true\nname = "leaves the splines dry"'), "2 options are right; a choice has one"),
    "all right": (changed('name = "loads the boot before lifting"', "right = true\nname = \"loads the boot before lifting\"").replace('name = "leaves the doors open"', 'right = true\nname = "leaves the doors open"'), "all options are right"),
    "an order without edges": (GOOD[:FIRST_ORDER_RULE] + GOOD[ORDER_END:], "has no rule; kind = 'order' needs [[question.form.rule]]"),
    "a circle of edges": (GOOD[:ORDER_END] + BACKWARDS + GOOD[ORDER_END:], "the rules go round in a circle: "),
    "items in a wrong order": (changed('first = "ignition"\nthen = "negative"', 'first = "negative"\nthen = "ignition"'), "must stand in a right order"),
    "only rules that advise": (changed('kind = "quality"                           #', 'kind = "economy"  #').replace('kind = "safety"', 'kind = "economy"'), "no rule counts"),
    "a rule about no item": (changed('then = "starter"', 'then = "startr"'), "a rule names a step that is not there"),
    "not UTF-8": (GOOD.encode("utf-16"), "is not written in UTF-8"),
    "a huge file": (GOOD + "#" * 500_000, "holds more than 200 kB"),
    "no TOML": (changed("[[question]]", "[[question]"), "Correct it and save it as plain text in UTF-8"),
    "nothing in it": ("", "there must be 1 to 60 questions, but there are 0"),
    "no title": (changed('title = "Questions of our workshop"        #', "#"), "missing required field “title”"),
    "duplicate topic": (changed('topic = "before-the-ramp"', 'topic = "wrong-grease"'), "question 'wrong-grease', topic: stands twice"),
    "a topic that is no key": (changed('topic = "wrong-grease" ', 'topic = "Wrong Grease" '), "topic: must be small letters"),
    "code in a text": (changed("Who has tried what stays on these splines?", "<script>alert(1)</script>"), "holds markup or code"),
    "a hidden letter": (changed("Who has tried", "Who has\u202e tried"), "holds a sign that cannot be seen or printed"),
    "an over-long text": (changed("Where does grease go that nothing holds while the plate spins?", "grease " * 200), "characters, and 600 is the most"),
    "an empty text": (changed("Where does grease go that nothing holds while the plate spins?", " "), "form 'how-much', step: is empty"),
    "a danger without a reason": (changed('danger = "A car that rolls', '# "A car that rolls'), "danger: is missing"),
    "a reason without a danger": (changed('because = "the cable of the starter is always live."\nkind = "safety"\nhurts = true', 'because = "the cable of the starter is always live."\nkind = "safety"'), "no mistake, option or rule is marked hurts"),
    "a wrong option that says nothing": (changed('says = "Dry splines bind. The plate then drags, and the gears grate."', ""), "a wrong option needs name and says"),
    "minutes below nothing": (changed("minutes = 2", "minutes = -2"), "minutes: must be above 0"),
    "a calculator in a choice": (changed('kind = "several"', 'kind = "several"\ncalculator = "wrench_setting_nm"'), "belongs to kind = \"number\""),
    "a day that no month has": (changed("edition = 2026-01-15", "edition = 2026-02-31"), "questions.toml: "),
}  # fmt: skip


def test_there_are_thirty_bad_files_at_least() -> None:
    """Each another fault."""
    assert len(BAD) >= 30


@pytest.mark.parametrize("fault", BAD)
def test_a_bad_file_gives_exactly_one_clear_line(
    fault: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Status 2, one line that names the file and says what is wrong and what to do; nothing else."""
    content, says = BAD[fault]
    path = tmp_path / "questions.toml"
    path.write_bytes(content if isinstance(content, bytes) else content.encode("utf-8"))
    assert main(["exercise", "check", str(path)]) == 2
    told = capsys.readouterr()
    assert told.out == ""
    assert told.err.count("\n") == 1, told.err
    assert told.err.startswith("questions.toml: ")
    assert says in told.err
    assert told.err.endswith(".\n")
    assert len(told.err) < 420
    assert "Traceback" not in told.err
    assert "msgspec" not in told.err


@pytest.mark.parametrize("path", ["missing.toml", "."])
def test_a_file_that_cannot_be_read_is_one_line(path: str, tmp_path: Path) -> None:
    """A missing file and a folder are named."""
    found = examined(tmp_path / path)
    assert found.questions is None
    assert len(found.faults) == 1


def _mutated(places: list[tuple[int, bytes]]) -> bytes:
    content = bytearray(GOOD.encode("utf-8"))
    for place, piece in places:
        at = place % len(content)
        content[at : at + len(piece)] = piece
    return bytes(content)


PIECES = st.sampled_from(
    [
        b"",
        b"\xff",
        b"[",
        b"]",
        b"{",
        b'"',
        b"=",
        b"nan",
        b"inf",
        b"-1",
        b"9" * 30,
        b"{answer}",
        b"\x00",
        b"true",
        b"\n",
        b"1e400",
        b"'",
    ]
)


@settings(max_examples=150, deadline=None)
@given(places=st.lists(st.tuples(st.integers(0, 100_000), PIECES | st.binary(max_size=6)), max_size=6))
def test_whatever_is_in_a_file_only_bad_data_comes_of_it(
    places: list[tuple[int, bytes]], tmp_path_factory: pytest.TempPathFactory
) -> None:
    """A file changed anywhere is read, or refused in lines; no other error comes up."""
    path = tmp_path_factory.mktemp("fuzz") / "questions.toml"
    path.write_bytes(_mutated(places))
    faults = examined(path).faults
    assert not [line for line in faults if "\n" in line]


TOML = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=20),
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(st.text(max_size=12), inner, max_size=4),
    max_leaves=12,
)


@settings(max_examples=100, deadline=None)
@given(
    value=TOML,
    key=st.sampled_from(
        ["topic", "kind", "minutes", "form", "fields", "mistake", "shared", "within", "unit", "decimals", "danger"]
    ),
)
def test_a_value_of_any_type_is_refused_in_a_line(key: str, value: object) -> None:
    """Whatever stands in the place of a key, a number question is read or refused."""
    whole = tomllib.loads(GOOD)
    whole["question"][3][key] = value
    faults = examined_whole("questions.toml", whole).faults
    assert not [line for line in faults if "\n" in line]
