"""The words by which lines are sorted into sections, handed in by the declarations of the job room."""

from __future__ import annotations

from collections.abc import Mapping
from enum import StrEnum
from functools import cached_property

from msgspec import Struct, field


class Shape(StrEnum):
    """What lies below a section line: fields only, or a table with a header (fields may come first), or bare rows."""

    FIELDS = "fields"
    TABLE = "table"
    ROWS = "rows"


class SectionWords(Struct, frozen=True, dict=True):
    """One section of a kind of file: its word, its shape, the words of its fields and of its columns.

    headers: for a table, the first words that open a header (`valve`; `pilot`, `expanding`, `tapered`), each with
    the columns that may stand behind it. synonyms of a word map to the canonical one (`gage` -> `gauge`).
    former: what a field or column was called before it got the name it has. of_one: its line may name one valve, with
    a column of that valve on each line below it.
    """

    word: str
    shape: Shape
    fields: frozenset[str]
    headers: Mapping[str, frozenset[str]]
    former: Mapping[str, str] = field(default_factory=dict)
    of_one: bool = False

    @cached_property
    def columns(self) -> frozenset[str]:
        """Every word that may stand in a header of the section."""
        return frozenset(self.headers).union(*self.headers.values())


class Vocabulary(Struct, frozen=True, dict=True):
    """All words of one kind of file. singles: `language`, `use`, `note`, `hold`. other_sections: words that open a
    section in another kind of file only, and which kind that is. synonyms: spelling -> canonical, lower case.
    other_fields: the fields of those sections, so that they can be passed over also where such a word opens a section
    here (`cutter` below `valves` in a shop file). other_headers: the headers of their tables, as in SectionWords."""

    kind: str
    sections: Mapping[str, SectionWords]
    singles: frozenset[str]
    other_sections: Mapping[str, str]
    synonyms: Mapping[str, str]
    other_fields: Mapping[str, frozenset[str]] = field(default_factory=dict)
    other_headers: Mapping[str, Mapping[str, frozenset[str]]] = field(default_factory=dict)

    @cached_property
    def columns(self) -> frozenset[str]:
        """Every word that may stand in a header, or was called so before."""
        return frozenset().union(*((*section.columns, *section.former) for section in self.sections.values()))
