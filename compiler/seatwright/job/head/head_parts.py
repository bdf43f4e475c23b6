"""The sections of one head as they are read, before its valves are put together."""

from __future__ import annotations

from itertools import pairwise
from typing import Any, TypeVar

from msgspec import Struct, field
from msgspec.structs import replace

from seatwright.job.declarations import JOB_SECTIONS, job_sections
from seatwright.job.head.alone import Mention, mentions
from seatwright.job.head.of_engine import OfHead
from seatwright.job.head.places import holes, layout, spacing, trial
from seatwright.job.head.pocket_sizes import SizeTable, pocket_sizes
from seatwright.job.head.readings import HeadTables
from seatwright.job.head.replaced import replaced
from seatwright.job.head.selectors import Selected, selected
from seatwright.job.model import Extra, GuideWish, Hole, InsertWish, Named, NotCounted, Place, Spacing, Trial
from seatwright.job.sections import opening
from seatwright.job.sections.tables import lost_valves
from seatwright.job.shop_file.shop import Stock
from seatwright.job.typed import names
from seatwright.job.typed.fields import Fields, read_fields
from seatwright.job.typed.gather import Gathered
from seatwright.job.typed.scope import Scope
from seatwright.job.wording.of_sections import alloy_apart
from seatwright.syntax import tree
from seatwright.syntax.vocabulary import Shape
from seatwright.text import Span


class Parts(Struct):
    """What stands under one `head` line.

    lost: valves of rows that could not be read; doubtful: there are rows or lines of which not even the valve is
    known, so a valve that is missing need not be a mistake of its own. above: the `valves` sections before the first
    head, and named_above the valves they name that are this head's. mentions: the valves of
    its rows. not_counted: the bores of each valve that `not-counted` lines leave out. engine: that it is of.
    """

    span: Span
    title: opening.Titled
    fields: Fields
    selected: list[Selected] = field(default_factory=list)
    measured: HeadTables = field(default_factory=HeadTables)
    cut: HeadTables = field(default_factory=HeadTables)
    finished: HeadTables = field(default_factory=HeadTables)
    layout: list[Place] = field(default_factory=list)
    holes: list[Hole] = field(default_factory=list)
    spacings: list[Spacing] = field(default_factory=list)
    trials: list[Trial] = field(default_factory=list)
    extras: list[Extra] = field(default_factory=list)
    lost: set[str] = field(default_factory=set)
    doubtful: bool = False
    not_counted: dict[str, tuple[NotCounted, ...]] = field(default_factory=dict)
    mentions: list[Mention] = field(default_factory=list)
    above: tuple[Selected, ...] = ()
    named_above: dict[str, Span] = field(default_factory=dict)
    sizes: list[SizeTable] = field(default_factory=list)
    engine: OfHead | None = None
    unit: str = ""

    @property
    def places(self) -> list[Place]:
        """Where the valves lie: as the job says, else as its engine's maker does."""
        own = {place.valve for place in self.layout}
        makers = self.engine.layout() if self.engine is not None else []
        return [*self.layout, *(place for place in makers if place.valve not in own)]

    @property
    def distances(self) -> list[Spacing]:
        """The distances between valves, likewise pair by pair."""
        own = {frozenset((one.first, one.second)) for one in self.spacings}
        makers = self.engine.spacings() if self.engine is not None else []
        return [*self.spacings, *(one for one in makers if frozenset((one.first, one.second)) not in own)]

    @property
    def near(self) -> list[Hole]:
        """What else is near, likewise hole by hole."""
        own = {names.key(hole.name) for hole in self.holes}
        makers = self.engine.file.holes if self.engine is not None else []
        return [*self.holes, *(hole for hole in makers if names.key(hole.name) not in own)]


def for_all_heads(section: tree.Section, scope: Scope, stock: Stock, gathered: Gathered) -> Selected:
    """A `valves` section that stands before the first head."""
    found = selected(job_sections.VALVES, section, scope, gathered, above=True)
    look_up(found.fields.values, stock, gathered)
    return found


def open_head(section: tree.Section, scope: Scope, gathered: Gathered) -> Parts:
    """A head with its own fields."""
    title = opening.titled(job_sections.HEAD, section.line, scope, gathered, need_name=False)
    called = f"head {title.name.text}" if title.name else "head"
    fields = read_fields(job_sections.HEAD, section.fields, scope, gathered, called)
    return Parts(section.line.word.span, title, fields, extras=list(fields.extras), unit=scope.unit or "")


