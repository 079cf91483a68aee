"""A class file is read, or refused in one line that names what is wrong."""

from pathlib import Path

import pytest

from bitepoint.errors import BadInput
from bitepoint.logbook.class_keys import KEYS
from bitepoint.workbook.class_file import ClassFile, read_class_file


def test_a_full_class_file_is_read(tmp_path: Path) -> None:
    """Each key arrives."""
    path = tmp_path / "class.toml"
    path.write_text(
        'class_word = "autumn"\ntitle = "Töne"\nfeedback = "after hand-in"\nsitting = "June"\n', encoding="utf-8"
    )
    expected = ClassFile(class_word="autumn", title="Töne", feedback="after hand-in", sitting="June")
    assert expected == read_class_file(path)


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("", "class_word"),
        ('class_word = "a b"', "class word 'a b' cannot be used"),
        ('class_word = "a"\nfeedback = "never"', "never"),
        ('class_word = "a"\nclassword = "b"', "classword"),
        (
            'class_word = "a"\nretake = 0',
            "there is no key “retake” (did you mean “retakes”?). The keys are: class_word, ",
        ),
        ("class_word = 3", "class_word"),
        ('class_word = "a', "class.toml"),
        ('class_word = "a"\nsitting = "a b"', "sitting word 'a b' cannot be used"),
        ('class_word = "a"\nlearner = "a b"', "learner id 'a b' cannot be used"),
    ],
)
def test_a_wrong_class_file_is_refused_by_name(tmp_path: Path, text: str, told: str) -> None:
    """One line, with the file's name and the key or value at fault."""
    path = tmp_path / "class.toml"
    path.write_text(text, encoding="utf-8")
    with pytest.raises(BadInput) as caught:
        read_class_file(path)
    assert told in str(caught.value)
    assert str(caught.value).startswith("class.toml: ")


def test_a_missing_class_file_is_told(tmp_path: Path) -> None:
    """The name and the reason."""
    with pytest.raises(BadInput, match=r"class.toml cannot be read \(No such file"):
        read_class_file(tmp_path / "class.toml")


def test_one_file_serves_opening_and_marking(tmp_path: Path) -> None:
    """The keys that only marking reads do not stop a workbook from being opened with the same class.toml."""
    path = tmp_path / "class.toml"
    path.write_text(
        'class_word = "oak-2026"\npass_share = 0.8\ndue = "2026-06-30"\nlessons = ["star"]\ncriteria = ["a"]\n'
        'supervisor = "A. Assessor"\nappeal_days = 5\nappeal_to = "B. Head"\nretakes = 0\ncounts = "best"\n',
        encoding="utf-8",
    )
    assert "oak-2026" == read_class_file(path).class_word


def test_every_key_of_a_class_file_is_known_to_opening_and_to_marking() -> None:
    """One list of keys serves both."""
    assert set(KEYS) == set(ClassFile.__struct_fields__)
