"""What instruments and cutters show, held against what real ones can: masters, rings, trial cuts, settings of cuts."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from seatwright.handbook.outliers import median
from seatwright.handbook.setting import gauge_error
from seatwright.job.model import BoreGauge, Cutter, Gauge, Given, Head, Reading, Shop, Trial, Valve
from seatwright.job.typed import names
from seatwright.job.wording import of_instruments as say
from seatwright.text import Message

OUT = 0.0508  # .002 in: no instrument that anybody works with shows more than this wrong (common practice)
SPREADS = 5.0  # a bore so many spreads from what the cutter does is no bore of that setting
READ = 0.01  # what two gauges show apart on one bore, mm (common practice)
NO_SPREAD = 0.05  # where no spread is given, mm
OVERCUT = 0.1  # no cutter bores so much over or under its setting, mm (common practice)


def check(heads: Iterable[Head], shop: Shop) -> Iterator[Message]:
    """What no instrument and no cutter can show."""
    for gauge in shop.gauges:
        yield from _on_known_sizes(gauge)
    for bore_gauge in shop.bore_gauges:
        yield from _on_known_sizes(bore_gauge)
    cutters = {names.key(cutter.name.text): cutter for cutter in shop.cutters}
    for head in heads:
        by_cutter: dict[str, list[Trial]] = {}
        for trial in head.trials:
            by_cutter.setdefault(names.key(trial.cutter.text), []).append(trial)
        for key, trials in by_cutter.items():
            yield from _trials(trials, head, cutters.get(key), shop)
        for valve in head.valves:
            yield from _setting_of_cut(valve, head, by_cutter, cutters, shop)


def _on_known_sizes(gauge: Gauge | BoreGauge) -> Iterator[Message]:
    for known in gauge.masters if isinstance(gauge, Gauge) else gauge.rings:
        if abs(known.size.value - known.reads.value) > OUT:
            yield say.master_far(gauge.name.text, known.size, known.reads)


def _trials(trials: list[Trial], head: Head, cutter: Cutter | None, shop: Shop) -> Iterator[Message]:
    """Each trial against the shop's overcut; one that another trial agrees with says that the shop's figure is old."""
    told = [_told(trial, shop) for trial in trials]
    bound = _bound(head, cutter)
    known = _usual(head, cutter)
    for place, trial in enumerate(trials):
        own, others = told[place], [*told[:place], *told[place + 1 :]]
        agrees = any(abs(own - other) <= bound for other in others)
        if abs(own) > OVERCUT:
            yield say.trial_far(trial.cutter.text, trial.read, trial.bored)
        elif agrees:
            if known is not None and abs(own - known.value) > bound and not any(
                abs(own - earlier) <= bound for earlier in told[:place]
            ):  # fmt: skip
                yield say.overcut_moved(trial, known, own)
        elif known is not None:
            if abs(own - known.value) > bound:
                yield say.trial_unlike_shop(trial, known, own, bound)
        elif (others and place == len(trials) - 1) or len(others) > 1:
            other = trials[place - 1]
            yield say.trials_apart(trial, other, own, told[place - 1])


def _usual(head: Head, cutter: Cutter | None) -> Given | None:
    """What the shop says that it bores over its setting in this head's material."""
    return None if cutter is None else cutter.overcut(head.material.name if head.material else None)


def _bound(head: Head, cutter: Cutter | None) -> float:
    spread = None if cutter is None else cutter.overcut_spread(head.material.name if head.material else None)
    return NO_SPREAD if spread is None else max(SPREADS * spread.value, READ)


def _told(trial: Trial, shop: Shop) -> float:
    return _bored_over(trial.read, trial.bored.value, shop)


def _bored_over(read: Reading, bored: float, shop: Shop) -> float:
    """How much bigger a bore came out than its setting; what gauges show wrong is taken off where there is one each."""
    over = bored - read.value
    if len(shop.gauges) == 1:
        over += gauge_error([(one.size.value, one.reads.value) for one in shop.gauges[0].masters], read.value) or 0.0
    if len(shop.bore_gauges) == 1:
        over -= gauge_error([(one.size.value, one.reads.value) for one in shop.bore_gauges[0].rings], bored) or 0.0
    return over


def _setting_of_cut(
    valve: Valve, head: Head, by_cutter: dict[str, list[Trial]], cutters: dict[str, Cutter], shop: Shop
) -> Iterator[Message]:
    """The reading that a bore was cut with: bored far off what it says is a slip in one of the two."""
    cut = valve.cut
    if cut is None or cut.read is None or cut.cutter is None:
        return
    bores = [one.value for one in (cut.bore_a, cut.bore_b, cut.bore_low_a, cut.bore_low_b) if one is not None]
    if not bores:
        return
    key = names.key(cut.cutter.text)
    cutter = cutters.get(key)
    trials = [_told(trial, shop) for trial in by_cutter.get(key, ())]
    said = _usual(head, cutter)
    usual = median(trials) if trials else said.value if said is not None else 0.0
    over = _bored_over(cut.read, median(bores), shop)
    if abs(over - usual) > max(_bound(head, cutter), NO_SPREAD):
        yield say.read_unlike_bore(valve.name, cut.read, median(bores), over, usual)
