"""The files that a job uses, shop and engine files, each read as it names them; and such a file by itself."""

from __future__ import annotations

import posixpath
from collections.abc import Callable, Sequence

from msgspec import Struct, field

from seatwright.job.declarations import ENDINGS, Kind, kind_of, vocabulary
from seatwright.job.engine_file.engine_files import read_engine_file
from seatwright.job.head.of_engine import EngineFile
from seatwright.job.sections.singles import uses
from seatwright.job.shop_file.shelf import Shelf
from seatwright.job.shop_file.shop import Stock, lay_over
from seatwright.job.shop_file.shop_files import read_shop_file
from seatwright.job.typed import names
from seatwright.job.typed.gather import Gathered
from seatwright.job.wording import of_engines
from seatwright.job.wording import of_sections as say
from seatwright.syntax import tree
from seatwright.syntax.parse import parse
from seatwright.syntax.tree import Text
from seatwright.text import Message, Source, Span
from seatwright.text.reading import read_source as read_text

Load = Callable[[str], bytes]


# Lines below what opens no section, or below no header, are passed over, with the valves and items that they name.
LINES_LOST = ("section-none", "section-missing", "section-misplaced", "header-missing", "cells-parted")


class Refused(Exception):
    """A loader will not read a file, for a reason that it says: a link that leads out of the job's folder."""

    def __init__(self, reason: str) -> None:
        super().__init__(reason)
        self.reason = reason


class UsedFiles(Struct):
    """The files that a job uses, as read. all_read: none is missing, and no line of a shop file was passed over."""

    sources: list[Source] = field(default_factory=list)
    engines: list[EngineFile] = field(default_factory=list)
    all_read: bool = True


class OpenedShop(Struct, frozen=True):
    """A shop file as it was read: its items, and what is to be said of it. source, shelf: None where it is no text.
    whole: no line of it was lost."""

    source: Source | None
    shelf: Shelf | None
    messages: tuple[Message, ...]
    whole: bool


def opened_shop(path: str, data: bytes) -> OpenedShop:
    """A shop file, read without a job that uses it. It says the same of the same bytes, and may be kept."""
    gathered = Gathered()
    source, file = parsed(path, data, "shop", gathered)
    if source is None or file is None:
        return OpenedShop(None, None, gathered.in_order(), False)
    shelf = read_shop_file(source, file, gathered)
    return OpenedShop(source, shelf, gathered.in_order(), not gathered.said(*LINES_LOST, file=file.path))


def used_files(
    path: str, file: tree.File, load: Load, gathered: Gathered, opened: Callable[[str, bytes], OpenedShop] = opened_shop
) -> tuple[UsedFiles, Stock]:
    """The files that a job uses, each read once, and the shop that its shop files make.

    Engine files are read last: the names of their alloys are those of the shop. opened: how a shop file is read, by a
    reader that keeps those of many jobs.
    """
    used = UsedFiles()
    named = uses(file, gathered)
    used.all_read = not any(line.faulty for line in file.singles if line.word.text == "use")
    used.all_read = used.all_read and not gathered.said("use-many", file=path)
    shelves: list[Shelf] = []
    engines: list[tuple[Source, tree.File]] = []
    seen: dict[str, Span] = {}
    for use in named:
        target = _target(path, use, seen, gathered)
        data = None if target is None else _loaded(target, use, load, gathered)
        if data is None or target is None:
            used.all_read = False
            continue
        if kind_of(target) == "engine":
            source, read_as = parsed(target, data, "engine", gathered)
            if source is not None and read_as is not None:
                engines.append((source, read_as))
        else:
            shop = opened(target, data)
            for message in shop.messages:
                gathered.say(message)
            source = shop.source
            if shop.shelf is not None:
                shelves.append(shop.shelf)
            used.all_read = used.all_read and shop.whole
        if source is None:
            used.all_read = False
        else:
            used.sources.append(source)
    stock = lay_over(shelves, gathered, all_read=used.all_read, files=bool(shelves))
    used.engines = [read_engine_file(source, file, stock, gathered) for source, file in engines]
    for one in used.engines:
        one.doubtful = one.doubtful or gathered.said(*LINES_LOST, file=one.path)
    _check_engines(used.engines, gathered)
    return used, stock


def _check_engines(engines: Sequence[EngineFile], gathered: Gathered) -> None:
    seen: dict[str, Span] = {}
    for one in engines:
        if one.name is None:
            continue
        key = names.key(one.name.text)
        if key in seen:
            gathered.say(of_engines.engine_twice(one.name.span, one.name.text, seen[key]))
        seen.setdefault(key, one.name.span)


def _target(path: str, use: Text, seen: dict[str, Span], gathered: Gathered) -> str | None:
    """The path of a shop or engine file, from where the job's own path starts; None where it may not be used, which is
    said. How far up it may lie the loader says, who knows the folders."""
    named = use.text
    why = None
    if not named.endswith(tuple(ENDINGS)):
        why = "the name of a shop file ends in .shop, that of an engine file in .engine"
    elif "\\" in named or ":" in named:
        why = "a path is written with / and without a drive"
    elif named.startswith(("/", "~")):
        why = "an absolute path means another file on another machine"
    if why is not None:
        gathered.say(say.use_refused(use.span, named, why))
        return None
    target = posixpath.normpath(posixpath.join(posixpath.dirname(path), named))
    if target in seen:
        gathered.say(say.use_again(use.span, named, seen[target]))
        return None
    seen[target] = use.span
    return target


def read_used(path: str, load: Load) -> tuple[Message, ...]:
    """What is to be put right in a shop or engine file by itself; the messages are by place, one for each mistake."""
    gathered = Gathered()
    try:
        data = load(path)
    except (OSError, Refused) as problem:
        gathered.say(say.job_unreadable(path, why_unread(problem)))
        return gathered.in_order()
    if kind_of(path) == "engine":
        source, file = parsed(path, data, "engine", gathered)
        if source is not None and file is not None:
            read_engine_file(source, file, None, gathered)
        return gathered.in_order()
    shop = opened_shop(path, data)
    for message in shop.messages:
        gathered.say(message)
    if shop.shelf is not None:
        lay_over([shop.shelf], gathered, all_read=shop.whole, files=True)
    return gathered.in_order()


def parsed(path: str, data: bytes, kind: Kind, gathered: Gathered) -> tuple[Source | None, tree.File | None]:
    source, messages = read_text(path, data)
    for message in messages:
        gathered.say(message)
    if source is None:
        return None, None
    file, messages = parse(source, vocabulary(kind))
    for message in messages:
        gathered.say(message)
    return source, file


def _loaded(target: str, use: Text, load: Load, gathered: Gathered) -> bytes | None:
    try:
        return load(target)
    except Refused as problem:
        gathered.say(say.use_refused(use.span, use.text, problem.reason))
    except OSError as problem:
        gathered.say(say.use_unreadable(use.span, use.text, why_unread(problem)))
    return None


def why_unread(problem: OSError | Refused) -> str:
    if isinstance(problem, Refused):
        return problem.reason
    return (problem.strerror or str(problem) or "it cannot be opened").lower()


def read_engine(path: str, load: Load) -> tuple[EngineFile | None, tuple[Message, ...]]:
    """An engine file by itself, as far as it could be read, and what is to be put right in it."""
    gathered = Gathered()
    source, file = parsed(path, load(path), "engine", gathered)
    if source is None or file is None:
        return None, gathered.in_order()
    return read_engine_file(source, file, None, gathered), gathered.in_order()
