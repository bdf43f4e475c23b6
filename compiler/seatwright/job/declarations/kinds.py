"""The kinds of value a field may take, and what a declaration of a field or a section says."""

from __future__ import annotations

from collections.abc import Mapping
from enum import StrEnum
from functools import cached_property

from msgspec import Struct

from seatwright.syntax.vocabulary import Shape


class Dimension(StrEnum):
    """What a figure measures; its value is the word that the table of units has for it."""

    LENGTH = "length"
    ANGLE = "angle"
    PLAIN = "number"
    TEMPERATURE = "temperature"
    SPEED = "speed"
    SURFACE_SPEED = "surface-speed"
    FEED = "feed"
    LEVEL = "level"
    FORCE = "force"
    TORQUE = "torque"
    PRESSURE = "pressure"
    EXPANSION = "expansion"
    TIME = "time"
    MONTHS = "months"


class Form(StrEnum):
    """How a value is written; the text of each is what the reference page and the messages call it."""

    # How a value is read is looked up by its form, and the hash of an enum is a call of Python.
    __hash__ = str.__hash__

    NUMBER = "one number"
    SIZE = "one number, a range or a tolerance (the middle counts)"
    LIMITS = "two limits, one limit (`most` or `max`, `least` or `min`) or an aim"
    TWO_LIMITS = "two limits"
    TWO_LIMITS_SOURCE = "two limits, and their source in quotes"
    TWO_OR_MOST_SOURCE = "two limits, or `most` alone, and their source in quotes"
    LIMITS_OR_ONE_SOURCE = "two limits or a single figure, and their source in quotes"
    CLEARANCE = "a range, or one limit (`most` or `max`, `least` or `min`)"
    NUMBER_OR_RANGE = "one number or a range"
    LIST = "a list"
    IN_ORDER = "one or more numbers, in their order"
    STEPS = "a list of steps, or a range"
    FEEDS = "a list of steps, a range, or `hand`"
    TEMPERATURE = "a temperature, `+/-` allowed"
    SPREAD = "a standard uncertainty, or `+/-` and what it is never further off than"
    RUNOUT = "a runout, `tir` or `offset`"
    TEXT = "a text in quotes"
    DATE = "a date"
    CHOICE = "one of these words"
    NAME = "a name"
    SIZE_NAME = "a size by its name: `standard`, or a figure such as `+0.25`"
    NAMES = "one or more names"
    VALVE = "a valve"
    YES = "`yes` or `no`"
    GUIDE = "a stock guide, `choose`, `keep` or `none`"
    GUIDE_STAND = "two limits, one limit (`most` or `max`, `least` or `min`) or an aim, or `shoulder`"
    FORCE_AT = "a force, `at` and a height, and their source in quotes"
    INSERT = "a stock insert, `choose`, `turned`, `stays` or `none`"
    STAND = "`flush`, `proud` or `below` with a figure or two limits"
    INTEGRAL = "`integral`"
    NOT_ALLOWED = "`not-allowed` and the reason in quotes"
    SKIM = "a length, then `before-measuring`, `after-measuring` or `still-to-come`"
    FOLLOWS = "`valve-train` or `valve-train both`"
    LEAK = "a time and the words for it in quotes"
    CHILL = "a name, its temperature, `arrives` and the temperature in the bore"
    MASTER = "a date or none, a size, `reads` and what the instrument shows, once or several times by slashes"
    OVERCUT = "a head material or none, a length, and where it is from in quotes"
    OVERCUT_SPREAD = "a head material or none, a standard uncertainty, or `+/-` and what it is never further off than"
    DATED = "a date, and what was done in quotes or nothing"
    DATED_REASON = "a date, and the reason in quotes"
    ONE_OR_TWO = "one figure for both, or two"
    EXPANSION_LINE = "an expansion, `to` and a temperature"
    CUTTING_FORCE = "a pressure, `exponent` and a number"
    LEAK_FOUND = "`pass`, `fail` or a time"
    TEXT_AND_DATE = "a text in quotes, and the date of the publication where it has one"


TAKES_ONE_LIMIT = frozenset({Form.LIMITS, Form.CLEARANCE, Form.TWO_OR_MOST_SOURCE})
"""The forms that take `most 1.1` or `least 0.5` as well."""


class Bounds(Struct, frozen=True):
    """The least and most that a real head, insert or shop can show, in the units of the model.

    Wide on purpose; where the trade allows it, most/least stays below 25.4, so that a figure in the other unit is
    always found out.
    """

    least: float
    most: float


class Sisters(Struct, frozen=True):
    """How a measured column is held against the same column of the other valves.

    under, over: how far below and above the others a true figure of a worn head lies at most, by what the instrument
    shows and by wear, in mm of the model (common practice). thing: what several columns are readings of; they move
    together from valve to valve. within: how far one of them may leave the others of its thing. alike: they are
    readings of one size, also without other valves. rests: whether a figure at the machine or a verdict rests on it.
    at_most: beyond it no true figure lies, however far the others lie apart; 0 where their own spread says it.
    """

    under: float
    over: float
    thing: str = ""
    within: float = 0.0
    alike: bool = False
    rests: bool = True
    at_most: float = 0.0


