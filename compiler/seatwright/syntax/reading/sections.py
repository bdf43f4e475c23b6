"""Sorting the lines of a file into sections, by the first word of each."""

from __future__ import annotations

from msgspec.structs import replace

from seatwright.syntax import words
from seatwright.syntax.numbers.measures import Slip
from seatwright.syntax.numbers.values import Piece
from seatwright.syntax.reading import complaints, one_valve
from seatwright.syntax.reading.arguments import arguments
from seatwright.syntax.reading.growing import OpenSection, OpenTable
from seatwright.syntax.reading.guesses import (
    Guess,
    LineKind,
    guess,
    guess_for_header,
    guess_in_table,
    guess_other_kind,
    is_header_elsewhere,
    misspelt_header,
)
from seatwright.syntax.reading.headers import header
from seatwright.syntax.reading.lines import Typed
from seatwright.syntax.reading.rows import check_row, empty_between_tabs, looks_measured, read_cells
from seatwright.syntax.tree import Argument, Cell, Comment, File, Line, Row, Word
from seatwright.syntax.vocabulary import Shape, Vocabulary
from seatwright.text import Message, Source, Span


class FileReader:
    """Takes the lines of a file one after the other; `file` and `messages` hold what came of them."""

    def __init__(self, source: Source, vocabulary: Vocabulary) -> None:
        self.source = source
        self.vocabulary = vocabulary
        self.messages: list[Message] = []
        self.singles: list[Line] = []
        self.sections: list[OpenSection] = []
        self.comments: list[Comment] = []
        self.open: OpenSection | None = None
        # The word of the section that is passed over, empty where none is.
        self.passed_over = ""

    def file(self) -> File:
        """The tree of what was read."""
        return File(
            self.source.path,
            self.vocabulary.kind,
            tuple(self.singles),
            tuple(section.finished() for section in self.sections),
            tuple(self.comments),
        )

    def read(self, typed: Typed, following: Typed | None = None) -> None:
        """One line that is not blank. following: the next such line."""
        if typed.quoted:
            self._begins_with_text(typed)
            return
        word = words.canonical_word(self.vocabulary, typed.word)
        if self.passed_over:
            self._while_passing_over(typed, word)
        elif self.open is not None:
            other = guess_other_kind(typed, word, following, self.open.words, self.vocabulary)
            if other is None:
                self._inside(typed, word, self.open)
            else:
                self._follow(typed, other)
        elif word in self.vocabulary.sections:
            self._open_section(typed, word)
        elif word in self.vocabulary.singles:
            self.singles.append(self._line(typed, word))
        else:
            self._follow(typed, guess(typed, word, None, self.vocabulary))

    # ---- where a line belongs ----------------------------------------------------------------------------------

    def _while_passing_over(self, typed: Typed, word: str) -> None:
        if word in self.vocabulary.singles:
            self.singles.append(self._line(typed, word))
        # `cutter` is a section of a shop file, but below a stray `valves` it is that section's field.
        elif word in self.vocabulary.sections and not self._goes_with_what_is_passed_over(typed, word):
            self._open_section(typed, word)

    def _goes_with_what_is_passed_over(self, typed: Typed, word: str) -> bool:
        fields = self.vocabulary.other_fields.get(self.passed_over, ())
        return word in fields or is_header_elsewhere(typed, self.passed_over, self.vocabulary)

    def _inside(self, typed: Typed, word: str, section: OpenSection) -> None:
        if section.valves and not section.columns and word in section.words.headers:
            section.becomes_table()
        if section.valves and not section.headless:
            self._of_one_valve(typed, word, section)
        elif word in section.words.headers:
            slip = guess_for_header(typed, self.vocabulary)
            if slip is None:
                self._header(typed, word, section)
            else:
                self._follow(typed, slip)
        elif word in section.words.fields or (words.is_extra(word) and not self._may_be_row(typed, section)):
            section.fields.append(self._line(typed, word))
        elif word in self.vocabulary.sections:
            self._open_section(typed, word)
        elif word in self.vocabulary.singles:
            self.singles.append(self._line(typed, word))
        elif section.takes_rows:
            self._row(typed, word, section)
        else:
            self._follow(typed, guess(typed, word, section.words, self.vocabulary))

    def _of_one_valve(self, typed: Typed, word: str, section: OpenSection) -> None:
        if word in section.words.headers:
            self.messages.append(one_valve.header_below(typed, section.valves[0], section.words))
            section.headless = True
        elif word in self.vocabulary.sections:
            self._open_section(typed, word)
        elif word in self.vocabulary.singles:
            self.singles.append(self._line(typed, word))
        elif (meant := one_valve.meant_column(typed, word, section.words, self.vocabulary)) is not None:
            self._column(typed, word, *meant, section)
        else:
            reading = guess(typed, word, one_valve.as_fields(section.words), self.vocabulary)
            if reading.kind is not LineKind.NOTHING:
                self._follow(typed, reading)
                return
            columns = one_valve.as_fields(section.words).fields
            self.messages.append(
                complaints.column_unknown(typed.word, typed.word_span, (), section.words.word, columns)
            )
            self._put_column(typed, Word(typed.word_span, typed.word), typed.word, None, section)

    def _column(self, typed: Typed, word: str, meant: str, taken: int, section: OpenSection) -> None:
        """A column of the one valve that a section is of, with its cell."""
        behind, span, written = _first_words(typed, taken)
        slip = one_valve.column_slip(written, span, word, meant, section.words)
        before = next((one for one in section.columns if one.word == meant), None)
        if slip is None and before is not None:
            slip = complaints.column_again(span, meant, before.line.word.span)
        said = slip or typed.needless
        if said is not None:
            # One message for a line, as for a field.
            self.messages.append(said)
        cell: Cell | None = None
        if words.is_extra(meant):
            cell = Word(behind.span(0, len(behind.characters)) if behind.characters else span, behind.typed.strip())
        else:
            try:
                cell, _ = one_valve.cell_of(behind, meant, span)
            except Slip as problem:
                if said is None:
                    self.messages.append(problem.message)
        self._put_column(typed, Word(span, meant), written, None if before is not None else cell, section, behind)

    def _put_column(
        self,
        typed: Typed,
        word: Word,
        written: str,
        cell: Cell | None,
        section: OpenSection,
        behind: Piece | None = None,
    ) -> None:
        raw = (behind or typed.behind).typed.strip()
        arguments = one_valve.as_arguments(cell)
        line = Line(typed.span, word, arguments, raw, typed.comment, cell is None, written)
        section.columns.append(one_valve.ColumnLine(word.text, line, cell, raw))

    def _may_be_row(self, typed: Typed, section: OpenSection) -> bool:
        """Whether `x-4` may be the name of a cutter or insert that begins a row, and not a field kept as typed."""
        if section.words.shape is Shape.ROWS:
            return not typed.word[2:3].isalpha()
        return section.takes_rows

    def _begins_with_text(self, typed: Typed) -> None:
        """A row whose first cell is quoted, or nothing that is known."""
        if self.passed_over:
            return
        if self.open is not None and self.open.takes_rows:
            self._row(typed, "", self.open)
        elif self.open is not None and self.open.words.shape is Shape.TABLE and not self.open.valves:
            self.messages.append(complaints.header_missing(typed, self.open.words))
            self.open.headless = True
        else:
            self.messages.append(complaints.text_first(typed))

    def _follow(self, typed: Typed, reading: Guess) -> None:
        """Report a slip in a first word, and read the line as what it was meant to be."""
        self.messages.append(reading.message)
        section = self.open
        match reading.kind:
            case LineKind.SECTION:
                self._open_section(typed, reading.word, reading.taken, guessed=True)
            case LineKind.SINGLE:
                self.singles.append(self._line(typed, reading.word, reading.taken, guessed=True))
            case LineKind.SECTION_AND_HEADER:
                line = Line(typed.span, Word(typed.word_span, reading.word), (), "", faulty=True, guessed=True)
                self._begin(reading.word, line)
                if self.open is not None:
                    self._header(typed, words.canonical_word(self.vocabulary, typed.word), self.open)
            case LineKind.PASS_OVER:
                self.open = None
                self.passed_over = reading.word
            case LineKind.FIELD if section is not None:
                section.fields.append(self._line(typed, reading.word, reading.taken, guessed=True))
            case LineKind.HEADER if section is not None:
                self._header(typed, reading.word, section, guessed=True)
            case LineKind.HEADER_MISSING if section is not None:
                section.headless = True
            case LineKind.NOTHING if section is not None:
                unread = Word(typed.word_span, typed.word)
                section.fields.append(Line(typed.span, unread, (), typed.raw, typed.comment, True, typed.word))
            case _:
                pass

    # ---- reading it there --------------------------------------------------------------------------------------

    def _open_section(self, typed: Typed, word: str, taken: int = 1, guessed: bool = False) -> None:
        line = self._line(typed, word, taken, guessed)
        section = self.vocabulary.sections[word]
        line, valves = one_valve.without_valves(line, typed) if section.of_one else (line, ())
        if len(valves) > 1:
            self.messages.append(one_valve.of_several(valves, section))
            line = replace(line, faulty=True)
        self._begin(word, line)
        if self.open is not None:
            self.open.valves = valves

    def _begin(self, word: str, line: Line) -> None:
        self.passed_over = ""
        self.open = OpenSection(self.vocabulary.sections[word], line)
        self.sections.append(self.open)

    def _line(self, typed: Typed, word: str, taken: int = 1, guessed: bool = False) -> Line:
        """A line with its arguments. taken: how many of its words the first word has taken."""
        behind, span, written = _first_words(typed, taken)
        found: tuple[Argument, ...] = ()
        faulty = False
        if not words.is_extra(word):
            # One message for a line: that of its first word, then that of a needless mark, then that of a value.
            said = guessed
            if typed.needless is not None and not said:
                self.messages.append(typed.needless)
                said = True
            try:
                found = arguments(behind)
            except Slip as slip:
                faulty = True
                if not said:
                    self.messages.append(slip.message)
        return Line(
            typed.span,
            Word(span, word),
            found,
            behind.typed.strip(),
            typed.comment,
            faulty,
            written,
            guessed,
        )

    def _header(self, typed: Typed, word: str, section: OpenSection, guessed: bool = False) -> None:
        head, messages = header(typed, word, section.words, self.vocabulary, guessed)
        self.messages.extend(messages)
        section.headless = False
        section.tables.append(OpenTable(head, commas=typed.needless is not None))

    def _row(self, typed: Typed, word: str, section: OpenSection) -> None:
        found, raws, slip = _cells(typed)
        columns = section.tables[-1].head.typed if section.tables else ()
        if section.tables:
            fits = slip is None and len(found) == len(columns)
        else:
            fits = slip is None and not section.headless and looks_measured(found)
        if not fits and not typed.quoted:
            other = guess_in_table(typed, word, section.words, self.vocabulary)
        elif len(found) > 1 and isinstance(found[1], Word):
            other = misspelt_header(typed, word, section.words, self.vocabulary)
        else:
            other = None
        if other is not None:
            self._follow(typed, other)
            return
        if section.headless:
            return
        if slip is None and section.tables:
            slip = check_row(found, columns)
            if slip is not None and slip.message.slug == "cell-missing":
                slip = empty_between_tabs(typed.whole, columns) or slip
        if slip is not None and typed.needless is None:
            self.messages.append(slip.message)
        elif typed.needless is not None and not (section.tables and section.tables[-1].commas):
            # A pasted table has commas in every row: once for a table is enough.
            self.messages.append(typed.needless)
            if section.tables:
                section.tables[-1].commas = True
        faulty = slip is not None
        row = Row(typed.span, () if faulty else found, typed.comment, faulty, raws)
        (section.tables[-1].rows if section.tables else section.rows).append(row)


def _first_words(typed: Typed, taken: int) -> tuple[Piece, Span, str]:
    """What stands behind the first word of a line, or behind its first two; where these stand, and as they stand."""
    behind, span, written = typed.behind, typed.word_span, typed.word
    if taken == 2:
        second = behind.characters.split(maxsplit=1)[0]
        end = behind.characters.index(second) + len(second)
        span = span.to(behind.span(0, end))
        written = typed.whole.typed[: len(typed.whole.typed) - len(behind.typed) + end]
        behind = behind.after(end, len(behind.characters))
    return behind, span, written


def _cells(typed: Typed) -> tuple[tuple[Cell, ...], tuple[str, ...], Slip | None]:
    """The cells of a line, each as it stands, and what is wrong with one of them in every column."""
    whole = typed.whole
    if typed.needless is not None:
        # The reading without the needless mark, every character in its place.
        gap = " " * (len(whole.characters) - len(typed.word) - len(typed.behind.characters))
        characters = typed.word + gap + typed.behind.characters
        whole = Piece(whole.source, whole.line, whole.typed, characters, whole.offset)
    try:
        found, raws = read_cells(whole)
    except Slip as slip:
        return (), tuple(typed.whole.typed.split()), slip
    return found, raws, None
