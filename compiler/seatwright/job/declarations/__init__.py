"""Every section and field of the language, each declared once.

From these declarations come the words the parser sorts lines by, the checks of bounds, the reference page, and what
the formatter and the editor know.
"""

from __future__ import annotations

from functools import cache

from seatwright.job.declarations import job_sections, job_tables, shop_sections, trade_words
from seatwright.job.declarations.kinds import TAKES_ONE_LIMIT, Bounds, Dimension, Field, Form, Header, Section, Sisters
from seatwright.syntax.vocabulary import SectionWords, Vocabulary

__all__ = [
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
    "Section",
    "Sisters",
    "sections",
    "trade_words",
    "vocabulary",
]

JOB_SECTIONS: tuple[Section, ...] = (
    job_sections.JOB,
    job_sections.HEAD,
    job_sections.VALVES,
    job_tables.LAYOUT,
    job_tables.HOLES,
    job_tables.SPACING,
    job_tables.REPLACED,
    job_tables.MEASURED,
    job_tables.TRIAL,
    job_tables.CUT,
    job_tables.FINISHED,
)
SHOP_SECTIONS: tuple[Section, ...] = (
    shop_sections.SHOP,
    shop_sections.MACHINE,
    shop_sections.GAUGE,
    shop_sections.BORE_GAUGE,
    shop_sections.CUTTER,
    shop_sections.PILOTS,
    shop_sections.INSERTS,
    shop_sections.INTERFERENCE,
    shop_sections.PRACTICE,
    shop_sections.ASSEMBLY,
    shop_sections.MATERIAL,
    shop_sections.ALLOY,
)

SINGLE_LINES: tuple[Field, ...] = (
    Field("language", Form.NUMBER, "the version of the language that the file is written in", "language 1"),
    Field(
        "use", Form.TEXT, "a shop file that the job uses, in its folder or below it", 'use "bench.shop"', repeats=True
    ),
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

# Two spellings that are one word, the first being the one that plan.json has.
PAIRS: tuple[tuple[str, str], ...] = (
    ("grey", "gray"),
    ("aluminium", "aluminum"),
    ("intake", "inlet"),
    ("petrol", "gasoline"),
    ("gauge", "gage"),
    ("centring", "centering"),
)


def sections(kind: str) -> tuple[Section, ...]:
    """The sections of a kind of file, "job" or "shop"."""
    return JOB_SECTIONS if kind == "job" else SHOP_SECTIONS


@cache
def vocabulary(kind: str) -> Vocabulary:
    """The words by which the parser sorts the lines of a kind of file, "job" or "shop"."""
    words = {section.word: _words(section) for section in sections(kind)}
    others = {section.word for section in sections("shop" if kind == "job" else "job")}
    spellings = {second: first for first, second in PAIRS}
    spellings["bore-gage"] = "bore-gauge"
    spellings |= {field.also: field.word for section in sections(kind) for field in section.fields if field.also}
    elsewhere = sections("shop" if kind == "job" else "job")
    fields = {section.word: frozenset(section.by_word) for section in elsewhere}
    headers = {section.word: _words(section).headers for section in elsewhere}
    return Vocabulary(kind, words, SINGLES, frozenset(others - set(words)), spellings, fields, headers)


@cache
def find(kind: str, word: str) -> Section:
    """The section of a kind of file that a word opens. Raises KeyError for a word that opens none."""
    return {section.word: section for section in sections(kind)}[word]


def _words(section: Section) -> SectionWords:
    headers = {header.first.word: frozenset(column.word for column in header.columns) for header in section.headers}
    named = (*section.fields, *(column for header in section.headers for column in header.columns))
    own = {field.word for field in named}
    former = {
        other: next(word for word in ours.split() if word in own)
        for other, ours in trade_words.FIELDS.items()
        if other not in own and own.intersection(ours.split())
    }
    former |= {field.former: field.word for field in named if field.former}
    return SectionWords(section.word, section.shape, frozenset(section.by_word), headers, former)
