"""What stands on the cards of one valve, one particular after the other, in the order of the work."""

from __future__ import annotations

from collections.abc import Iterator

from seatwright.planning.plan import HeightLimits, Plan, Status, ValvePlan
from seatwright.told.printed_fact import (
    Particular,
    limits_fact,
    one,
    sizes,
    slug,
    slug_as_words,
    text_fact,
    to_order,
    warnings,
)


def of_valve(plan: Plan, valve: ValvePlan) -> Iterator[Particular]:
    """What stands on the cards of one valve."""
    yield from slug("status", "stands", valve.status)
    for hold in valve.holds:
        yield from text_fact(
            f"holds.{hold.slug}", f"hold, {slug_as_words(hold.slug)}", f"{hold.text} {hold.help}".strip()
        )
    yield from slug("guide.verdict", "guide", valve.guide.verdict)
    yield from one("guide.clearance", "guide clearance", valve.guide.clearance)
    yield from _allowed(valve)
    yield from _new_guide(valve)
    if valve.pilot is not None:
        yield from text_fact("pilot.name", "pilot", valve.pilot.name or "spindle")
        yield from text_fact("pilot.kind", "pilot, kind", valve.pilot.kind)
        yield from one("pilot.diameter", "pilot, size", valve.pilot.diameter)
        yield from one("pilot.runout", "bore to guide, most, tir", valve.pilot.runout)
        yield from one("pilot.runout_limit", "bore to guide, limit, tir", valve.pilot.runout_limit)
    yield from _insert(valve)
    yield from _fit_and_depth(valve)
    # A bore beside a hold would be cut by; the cards leave it out, and so does this.
    if valve.status != Status.HOLD:
        yield from _cutting(valve)
        yield from _pressing(valve)
        yield from _seat(valve)
        yield from _spring(valve)
    yield from _later(valve)
    yield from text_fact("notes", "notes", " / ".join(valve.notes))
    for caution in plan.cautions:
        if valve.name in caution.valves:
            yield from text_fact(f"cautions.{caution.slug}", f"caution, {slug_as_words(caution.slug)}", "yes")
    yield from warnings(message for message in plan.messages if valve.name in message.valves)


def _allowed(valve: ValvePlan) -> Iterator[Particular]:
    guide = valve.guide
    most = guide.wear_limit or guide.most
    paths = ("guide.least", "guide.wear_limit" if guide.wear_limit is not None else "guide.most")
    yield from limits_fact(paths, "guide clearance allowed", guide.least, most)


def _new_guide(valve: ValvePlan) -> Iterator[Particular]:
    """What is done with a guide that is renewed, or reamed."""
    guide = valve.guide
    if guide.action != "keep":
        yield from slug("guide.action", "guide, what becomes of it", guide.action)
        yield from text_fact("guide.name", "guide that goes in", guide.name)
    if guide.hole is not None:
        hole = guide.hole
        paths = ("guide.hole.bench_least", "guide.hole.bench_most")
        yield from limits_fact(paths, "guide, its hole cut to", hole.bench_least, hole.bench_most)
    yield from text_fact("guide.reamer", "guide, reamer of its hole", guide.reamer)
    if guide.fit is not None:
        yield from limits_fact(_pair("guide.fit"), "guide, its fit", guide.fit.least, guide.fit.most)
        yield from one("guide.fit.expected", "guide, fit expected", guide.fit.expected)
    if guide.bore is not None:
        yield from limits_fact(_pair("guide.bore"), "guide, sized to", guide.bore.least, guide.bore.most)
        yield from text_fact("guide.bore.reamer", "guide, reamer of its bore", guide.bore.reamer)
    if guide.stand is not None:
        yield from limits_fact(_pair("guide.stand"), "guide, over the spring seat", guide.stand.least, guide.stand.most)
    if guide.assembly is not None:
        yield from one("guide.assembly.head_C", "guide, head heated to", guide.assembly.head_C)
        yield from text_fact("guide.assembly.chill", "guide chilled in", guide.assembly.chill)
        yield from slug("guide.assembly.kind", "guide goes in by", guide.assembly.kind)
        yield from one("guide.assembly.press_N", "guide, press force", guide.assembly.press_N)