def add(section: tree.Section, parts: Parts, scope: Scope, stock: Stock, gathered: Gathered) -> None:
    """One more section of a head."""
    if section.name not in ("holes", "trial", "pocket-sizes"):
        lost, others = lost_valves(section)
        parts.lost |= lost
        parts.doubtful = parts.doubtful or others
    if section.name == "valves":
        found = selected(job_sections.VALVES, section, scope, gathered)
        look_up(found.fields.values, stock, gathered)
        parts.extras += found.fields.extras
        parts.doubtful = parts.doubtful or not found.valid
        if found.valid:
            parts.selected.append(found)
        return
    if section.name == "pocket-sizes":
        table, extras = pocket_sizes(section, scope, gathered)
        parts.extras += extras
        parts.doubtful = parts.doubtful or not table.words
        parts.sizes.append(table)
        return
    parts.mentions += mentions(section)
    declared = _TABLES[section.name]
    of_table = opening.of_table(declared, section.line, scope, gathered)
    parts.extras += read_fields(declared, section.fields, of_table, gathered).extras
    match section.name:
        case "layout":
            parts.extras += layout(section, of_table, parts.layout, gathered)
        case "holes":
            parts.extras += holes(section, of_table, parts.holes, gathered)
        case "spacing":
            spacing(section, of_table, parts.spacings, gathered)
        case "replaced":
            made, extras = replaced(section, of_table, parts.measured.renewed, gathered)
            parts.measured.renew(made)
            parts.extras += extras
        case "trial":
            before = len(parts.trials)
            trial(section, of_table, parts.trials, gathered)
            parts.trials[before:] = [
                replace(one, cutter=stock.look_up("cutter", one.cutter, gathered) or one.cutter)
                for one in parts.trials[before:]
            ]
        case _:
            sheet = {"measured": parts.measured, "cut": parts.cut, "finished": parts.finished}[section.name]
            already = len(sheet.extras)
            sheet.add(declared, section, of_table, gathered)
            parts.extras += sheet.extras[already:]


_TABLES = {section.word: section for section in JOB_SECTIONS if section.shape is not Shape.FIELDS}


def look_up(values: dict[str, Any], stock: Stock, gathered: Gathered) -> None:
    """Names of a `valves` section as the shop has them; one that is not there is taken out, having been said."""
    for word in ("pilot", "cutter"):
        if word in values:
            _keep(values, word, stock.look_up(word, values[word], gathered))
    if "alloy" in values:
        found = [stock.look_up("alloy", named, gathered) for named in _joined(values["alloy"], stock, gathered)]
        _keep(values, "alloy", tuple(named for named in found if named is not None) or None)
    if "insert" in values:
        _keep(values, "insert", wish(values["insert"], stock, gathered))
    if "guide" in values:
        _keep(values, "guide", wish(values["guide"], stock, gathered, "guide"))


def _joined(alloys: tuple[Named, ...], stock: Stock, gathered: Gathered) -> list[Named]:
    """The alloys, without those whose words were written apart, which is said once."""
    left = list(alloys)
    for at, (one, other) in enumerate(pairwise(alloys)):
        apart = stock.names_of["alloy"].get(names.key(f"{one.text} {other.text}"))
        if apart is not None and names.key(other.text) not in stock.names_of["alloy"]:
            gathered.say(alloy_apart(one.span.to(other.span), f"{one.text} {other.text}"))
            left = [named for named in left if named not in alloys[at : at + 2]]
    return left


def _keep(values: dict[str, Any], word: str, value: Any) -> None:
    if value is None:
        del values[word]
    else:
        values[word] = value


_Wish = TypeVar("_Wish", InsertWish, GuideWish)


def wish(one: _Wish, stock: Stock, gathered: Gathered, kind: str = "insert") -> _Wish | None:
    """What goes in, a stock insert or guide by its name in the shop; None where there is none such, which is said."""
    if one.name is None:
        return one
    found = stock.look_up(kind, Named(one.name, one.span), gathered)
    return None if found is None else replace(one, name=found.text)
