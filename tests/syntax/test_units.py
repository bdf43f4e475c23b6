"""The closed table of units."""

from __future__ import annotations

import ast
import re
import subprocess
import sys
from fractions import Fraction as F
from pathlib import Path

import pytest

import seatwright
from seatwright.handbook import MM_PER_INCH
from seatwright.syntax import making
from seatwright.syntax.numbers import units


@pytest.mark.parametrize(
    ("value", "unit", "coherent"),
    [
        (F(1), "in", F("25.4")),  # the inch of 1959, exact
        (F(1), "thou", F("0.0254")),
        (F(1), "um", F("0.001")),
        (F(68), "F", F(20)),  # ISO 1: the reference temperature, 20 degrees C = 68 degrees F
        (F(-40), "F", F(-40)),
        (F(212), "F", F(100)),
        (F(20), "C", F(20)),
        (F(1), "lbf", F("4.4482216152605")),  # NIST SP 811, appendix B.8, exact
        (F(1), "kN", F(1000)),
        (F(1), "ft-lb", F("1.3558179483314004")),  # the same, times 0.3048 m
        (F(12), "in-lb", F("1.3558179483314004")),
        (F(1), "bar", F("0.1")),
        (F(1), "kPa", F("0.001")),
        (F(71), "GPa", F(71000)),
        (F(1), "ft/min", F("0.3048")),
        (F(1), "in/rev", F("25.4")),
        (F(6), "in/ft", F(500)),
        (F(2), "min", F(120)),
        (F("11.5"), "um/m/C", F("0.0000115")),
        (F(5), "uin/in/F", F("0.000009")),
    ],
)
def test_conversion_is_exact(value, unit, coherent):
    assert units.to_coherent(value, unit) == coherent
    assert units.from_coherent(coherent, unit) == value


def test_pounds_to_the_square_inch_agree_with_the_published_factor():
    # NIST SP 811, appendix B.8: 1 psi = 6.894757 E+03 Pa, 1 inch of mercury (conventional) = 3.386389 E+03 Pa.
    assert round(float(units.to_coherent(F(1), "psi")) * 1e6, 3) == 6894.757
    assert round(float(units.to_coherent(F(1), "in-Hg")) * 1e6, 3) == 3386.389
    assert units.to_coherent(F(1), "ksi") == 1000 * units.to_coherent(F(1), "psi")


def test_a_difference_of_temperature_has_no_offset():
    assert units.difference_to_coherent(F(9), "F") == 5
    assert units.difference_to_coherent(F(1), "C") == 1


@pytest.mark.parametrize(
    ("typed", "word"),
    [('"', "in"), ("INCH", "in"), ("°c", "C"), ("MM", "mm"), ("µm", "um"), ("μm", "um"), ("°", "deg"),
     ("um/m/K", "um/m/C"), ("nm", "Nm"), ("mpa", "MPa"), ("cm", None), ("unit", None), ("tenth", None)],
)  # fmt: skip
def test_canonical_words(typed, word):
    assert units.canonical_unit(typed) == word


def test_nearest_and_ambiguous_words():
    assert units.nearest_unit("cm") == "mm"
    assert units.nearest_unit("mn") == "mm"
    assert units.nearest_unit("degC") == "C"
    assert units.nearest_unit("ft-lbs") == "ft-lb"
    assert units.nearest_unit("frobnicate") is None
    assert ".0001 in" in (units.asks_which("tenths") or "")
    assert "9.81" in (units.asks_which("tonne") or "")
    assert units.asks_which("Mil")
    assert units.asks_which("mm") is None


def test_every_unit_has_a_dimension_that_is_reckoned_in():
    assert {unit.dimension for unit in units.unit_table().values()} == set(units.COHERENT)


def test_the_grammar_and_the_table_know_the_same_words():
    written = making.grammar_text()
    of_grammar = re.search(r"^UNIT :(.*?)\n\n", written, re.MULTILINE | re.DOTALL)
    assert of_grammar is not None
    words = {word.lower().replace("″", '"') for word in re.findall(r'"([^"]+)"', of_grammar.group(1))}
    assert words == {word.lower() for unit in units.unit_table().values() for word in unit.words}


def test_pint_is_not_loaded_before_a_conversion():
    code = (
        "import sys; from seatwright.syntax import parse; from seatwright.syntax.numbers import units; "
        "units.canonical_unit('mm'); print('pint' in sys.modules)"
    )
    shown = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert shown.stdout.strip() == "False"


def test_the_inch_of_the_formulas_is_that_of_the_table_and_stands_once():
    assert F(repr(MM_PER_INCH)) == units.to_coherent(F(1), "in")
    standing = [
        path.name
        for path in sorted(Path(seatwright.__file__).parent.rglob("*.py"))
        for node in ast.walk(ast.parse(path.read_text("utf-8")))
        if isinstance(node, ast.Constant) and node.value == MM_PER_INCH
    ]
    assert standing == ["__init__.py"]
