"""What lies open: the texts as they stand in the editor, and what each comes to."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from functools import cached_property, lru_cache
from pathlib import Path
from typing import Protocol

from seatwright.editor.texts.positions import lines_of
from seatwright.job import Job, Refused, read, read_used
from seatwright.job.declarations import Kind, kind_of, vocabulary
from seatwright.job.mending import with_fixes
from seatwright.job.used_files import opened_shop
from seatwright.planning.plan import Plan
from seatwright.planning.planner import plan
from seatwright.syntax.parse import parse
from seatwright.syntax.tree import File
from seatwright.text import Message, Source, in_order
from seatwright.text.gathered import gathered
from seatwright.text.message import fewer
from seatwright.text.reading import read_source as read_text

_LARGEST = 8_000_000  # bytes handed on: as many as a command reads of a file
_SHOPS_KEPT = 32


class Disk(Protocol):
    """How files are come by that are not open. Every call is for reading."""

    def contents(self, place: Path) -> bytes:
        """What stands in a plain file. Raises OSError."""

    def beside(self, home: Path, name: str) -> Path:
        """Where a file stands that a job in a folder names. Raises Refused where that leads out of the folder."""

    def shown(self, name: str) -> str:
        """A file's name as messages have it."""

    def truly(self, place: Path) -> Path:
        """Where a file stands when every link is followed."""

    def jobs_in(self, folder: Path) -> tuple[Path, ...]:
        """The job files of a folder."""


class OpenText:
    """A file that is open in the editor: where it stands, and its text as it was last typed.

    folder: that of its name, None for one that was never saved. truly: where it stands when links are followed.
    version: the editor's own.
    """

    def __init__(self, uri: str, folder: Path | None, name: str, truly: Path | None, text: str, version: int) -> None:
        self.uri = uri
        self.folder = folder
        self.name = name
        self.truly = truly
        self.text = text
        self.version = version

    @property
    def kind(self) -> Kind:
        """Which declarations hold for it."""
        return kind_of(self.name)

    def data(self) -> bytes:
        """As it would be saved."""
        return self.text.encode("utf-8", "surrogatepass")[:_LARGEST]


class AsItStands:
    """A file with all that it uses, read and planned as it stands in the editor.

    name: its own, by which its messages call it. places: where each file stands, by the name that messages have for it.
    seen: what stood at each place that was asked for, None where nothing could be read. messages: those of `check`, in
    its order.
    """

    def __init__(
        self,
        text: OpenText,
        seen: Mapping[Path | str, bytes | None],
        places: Mapping[str, Path],
        job: Job | None,
        planned: Plan | None,
        messages: Iterable[Message],
    ) -> None:
        self.uri = text.uri
        self.name = text.name
        self.kind = text.kind
        self.text = text.text
        self.version = text.version
        self.folder = text.folder
        self.truly = text.truly
        self.seen = seen
        self.places = places
        self.job = job
        self.plan = planned
        self._said = tuple(messages)

    @cached_property
    def sources(self) -> dict[str, Source]:
        """Every file that was read, by its name."""
        names = {self.name: self.seen[self.name], **{name: self.seen[place] for name, place in self.places.items()}}
        found = (read_text(name, data)[0] for name, data in names.items() if data is not None)
        return {source.path: source for source in found if source is not None}

    @cached_property
    def messages(self) -> tuple[Message, ...]:
        """What `check --as json` says of it."""
        return fewer(gathered(with_fixes(self._said, self.sources.values())))

    @cached_property
    def lines(self) -> list[str]:
        """Its lines as they are in the editor."""
        return lines_of(self.text)

    @cached_property
    def source(self) -> Source | None:
        """Its text as it is read; None where it is none."""
        return self.sources.get(self.name)

    @cached_property
    def tree(self) -> File | None:
        """Its lines, sorted into sections."""
        return None if self.source is None else parse(self.source, vocabulary(self.kind))[0]

    def tree_of(self, name: str) -> File | None:
        """Those of a shop file that it uses."""
        if name == self.name:
            return self.tree
        source = self.sources.get(name)
        return None if source is None else parse(source, vocabulary(kind_of(name)))[0]


class Desk:
    """All that is open, and what it comes to, worked out when it is asked for and kept while it holds.

    inlay: whether the editor wants to see behind a line what it comes to. snippets: whether it knows text with places
    to be filled in.
    """

    def __init__(self, disk: Disk) -> None:
        self.disk = disk
        self.inlay = True
        self.snippets = False
        self.texts: dict[str, OpenText] = {}
        self._kept: dict[str, AsItStands] = {}
        self._opened = lru_cache(_SHOPS_KEPT)(opened_shop)

    def open(self, text: OpenText) -> None:
        """A text is open from here on."""
        self.texts[text.uri] = text

    def close(self, uri: str) -> None:
        """A text is open no more: what stands on disk counts again."""
        self.texts.pop(uri, None)
        self._kept.pop(uri, None)

    def stands(self, uri: str) -> AsItStands | None:
        """What a file comes to by the newest text of it and of all that it uses; None for one that is not open."""
        text = self.texts.get(uri)
        if text is None:
            return None
        kept = self._kept.get(uri)
        if kept is None or not self._still(kept, text):
            kept = self._kept[uri] = self.worked_out(text)
        return kept

    def address(self, place: Path) -> str:
        """By which the editor knows a file: the one that it opened it by, else that of its place."""
        return next((text.uri for text in self.texts.values() if text.truly == place), None) or place.as_uri()

    def _still(self, kept: AsItStands, text: OpenText) -> bool:
        if kept.text != text.text:
            return False
        kept.version = text.version
        return all(self._bytes(place) == data for place, data in kept.seen.items() if isinstance(place, Path))

    def worked_out(self, text: OpenText) -> AsItStands:
        """What a file comes to, read and planned afresh."""
        own = text.data()
        seen: dict[Path | str, bytes | None] = {text.name: own}
        places: dict[str, Path] = {}
        load = self._noting(text, own, seen, places)
        job, planned = None, None
        if text.kind != "job":
            messages = read_used(text.name, load)
        else:
            job, messages = read(text.name, load, self._opened)
            if job is not None:
                planned = plan(job)
                messages = (*messages, *planned.messages)
        return AsItStands(text, seen, places, job, planned, in_order(messages))

    def loading(self, text: OpenText) -> Callable[[str], bytes]:
        """What gives the bytes of a file and of those that it uses, as they stand in the editor."""
        return self._noting(text, text.data(), {}, {})

    def _noting(
        self, text: OpenText, own: bytes, seen: dict[Path | str, bytes | None], places: dict[str, Path]
    ) -> Callable[[str], bytes]:
        def load(name: str) -> bytes:
            if name == text.name:
                return own
            if text.folder is None:
                raise Refused("this job was never saved, and has no folder to look in")
            place = self.disk.beside(text.folder, name)
            try:
                data = self._contents(place)
            except OSError:
                seen[place] = None
                raise
            seen[place] = data
            places[name] = place
            return data

        return load

    def _contents(self, place: Path) -> bytes:
        unsaved = next((text for text in self.texts.values() if text.truly == place), None)
        return self.disk.contents(place) if unsaved is None else unsaved.data()

    def _bytes(self, place: Path) -> bytes | None:
        try:
            return self._contents(place)
        except OSError:
            return None
