"""How long one call of each calculator takes: its docstring's own example, timed."""

import doctest
import importlib
import inspect

import pytest

MODULES = [
    "clutch",
    "facings",
    "spring",
    "wear",
    "heat",
    "takeup",
    "release",
    "hydraulics",
    "tyres",
    "driveline",
    "vibration",
    "metrology",
    "uncertainty",
    "decisions",
    "scales",
    "lifting",
    "loads",
]


def _examples():
    parser = doctest.DocTestParser()
    for name in MODULES:
        module = importlib.import_module(f"bitepoint.mechanics.{name}")
        for function_name, function in inspect.getmembers(module, inspect.isfunction):
            if function.__module__ != module.__name__ or function_name.startswith("_"):
                continue
            setup = ""
            for example in parser.get_examples(inspect.getdoc(function)):
                if example.want:
                    yield pytest.param(module, setup, example.source, id=f"{name}.{function_name}")
                    break
                setup += example.source


@pytest.mark.parametrize(("module", "setup", "source"), [*_examples()])
def test_one_call(benchmark, module, setup, source):
    """The docstring's first example runs and gives something."""
    names = dict(vars(module))
    exec(setup, names)
    call = eval(f"lambda: ({source.strip()})", names)
    assert benchmark(call) is not None
