"""Built-in interference: the span of published makers' tables by head material and diameter.

It is not the engine maker's own figure and never replaces it. It is used, with a notice, only where neither the job
nor the shop says anything. Outside the diameters that the tables cover there is no row, and the bore is not computed.

Around published sizes a row runs from the least printed least to the greatest printed most; between two published
sizes it is what the makers on both sides allow, so that it never leaves the ratio to the diameter that is in print
(0.0010 to 0.0029). The first oversizes of a size (0.5 mm, .020 in) share its row. Inch figures are turned to mm
exactly.
"""

from __future__ import annotations

from msgspec import Struct

from seatwright.handbook import MM_PER_INCH

__all__ = [
    "BUILT_IN",
    "PUBLISHED",
    "InterferenceRow",
    "PublishedFit",
    "band_of",
    "find_row",
    "rows_for",
    "shared_by",
]


class PublishedFit(Struct, frozen=True):
    """One line of a maker's table: insert `od` [mm], diametral interference `least` to `most` [mm].

    Which metal the head is made of is from memory throughout.
    """

    source: str
    head: str
    seat: str
    od: float
    least: float
    most: float


class InterferenceRow(Struct, frozen=True):
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


_S1 = "a published service manual, 2004"
_S2 = "a published service manual, 1973"
_S3 = "a published workshop manual, aluminium heads"
_S4 = "published repair specifications, 2002"
_S5 = "army technical manual TM 5-6115-400-35 table 2.1"
_S6 = "army technical manual TM 5-3810-295-34 table 14-2"
_S7 = "army technical manual TM 9-6115-604-34 table 1-4"
_S8 = "a published cylinder-head procedure"

_AL_31 = PublishedFit(_S1, "aluminium", "exhaust", 31.55, 0.040, 0.066)
_AL_33 = PublishedFit(_S1, "aluminium", "intake", 33.07, 0.050, 0.078)
_AL_33_OLDER = PublishedFit(_S2, "aluminium", "exhaust", 33.09, 0.064, 0.096)
_AL_37 = PublishedFit(_S2, "aluminium", "intake", 37.09, 0.064, 0.096)
_AL_40 = PublishedFit(_S3, "aluminium", "exhaust", 40.1, 0.08, 0.10)
_AL_42 = PublishedFit(_S3, "aluminium", "exhaust", 42.1, 0.08, 0.10)
_AL_47 = PublishedFit(_S3, "aluminium", "intake", 47.1, 0.08, 0.10)
_FE_41 = PublishedFit(_S5, "grey iron", "exhaust", 1.611 * MM_PER_INCH, 0.002 * MM_PER_INCH, 0.0035 * MM_PER_INCH)
_FE_42 = PublishedFit(_S5, "grey iron", "intake", 1.645 * MM_PER_INCH, 0.002 * MM_PER_INCH, 0.004 * MM_PER_INCH)
_FE_49 = PublishedFit(_S4, "grey iron", "any", 49.5, 0.050, 0.102)
_FE_51 = PublishedFit(_S6, "grey iron", "any", 2.003 * MM_PER_INCH, 0.0020 * MM_PER_INCH, 0.0040 * MM_PER_INCH)
_FE_60 = PublishedFit(_S7, "grey iron", "any", 2.381 * MM_PER_INCH, 0.0025 * MM_PER_INCH, 0.0045 * MM_PER_INCH)
_FE_60_METRIC = PublishedFit(_S8, "grey iron", "any", 60.5, 0.064, 0.114)

PUBLISHED: tuple[PublishedFit, ...] = (
    *(_AL_31, _AL_33, _AL_33_OLDER, _AL_37, _AL_40, _AL_42, _AL_47),
    *(_FE_41, _FE_42, _FE_49, _FE_51, _FE_60, _FE_60_METRIC),
)
"""Fits that makers print; where only sizes are printed, least and most follow from them."""


def band_of(over: float, to: float, *fits: PublishedFit) -> InterferenceRow:
    """The row for a band of diameters that published fits lie in: least printed least to greatest printed most.

    `over`, `to`: the band [mm]. Raises ValueError without fits or for fits in different metals.
    Source: arithmetic, of published fits.

    >>> row = band_of(31.0, 34.0, *PUBLISHED[:2])
    >>> (row.least, row.most)
    (0.04, 0.078)
    """
    return _row(over, to, fits, min(fit.least for fit in fits), max(fit.most for fit in fits), "span of")