def _spring(valve: ValvePlan) -> Iterator[Particular]:
    spring = valve.spring
    if spring is None:
        return
    yield from one("spring.height", "spring stands at", spring.height)
    yield from one("spring.force_shut", "spring force, shut", spring.force_shut)
    yield from one("spring.force_unshimmed", "spring force, without its shim", spring.force_unshimmed)
    yield from one("spring.force_open", "spring force, open", spring.force_open)
    yield from one("spring.loss", "spring force lost by sinking", spring.loss)
    yield from limits_fact(("spring.least", ""), "spring force, limit", spring.least, None)
    yield from one("spring.bind_room", "room between the coils", spring.bind_room)
    yield from one("spring.retainer_room", "room over the seal", spring.retainer_room)
    for name, verdict in spring.verdicts:
        yield from slug(f"spring.verdicts.{name}", f"spring, {slug_as_words(name)}", verdict)


def _insert(valve: ValvePlan) -> Iterator[Particular]:
    insert = valve.insert
    if insert is not None:
        yield from text_fact("insert.name", "insert", insert.name)
        yield from text_fact("insert.alloy", "insert, alloy", insert.alloy)
        if insert.measured:
            yield from one("insert.od", "insert, od as measured, at 20 °C", insert.od)
        else:
            paths = ("insert.od_least", "insert.od_most")
            yield from limits_fact(paths, "insert, od at 20 °C", insert.od_least, insert.od_most)
    if valve.order is not None:
        yield from to_order("order", "to order", valve.order)


def _fit_and_depth(valve: ValvePlan) -> Iterator[Particular]:
    """What the record prints of a valve on hold as well."""
    if valve.interference is not None:
        fit = valve.interference
        yield from limits_fact(_pair("interference"), "interference", fit.least, fit.most)
        yield from one("interference.expected", "interference expected", fit.expected)
        yield from text_fact("interference.source", "interference, whose figure", fit.source)
    if valve.depth is not None:
        depth = valve.depth
        yield from limits_fact(_pair("depth"), f"depth from {depth.from_}", depth.least, depth.most, "depth gauge")


def _cutting(valve: ValvePlan) -> Iterator[Particular]:
    bore = valve.bore
    if bore is not None:
        shown, accepted = ("bore.bench_least", "bore.bench_most"), ("bore.accept_least", "bore.accept_most")
        yield from limits_fact(shown, "bore, as the gauge shows it", bore.bench_least, bore.bench_most, "bore gauge")
        yield from limits_fact(accepted, "bore, accepted when", bore.accept_least, bore.accept_most, "bore gauge")
        yield from limits_fact(_pair("bore"), "bore at 20 °C", bore.least, bore.most)
    yield from one("floor_left", "floor left", valve.floor_left)
    yield from text_fact("cutter", "cutter", valve.cutter)
    yield from text_fact("setting", "setting", str(valve.setting) if valve.setting is not None else None)
    yield from text_fact("depth_stop", "depth stop", str(valve.depth_stop) if valve.depth_stop is not None else None)
    yield from sizes("passes", "passes out to", valve.passes)
    yield from one("rpm", "speed", valve.rpm)
    yield from one("feed_mm_rev", "feed", valve.feed_mm_rev)
    yield from one("minutes", "cutting time", valve.minutes)
    yield from one("turns", "cutting time", valve.turns)
    if valve.trial_here:
        yield from text_fact("trial_here", "trial cut of its own", "yes")
    ways = "; then ".join(
        " ".join(filter(None, (slug_as_words(way.do), way.insert, f"(measured for {way.valve})" if way.valve else "")))
        for way in valve.if_big
    )
    yield from text_fact("if_big", "if the bore comes out big", ways)
    for number, way in enumerate(valve.if_big):
        yield from one(f"if_big.{number}.od", f"its {way.do}, od", way.od)
        yield from one(f"if_big.{number}.interference", f"its {way.do}, interference", way.interference)


