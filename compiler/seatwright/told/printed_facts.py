"""What a plan says to the machine, one particular after the other: of the job, of each setting, of each valve.

What only explains a figure (stresses, uncertainties, inserts passed over, what was measured) is no particular. A valve
on hold has no bore to cut by, as on its cards.
"""

from __future__ import annotations

from collections.abc import Iterator

from msgspec import Struct

from seatwright.planning.plan import Plan, Setting
from seatwright.planning.plan.figure import Figure
from seatwright.told.printed_fact import Particular, one, slug_as_words, text_fact, to_order, warnings
from seatwright.told.printed_facts_of_valve import of_valve


class Subject(Struct, frozen=True):
    """Whose particulars they are. kind: job, setting, valve. name: `C2 at 41.014`, `E2`, "" for the job."""

    kind: str
    name: str
    particulars: tuple[Particular, ...]


def subjects(plan: Plan) -> tuple[Subject, ...]:
    """All that the plan says to the machine: the job, its settings, its valves."""
    return (
        Subject("job", "", tuple(of_job(plan))),
        *(Subject("setting", each.name, tuple(of_setting(each))) for each in plan.settings),
        *(Subject("valve", each.name, tuple(of_valve(plan, each))) for each in plan.valves),
    )


def of_job(plan: Plan) -> Iterator[Particular]:
    """What concerns the whole job: what to fetch, at what temperature it is measured, bridges, what to beware of."""
    fetch = plan.fetch
    yield from text_fact("fetch.cutters", "cutters to fetch", " ".join(fetch.cutters))
    yield from text_fact("fetch.pilots", "pilots to fetch", " ".join(fetch.pilots))
    yield from text_fact("fetch.gauge", "setting gauge", fetch.gauge)
    yield from one("fetch.master", "master", fetch.master)
    yield from text_fact("fetch.bore_gauge", "bore gauge", fetch.bore_gauge)
    yield from one("fetch.ring", "ring", fetch.ring)
    # How many stay on the shelf changes with the shelf, and nothing at the machine with it.
    for insert in fetch.inserts:
        yield from text_fact(f"fetch.inserts.{insert.name}", f"insert {insert.name} to fetch", str(insert.count))
    for guide in fetch.guides:
        yield from text_fact(f"fetch.guides.{guide.name}", f"guide {guide.name} to fetch", str(guide.count))
    yield from text_fact("fetch.reamers", "reamers to fetch", " ".join(fetch.reamers))
    yield from one("fetch.heat_C", "oven", fetch.heat_C)
    yield from text_fact("fetch.chill.name", "chill", fetch.chill.name if fetch.chill else None)
    yield from one("fetch.chill.C", "chill, temperature", fetch.chill.C if fetch.chill else None)
    yield from one("fetch.press_N", "press", fetch.press_N)
    for number, order in enumerate(fetch.order, start=1):
        yield from to_order(f"fetch.order.{number}", f"order {number}", order)
    for head in plan.heads:
        which = f"head {head.name}".strip()
        if head.temperature is not None:
            temperature = Figure(head.temperature.value, "C", "temperature")
            yield from one(f"heads.{head.number}.temperature_C", f"{which}, bench figures at", temperature)
    for bridge in plan.bridges:
        path = f"bridges.{bridge.head}.{'-'.join(bridge.between)}"
        most = " at most" if bridge.at_most else ""
        yield from one(path, f"bridge left{most}, {' to '.join(bridge.between)}", bridge.left)
    for caution in plan.cautions:
        if not caution.valves:
            yield from text_fact(f"cautions.{caution.slug}", f"caution, {slug_as_words(caution.slug)}", "yes")
    yield from warnings(message for message in plan.messages if not message.valves)
    for slug in plan.not_checked:
        yield from text_fact(f"not_checked.{slug}", f"not checked: {slug_as_words(slug)}", "yes")


def of_setting(setting: Setting) -> Iterator[Particular]:
    """What the cutter, its gauge and the depth stop are set to."""
    marked = setting.reading_unit
    yield from text_fact("cutter", "cutter", setting.cutter)
    yield from text_fact("valves", "bores, in this order", " ".join(setting.valves))
    yield from text_fact("machine", "machine", setting.machine)
    yield from text_fact("gauge", "set with", setting.gauge)
    yield from one("master", "master", setting.master, "setting gauge", marked)
    yield from one("master_reads", "master must read", setting.master_reads, "setting gauge", marked)
    yield from one("reading", "reading", setting.reading, "setting gauge", marked)
    yield from one("temperature_C", "setting gauge at", setting.temperature_C)
    yield from text_fact("indicator", "needle shows", setting.indicator)
    yield from one("aim", "bore aimed at, at 20 °C", setting.aim)
    yield from one("bench_aim", "bore aimed at, as the bore gauge shows it", setting.bench_aim, "bore gauge")
    if setting.first is not None:
        yield from one("first.bore", "first cut, bore", setting.first.bore)
        yield from one("first.reading", "first cut, reading", setting.first.reading, "setting gauge", marked)
    yield from one("trial_under", "first cut under size by", setting.trial_under)
    if setting.overcut is not None:
        yield from one("overcut.value", "cutter counted on to bore over by", setting.overcut.value)
    yield from one("rpm", "speed", setting.rpm)
    yield from one("feed_mm_rev", "feed", setting.feed_mm_rev)
    for stop in setting.depth_stops:
        path, words = f"depth_stops.{stop.number}", f"depth stop {stop.number}"
        yield from one(f"{path}.stop", words, stop.stop, "depth gauge")
        yield from one(f"{path}.dial", f"{words}, dial", stop.dial, "dial", stop.dial_unit)
        yield from text_fact(f"{path}.valves", f"{words}, for", " ".join(stop.valves))
