"""What a line was meant to be whose first word is nothing in the place where it stands."""

from __future__ import annotations

import re
from enum import Enum, auto

from msgspec import Struct

from seatwright.syntax import words
from seatwright.syntax.reading import complaints
from seatwright.syntax.reading.lines import Typed
from seatwright.syntax.suggest import near
from seatwright.syntax.vocabulary import SectionWords, Shape, Vocabulary
from seatwright.text import Message


class LineKind(Enum):
    """As what a line is read."""

    FIELD = auto()
    SECTION = auto()
    SINGLE = auto()
    HEADER = auto()
    SECTION_AND_HEADER = auto()
    PASS_OVER = auto()
    HEADER_MISSING = auto()
    NOTHING = auto()


class Guess(Struct, frozen=True):
    """A reading of a line with a slip in its first word, and the one message about it.

    word: the canonical word it is read as; taken: how many words of the line that word takes.
    """

    kind: LineKind
    message: Message
    word: str = ""
    taken: int = 1


def guess(typed: Typed, word: str, section: SectionWords | None, vocabulary: Vocabulary) -> Guess:
    """A line among fields, or before the first header, whose word is unknown there.

    First a slip for a field of the open section, then for a section of this kind of file, and only then a section of
    the other kind.
    """
    behind = _canonical(typed, vocabulary)
    second = behind[0] if behind and behind[0][:1].isalpha() and '"' not in behind[0] else None
    if section is not None:
        if (now := section.former.get(word)) is not None and now in section.fields:
            return Guess(LineKind.FIELD, complaints.renamed(typed.word, typed.word_span, now), now)
        if (slip := words.choice_meant(word, second, section.fields)) is not None:
            return Guess(LineKind.FIELD, complaints.field_slip(typed, section.word, slip[0]), *slip)
        if (of_header := misspelt_header(typed, word, section, vocabulary)) is not None:
            return of_header
    tables = words.tables_with(vocabulary, [word, *behind]) if behind else ()
    if tables:
        message = complaints.section_missing(typed, tuple(table.word for table in tables))
        return Guess(LineKind.SECTION_AND_HEADER if len(tables) == 1 else LineKind.PASS_OVER, message, tables[0].word)
    if (known := _section_or_single(typed, word, second, vocabulary)) is not None:
        return known
    if word in vocabulary.other_sections:
        return Guess(LineKind.PASS_OVER, complaints.section_of_other_kind(typed, word, vocabulary), word)
    if section is not None and section.shape is Shape.TABLE:
        if (mark := _parted_by(typed, section, vocabulary)) is not None:
            return Guess(LineKind.HEADER_MISSING, complaints.cells_parted(typed, section, mark))
        return Guess(LineKind.HEADER_MISSING, complaints.header_missing(typed, section))
    return Guess(LineKind.NOTHING, complaints.unknown(typed, word, section, vocabulary))


def guess_in_table(typed: Typed, word: str, section: SectionWords, vocabulary: Vocabulary) -> Guess | None:
    """A line among rows that fits no row: a header or a section line with a slip in it. None: a row that is wrong."""
    if (header := misspelt_header(typed, word, section, vocabulary)) is not None:
        return header
    name = typed.word
    # The names that begin rows are short or carry a digit; the words of sections do neither.
    if len(name) >= 4 and not any(character.isdigit() for character in name):
        known = _section_or_single(typed, word, None, vocabulary)
        if known is not None:
            return known
    if word in vocabulary.other_sections:
        return Guess(LineKind.PASS_OVER, complaints.section_of_other_kind(typed, word, vocabulary), word)
    return None


def _parted_by(typed: Typed, section: SectionWords, vocabulary: Vocabulary) -> str | None:
    """The mark that parts the columns of a header pasted from elsewhere, None where it is no header."""
    found = re.search(_MARK, typed.whole.characters)
    if found is None:
        return None
    listed = [words.canonical_word(vocabulary, one) for one in re.split(_PARTED, typed.whole.characters) if one]
    columns = section.columns
    header = len(listed) > 1 and listed[0] in section.headers
    return found.group() if header and all(one in columns or words.is_extra(one) for one in listed) else None


_MARK = r"[,;|]"
_PARTED = r"[,;|\s]+"


def guess_other_kind(
    typed: Typed, word: str, following: Typed | None, section: SectionWords, vocabulary: Vocabulary
) -> Guess | None:
    """A whole section of the other kind of file whose word also is a field of the open one, or near one.

    `cutter C2` below `valves` is a field, unless the line below it is one of a cutter in a shop file. None: a field.
    """
    if word not in vocabulary.other_sections or following is None or following.quoted:
        return None
    next_word = words.canonical_word(vocabulary, following.word)
    its_field = next_word in vocabulary.other_fields.get(word, ()) and next_word not in section.fields
    if its_field or is_header_elsewhere(following, word, vocabulary):
        return Guess(LineKind.PASS_OVER, complaints.section_of_other_kind(typed, word, vocabulary), word)
    return None


def is_header_elsewhere(typed: Typed, section: str, vocabulary: Vocabulary) -> bool:
    """Whether a line is the header of a table of the other kind of file: all its words are columns there."""
    columns = vocabulary.other_headers.get(section, {}).get(words.canonical_word(vocabulary, typed.word))
    if columns is None:
        return False
    behind = _canonical(typed, vocabulary)
    return bool(behind) and all(one in columns or words.is_extra(one) for one in behind)


def guess_for_header(typed: Typed, vocabulary: Vocabulary) -> Guess | None:
    """`valve I1`, where a header may begin with `valve`: a slip for the section `valves`. None: a header."""
    behind = _canonical(typed, vocabulary)
    columns = vocabulary.columns
    if not behind or any(one in columns or words.is_extra(one) or near(one, columns) for one in behind):
        return None
    slip = words.choice_meant(typed.word.lower(), None, vocabulary.sections)
    if slip is None:
        return None
    return Guess(LineKind.SECTION, complaints.section_slip(typed, vocabulary.kind, slip[0]), *slip)


def _canonical(typed: Typed, vocabulary: Vocabulary) -> list[str]:
    return [words.canonical_word(vocabulary, one) for one in typed.behind.characters.split()]


def misspelt_header(typed: Typed, word: str, section: SectionWords, vocabulary: Vocabulary) -> Guess | None:
    """A header whose first word is misspelt: known by the columns behind it. None: something else."""
    behind = _canonical(typed, vocabulary)
    columns = section.columns
    if not behind or not all(one in columns or words.is_extra(one) for one in behind):
        return None
    slip = words.choice_meant(word, None, section.headers)
    if slip is None:
        return None
    return Guess(LineKind.HEADER, complaints.column_unknown(typed.word, typed.word_span, (slip[0],)), *slip)


def _section_or_single(typed: Typed, word: str, second: str | None, vocabulary: Vocabulary) -> Guess | None:
    if (slip := words.choice_meant(word, second, vocabulary.sections)) is not None:
        return Guess(LineKind.SECTION, complaints.section_slip(typed, vocabulary.kind, slip[0]), *slip)
    if (slip := words.choice_meant(word, None, vocabulary.singles)) is not None:
        return Guess(LineKind.SINGLE, complaints.unknown_single(typed, slip[0]), *slip)
    return None
