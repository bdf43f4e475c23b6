"""Built-in interference: the span of published makers' tables by head material and diameter.

It is not the engine maker's own figure and never replaces it. It is used, with a notice, only where neither the job
nor the shop says anything. Outside the diameters that the tables cover there is no row, and the bore is not computed.

Each built-in row is the least printed least and the greatest printed most of the published fits named for its band;
a band between two published sizes takes both neighbours. Published inch figures are turned to mm exactly.
"""

from __future__ import annotations

from dataclasses import dataclass

__all__ = [
    "BUILT_IN",
    "PUBLISHED",
    "InterferenceRow",
    "PublishedFit",
    "find_row",
    "span_of",
]


@dataclass(frozen=True, slots=True)
class PublishedFit:
    """One line of a maker's table: insert `od` [mm], diametral interference `least` to `most` [mm].

    Which metal the head is made of is from memory throughout.
    """

    source: str
    head: str
    seat: str
    od: float
    least: float
    most: float


@dataclass(frozen=True, slots=True)
class InterferenceRow:
    """A row of an `interference` table: for over < od ≤ to [mm], diametral interference `least` to `most` [mm].

    `over` or `to` None: no bound. `alloy` and `seat` may be `any`.
    """

    head: str
    alloy: str
    seat: str
    over: float | None
    to: float | None
    least: float
    most: float
    source: str


_IN = 25.4
_S1 = "Nissan Terrano R20 service manual 2004, ZD30"
_S2 = "Datsun B110 service manual 1973"
_S3 = "Mercedes-Benz M110, job 05-290"
_S4 = "John Deere 6125 repair specifications 2002"
_S5 = "TM 5-6115-400-35 table 2.1"
_S6 = "TM 5-3810-295-34 table 14-2"
_S7 = "TM 9-6115-604-34 table 1-4"
_S8 = "Cummins K19 cylinder head, procedure 002-004"

PUBLISHED: tuple[PublishedFit, ...] = (
    PublishedFit(_S1, "aluminium", "exhaust", 31.55, 0.040, 0.066),
    PublishedFit(_S1, "aluminium", "intake", 33.07, 0.050, 0.078),
    PublishedFit(_S2, "aluminium", "exhaust", 33.09, 0.064, 0.096),
    PublishedFit(_S2, "aluminium", "intake", 37.09, 0.064, 0.096),
    PublishedFit(_S3, "aluminium", "exhaust", 40.1, 0.08, 0.10),
    PublishedFit(_S3, "aluminium", "exhaust", 42.1, 0.08, 0.10),
    PublishedFit(_S3, "aluminium", "intake", 47.1, 0.08, 0.10),
    PublishedFit(_S5, "grey iron", "exhaust", 1.611 * _IN, 0.002 * _IN, 0.0035 * _IN),
    PublishedFit(_S5, "grey iron", "intake", 1.645 * _IN, 0.002 * _IN, 0.004 * _IN),
    PublishedFit(_S4, "grey iron", "any", 49.5, 0.050, 0.102),
    PublishedFit(_S6, "grey iron", "any", 2.003 * _IN, 0.0020 * _IN, 0.0040 * _IN),
    PublishedFit(_S7, "grey iron", "any", 2.381 * _IN, 0.0025 * _IN, 0.0045 * _IN),
    PublishedFit(_S8, "grey iron", "any", 60.5, 0.064, 0.114),
)
"""Fits that makers print; where only sizes are printed, least and most follow from them."""


def span_of(head: str, sources: tuple[str, ...], over: float, to: float) -> InterferenceRow:
    """The built-in row for `head` in the band `over` to `to` [mm], from the published fits of `sources`.

    Raises ValueError when none of `sources` prints a fit for this head.

    >>> row = span_of("aluminium", ("Mercedes-Benz M110, job 05-290",), 40.0, 47.1)
    >>> (row.least, row.most)
    (0.08, 0.1)
    """
    fits = [fit for fit in PUBLISHED if fit.head == head and fit.source in sources]
    if not fits:
        raise ValueError(f"no published fit for {head} in {', '.join(sources)}")
    return InterferenceRow(
        head=head,
        alloy="any",
        seat="any",
        over=over,
        to=to,
        least=round(min(fit.least for fit in fits), 4),
        most=round(max(fit.most for fit in fits), 4),
        source="span of published makers' tables "
        f"({'; '.join(sources)}), head material from memory; not the engine maker's own figure",
    )


BUILT_IN: tuple[InterferenceRow, ...] = (
    span_of("aluminium", (_S1, _S2), 31.5, 33.6),
    span_of("aluminium", (_S2, _S3), 33.6, 40.0),
    span_of("aluminium", (_S3,), 40.0, 47.1),
    span_of("grey iron", (_S4, _S5, _S6), 40.9, 51.4),
    span_of("grey iron", (_S6, _S7, _S8), 51.4, 60.4),
    span_of("grey iron", (_S7, _S8), 60.4, 60.5),
)
"""Built-in rows: aluminium over 31.5 to 47.1 mm, grey iron over 40.9 to 60.5 mm, none elsewhere."""


def find_row(
    rows: tuple[InterferenceRow, ...], head: str, alloy: str, seat: str, od: float
) -> InterferenceRow | None:
    """The row that counts for an insert of diameter `od` [mm]: the one that fits with the fewest `any`, or None.

    Raises ValueError when two rows fit equally well. Source: language, `interference`.

    >>> row = find_row(BUILT_IN, "grey iron", "tool steel", "exhaust", 49.5)
    >>> row is not None and (row.least, row.most)
    (0.05, 0.102)
    >>> find_row(BUILT_IN, "grey iron", "tool steel", "exhaust", 38.1) is None
    True
    """
    fitting = [
        row
        for row in rows
        if row.head == head
        and row.alloy in ("any", alloy)
        and row.seat in ("any", seat)
        and (row.over is None or row.over < od)
        and (row.to is None or od <= row.to)
    ]
    if not fitting:
        return None
    anys = [(row.alloy == "any") + (row.seat == "any") for row in fitting]
    best = [row for row, count in zip(fitting, anys, strict=True) if count == min(anys)]
    if len(best) > 1:
        raise ValueError(f"two rows of interference fit {head}, {alloy}, {seat}, {od:g} mm equally well")
    return best[0]
