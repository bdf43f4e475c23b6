"""Messages as a person reads them in a terminal: what is wrong, where, the line with the place marked, what to do."""

from __future__ import annotations

import textwrap
from collections.abc import Iterable, Mapping

from seatwright.text.message import Message, Related, Severity, by_weight, fewer
from seatwright.text.showing import excerpt, visible
from seatwright.text.source import Source, Span

_COLOURS = {
    Severity.ERROR: "\x1b[1;31m",
    Severity.HOLD: "\x1b[1;35m",
    Severity.WARNING: "\x1b[1;33m",
    Severity.NOTICE: "\x1b[1;36m",
}
_FAINT, _BOLD, _PLAIN = "\x1b[2m", "\x1b[1m", "\x1b[0m"


def render(
    messages: Iterable[Message],
    sources: Mapping[str, Source] | None = None,
    *,
    colour: bool = False,
    columns: int = 100,
) -> str:
    """All messages, the weightiest first, one block each, a blank line between them; empty where there are none.

    sources: the files by their path, for the lines to be shown. columns: the width of the terminal.
    """
    lines = {path: source.as_typed() for path, source in (sources or {}).items()}
    blocks = [_block(message, lines, _Ink(colour), max(columns, 40)) for message in by_weight(fewer(messages))]
    return "\n".join(blocks)


class _Ink:
    """Colour, or none."""

    def __init__(self, colour: bool) -> None:
        self.colour = colour

    def __call__(self, code: str, text: str) -> str:
        return f"{code}{text}{_PLAIN}" if self.colour else text


def _block(message: Message, lines: Mapping[str, list[str]], ink: _Ink, columns: int) -> str:
    colour = _COLOURS[message.severity]
    head = ink(colour, f"{message.severity.value} {message.slug}")
    if message.span is not None:
        head += f"  {visible(message.span.file)}:{message.span.line}:{message.span.column}"
    if message.valves:
        head += "  " + visible(" ".join(message.valves))
    out = [head]
    if message.span is not None:
        out += _excerpt(message.span, lines, ink, colour, columns)
    out += _wrapped(message.text, "  ", "  ", columns, ink, _BOLD)
    alike = [related for related in message.related if related.same]
    if alike:
        out += _wrapped(f"also {_places(alike)}", "  ", "  ", columns, ink, "")
    for related in message.related:
        if related.same:
            continue
        place = f"{visible(related.span.file)}:{related.span.line}:{related.span.column}"
        out += _wrapped(f"{place}: {related.text}", "  see ", "      ", columns, ink, "")
        out += _excerpt(related.span, lines, ink, _FAINT, columns)
    if message.help:
        out += _wrapped(message.help, "  → ", "    ", columns, ink, "")
    return "\n".join(out) + "\n"


def _places(related: Iterable[Related]) -> str:
    """`bench.shop:37, 38, 41; 2214.seat:12`."""
    lines: dict[str, dict[str, None]] = {}
    for each in related:
        lines.setdefault(visible(each.span.file), {})[str(each.span.line)] = None
    return "; ".join(f"{file}:{', '.join(numbers)}" for file, numbers in lines.items())


def _wrapped(text: str, first: str, next_: str, columns: int, ink: _Ink, code: str) -> list[str]:
    wrapped = textwrap.wrap(
        visible(text),
        columns,
        initial_indent=first,
        subsequent_indent=next_,
        break_long_words=False,
        break_on_hyphens=False,
    )
    return [ink(code, line) if code else line for line in wrapped]


def _excerpt(span: Span, lines: Mapping[str, list[str]], ink: _Ink, colour: str, columns: int) -> list[str]:
    """The line of a place with the place marked below it; nothing where the file is not at hand."""
    of_file = lines.get(span.file)
    if of_file is None or not 1 <= span.line <= len(of_file):
        return []
    line = of_file[span.line - 1]
    number = f"{span.line:>5}"
    end = span.end_column - 1 if span.end_line == span.line else len(line)
    shown, start, length = excerpt(line, span.column - 1, end, columns - len(number) - 3)
    bar = ink(_FAINT, "|")
    return [
        f"{ink(_FAINT, number)} {bar} {shown}".rstrip(),
        f"{' ' * len(number)} {bar} {' ' * start}{ink(colour, '^' * length)}",
    ]


def one_a_line(messages: Iterable[Message]) -> str:
    """Messages for editors that jump to a place, `file:line:column: severity slug: text – what to do`, one a line."""
    return "".join(_in_a_line(message) + "\n" for message in fewer(messages))


def _in_a_line(message: Message) -> str:
    place = ""
    if message.span is not None:
        place = f"{message.span.file}:{message.span.line}:{message.span.column}: "
    what_to_do = f" – {message.help}" if message.help else ""
    whose = f"{' '.join(message.valves)}: " if message.valves else ""
    return visible(f"{place}{message.severity.value} {message.slug}: {whose}{message.text}{what_to_do}")