def _pressing(valve: ValvePlan) -> Iterator[Particular]:
    way = valve.assembly
    if way is not None:
        yield from one("assembly.head_C", "head heated to", way.head_C)
        yield from text_fact("assembly.chill", "insert chilled in", way.chill)
        yield from slug("assembly.kind", "goes in by", way.kind)
        yield from one("assembly.clearance", "clearance going in", way.clearance)
        yield from one("assembly.press_N", "press force", way.press_N)
        yield from one("assembly.grabs_at_C", "insert grabs at", way.grabs_at_C)
        yield from one("assembly.reheat_below_C", "head heated again under", way.reheat_below_C)
        yield from text_fact("assembly.order", "pressed as number", str(way.order))


def _seat(valve: ValvePlan) -> Iterator[Particular]:
    seat = valve.seat
    if seat is None:
        return
    yield from one("seat.angle", "seat angle", seat.angle)
    yield from one("seat.outer", "seat, outer diameter", seat.outer)
    yield from one("seat.inner", "seat, inner diameter", seat.inner)
    yield from one("seat.width", "seat width", seat.width)
    yield from limits_fact(
        ("seat.width_least", "seat.width_most"), "seat width, limits", seat.width_least, seat.width_most
    )
    for cut in seat.cuts:
        if cut.name != "seat":
            yield from one(f"seat.cuts.{cut.name}.angle", f"{cut.name} cut, angle", cut.angle)
            yield from one(f"seat.cuts.{cut.name}.outer", f"{cut.name} cut, outer diameter", cut.outer)
            yield from one(f"seat.cuts.{cut.name}.inner", f"{cut.name} cut, inner diameter", cut.inner)
    yield from one("seat.gauge_depth", "seat, gauge depth", seat.gauge_depth)
    yield from one("seat.sink", "valve sinks by", seat.sink)
    yield from _height("recession", "recession", seat.recession)
    yield from _height("stem", "stem height", seat.stem)
    yield from one("seat.stem_after", "stem height after", seat.stem_after)
    yield from _height("spring", "spring height", seat.spring)
    yield from one("seat.spring_after", "spring height after", seat.spring_after)
    yield from one("seat.shim", "shim under the spring", seat.shim)
    yield from one("seat.grind", "grind off the stem end", seat.grind)
    yield from one("seat.runout_limit", "seat runout, most", seat.runout_limit)
    yield from one("seat.leak_limit_s", "leak test, least", seat.leak_limit_s)


def _height(name: str, words: str, height: HeightLimits | None) -> Iterator[Particular]:
    if height is not None:
        yield from limits_fact(_pair(f"seat.{name}"), f"{words}, limits", height.least, height.most)
        yield from one(f"seat.{name}.expected", f"{words} expected", height.expected)


def _later(valve: ValvePlan) -> Iterator[Particular]:
    """What was cut and finished, judged, and what is to be done about it."""
    cut = valve.cut
    if cut is not None:
        yield from slug("cut.verdict", "bore as cut", cut.verdict)
        yield from one("cut.interference", "interference in the bore as cut", cut.interference)
        yield from one("cut.open_by", "open the bore by", cut.open_by, "bore gauge")
        yield from one("cut.new_reading", "set anew to", cut.new_reading, "setting gauge")
    done = valve.finished
    if done is not None:
        yield from slug("finished.verdict", "finished valve", done.verdict)
        for name, verdict in done.verdicts:
            yield from slug(f"finished.verdicts.{name}", f"finished, {slug_as_words(name)}", verdict)


def _pair(path: str) -> tuple[str, str]:
    return f"{path}.least", f"{path}.most"
