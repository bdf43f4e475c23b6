"""The wording of a figure that stands out from those it should be like."""

from __future__ import annotations

from seatwright.job.messages_values import sentence
from seatwright.job.model import Reading
from seatwright.text import Message, Related, Severity, Span

_SHOWN = 6


def unlike_the_others(
    column: str,
    valve: str,
    reading: Reading,
    others: tuple[tuple[str, str], ...],
    first: Span,
    meant: str | None,
    *,
    twice: bool,
    weighs: bool,
    unsure: bool,
    own: bool,
) -> Message:
    """others: names and figures that it was held against; own: they are readings of the same thing in the same valve.

    twice: it was read again and agrees. unsure: there is one other, and nothing says which of the two is the slip.
    """
    listed = ", ".join(f"{name} {typed}" for name, typed in others[:_SHOWN])
    more = f" and {len(others) - _SHOWN} more" if len(others) > _SHOWN else ""
    beside = f"beside {listed}{more}" + (" of the same valve" if own else "")
    if twice:
        text, help = f"{column} of {valve}, {reading.typed}, stands apart {beside}", "it was read twice, so it counts"
    else:
        which = "one of the two is a slip, or " if unsure else ""
        text = f"{column} of {valve} is {reading.typed} {beside}: {which}no true figure lies so far from the others"
        if unsure:
            text = f"{column} of {valve} is {reading.typed} {beside}: so far apart one of the two is most likely a slip"
        again = _again(reading)
        help = (
            f"{meant} Else measure"
            if meant and meant.endswith("?")
            else f"{meant}; else measure"
            if meant
            else "measure"
        )
        help += f" it again; where it is true, write both readings, such as `{again}`"
    return Message(
        Severity.WARNING if weighs else Severity.NOTICE,
        "unlike-the-others",
        reading.span,
        text,
        sentence(help),
        (Related(first, "the first of the others stands here"),) if first.line else (),
        (valve,) if own else tuple(dict.fromkeys((valve, *(name for name, _ in others)))) if unsure else (valve,),
    )


def _again(reading: Reading) -> str:
    digits = reading.typed.split(" ")[0]
    return f"{digits}/{digits}" if "." in digits and "/" not in digits else f"{reading.value:g}/{reading.value:g}"
