"""A card, ready to print: what stands on it, in order, before any template lays it out."""

from __future__ import annotations

from msgspec import Struct

from seatwright.cards.figures import Shown
from seatwright.job.model import Head

BLANK = "______"  # a ruled blank; as it is typed, so long it is ruled (see marks.py)


class Table(Struct, frozen=True):
    """Rows under a header. A cell is text (escaped by the template) or `escape.Markdown`. title: a line above it."""

    head: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    title: str = ""


class Step(Struct, frozen=True):
    """One step: an imperative sentence, the figures large, how it is checked, a box to initial.

    number: counted over the whole card. sum: a reckoning with blanks, on a line of its own. cautions: texts that
    stand beside it. tables: what is filled in at this step. drawing: name of the one that belongs here, "" for none.
    """

    number: int
    sentence: str
    figures: tuple[Shown, ...] = ()
    sum: str = ""
    check: str = ""
    initial: bool = True
    cautions: tuple[str, ...] = ()
    tables: tuple[Table, ...] = ()
    drawing: str = ""


class Held(Struct, frozen=True):
    """A valve that cannot be cut: why, and what would lift it."""

    valve: str
    text: str
    help: str


class Cautioned(Struct, frozen=True):
    """A caution as the job sheet prints it."""

    text: str
    agency: str
    valves: tuple[str, ...]


class Drawing(Struct, frozen=True):
    """An inline SVG by the name that the card calls it by. caption: what it shows."""

    name: str
    caption: str
    svg: str


class Content(Struct, frozen=True):
    """What a card holds. Parts that a card has no use for are empty.

    lines: facts that stand first (what, what of it). holds: boxed. warnings, notes: sentences. cautions: of the whole
    job. fetch: what to bring, each with a box. first: tables before all else; tables: after the steps. outcomes: (what
    was measured, what to do). not_checked, sources: sentences. signed: who signs below. closing: the last sentence.
    cautioned: the slugs of all cautions on the card. said: slugs of the messages that it prints.
    """

    lines: tuple[tuple[str, str], ...] = ()
    holds: tuple[Held, ...] = ()
    warnings: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()
    cautions: tuple[Cautioned, ...] = ()
    fetch: tuple[str, ...] = ()
    steps: tuple[Step, ...] = ()
    first: tuple[Table, ...] = ()
    tables: tuple[Table, ...] = ()
    drawings: tuple[Drawing, ...] = ()
    outcomes: tuple[tuple[str, str], ...] = ()
    not_checked: tuple[str, ...] = ()
    sources: tuple[str, ...] = ()
    signed: tuple[str, ...] = ()
    closing: str = ""
    cautioned: tuple[str, ...] = ()
    said: tuple[str, ...] = ()


class Card(Struct, frozen=True):
    """A card of the job.

    name: as-found, job, guides, setting, press, seat, record. head: None where it serves all heads.
    """

    number: int
    of: int
    name: str
    title: str
    head: Head | None
    valves: tuple[str, ...]
    content: Content
