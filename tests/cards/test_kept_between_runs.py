"""Compiled templates are kept between two runs, never used where they are out of date; how plan.json is indented."""

from __future__ import annotations

import json
import os
import shutil
import sys
from pathlib import Path

import msgspec
import pytest
from hypothesis import given
from hypothesis import strategies as st
from jinja2 import DictLoader, Environment

from seatwright.cards import templating
from seatwright.cards.compiled import beside_the_byte_code


@pytest.fixture
def module(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A module that says how templates are compiled, in a folder of its own; Python may keep byte code."""
    monkeypatch.setattr(sys, "dont_write_bytecode", False)
    monkeypatch.setattr(sys, "pycache_prefix", None)
    return Path(shutil.copy(templating.__file__, tmp_path / "templating.py"))


def filled_in(module: Path, text: str) -> str:
    house = Environment(loader=DictLoader({"a.md": text}), bytecode_cache=beside_the_byte_code(str(module)))
    return house.get_template("a.md").render(x=1)


def kept(module: Path) -> list[Path]:
    return sorted(module.parent.rglob("*.compiled*"))


def test_it_is_kept_with_pythons_byte_code_and_taken_from_there(module: Path) -> None:
    assert filled_in(module, "one {{ x }}") == "one 1"
    (place,) = kept(module)
    assert place.parent == module.parent / "__pycache__"
    # What is taken is what stands there: compiled from another text, but under the checksum of this one.
    checksum = place.read_bytes().partition(b"\n")[0]
    filled_in(module, "two {{ x }}")
    place.write_bytes(checksum + b"\n" + place.read_bytes().partition(b"\n")[2])
    assert filled_in(module, "one {{ x }}") == "two 1"


def test_another_text_or_a_changed_module_is_compiled_anew(module: Path) -> None:
    filled_in(module, "one {{ x }}")
    assert filled_in(module, "two {{ x }}") == "two 1"
    before = kept(module)[0].read_bytes()
    os.utime(module, ns=(1, 1))
    assert filled_in(module, "two {{ x }}") == "two 1"
    assert kept(module)[0].read_bytes() != before


@pytest.mark.parametrize("torn", [b"", b"\n", b"nothing of the kind", None])
def test_a_torn_file_is_written_anew(module: Path, torn: bytes | None) -> None:
    filled_in(module, "one {{ x }}")
    (place,) = kept(module)
    whole = place.read_bytes()
    place.write_bytes(whole[:90] if torn is None else torn)
    assert filled_in(module, "one {{ x }}") == "one 1"
    assert place.read_bytes() == whole


def test_nothing_is_kept_where_python_keeps_nothing_or_cannot(module: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (module.parent / "__pycache__").write_text("a file, where the folder would be", "utf-8")
    assert filled_in(module, "one {{ x }}") == "one 1"
    (module.parent / "__pycache__").unlink()
    monkeypatch.setattr(sys, "dont_write_bytecode", True)
    assert filled_in(module, "one {{ x }}") == "one 1"
    assert kept(module) == []


def test_a_shops_own_templates_are_never_kept() -> None:
    assert templating.environment({"guides.md": "one"}).bytecode_cache is None


values = st.recursive(
    st.one_of(st.none(), st.booleans(), st.integers(-(2**53), 2**53), st.floats(allow_nan=False, allow_infinity=False))
    | st.text(st.characters(exclude_categories=["Cs"])),
    lambda inside: st.lists(inside, max_size=4) | st.dictionaries(st.text('aä"\\\n', max_size=3), inside, max_size=4),
    max_leaves=12,
)


@given(values)
def test_what_is_indented_afterwards_is_what_json_indents(value: object) -> None:
    compact = json.dumps(value, ensure_ascii=False)
    assert msgspec.json.format(compact, indent=2) == json.dumps(value, ensure_ascii=False, indent=2)