def shared_by(over: float, to: float, *fits: PublishedFit) -> InterferenceRow:
    """The row for a band between published sizes: what the makers on both sides of it allow.

    `over`, `to`: the band [mm]. Raises ValueError where they allow nothing in common, or fits in different metals.
    Source: arithmetic, of published fits.

    >>> row = shared_by(32.1, 33.0, *PUBLISHED[:2])
    >>> (row.least, row.most)
    (0.05, 0.066)
    """
    least, most = max(fit.least for fit in fits), min(fit.most for fit in fits)
    if least > most:
        raise ValueError(f"the published fits around {over:g} to {to:g} mm have nothing in common")
    return _row(over, to, fits, least, most, "shared by both neighbours in the span of")


def _row(
    over: float, to: float, fits: tuple[PublishedFit, ...], least: float, most: float, how: str
) -> InterferenceRow:
    heads = {fit.head for fit in fits}
    if len(heads) != 1:
        raise ValueError("one row of interference is for one head material")
    sources = "; ".join(dict.fromkeys(fit.source for fit in fits))
    return InterferenceRow(
        head=heads.pop(),
        alloy="any",
        seat="any",
        over=over,
        to=to,
        least=round(least, 4),
        most=round(most, 4),
        source=f"{how} published makers' tables ({sources}), head material from memory; "
        "not the engine maker's own figure",
    )


BUILT_IN: tuple[InterferenceRow, ...] = (
    band_of(31.5, 32.1, _AL_31),
    shared_by(32.1, 33.0, _AL_31, _AL_33),
    band_of(33.0, 33.6, _AL_33, _AL_33_OLDER),
    band_of(33.6, 37.1, _AL_33_OLDER, _AL_37),
    shared_by(37.1, 40.0, _AL_37, _AL_40),
    band_of(40.0, 47.1, _AL_40, _AL_42, _AL_47),
    band_of(40.9, 42.0, _FE_41, _FE_42),
    shared_by(42.0, 49.4, _FE_42, _FE_49),
    band_of(49.4, 51.4, _FE_49, _FE_51),
    shared_by(51.4, 60.4, _FE_51, _FE_60),
    band_of(60.4, 60.5, _FE_60, _FE_60_METRIC),
)
"""Built-in rows: aluminium over 31.5 to 47.1 mm, grey iron over 40.9 to 60.5 mm, none elsewhere."""


def rows_for(rows: tuple[InterferenceRow, ...], head: str, alloy: str, seat: str) -> tuple[InterferenceRow, ...]:
    """The rows for a head's metal, an alloy and a seat, of whatever diameter [mm], in their order.

    Source: common practice, `any` stands for each.

    >>> len(rows_for(BUILT_IN, "grey iron", "tool steel", "exhaust"))
    5
    """
    return tuple(row for row in rows if row.head == head and row.alloy in ("any", alloy) and row.seat in ("any", seat))


def find_row(rows: tuple[InterferenceRow, ...], head: str, alloy: str, seat: str, od: float) -> InterferenceRow | None:
    """The row that counts for an insert of diameter `od` [mm]: the one that fits with the fewest `any`, or None.

    Raises ValueError when two rows fit equally well. Source: common practice, the closest row counts.

    >>> row = find_row(BUILT_IN, "grey iron", "tool steel", "exhaust", 49.5)
    >>> row is not None and (row.least, row.most)
    (0.05, 0.102)
    >>> find_row(BUILT_IN, "grey iron", "tool steel", "exhaust", 38.1) is None
    True
    """
    fitting = [
        row
        for row in rows_for(rows, head, alloy, seat)
        if (row.over is None or row.over < od) and (row.to is None or od <= row.to)
    ]
    if not fitting:
        return None
    if len(fitting) == 1:
        return fitting[0]
    anys = [(row.alloy == "any") + (row.seat == "any") for row in fitting]
    best = [row for row, count in zip(fitting, anys, strict=True) if count == min(anys)]
    if len(best) > 1:
        raise ValueError(f"two rows of interference fit {head}, {alloy}, {seat}, {od:g} mm equally well")
    return best[0]
