"""One stored form of a lesson, made from a run and checked without one."""

from pathlib import Path
from typing import Any

import pytest

from bitepoint.errors import BadData
from bitepoint.workbook.canonical import canonical, is_canonical, run_afresh
from bitepoint.workbook.notebooks import as_text

from .small_course import notebook, write

PRINTED = {"output_type": "stream", "name": "stdout", "text": ["2\n"]}


def executed(*outputs: dict[str, Any]) -> dict[str, Any]:
    """A lesson as a run leaves it: one cell, with what Jupyter adds."""
    found = notebook("print(2)")
    found["metadata"] |= {"language_info": {"name": "python"}, "kernelspec": {"name": "python3", "display_name": "Py"}}
    found["cells"][1] |= {"execution_count": 1, "outputs": list(outputs)}
    found["cells"][1]["metadata"] = {"execution": {}, "trusted": True, "tags": ["answer"]}
    return found


def test_a_run_becomes_canonical() -> None:
    """What tools add is left out, what we write stays."""
    stored = canonical(executed(PRINTED))
    assert is_canonical(stored) == []
    assert stored["cells"][1]["metadata"] == {"tags": ["answer"]}
    assert stored["cells"][1]["outputs"] == [PRINTED]
    assert {"kernelspec"} == set(stored["metadata"])


def test_canonical_twice_is_canonical_once() -> None:
    """A second pass changes no byte."""
    stored = canonical(executed(PRINTED))
    assert as_text(stored) == as_text(canonical(stored))
    assert as_text(stored).endswith("}\n")


@pytest.mark.parametrize(
    ("output", "told"),
    [
        ({"output_type": "error", "ename": "NameError", "evalue": "x", "traceback": []}, "step-1 raised NameError: x"),
        ({"output_type": "stream", "name": "stderr", "text": ["old\n"]}, "step-1 printed on stderr: old"),
    ],
)
def test_an_error_or_a_warning_is_refused(output: dict[str, Any], told: str) -> None:
    """The message names the cell."""
    with pytest.raises(BadData, match=told):
        canonical(executed(output))


@pytest.mark.parametrize(
    ("change", "told"),
    [
        (lambda n: n.update(nbformat_minor=4), "the format is not 4.5"),
        (lambda n: n["metadata"].pop("kernelspec"), "the kernelspec is not"),
        (lambda n: n["metadata"].update(language_info={}), "metadata has 'language_info'"),
        (lambda n: n["cells"][0].update(id="step-1"), "the id 'step-1' is there twice"),
        (lambda n: n["cells"][0].update(id="1f2e3d4c"), "the id '1f2e3d4c' is not written by hand"),
        (lambda n: n["cells"][0].pop("id"), "the id None is not written by hand"),
        (lambda n: n["cells"][1].update(execution_count=4), "the execution counts are [4], not 1 to 1"),
        (lambda n: n["cells"][1]["metadata"].update(collapsed=True), "cell step-1 has metadata 'collapsed'"),
        (
            lambda n: n["cells"][1]["outputs"].append({"output_type": "error"}),
            "cell step-1 has an error or a warning in its output",
        ),
        (
            lambda n: n["cells"][1]["outputs"].append(
                {"output_type": "display_data", "data": {"application/vnd.jupyter.widget-view+json": {}}}
            ),
            "cell step-1 has a live view",
        ),
    ],
)
def test_each_stray_thing_is_named(change: Any, told: str) -> None:
    """A canonical notebook with one change has one problem, told by name."""
    stored = canonical(executed(PRINTED))
    change(stored)
    problems = is_canonical(stored)
    assert len(problems) == 1
    assert problems[0].startswith(told)


def test_a_lesson_in_a_workbook_is_not_run_afresh(tmp_path: Path) -> None:
    """The course as shipped has the practice learner's figures, never a learner's."""
    write(tmp_path / "star.ipynb", notebook("1 + 1"))
    (tmp_path / "workbook.toml").write_text('learner = "ann"\nclass_word = "autumn"\n', encoding="utf-8")
    with pytest.raises(BadData, match="lies in a learner's workbook"):
        run_afresh(tmp_path / "star.ipynb")
