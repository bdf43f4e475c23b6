"""Words that several cards share: blanks, lists of valves, limits, holds, tables cut to narrow paper."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence

from seatwright.cards.card import Drawing, Held, Step, Table
from seatwright.cards.escape import Markdown
from seatwright.cards.figures import Shown, bore_gauge, depth_gauge, limits, seat_gauge, shown, temperature
from seatwright.job.model import Head, Job, Named, Note
from seatwright.planning.plan import Caution, HeightLimits, Plan, Status, ValvePlan
from seatwright.text import Message

NONE = "–"
COLUMNS_ON_NARROW_PAPER = 6
STATUS: Mapping[str, str] = {
    Status.TO_BORE: "to bore",
    Status.GUIDE_FIRST: "guide first",
    Status.HOLD: "HOLD",
    Status.ACCEPTED: "bore accepted",
    Status.MEASURE_AGAIN: "measure again",
    Status.BORE_AGAIN: "bore again",
    Status.OVERSIZE: "goes oversize",
    Status.FINISHED: "finished",
    Status.LEFT_ALONE: "left alone",
    Status.NOT_PLANNED: "not planned",
    Status.KEPT: "pocket kept",
    Status.TO_CUT: "cut its seat",
}

NOT_BORED = frozenset({Status.LEFT_ALONE, Status.NOT_PLANNED, Status.KEPT, Status.TO_CUT})
NO_INSERT = frozenset({Status.LEFT_ALONE, Status.NOT_PLANNED})


def blank(marks: int = 6) -> Markdown:
    """A ruled blank."""
    return Markdown("_" * marks)


def bold(text: str) -> Markdown:
    """Text that stands out, or the mark of an empty cell."""
    return Markdown(f"**{Markdown.escape(text)}**") if text and text != NONE else Markdown.escape(text or NONE)


def bold_limits(pair: tuple[Shown, Shown] | None) -> Markdown:
    """`**44.011** to **44.029**`, the unit in the column's head."""
    return Markdown(f"{bold(pair[0].text)} to {bold(pair[1].text)}") if pair else Markdown.escape(NONE)


def bore_limits(job: Job, valve: ValvePlan) -> tuple[Shown, Shown] | None:
    """The limits of a bore as the bore gauge shows them at the bench."""
    bore = valve.bore
    return None if bore is None else limits(bore.bench_least, bore.bench_most, bore_gauge(job))


def depth_limits(job: Job, valve: ValvePlan) -> tuple[Shown, Shown] | None:
    """The limits of a depth."""
    depth = valve.depth
    return None if depth is None else limits(depth.least, depth.most, depth_gauge(job))


def below(job: Job, limits_: HeightLimits | None) -> str:
    """How a face is to lie below another, inwards: `0.05 to 0.10 below`, `0.02 proud to 0.05 below`; "" without one."""
    if limits_ is None or limits_.least is None or limits_.most is None:
        return ""
    low, high = limits(limits_.least, limits_.most, seat_gauge(job))
    if float(low.text) < 0:
        side = f"{high.text} below" if float(high.text) > 0 else "flush"
        if float(high.text) < 0:
            return f"{high.text.lstrip('-')} to {low.text.lstrip('-')} proud"
        return f"{low.text.lstrip('-')} proud to {side}"
    return f"{low.text} below" if low.text == high.text else f"{low.text} to {high.text} below"


def wanted(job: Job, limits_: HeightLimits | None) -> str:
    """Limits of a height, inwards: `0.70 to 1.10`, `most 1.10`, `least 0.70`, `aim 0.90`; "" without any."""
    if limits_ is None:
        return ""
    if limits_.least is not None and limits_.most is not None:
        return span(limits(limits_.least, limits_.most, seat_gauge(job)))
    for word, figure, way in (("most", limits_.most, "down"), ("least", limits_.least, "up")):
        if figure is not None:
            return f"{word} {shown(figure, seat_gauge(job), way).text}"
    return f"aim {shown(limits_.aim, seat_gauge(job)).text}" if limits_.aim is not None else ""


def span(pair: tuple[Shown, Shown] | None) -> str:
    """`44.011 to 44.029`; `44.018` where both are one figure."""
    if pair is None or pair[0].text == pair[1].text:
        return pair[0].text if pair else NONE
    return f"{pair[0].text} to {pair[1].text}"


def valves(names: Iterable[str]) -> str:
    """`I1 E1 E2`."""
    return " ".join(names)


def text(named: Named | None) -> str:
    """The text of a name, "" without one."""
    return named.text if named is not None else ""


