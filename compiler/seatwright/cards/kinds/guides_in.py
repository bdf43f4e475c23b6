"""The guides that are renewed, on the card of guides: out, the hole, in, cold, to size; a row a valve."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from seatwright.cards.card import HATCHED, Box, CardTable, Column
from seatwright.cards.escape import Markdown
from seatwright.cards.parts import figures
from seatwright.cards.parts.figures import Shown, as_read, digits_shown, limits
from seatwright.cards.parts.words import NONE, blank, span, valves, wanted
from seatwright.job.model import Head, Job
from seatwright.planning.plan import AssemblyPlan, GuidePlan, Plan, Status, ValvePlan
from seatwright.planning.pressing.heats_and_chills import NO_CHILL, room_temperature


def renewed(of_head: Sequence[ValvePlan]) -> tuple[ValvePlan, ...]:
    """The valves whose guide still comes out, or gets a liner, in the order in which theirs go in; none on hold."""
    found = [valve for valve in of_head if valve.guide_to_renew and valve.status is not Status.HOLD]
    return tuple(sorted(found, key=lambda valve: valve.guide.assembly.order if valve.guide.assembly else len(found)))


_Step = tuple[str, tuple[str, ...], Shown | None]
"""What is done, sentences below it, the figure that is set."""


def guide_boxes(plan: Plan, head: Head, of_head: Sequence[ValvePlan]) -> Iterator[Box]:
    """What is done with them, each step once for all."""
    for number, (words, small, loud) in enumerate(_steps(plan.job, head, of_head), start=1):
        yield Box(number, words, loud, small=tuple(each for each in small if each))


def _steps(job: Job, head: Head, of_head: Sequence[ValvePlan]) -> Iterator[_Step]:
    out = [valve for valve in of_head if valve.guide.action != "line"]
    lined = [valve.name for valve in of_head if valve.guide.action == "line"]
    cut = [valve.name for valve in of_head if valve.guide.hole is not None and valve.guide.hole.least is not None]
    if out:
        whose = valves(valve.name for valve in out)
        how = "A shoulder stays on the spring side." if any(_at_shoulder(valve) for valve in out) else ""
        below = f"From the port side, on a drift with a pilot. {how} Measure its hole at three heights, two ways."
        yield f"{whose}: press the old guide out, towards the spring end", (below,), None
    if cut:
        yield f"{valves(cut)}: hole to size, by the table", ("Head fast, its axis true; measure it again.",), None
    yield from _warm(job, head, [valve.guide.assembly for valve in of_head if valve.guide.assembly is not None])
    if out:
        below = "Straight, in one stroke; oiled where it is pressed cold."
        yield f"{valves(v.name for v in out)}: the new one in from the spring end, to its stand", (below,), None
    if lined:
        yield f"{valves(lined)}: liner into the old guide, ends flush", (), None
    below = (
        "Its bore has closed: measure top, middle, bottom. Write replaced, and measured under it: guides, then pocket "
        "runout. Build again."
    )
    yield "Head cold: every new guide to size, by the table", (below,), None


def _at_shoulder(valve: ValvePlan) -> bool:
    stand = valve.valve.specification.guide_stand
    return stand is not None and stand.limits is None


def _warm(job: Job, head: Head, ways: Sequence[AssemblyPlan]) -> Iterator[_Step]:
    if not ways:
        return
    way = max(ways, key=lambda each: each.head_C.value)
    warm = figures.temperature(way.head_C.value, job)
    if way.head_C.value > room_temperature(job, head).value:
        never = f"Never over {figures.temperature(head.heat_limit.value, job)}." if head.heat_limit else ""
        yield "Heat the head for the guides, all through, to", (never,), Shown(warm.replace(" ", "\u00a0"), "")
    if way.chill != NO_CHILL:
        cold = f" {figures.temperature(way.insert_C.value, job)}" if way.insert_C is not None else ""
        words = f"{way.chill[:1].upper()}{way.chill[1:]}{cold}: the guides cold all through"
        yield words, ("One out at a time.",), None


def guide_table(job: Job, of_head: Sequence[ValvePlan]) -> CardTable:
    """What goes in, its hole, its fit, how, where to, and what it is sized to."""
    unit = figures.bench(job).unit
    columns = (
        Column("Valve", "", 13), Column("Gets", "fit", 24), Column("Hole", f"as read, {unit}", 26),
        Column("Cut to", "", 27), Column("Goes in", "", 19), Column("Stands", "over spring seat", 26),
        Column("Size to", "measured", 36), Column("Done", "", 12),
    )  # fmt: skip
    return CardTable(columns, tuple(_row(job, valve, valve.guide) for valve in of_head), "New guides")


def _row(job: Job, valve: ValvePlan, guide: GuidePlan) -> tuple[str, ...]:
    return (
        valve.name,
        _gets(job, guide),
        _hole(job, valve),
        _cut(job, guide),
        _how(job, guide.assembly),
        _stand(job, valve),
        _size(job, guide),
        blank(),
    )


def _gets(job: Job, guide: GuidePlan) -> str:
    if guide.name is None:
        return NONE
    if guide.fit is None:
        return Markdown("**{}**").format(guide.name)
    fit = guide.fit.expected or guide.fit.least
    return Markdown("**{}** *{}*").format(guide.name, digits_shown(fit, figures.bench(job)))


def _hole(job: Job, valve: ValvePlan) -> str:
    found = valve.found
    cells = (found.guide_hole_top, found.guide_hole_middle, found.guide_hole_bottom)
    if valve.guide.action == "line":
        cells = (found.guide_top, found.guide_middle, found.guide_bottom)
    read = [as_read(job, cell) for cell in cells if cell is not None]
    return " ".join(read) if read else blank()


def _cut(job: Job, guide: GuidePlan) -> str:
    hole = guide.hole
    if hole is None or hole.bench_least is None or hole.bench_most is None:
        return HATCHED if guide.name is not None and hole is not None and hole.measured else blank()
    to = span(limits(hole.bench_least, hole.bench_most, figures.bench(job)))
    return Markdown("{} *{}*").format(to, guide.reamer or "bored")


def _how(job: Job, way: AssemblyPlan | None) -> str:
    if way is None:
        return NONE
    if way.kind == "press":
        strong = figures.force(way.press_N.value, job) if way.press_N is not None else ""
        return Markdown("**PRESS** *{}*").format(strong)
    return {"drop-in": "drops", "push": "push"}[way.kind]


def _stand(job: Job, valve: ValvePlan) -> str:
    if _at_shoulder(valve):
        return Markdown("to its shoulder {}").format(blank())
    to = wanted(job, valve.guide.stand) or ("flush" if valve.guide.action == "line" else "as the others")
    return Markdown("*{}* {}").format(to, blank())


def _size(job: Job, guide: GuidePlan) -> str:
    bore = guide.bore
    if bore is None:
        return blank()
    to = span(limits(bore.least, bore.most, figures.bench(job)))
    how = "as it is; check" if guide.bought is not None else bore.reamer or "hone"
    return Markdown("{} *{}* {}").format(to, how, blank())
