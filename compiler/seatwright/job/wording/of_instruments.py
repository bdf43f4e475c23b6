"""The wording of what no instrument and no cutter can show."""

from __future__ import annotations

from seatwright.handbook import MM_PER_INCH
from seatwright.job.model import Given, Reading, Trial
from seatwright.job.wording.of_values import error, sentence
from seatwright.text import Message, Related, Severity, Span


def _at(span: Span, text: str) -> tuple[Related, ...]:
    return (Related(span, text),) if span.line else ()


def _both(mm: float, sign: str = "+") -> str:
    """A length that was reckoned, in both units: `+0.031 mm (+.0012 in)`."""
    inches = f"{mm / MM_PER_INCH:{sign}.4f}".replace("0.", ".", 1)
    return f"{mm:{sign}.3f} mm ({inches} in)"


def master_far(name: str, size: Given, reads: Given) -> Message:
    return error(
        "master-far",
        reads.span,
        f"{name} reads {reads.typed} on {size.typed}: no gauge is so far out",
        "write what it shows on a size that is known; correct one",
        _at(size.span, "the size stands here"),
    )


def trial_far(cutter: str, read: Reading, bored: Reading) -> Message:
    return error(
        "trial-far",
        bored.span,
        f"cutter {cutter} was set to {read.typed} and bored {bored.typed}: no cutter is so far out",
        "both are diameters, in the same unit; correct one",
        _at(read.span, "the setting stands here"),
    )


def trial_unlike_shop(trial: Trial, overcut: Given, told: float, bound: float) -> Message:
    return error(
        "trial-unlike",
        trial.bored.span,
        f"cutter {trial.cutter.text} was set to {trial.read.typed} and bored {trial.bored.typed}: "
        f"{_both(told)}, and the shop's overcut is {overcut.typed}, which five of its "
        f"spreads, {_both(bound, '')}, do not reach",
        "correct the row, or bore a second trial: where two agree they count, and the shop's `overcut` is out of date",
        _at(overcut.span, "the shop's overcut stands here"),
    )


def trials_apart(trial: Trial, other: Trial, told: float, others: float) -> Message:
    return error(
        "trial-unlike",
        trial.bored.span,
        f"two trials of cutter {trial.cutter.text} bored {_both(told)} and {_both(others)} over their settings: one of "
        "them is a slip, or something moved between them",
        "correct the row that is mistyped, or bore a third",
        _at(other.bored.span, "the other trial stands here"),
    )


def overcut_moved(trial: Trial, overcut: Given, told: float) -> Message:
    return Message(
        Severity.WARNING,
        "overcut-moved",
        trial.bored.span,
        f"the trials of cutter {trial.cutter.text} agree that it bores {_both(told)} over its setting; the shop has "
        f"{overcut.typed}",
        sentence("the trials count; look whether the tip or the gauge has moved, and renew the shop's `overcut`"),
        _at(overcut.span, "the shop's overcut stands here"),
    )


def read_unlike_bore(valve: str, read: Reading, bored: float, over: float, usual: float) -> Message:
    return Message(
        Severity.WARNING,
        "read-unlike-bore",
        read.span,
        f"{valve} was cut with the gauge reading {read.typed} and came to {_both(bored, '')}: {_both(over)}, where the "
        f"cutter bores {_both(usual)} over its setting",
        sentence("one of the two figures is most likely a slip: correct it, or look what moved (tip, lock, gauge)"),
        (),
        (valve,),
    )
