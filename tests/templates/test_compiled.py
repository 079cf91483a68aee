"""Templates are compiled once for a package: what is kept is the code of this template, or it is not used."""

from pathlib import Path

import jinja2
import pytest

from bitepoint import templates
from bitepoint.templates import compiled


@pytest.fixture
def page(package: Path) -> Path:
    """Return a template in a package whose compiled modules may be written."""
    path = package / "page.html.jinja"
    path.write_text("<p>{{ a }}</p>", encoding="utf-8")
    return path


def shown(page: Path, **options: object) -> str:
    """Return the page as a new process would make it."""
    made = templates.environment(page.parent, **options)  # type: ignore[arg-type]
    return made.get_template(page.name).render(a="<&>")


def compile_nothing(*_: object, **__: object) -> None:
    """Stand for a compiler that must not be asked."""
    raise AssertionError


def test_a_template_is_compiled_once(page: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The next process takes the code that is kept, and the page is the same."""
    first = shown(page)
    monkeypatch.setattr(jinja2.Environment, "_generate", compile_nothing)
    assert "<p>&lt;&amp;&gt;</p>" == first == shown(page)


def test_a_changed_template_is_compiled_anew(page: Path) -> None:
    """Also one of the same size and time."""
    shown(page)
    page.write_text("<b>{{ a }}</b>", encoding="utf-8")
    assert "<b>&lt;&amp;&gt;</b>" == shown(page)


@pytest.mark.parametrize("what", ["jinja", "generator"])
def test_code_of_another_version_is_not_used(page: Path, monkeypatch: pytest.MonkeyPatch, what: str) -> None:
    """Neither of another Jinja nor of another generator of ours."""
    shown(page)
    if what == "jinja":
        monkeypatch.setattr(jinja2, "__version__", "99")
    else:
        monkeypatch.setattr(compiled, "_MAKER", "another")
    monkeypatch.setattr(jinja2.Environment, "_generate", compile_nothing)
    with pytest.raises(AssertionError):
        shown(page)


def test_nothing_of_one_environment_stays_in_the_code(page: Path) -> None:
    """Filters, and what is done to each value, are those of the environment that uses it, also for what never changes."""
    page.write_text("{{ 'a' | how }}{{ a }}{{ 'b' }}", encoding="utf-8")
    first = shown(page, filters={"how": str.upper})
    again = shown(page, filters={"how": lambda text: text * 2}, finalize=lambda value: f"[{value}]")
    assert ("A&lt;&amp;&gt;b", "[aa][&lt;&amp;&gt;][b]") == (first, again)


def test_code_that_is_no_code_is_compiled_anew(page: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """What was kept whole but by a Python that writes it otherwise."""
    monkeypatch.setattr(compiled.marshal, "dumps", lambda _: b"\xff?")
    shown(page)
    assert "<p>&lt;&amp;&gt;</p>" == shown(page)


def test_how_jinja_is_set_up_is_part_of_what_made_the_code(tmp_path: Path) -> None:
    """A release that trims or escapes otherwise takes no code of the one before it."""
    names = ("__init__.py", "escaping.py")
    for name in names:
        (tmp_path / name).write_text("a", encoding="utf-8")
    before = compiled._made_by(tmp_path)
    for name in names:
        (tmp_path / name).write_text("b", encoding="utf-8")
        assert before != compiled._made_by(tmp_path)
        before = compiled._made_by(tmp_path)
    assert compiled._made_by(Path(templates.__file__).parent) == compiled._MAKER