class Field(Struct, frozen=True, dict=True):
    """A field of a section or a column of a table: one declaration, from which all else is made.

    attribute: that of the model. halved: a full needle movement which the model keeps as an axis offset. former: what
    it was called before; that word is an error which names this one. former_choices: likewise of a choice, with the
    word that it has now. asks_over: a bare figure over it may be meant in another way, and is asked about. also:
    another word of the trade for it, which is read as this one. names: the kind of thing of a shop file that it names,
    where that is not its own word. of_piece: it is of one head on one day, so an engine file, which speaks of its type,
    has no place for it.
    """

    word: str
    form: Form
    help: str
    example: str
    dimension: Dimension | None = None
    bounds: Bounds | None = None
    choices: tuple[str, ...] = ()
    attribute: str = ""
    repeats: bool = False
    required: bool = False
    halved: bool = False
    former: str = ""
    former_choices: tuple[tuple[str, str], ...] = ()
    asks_over: float | None = None
    also: str = ""
    sisters: Sisters | None = None
    names: str = ""
    of_piece: bool = False

    @cached_property
    def to(self) -> str:
        """The attribute of the model that holds it."""
        return self.attribute or self.word.replace("-", "_")


class Header(Struct, frozen=True, dict=True):
    """A table header: its first column, which every row fills, and the other columns in any order."""

    first: Field
    columns: tuple[Field, ...]

    @cached_property
    def by_word(self) -> Mapping[str, Field]:
        """Every column by its word."""
        return {column.word: column for column in (self.first, *self.columns)}


class SectionDeclared(Struct, frozen=True, dict=True):
    """A section of a kind of file. opening: what its own line says. dated: its line may carry a date, `in`, `at`.

    rows: what stands in a row of a section without a header. of_one: its line may name one valve, with a column of that
    valve on each line below it. sourced: a text behind a figure says who printed it.
    of_piece: fields of the same section of a job that are of one head, refused where a type is described.
    """

    word: str
    shape: Shape
    help: str
    opening: str
    fields: tuple[Field, ...] = ()
    headers: tuple[Header, ...] = ()
    rows: tuple[Field, ...] = ()
    dated: bool = False
    of_one: bool = False
    sourced: bool = False
    of_piece: tuple[str, ...] = ()

    @cached_property
    def by_word(self) -> Mapping[str, Field]:
        """Every field by its word."""
        return {field.word: field for field in self.fields}

    @cached_property
    def by_row(self) -> Mapping[str, Field]:
        """What stands in a row of a section without a header, by its word."""
        return {field.word: field for field in self.rows}


def length(
    word: str,
    help: str,
    example: str,
    least: float,
    most: float,
    form: Form = Form.NUMBER,
    *,
    attribute: str = "",
    repeats: bool = False,
    halved: bool = False,
    former: str = "",
    also: str = "",
    sisters: Sisters | None = None,
) -> Field:
    """A field or column that takes a length; least and most in mm."""
    return Field(
        word,
        form,
        help,
        example,
        Dimension.LENGTH,
        Bounds(least, most),
        attribute=attribute,
        repeats=repeats,
        halved=halved,
        former=former,
        also=also,
        sisters=sisters,
    )


def angle(word: str, help: str, example: str, least: float, most: float, *, asks_over: float | None = None) -> Field:
    """A field or column that takes an angle; least and most in degrees from the plane square to the stem."""
    return Field(word, Form.SIZE, help, example, Dimension.ANGLE, Bounds(least, most), asks_over=asks_over)


def temperature(word: str, help: str, example: str, least: float, most: float, form: Form = Form.NUMBER) -> Field:
    """A field that takes a temperature; least and most in °C."""
    return Field(word, form, help, example, Dimension.TEMPERATURE, Bounds(least, most))


def spread(word: str, help: str, example: str, most: float) -> Field:
    """A field that takes an uncertainty of a length; most in mm."""
    return Field(word, Form.SPREAD, help, example, Dimension.LENGTH, Bounds(0.0, most))


def count(word: str, help: str, example: str, least: float, most: float) -> Field:
    """A field or column that takes a plain number."""
    return Field(word, Form.NUMBER, help, example, Dimension.PLAIN, Bounds(least, most))


def text(word: str, help: str, example: str) -> Field:
    """A field that takes a text in quotes."""
    return Field(word, Form.TEXT, help, example)


def choice(
    word: str,
    help: str,
    example: str,
    *choices: str,
    required: bool = False,
    former_choices: tuple[tuple[str, str], ...] = (),
    attribute: str = "",
) -> Field:
    """A field or column that takes one of a few words."""
    return Field(
        word,
        Form.CHOICE,
        help,
        example,
        choices=choices,
        required=required,
        former_choices=former_choices,
        attribute=attribute,
    )
