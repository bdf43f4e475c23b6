"""A small set of words, enough for the parser; the declarations are tested elsewhere."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from seatwright.syntax.parse import parse
from seatwright.syntax.tree import File
from seatwright.syntax.vocabulary import SectionWords, Shape, Vocabulary
from seatwright.text import Message
from seatwright.text.reading import read_source, source_of

_FOUND = frozenset(["valve", "insert-od", "guide-top", "guide-middle", "pocket-a", "pocket-b", "pocket-tir", "damage"])
_NONE: dict[str, frozenset[str]] = {}
_SINGLES = frozenset(("language", "use", "note", "hold"))


def _fields(word: str, fields: str) -> SectionWords:
    return SectionWords(word, Shape.FIELDS, frozenset(fields.split()), _NONE)


def _table(word: str, *headers: str) -> SectionWords:
    return SectionWords(word, Shape.TABLE, frozenset(), {one.split()[0]: frozenset(one.split()) for one in headers})


def _vocabulary(kind: str) -> Vocabulary:
    job = (
        _fields("job", "customer machinist received due units paper machine gauge bore-gauge"),
        _fields("head", "material fuel temperature depth-from least-bridge least-floor heat-limit inserts"),
        _fields(
            "valves",
            "insert alloy interference bore depth stand face-angle seat-width seat-runout stem recession pilot "
            "cutter spring-height setback",
        ),
        SectionWords("measured", Shape.TABLE, frozenset(), {"valve": _FOUND}),
        _table("holes", "hole x y diameter kind"),
        _table("finished", "valve stand leak"),
        SectionWords("spacing", Shape.ROWS, frozenset(), _NONE),
        SectionWords("trial", Shape.ROWS, frozenset(), _NONE),
    )
    shop = (
        _fields("shop", "units"),
        _fields("machine", "speeds feeds torque-limit dial centring level"),
        _fields("gauge", "range marked step master temperature"),
        _fields("cutter", "range tip-width tips"),
        _table("pilots", "pilot diameter length kind tir", "expanding from to length tir"),
        _table("inserts", "insert od height alloy on-hand"),
        _fields("material", "stiffness expansion"),
    )
    mine, other = (job, shop) if kind == "job" else (shop, job)
    words = {section.word: section for section in mine}
    return Vocabulary(
        kind,
        words,
        _SINGLES,
        {section.word: "shop" if kind == "job" else "job" for section in other if section.word not in words},
        {"gage": "gauge", "aluminum": "aluminium"},
        {section.word: section.fields for section in other},
    )


Parse = Callable[..., tuple[File, tuple[Message, ...]]]


@pytest.fixture
def parsed() -> Parse:
    """Parses text as a job (or shop) file; the messages of reading and parsing together."""

    def parse_text(text: str, kind: str = "job") -> tuple[File, tuple[Message, ...]]:
        source, messages = read_source("a.seat" if kind == "job" else "a.shop", text.encode())
        assert source is not None, messages
        file, more = parse(source, _vocabulary(kind))
        return file, messages + more

    return parse_text


@pytest.fixture
def argument(parsed: Parse) -> Callable[[str], object]:
    """The one argument of a field, from its text."""

    def read_one(text: str) -> object:
        file, messages = parsed(f"valves all\n  bore {text}\n")
        assert messages == ()
        (only,) = file.sections[0].fields[0].arguments
        return only

    return read_one


@pytest.fixture
def said(parsed: Parse) -> Callable[..., list[str]]:
    """`line:column slug` of each message of a text."""

    def places(text: str, kind: str = "job") -> list[str]:
        _, messages = parsed(text, kind)
        return [f"{m.span.line}:{m.span.column} {m.slug}" for m in messages if m.span is not None]

    return places


@pytest.fixture(scope="session")
def parsed_any() -> Parse:
    """As `parsed`, for properties tried many times; without the messages of reading."""

    def parse_text(text: str, kind: str) -> tuple[File, tuple[Message, ...]]:
        source, _ = source_of("a", text)
        return parse(source, _vocabulary(kind))

    return parse_text
