"""Every section and field of the language, each declared once.

From these declarations come the words the parser sorts lines by, the checks of bounds, the reference page, and what
the formatter and the editor know.
"""

from __future__ import annotations

from functools import cache
from typing import Literal

from seatwright.job.declarations import engine_sections, job_sections, job_tables, shop_sections, trade_words
from seatwright.job.declarations.kinds import (
    TAKES_ONE_LIMIT,
    Bounds,
    Dimension,
    Field,
    Form,
    Header,
    SectionDeclared,
    Sisters,
)
from seatwright.syntax.vocabulary import SectionWords, Vocabulary

__all__ = [
    "ENDINGS",
    "ENGINE_SECTIONS",
    "JOB_SECTIONS",
    "PAIRS",
    "SHOP_SECTIONS",
    "SINGLES",
    "SINGLE_LINES",
    "TAKES_ONE_LIMIT",
    "Bounds",
    "Dimension",
    "Field",
    "Form",
    "Header",
    "Kind",
    "SectionDeclared",
    "Sisters",
    "kind_of",
    "sections",
    "trade_words",
    "vocabulary",
]

JOB_SECTIONS: tuple[SectionDeclared, ...] = (
    job_sections.JOB,
    job_sections.HEAD,
    job_sections.VALVES,
    job_tables.POCKET_SIZES,
    job_tables.LAYOUT,
    job_tables.HOLES,
    job_tables.SPACING,
    job_tables.REPLACED,
    job_tables.MEASURED,
    job_tables.TRIAL,
    job_tables.CUT,
    job_tables.FINISHED,
)
SHOP_SECTIONS: tuple[SectionDeclared, ...] = (
    shop_sections.SHOP,
    shop_sections.MACHINE,
    shop_sections.GAUGE,
    shop_sections.BORE_GAUGE,
    shop_sections.CUTTER,
    shop_sections.PILOTS,
    shop_sections.INSERTS,
    shop_sections.STOCK,
    shop_sections.INTERFERENCE,
    shop_sections.GUIDES,
    shop_sections.REAMERS,
    shop_sections.GUIDE_FITS,
    shop_sections.PRACTICE,
    shop_sections.ASSEMBLY,
    shop_sections.MATERIAL,
    shop_sections.ALLOY,
)

SINGLE_LINES: tuple[Field, ...] = (
    Field("language", Form.NUMBER, "the version of the language that the file is written in", "language 1"),
    Field("use", Form.TEXT, "a shop or engine file that the job uses", 'use "bench.shop"', repeats=True),
    Field(
        "note",
        Form.TEXT,
        "what is printed, of the job, a head, or of the valves it names",
        'note E1 "text"',
        repeats=True,
    ),
    Field("hold", Form.TEXT, "nothing is cut on these valves until this line is gone", 'hold I3 "text"', repeats=True),
    Field(
        "not-counted",
        Form.TEXT,
        "that bore says nothing of what its cutter does",
        'not-counted E3 2026-11-24 "reason"',
        repeats=True,
    ),
)
"""The lines that stand anywhere."""

SINGLES = frozenset(line.word for line in SINGLE_LINES)

ENGINE_SECTIONS: tuple[SectionDeclared, ...] = engine_sections.OF_ENGINE_FILE

Kind = Literal["job", "shop", "engine"]
ENDINGS: dict[str, Kind] = {".shop": "shop", ".engine": "engine"}
"""The kinds of file by how their names end; every other is a job."""


def kind_of(path: str) -> Kind:
    """What kind of file a path names."""
    return next((kind for ending, kind in ENDINGS.items() if path.endswith(ending)), "job")


# Two spellings that are one word, the first being the one that plan.json has.
PAIRS: tuple[tuple[str, str], ...] = (
    ("grey", "gray"),
    ("aluminium", "aluminum"),
    ("intake", "inlet"),
    ("petrol", "gasoline"),
    ("gauge", "gage"),
    ("centring", "centering"),
)


_OF_KIND: dict[Kind, tuple[SectionDeclared, ...]] = {
    "job": JOB_SECTIONS,
    "shop": SHOP_SECTIONS,
    "engine": ENGINE_SECTIONS,
}


def sections(kind: Kind) -> tuple[SectionDeclared, ...]:
    """The sections of a kind of file."""
    return _OF_KIND[kind]


@cache
def vocabulary(kind: Kind) -> Vocabulary:
    """The words by which the parser sorts the lines of a kind of file."""
    words = {section.word: _words(section) for section in sections(kind)}
    others = {
        section.word: (other, section)
        for other in reversed(_OF_KIND)
        for section in _OF_KIND[other]
        if section.word not in words
    }
    spellings = {second: first for first, second in PAIRS}
    spellings["bore-gage"] = "bore-gauge"
    spellings |= {field.also: field.word for section in sections(kind) for field in section.fields if field.also}
    fields = {word: frozenset(section.by_word) for word, (_, section) in others.items()}
    headers = {word: _words(section).headers for word, (_, section) in others.items()}
    homes = {word: other for word, (other, _) in others.items()}
    return Vocabulary(kind, words, SINGLES, homes, spellings, fields, headers)


@cache
def find(kind: Kind, word: str) -> SectionDeclared:
    """The section of a kind of file that a word opens. Raises KeyError for a word that opens none."""
    return {section.word: section for section in sections(kind)}[word]


def _words(section: SectionDeclared) -> SectionWords:
    headers = {header.first.word: frozenset(column.word for column in header.columns) for header in section.headers}
    named = (*section.fields, *(column for header in section.headers for column in header.columns))
    own = {field.word for field in named}
    former = {
        other: next(word for word in ours.split() if word in own)
        for other, ours in trade_words.FIELDS.items()
        if other not in own and own.intersection(ours.split())
    }
    former |= {field.former: field.word for field in named if field.former}
    words = frozenset((*section.by_word, *section.of_piece))
    return SectionWords(section.word, section.shape, words, headers, former, section.of_one)
