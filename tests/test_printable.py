"""What a file says, shown to a person: nothing in it turns, hides, moves or colours anything."""

import pickle

import pytest
from jinja2 import UndefinedError
from markupsafe import Markup

from bitepoint import errors
from bitepoint.printable import printable
from bitepoint.templates import environment


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("L07-K\u202ezip.exe", "L07-K[U+202E]zip.exe"),
        ("\x1b[31mred\x1b[0m", "[U+001B][31mred[U+001B][0m"),
        ("a\x00b\x7f\x9b", "a[U+0000]b[U+007F][U+009B]"),
        ("zero\u200bwidth\ufeff\u2028\udc80", "zero[U+200B]width[U+FEFF][U+2028][U+DC80]"),
        ("two\r\nlines\tand", "two lines and"),
        ("Ä 3 N·m “–” \u202f\u00a0✓", "Ä 3 N·m “–” \u202f\u00a0✓"),
        ("\U000e0041\ue000", "[U+E0041][U+E000]"),
    ],
)
def test_what_cannot_be_printed_is_written_out(text: str, shown: str) -> None:
    """Control, escape, bidi and invisible characters as their code points; a line break as a space."""
    assert shown == printable(text)
    assert shown == printable(shown)


def test_no_message_holds_a_line_break_or_a_control_character_of_a_file() -> None:
    """Every error of ours is one line, also after a worker process handed it over."""
    for kind in (errors.BadInput, errors.BadData, errors.CannotRun, errors.NotUnderstood, errors.NotRecorded):
        error = kind("the column “a\nb\x1b[2J”")

        assert str(error) == "the column “a b[U+001B][2J”"
        assert str(pickle.loads(pickle.dumps(error))) == str(error)


def test_a_page_shows_them_as_what_they_are() -> None:
    """Every template does, and escapes the rest as before."""
    page = environment(".").from_string("{{ a }}{{ b | safe }}{{ c }}").render(a="<\u202e>", b="<b>\n</b>", c=7)

    assert page == "&lt;[U+202E]&gt;<b>\n</b>7"


@pytest.mark.parametrize("values", [(1, True, 1.0, "1"), (True, 1, "1", 1.0), ("<b>", Markup("<b>"), "<b>")])
def test_equal_values_of_several_kinds_are_each_shown_as_their_own(values: tuple[object, ...]) -> None:
    """One that was shown before is no reason to show an equal one the same way, least of all text as if it were safe."""
    page = environment(".").from_string("{% for value in values %}{{ value }} {% endfor %}").render(values=values)

    wanted = [v if isinstance(v, Markup) else str(v).replace("<", "&lt;").replace(">", "&gt;") for v in values]
    assert page.split() == wanted


@pytest.mark.parametrize("text", ["<script>\u202e", "<script>\u202e" * 100, "<a href='x'>\x1b[2J", "two\n<lines>"])
def test_hostile_text_is_shown_the_same_each_time(text: str) -> None:
    """Escaped and with its control signs written out, whether it is long or short, the first time or a later one."""
    template = environment(".").from_string("{{ text }}|{{ text }}|{% set a %}{{ text }}{% endset %}{{ a }}")

    once, again = template.render(text=text).split("|", 1)
    assert again == f"{once}|{once}" == template.render(text=text).split("|", 1)[1]
    assert not {"<", ">", "'", "\u202e", "\x1b"} & set(once)


@pytest.mark.parametrize("template", ["{{ gone }}", "{{ a.gone }}", "{{ a[gone] }}"])
def test_what_is_missing_is_refused_wherever_it_stands(template: str) -> None:
    """Nothing is left out in silence."""
    with pytest.raises(UndefinedError):
        environment(".").from_string(template).render(a="a")


def test_what_is_shown_is_kept_for_so_many_short_texts_only() -> None:
    """Other values than those before are shown as themselves, also long after."""
    template = environment(".").from_string("{{ n }}:{{ n ~ '&' }}")

    assert [f"{n}:{n}&amp;" for n in range(9000)] == [template.render(n=n) for n in range(9000)]
    assert template.render(n=3) == "3:3&amp;"
