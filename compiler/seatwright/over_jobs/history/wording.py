"""How the history says a run, its figures and the lines that go into the shop file: in the units of that file."""

from __future__ import annotations

from decimal import ROUND_CEILING, Decimal

from seatwright.handbook import MM_PER_INCH
from seatwright.over_jobs.history.runs import FEWEST_BORES, Run

NOTHING_TO_TELL = "No bore of these jobs has a date, a cutter, its reading and what came of it."
_FINE = {"mm": 4, "inch": 5}  # decimals of what a cutter bores over: one more than a good gauge shows
_SMALL = {"mm": (1000.0, "µm"), "inch": (10000 / MM_PER_INCH, ".0001 in")}


def fine_length(mm: float, units: str, decimals: int | None = None) -> str:
    """`0.0225`, `.00089`: in the units of a file, without them. decimals: left out: one more than a gauge shows."""
    places = _FINE[units] if decimals is None else decimals
    text = f"{mm / (MM_PER_INCH if units == 'inch' else 1.0):.{places}f}"
    if units == "inch":
        text = text.replace("0.", ".", 1) if text.startswith(("0.", "-0.")) else text
    return text if text.strip("-0.") else text.removeprefix("-")


def small_unit(units: str) -> str:
    """What small lengths are counted in: `µm`, `.0001 in`."""
    return _SMALL[units][1]


def small_length(mm: float, units: str) -> str:
    """A small length in that unit, with one decimal."""
    text = f"{mm * _SMALL[units][0]:.1f}"
    return "0.0" if text == "-0.0" else text


def in_unit(units: str) -> str:
    """The word of a unit behind a figure: `mm`, `in`."""
    return "in" if units == "inch" else "mm"


def run_named(run: Run) -> str:
    """`C1 in grey iron`."""
    return f"{run.last.cutter} in {run.last.material}"


def tip_named(run: Run) -> str:
    """`tip of 2026-10-05`, `tip of no known date`."""
    return f"tip of {run.last.tip_since}" if run.last.tip_since else "tip of no known date"


def bores_counted(run: Run) -> str:
    """`11 bores, 2026-10-08 to 2026-11-13; 1 not counted`."""
    count, left_out = len(run.counted), len(run.bores) - len(run.counted)
    first, last = run.bores[0].point.date, run.last.date
    days = f"{first}" if first == last else f"{first} to {last}"
    said = f"{count} {'bore' if count == 1 else 'bores'}, {days}"
    return f"{said}; {left_out} not counted" if left_out else said


def run_sentences(run: Run) -> tuple[str, ...]:
    """What a run says, a sentence each: the middle and its limits, the rules, wear, the next bores."""
    units = run.last.units
    unit = "in" if units == "inch" else small_unit(units)

    def small(mm: float) -> str:
        return fine_length(mm, units) if units == "inch" else small_length(mm, units)

    chart = run.chart
    if chart is None:
        return (f"Limits are drawn from {FEWEST_BORES} bores.",)
    said = []
    if run.line is None:
        said.append(
            f"Bores {small(chart.mean)} {unit} over its setting, limits {small(chart.least)} to {small(chart.most)}; "
            f"from one bore to the next {small(chart.mean_range)}."
        )
    else:
        first, last = run.counted[0].number, run.counted[-1].number
        said.append(
            f"Wears: {small(run.line.slope)} {unit} a bore, from {small(run.line.at(first))} over its setting at bore "
            f"{first} to {small(run.line.at(last))} at bore {last}; limits {small(3 * chart.sigma)} off that line."
        )
    if run.outside:
        said.append(f"Out of its limits: {'bore' if len(run.outside) == 1 else 'bores'} {numbers(run.outside)}.")
    if run.one_side:
        said.append(f"Eight in a row on one side: up to bore {numbers(run.one_side)}.")
    if run.next is not None and run.now:
        which = "The next bore lies" if run.line is not None else "95 % of the next bores, 95 % sure, lie"
        said.append(f"{which} {small(run.next.least)} to {small(run.next.most)} {unit} over its setting.")
    elif run.broken and run.now:
        said.append("What the next bores will be is not known until that is explained.")
    return tuple(said)


def numbers(found: tuple[int, ...]) -> str:
    """`3`, `3, 7 and 9`."""
    texts = [str(each) for each in found]
    return texts[0] if len(texts) == 1 else f"{', '.join(texts[:-1])} and {texts[-1]}"


def lines_to_paste(run: Run) -> tuple[str, ...]:
    """The lines for the cutter in the shop file, () where there are none to be had."""
    pasted, units = run.pasted, run.last.units
    if pasted is None:
        return ()
    name = run.last.material
    return (
        f'overcut {name} {fine_length(pasted.overcut, units)} "{pasted.bores} bores to {pasted.to}"',
        f"overcut-spread {name} {rounded_up(pasted.spread, units)}",
    )


def rounded_up(mm: float, units: str) -> str:
    """A length rounded up to two digits, in the units of a file: `0.0018`, `.00007`."""
    value = Decimal(repr(mm / (MM_PER_INCH if units == "inch" else 1.0)))
    step = Decimal(1).scaleb(value.adjusted() - 1)
    # What a binary fraction lies over a figure of two digits is no reason to go up by one of them.
    up = (value - step / 1000).quantize(step, ROUND_CEILING)
    up = up.quantize(Decimal(1).scaleb(up.adjusted() - 1))  # 0.000999 goes up to 0.0010, which has a digit less
    text = f"{up:f}"
    return text.removeprefix("0") if units == "inch" else text
