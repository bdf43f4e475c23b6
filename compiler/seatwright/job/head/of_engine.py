"""An engine file as it was read, and what of it is a head's: which head is of it, and which cylinders are which."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence

from msgspec import Struct, field
from msgspec.structs import replace

from seatwright.job.head.pocket_sizes import SizeTable
from seatwright.job.head.selectors import Selected, Selectors
from seatwright.job.model import Engine, Extra, Given, Hole, Named, Note, Place, Spacing
from seatwright.job.typed import names
from seatwright.job.typed.fields import Fields
from seatwright.job.typed.gather import Gathered
from seatwright.job.wording import of_engines as say
from seatwright.text import Span


class EngineFile(Struct):
    """What an engine file says. source, date: where its figures are printed; unit: in which a bare length of it is.

    fields: of its `engine` section. doubtful: something of it could not be read, so that what is missing in it need be
    no mistake of the job's.
    """

    path: str
    name: Named | None = None
    text: str = ""
    source: str = ""
    date: str | None = None
    unit: str = ""
    span: Span | None = None
    fields: Fields = field(default_factory=Fields)
    selected: list[Selected] = field(default_factory=list)
    sizes: list[SizeTable] = field(default_factory=list)
    layout: list[Place] = field(default_factory=list)
    holes: list[Hole] = field(default_factory=list)
    spacings: list[Spacing] = field(default_factory=list)
    notes: list[Note] = field(default_factory=list)
    extras: list[Extra] = field(default_factory=list)
    doubtful: bool = False

    @property
    def says(self) -> str:
        """What is printed behind every figure of it: its source, and when that was published."""
        return f"{self.source} ({self.date})" if self.source and self.date else self.source

    def selectors(self, *, reconditioned: bool) -> Selectors:
        """Its `valves` sections, of a new or of a reconditioned head."""
        return Selectors.of(one for one in self.selected if one.valid and one.reconditioned is reconditioned)

    def valves(self) -> Iterator[str]:
        """Every valve that it names."""
        lines = (*(section.words for section in self.selected), *(table.words for table in self.sizes))
        yield from (word for words in lines for word, _ in words if names.is_valve(word))
        yield from (place.valve for place in self.layout)
        for pair in self.spacings:
            yield from (pair.first, pair.second)

    def cylinders(self) -> tuple[int, ...]:
        """The cylinders of the valves that it names, the smallest first."""
        return tuple(sorted({names.valve_parts(valve)[1] for valve in self.valves()}))

    def model(self, heads: tuple[int, ...]) -> Engine:
        """As the job keeps it. heads: numbers of those that are of it."""
        assert self.name is not None
        span = self.span or self.name.span
        return Engine(self.name.text, self.text, self.path, self.source, self.date, span, tuple(self.notes), heads)


class OfHead(Struct, frozen=True):
    """The engine of a head, with its valves called as the job calls them. cylinders: the job's by the engine's, empty
    where they are the same."""

    file: EngineFile
    new: Selectors
    reconditioned: Selectors
    cylinders: Mapping[int, int] = {}

    def in_job(self, valve: str) -> str:
        """How the job calls a valve of the engine."""
        return _renamed(valve, self.cylinders)

    def in_engine(self, valve: str) -> str:
        """How the engine file calls a valve of the job."""
        return _renamed(valve, {job: engine for engine, job in self.cylinders.items()})

    def layout(self) -> list[Place]:
        """The places of the engine's valves."""
        return [replace(place, valve=self.in_job(place.valve)) for place in self.file.layout]

    def spacings(self) -> list[Spacing]:
        """The distances between the engine's valves."""
        return [
            replace(pair, first=self.in_job(pair.first), second=self.in_job(pair.second)) for pair in self.file.spacings
        ]


def _renamed(valve: str, cylinders: Mapping[int, int]) -> str:
    kind, cylinder, letter = names.valve_parts(valve)
    return f"{'I' if kind == 'intake' else 'E'}{cylinders.get(cylinder, cylinder)}{letter}"


def engine_of(
    fields: Fields, head: Span, engines: Sequence[EngineFile], gathered: Gathered, *, all_read: bool
) -> OfHead | None:
    """The engine that a head is of: the one it names, or the only one there is; None for none, and where that is said.

    all_read: no engine file of the job is missing or could not be read
    """
    by_name = {names.key(one.name.text): one for one in reversed(engines) if one.name is not None}
    known = list(reversed(by_name.values()))  # two of one name are said to be, where the files are read
    named: Named | None = fields.get("engine")
    line: tuple[Given, ...] | None = fields.get("cylinders")
    found: EngineFile | None = None
    if named is not None:
        if named.text != "none":
            found = _by_name(named, known, gathered, all_read)
            if found is None:
                return None
    elif len(known) == 1:
        found = known[0]
    elif known and "engine" not in fields.faulty:
        gathered.say(say.engine_which(head, [one.name.text for one in known if one.name is not None]))
        return None
    if found is None:
        if line is not None and all_read:
            gathered.say(say.cylinders_without(fields.spans["cylinders"]))
        return None
    cylinders = {} if line is None else _cylinders(line, found, fields.spans["cylinders"], gathered)
    return OfHead(found, found.selectors(reconditioned=False), found.selectors(reconditioned=True), cylinders)


def _by_name(named: Named, known: Iterable[EngineFile], gathered: Gathered, all_read: bool) -> EngineFile | None:
    by_key = {names.key(one.name.text): one for one in known if one.name is not None}
    found = by_key.get(names.key(named.text))
    if found is None and all_read:
        listed = [one.name.text for one in by_key.values() if one.name is not None]
        gathered.say(say.engine_unknown(named.span, named.text, names.nearest_name(named.text, listed), listed))
    return found


def _cylinders(line: tuple[Given, ...], engine: EngineFile, span: Span, gathered: Gathered) -> dict[int, int]:
    """The job's cylinders by the engine's."""
    numbers = [int(each.value) for each in line]
    has = engine.cylinders()
    again = next((one for place, one in enumerate(line) if numbers[place] in numbers[:place]), None)
    if again is not None:
        gathered.say(say.cylinders_twice(again.span, int(again.value)))
    elif has and len(has) != len(numbers) and not engine.doubtful:
        assert engine.name is not None
        gathered.say(say.cylinders_count(span, len(numbers), engine.name.text, len(has)))
    elif has:
        return dict(zip(has, numbers, strict=False))
    return {}