def notes(written: Iterable[Note]) -> tuple[str, ...]:
    """Notes of the job, each with the valves that it speaks of."""
    return tuple(f"{valves(note.valves)}: {note.text}" if note.valves else note.text for note in written)


def spoken(message: Message) -> str:
    """What a message says, its valves named once: a text that begins with one of them and has all names them itself."""
    said = unquoted(message.text)
    spoken_of = set(re.findall(r"\w+", said))
    itself = spoken_of.issuperset(message.valves) and re.split(r"\W", said, maxsplit=1)[0] in message.valves
    return said if itself or not message.valves else f"{valves(message.valves)}: {said}"


def unquoted(said: str) -> str:
    """What a message says, without the marks that set off words of the job file on a screen."""
    return said.replace("`", "")


def valves_of(plan: Plan, head: Head) -> tuple[ValvePlan, ...]:
    """The planned valves of a head, in its order."""
    return tuple(valve for valve in plan.valves if valve.head == head.number)


def named(plan: Plan, name: str) -> ValvePlan:
    """A valve of the plan by its name. Raises StopIteration for one that is not in it."""
    return next(valve for valve in plan.valves if valve.name == name)


def held(valves_on_card: Iterable[ValvePlan]) -> tuple[Held, ...]:
    """What each hold of these valves says."""
    return tuple(
        Held(valve.name, unquoted(hold.text), unquoted(hold.help)) for valve in valves_on_card for hold in valve.holds
    )


def bench_at(job: Job, head: Head) -> str:
    """The temperature that bench figures are meant at, "" where none is given."""
    given = head.temperature or (job.bore_gauge.temperature if job.bore_gauge is not None else None)
    return temperature(given.value, job) if given is not None else ""


def at(words: str) -> str:
    """` at 22 °C`, or nothing."""
    return f" at {words}" if words else ""


def beside(plan: Plan, step: str, served: Iterable[str]) -> tuple[Caution, ...]:
    """The cautions that stand beside a step and concern these valves."""
    here = set(served)
    return tuple(
        caution
        for caution in plan.cautions
        if step in caution.steps and (not caution.valves or not here or here & set(caution.valves))
    )


def sentences(cautions: Iterable[Caution], served: Sequence[str]) -> tuple[str, ...]:
    """What cautions say beside a step, each with the valves that it concerns where those are not all of the card."""
    found = []
    for caution in cautions:
        mine = [name for name in served if name in caution.valves]
        those = f"{valves(mine)}: " if mine and len(mine) < len(served) else ""
        found.append(f"{those}{caution.text}")
    return tuple(found)


def fitted(table: Table, narrow: bool, repeated: int = 1) -> tuple[Table, ...]:
    """The table as it is, or on narrow paper as two below each other, the first columns repeated."""
    columns = len(table.head)
    if not narrow or columns <= COLUMNS_ON_NARROW_PAPER:
        return (table,)
    # As even as it goes.
    cut = repeated + (columns - repeated + 1) // 2
    first = Table(table.head[:cut], tuple(row[:cut] for row in table.rows), table.title)
    rest = Table(
        table.head[:repeated] + table.head[cut:],
        tuple(row[:repeated] + row[cut:] for row in table.rows),
        f"{table.title}, continued" if table.title else "",
    )
    return (first, *fitted(rest, narrow, repeated))


class Steps:
    """The steps of one card as they are written one after the other, each caution on it once.

    names: the valves that the card is for. drawings: those of the card; a step shows the one that it names, if there.
    """

    def __init__(self, plan: Plan, names: Sequence[str], drawings: Sequence[Drawing] = ()) -> None:
        self.written: list[Step] = []
        self.cautioned: dict[str, None] = {}
        self._plan, self._names, self._drawn = plan, tuple(names), {each.name for each in drawings}

    def step(
        self,
        sentence: str,
        check: str = "",
        read: Sequence[Shown] = (),
        reckoned: str = "",
        tables: Sequence[Table] = (),
        places: Sequence[str] = (),
        later: str = "",
        served: Sequence[str] = (),
        drawing: str = "",
        initial: bool = True,
    ) -> Step:
        """The next step. places: steps of the work whose cautions stand here, but for the one that comes later."""
        served = tuple(served) or self._names
        found = {each.slug: each for place in places for each in beside(self._plan, place, served)}
        fresh = [each for slug, each in found.items() if slug not in self.cautioned and slug != later]
        self.cautioned.update(dict.fromkeys(each.slug for each in fresh))
        number, drawn = len(self.written) + 1, drawing if drawing in self._drawn else ""
        cautions = sentences(fresh, served)
        self.written.append(
            Step(number, sentence, tuple(read), reckoned, check, initial, cautions, tuple(tables), drawn)
        )
        return self.written[-1]
