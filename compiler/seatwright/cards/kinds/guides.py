"""The card of guides and pilots: guides first, replaced and sized before any pocket is measured for runout."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from seatwright.cards.card import HATCHED, Box, CardTable, Column, Content, Held
from seatwright.cards.escape import Markdown
from seatwright.cards.kinds.guides_in import guide_boxes, guide_table, renewed
from seatwright.cards.parts.care import Care, care
from seatwright.cards.parts.figures import as_read, bench
from seatwright.cards.parts.figures import limits as bore_span
from seatwright.cards.parts.limits import allowed, bench_length
from seatwright.cards.parts.words import NO_INSERT, NONE, NOT_BORED, blank, bold, span, valves, valves_of
from seatwright.job.model import Head, Job
from seatwright.planning.plan import Plan, Status, ValvePlan

_VERDICT = {"fit": "good", "worn": "WORN", "tight": "TIGHT", "not-checked": "not checked"}


def guided(plan: Plan, head: Head) -> list[ValvePlan]:
    """The valves of a head whose guide still has to lead something, and those left alone whose guide is worn, though
    it is not to be judged."""
    return [
        valve
        for valve in valves_of(plan, head)
        if (valve.status not in (*NO_INSERT, Status.FINISHED))
        or (
            valve.status == Status.LEFT_ALONE
            and (valve.guide.verdict in ("worn", "tight") or _worn_not_to_judge(valve))
        )
    ]


def _not_to_judge(valve: ValvePlan) -> bool:
    """Whether the job says that its guide is neither touched nor judged (`guide none`)."""
    wish = valve.valve.specification.guide
    return wish is not None and wish.kind == "none"


def _worn_not_to_judge(valve: ValvePlan) -> bool:
    """Whether a guide that is not to be judged is over its limit by what was measured."""
    clearance, limit = valve.guide.clearance, valve.guide.wear_limit or valve.guide.most
    return _not_to_judge(valve) and clearance is not None and limit is not None and clearance.value > limit.value + 1e-9


def guides_card(plan: Plan, head: Head) -> Content:
    """Readings, clearance and verdict of each guide; the pilot it gets and what that can lean."""
    job, of_head = plan.job, guided(plan, head)
    new = renewed(of_head)
    judged = [valve for valve in of_head if not (valve in new or valve.waits_for_guide or _not_to_judge(valve))]
    verdicts = {word: [valve.name for valve in judged if valve.guide.verdict == word] for word in _VERDICT}
    led = {
        valve.name
        for valve in of_head
        if valve.guide.verdict != "worn"
        and (valve.status not in NOT_BORED or valve.status == Status.TO_CUT)
        and not valve.waits_for_guide
    }
    piloted = [valve for valve in of_head if valve.name in led and valve.pilot is not None]
    first = tuple(guide_boxes(plan, head, new)) if new else ()
    going_in = [valve.name for valve in new if valve.guide.assembly is not None]
    strip = care(plan, ("heat", "chill", "press"), going_in) if going_in else Care()
    return Content(
        holds=tuple(_holds(judged, verdicts)),
        care=strip.sentences,
        cautioned=strip.slugs,
        boxes=(*first, *_boxes(job, judged, verdicts, piloted, len(first))),
        tables=(*((guide_table(job, new),) if new else ()), _table(job, of_head, led)),
        below=tuple(_below(job, of_head, verdicts, piloted)),
        said=tuple(sorted({hold.slug for valve in of_head if valve.guide.verdict == "worn" for hold in valve.holds})),
    )


def _holds(of_head: Sequence[ValvePlan], verdicts: dict[str, list[str]]) -> Iterator[Held]:
    stopped = [valve.name for valve in of_head if valve.guide.verdict == "worn" and valve.status != Status.LEFT_ALONE]
    if stopped:
        yield Held(f"HOLD {valves(stopped)}", "Guide worn: no pilot goes in, and no pocket is measured from it.")
    alone = [valve.name for valve in of_head if valve.status == Status.LEFT_ALONE and valve.guide.verdict == "worn"]
    if alone:
        yield Held(f"WORN {valves(alone)}", "Left alone, but the guide is worn: ask before the head goes out.")


def _boxes(
    job: Job, judged: Sequence[ValvePlan], verdicts: dict[str, list[str]], piloted: Sequence[ValvePlan], number: int
) -> Iterator[Box]:
    for word, names in verdicts.items():
        if not names or word == "fit":
            continue
        number += 1
        yield {
            "worn": Box(number, f"{valves(names)}: replace or sleeve, and size",
                        small=("Before any pocket of this head is measured for runout: a bore follows its guide. Then "
                               "measure guide and pocket again, type them, build again.",)),
            "tight": Box(number, f"{valves(names)}: ream to size",
                         small=(*_ream_to(job, judged), "Then measure again and build again.")),
            "not-checked": Box(number, f"{valves(names)}: not judged", initial=False,
                               small=("Measure these guides, or give their limit.",)),
        }[word]  # fmt: skip
    if not piloted:
        return
    if any(valve.pilot is not None and valve.pilot.name for valve in piloted):
        yield Box(number + 1, "Brush every guide clean and dry")
        yield Box(number + 2, "Try each pilot in its guide", small=tuple(_tried(piloted)))
    else:
        yield Box(number + 1, "The spindle is the guide: centre it over each before that pocket is bored")


def _ream_to(job: Job, judged: Sequence[ValvePlan]) -> Iterator[str]:
    """What the new guides that are tight are reamed to."""
    for valve in judged:
        bore = valve.guide.bore
        if valve.guide.verdict == "tight" and bore is not None:
            tool = bore.reamer or "ream or hone"
            yield f"{valve.name}: {tool}, {span(bore_span(bore.least, bore.most, bench(job)))}."


def _tried(piloted: Sequence[ValvePlan]) -> Iterator[str]:
    kinds = {valve.pilot.kind for valve in piloted if valve.pilot is not None}
    if kinds & {"dead", "live"}:
        yield "Dead or live: drops in by its own weight, does not rock."
    if kinds & {"expanding", "tapered"}:
        yield "Expanding or tapered: grips when it is set."
    yield "Forced or rocking: the wrong one; measure that guide again."


def _table(job: Job, of_head: Sequence[ValvePlan], led: set[str]) -> CardTable:
    unit = bench(job).unit
    columns = (
        Column("Valve", "", 13), Column("Spring", f"end, {unit}", 16), Column("Middle", "", 16),
        Column("Port", "end", 16), Column("Stem", "", 16), Column("Clear-", "ance", 16),
        Column("Allowed", "", 29), Column("Guide", "", 17),
        Column("Pilot", "kind", 21), Column("Lean", "most tir", 16), Column("Tried", "", 12),
    )  # fmt: skip
    return CardTable(columns, tuple(_row(job, valve, valve.name in led) for valve in of_head))


def _row(job: Job, valve: ValvePlan, led: bool) -> tuple[str, ...]:
    found, stem = valve.found, valve.found.stem or valve.valve.specification.stem
    read = (as_read(job, cell) or NONE for cell in (found.guide_top, found.guide_middle, found.guide_bottom, stem))
    bad = valve.guide.verdict in ("worn", "tight") or valve.waits_for_guide
    clear, verdict = bench_length(job, valve.guide.clearance), _VERDICT[valve.guide.verdict]
    if _not_to_judge(valve):
        verdict = "by hand"
    elif valve.waits_for_guide:
        verdict = "RENEW" if valve.guide_to_renew else "MEASURE"
    cells = (
        valve.name,
        *read,
        bold(clear) if bad and not valve.waits_for_guide else clear,
        allowed(job, valve),
        bold(verdict) if bad else verdict,
    )
    pilot = valve.pilot
    if not led or pilot is None:
        return (*cells, HATCHED, HATCHED, HATCHED)
    name = Markdown("**{}** *{}*").format(pilot.name or "spindle", pilot.kind if pilot.name else "no pilot")
    return (*cells, name, bench_length(job, pilot.runout), blank() if pilot.name else HATCHED)


def _below(
    job: Job, of_head: Sequence[ValvePlan], verdicts: dict[str, list[str]], piloted: Sequence[ValvePlan]
) -> Iterator[str]:
    said = ["Clearance: the largest place less the stem."]
    several = [
        valve.name for valve in of_head
        if any(cell is not None and cell.count > 1
               for cell in (valve.found.guide_top, valve.found.guide_middle, valve.found.guide_bottom))
    ]  # fmt: skip
    over = [valve.name for valve in of_head if _worn_not_to_judge(valve)]
    by_hand = [valve.name for valve in of_head if _not_to_judge(valve) and valve.name not in over]
    if over:
        said.append(f"{valves(over)}: over what is allowed, and not judged, as the job says: by hand.")
    if by_hand:
        said.append(f"{valves(by_hand)}: not judged, as the job says: by hand.")
    if several:
        said.append(f"{valves(several)}: the largest of several readings.")
    most = dict.fromkeys(
        bench_length(job, valve.pilot.runout_limit)
        for valve in piloted
        if valve.pilot and valve.pilot.runout_limit is not None
    )
    if piloted:
        limit = f"; {' or '.join(most)} is the most" if most else ""
        said.append(f"Lean: bore to guide, full movement of the needle{limit}.")
    yield " ".join(said)
