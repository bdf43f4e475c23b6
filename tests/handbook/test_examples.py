"""Every public formula of the handbook shows a worked example that runs, and says its units."""

from __future__ import annotations

import doctest
import importlib
import inspect
import pkgutil
import re

import pytest

import seatwright.handbook

FLAGS = doctest.ELLIPSIS | doctest.NORMALIZE_WHITESPACE
MODULES = [
    importlib.import_module(f"seatwright.handbook.{found.name}")
    for found in pkgutil.iter_modules(seatwright.handbook.__path__)
]
FORMULAS = [
    pytest.param(module, formula, id=f"{module.__name__.rpartition('.')[2]}.{name}")
    for module in MODULES
    for name, formula in inspect.getmembers(module, inspect.isfunction)
    if formula.__module__ == module.__name__ and not name.startswith("_") and not module.__name__.endswith(".page")
]


def examples_of(module, formula):
    found = doctest.DocTestFinder(recurse=False).find(formula, formula.__name__, module)
    return [test for test in found if test.examples]


def test_there_are_formulas_to_look_at():
    assert len(FORMULAS) > 40


@pytest.mark.parametrize(("module", "formula"), FORMULAS)
def test_the_worked_example_comes_out_as_printed(module, formula):
    examples = examples_of(module, formula)
    assert examples, f"{formula.__name__} shows no worked example"
    said = []
    for test in examples:
        result = doctest.DocTestRunner(optionflags=FLAGS).run(test, out=said.append)
        assert result.failed == 0, "".join(said)


@pytest.mark.parametrize(("module", "formula"), FORMULAS)
def test_the_docstring_names_units_in_brackets(module, formula):
    text = inspect.getdoc(formula) or ""
    prose = re.sub(r"^\s*(>>>|\.\.\.).*$", "", text, flags=re.MULTILINE)
    assert re.search(r"\[[^\]\d'\"(]+[^\]]*\]", prose), f"{formula.__name__} names no unit in brackets"
