"""The kernel that is started takes nothing from the folder it works in."""

import os
import sys

import pytest

from bitepoint.workbook.kernel import kernel_spec, without_own_folder


def test_the_kernel_is_this_python_with_a_safe_path() -> None:
    """No folder is put on the path: not by Python, not by IPython, not in a program that a cell starts."""
    spec = kernel_spec()
    assert [sys.executable, "-P"] == spec["argv"][:2]
    assert "--IPKernelApp.ignore_cwd=True" in spec["argv"]
    assert {"PYTHONSAFEPATH": "1"} == spec["env"]


@pytest.mark.parametrize(
    ("before", "after"),
    [("", None), (".", None), (os.pathsep, None), (os.pathsep.join(["modules", os.path.abspath("/x"), ""]), "/x")],
)
def test_of_the_python_path_only_whole_places_stay(before: str, after: str | None) -> None:
    """A relative or empty part would be the workbook; a start-up file is not handed on."""
    found = without_own_folder({"PYTHONPATH": before, "PYTHONSTARTUP": "start.py", "HOME": "/home/x"})
    assert {"HOME": "/home/x", "PYTHONSAFEPATH": "1"} == {k: v for k, v in found.items() if k != "PYTHONPATH"}
    assert (after and os.path.abspath(after)) == found.get("PYTHONPATH")
