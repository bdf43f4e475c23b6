"""The wording of a figure that stands out from those it should be like."""

from __future__ import annotations

from msgspec import Struct

from seatwright.job.model import Reading
from seatwright.job.wording.of_values import sentence
from seatwright.text import Message, Related, Severity, Span

_SHOWN = 6


class Unlike(Struct, frozen=True):
    """A cell, and what it was held against.

    others: names and figures. own: they are the other readings of the same valve. like: valves that have it right, each
    with its figure in this column and with those of the others.
    """

    column: str
    valve: str
    reading: Reading
    others: tuple[tuple[str, str], ...]
    first: Span
    own: bool
    like: tuple[tuple[str, str, str], ...] = ()

    @property
    def unsure(self) -> bool:
        """Whether there is one other, and nothing says which of the two is the slip."""
        return len(self.like or self.others) == 1

    @property
    def valves(self) -> tuple[str, ...]:
        """The valves that it may be the slip of."""
        if not self.unsure or (self.own and not self.like):
            return (self.valve,)
        return (self.valve, self.like[0][0] if self.like else self.others[0][0])


def unlike_the_others(found: Unlike, meant: str | None, *, twice: bool, weighs: bool) -> Message:
    """twice: it was read again and agrees. meant: the one slip that explains it."""
    reading = found.reading
    text = f"{found.column} of {found.valve} is {reading.typed} beside {_listed(found.others)}"
    text += " of the same valve" if found.own else ""
    if found.like:
        text += ", as " + ", ".join(f"{name} has {own} beside {rest}" for name, own, rest in found.like[:2])
    if twice:
        help = "it was read twice, so it counts"
    else:
        text += (
            ": so far apart one of the two is most likely a slip"
            if found.unsure
            else ": no true figure lies so far from the others"
        )
        help = f"measure it again; where it is true, write both readings, such as `{_again(reading)}`"
        if meant:
            help = f"{meant} Else {help}" if meant.endswith("?") else f"{meant}; else {help}"
    return Message(
        Severity.WARNING if weighs else Severity.NOTICE,
        "unlike-the-others",
        reading.span,
        text,
        sentence(help),
        (Related(found.first, "the first of the others stands here"),) if found.first.line else (),
        found.valves,
    )


def _listed(others: tuple[tuple[str, str], ...]) -> str:
    more = f" and {len(others) - _SHOWN} more" if len(others) > _SHOWN else ""
    return ", ".join(f"{name} {typed}" for name, typed in others[:_SHOWN]) + more


def _again(reading: Reading) -> str:
    digits = reading.typed.split(" ")[0].rstrip('"')
    return f"{digits}/{digits}" if "." in digits and "/" not in digits else f"{reading.value:.2f}/{reading.value:.2f}"
