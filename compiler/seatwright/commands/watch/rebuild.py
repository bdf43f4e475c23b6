"""Building a job again and again, the last good cards kept; and seeing when that has to be done."""

from __future__ import annotations

import contextlib
import threading
from collections.abc import Iterable, Mapping
from pathlib import Path

from msgspec import Struct, field
from msgspec.structs import replace

from seatwright.cards.templating import TemplateFault
from seatwright.commands.disk import files
from seatwright.commands.disk.shop_templates import template_files, templates_of
from seatwright.commands.jobs.outcome import Outcome, outcome_of
from seatwright.text import Message, Severity, Source

_LOOK = 1000  # ms after which files are looked at without an event: one that was lost, a folder that came back
_QUIET = 30  # ms without a further event before building, so that a save in several steps is built once
_PATIENCE = 300  # ms of events without a pause, after which it is built all the same


class WatchState(Struct, frozen=True):
    """What the browser is to show. version: counts every build; cards_version: that of the build the cards are from.

    cards: cards.html of the last build that gave any, None before. trouble: why the last build gave none, "" if it
    did. ended: the watch is over.
    """

    version: int = 0
    cards_version: int = 0
    cards: bytes | None = None
    trouble: str = ""
    messages: tuple[Message, ...] = ()
    sources: tuple[Source, ...] = ()
    ended: bool = False


class Latest:
    """The newest `Shown`, for which any number of readers may wait."""

    def __init__(self) -> None:
        self._shown = WatchState()
        self._changed = threading.Condition()

    @property
    def shown(self) -> WatchState:
        """What is to be shown now."""
        with self._changed:
            return self._shown

    def newer_than(self, version: int, seconds: float) -> WatchState:
        """What is to be shown once it is another version than this one, or when the seconds are over."""
        with self._changed:
            self._changed.wait_for(lambda: self._shown.version != version or self._shown.ended, seconds)
            return self._shown

    def put(self, built: Built) -> WatchState:
        """Show a build; one without cards leaves the last good ones."""
        with self._changed:
            version = self._shown.version + 1
            cards = (self._shown.cards, self._shown.cards_version) if built.cards is None else (built.cards, version)
            self._shown = WatchState(version, cards[1], cards[0], built.trouble, built.messages, built.sources)
            self._changed.notify_all()
            return self._shown

    def end(self) -> None:
        """Let everybody know that nothing more will come."""
        with self._changed:
            self._shown = replace(self._shown, ended=True)
            self._changed.notify_all()


class Built(Struct, frozen=True):
    """One build. cards: cards.html, None where there are none, for the reason that trouble says.

    files: the fingerprint of each that was asked for, as it was read; "" for one that is not there.
    """

    cards: bytes | None
    trouble: str
    messages: tuple[Message, ...] = ()
    sources: tuple[Source, ...] = ()
    files: Mapping[Path, str] = field(default_factory=dict)


def build_in_memory(job: str, paper: str | None) -> Built:
    """Build a job in memory. Never raises: whatever is wrong is shown, and the next save may put it right."""
    try:
        read = files.open_job(job)
    except files.Unreadable as problem:
        return Built(None, str(problem), files=dict.fromkeys(files.places_of(job), ""))
    asked: dict[Path, str] = dict(read.fingerprints)
    try:
        outcome = outcome_of(read)
        asked |= read.fingerprints
        cards = _cards(job, outcome, paper, asked)
    except (files.Unreadable, TemplateFault) as problem:
        return Built(None, str(problem), outcome.messages, outcome.sources, asked)
    except Exception as problem:
        # A fault of the program's own must not end the watch over it.
        fault = f"seatwright itself failed on this file: {type(problem).__name__}: {problem}"
        return Built(None, fault, files=asked | read.fingerprints)
    count = len(outcome.errors)
    trouble = "" if cards is not None else f"{count} error{'s' if count != 1 else ''} in the file"
    return Built(cards, trouble, outcome.messages, outcome.sources, asked)


def _cards(job: str, outcome: Outcome, paper: str | None, asked: dict[Path, str]) -> bytes | None:
    """cards.html, with the shop's own templates as a build has them. asked: is told which these are."""
    if outcome.plan is None:
        return None
    from seatwright.commands.jobs.documents import documents_of

    shops = [source.path for source in outcome.plan.job.sources][1:]
    asked |= {place: files.fingerprint_of(place) for place in template_files(job, shops)}
    own = templates_of(job, shops)
    return documents_of(outcome.plan, paper=paper, templates=own).html.encode("utf-8")


def state_in_words(shown: WatchState) -> str:
    """What the last build came to, in a line."""
    if shown.trouble:
        return f"{shown.trouble}; the last good cards are kept" if shown.cards is not None else shown.trouble
    counts = [
        f"{count} {severity.value}{'s' if count != 1 else ''}"
        for severity in (Severity.HOLD, Severity.WARNING, Severity.NOTICE)
        if (count := sum(message.severity is severity for message in shown.messages))
    ]
    return ", ".join(["cards built", *counts])


def changed(known: Mapping[Path, str], stop: threading.Event) -> bool:
    """Wait until a file is no longer as it was read; False when stop is set before.

    Their folders are watched, not they: an editor that saves by renaming puts another file in the place. What stands
    in them is compared, once a second also without an event, so that neither a lost event nor a folder that was taken
    away and put back goes unseen.
    """
    import watchfiles

    names = {str(path) for path in known}
    while not stop.is_set():
        if _differs(known):
            return True
        folders = sorted({path.parent for path in known if path.parent.is_dir()})
        if not folders:
            stop.wait(_LOOK / 1000)
            continue
        standing = _identities(folders)
        events = watchfiles.watch(
            *folders,
            watch_filter=lambda _, path: path in names,
            recursive=False,
            debounce=_PATIENCE,
            step=_QUIET,
            rust_timeout=_LOOK,
            yield_on_timeout=True,
            stop_event=stop,
        )
        with contextlib.closing(events), contextlib.suppress(FileNotFoundError):
            for _ in events:
                if _differs(known):
                    return True
                if _identities(folders) != standing:
                    break
    return False


def _differs(known: Mapping[Path, str]) -> bool:
    return any(files.fingerprint_of(path) != as_read for path, as_read in known.items())


def _identities(folders: Iterable[Path]) -> tuple[tuple[int, int] | None, ...]:
    return tuple(_identity(folder) for folder in folders)


def _identity(folder: Path) -> tuple[int, int] | None:
    try:
        found = folder.stat()
    except OSError:
        return None
    return found.st_dev, found.st_ino
