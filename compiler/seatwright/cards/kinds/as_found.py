"""The as-found sheet: blanks in the order of the bench. Columns are called as the job file calls them."""

from __future__ import annotations

from collections.abc import Iterator

from seatwright.cards.card import Box, CardTable, Column, Content
from seatwright.cards.escape import Markdown
from seatwright.cards.parts.care import care
from seatwright.cards.parts.figures import bench, shown
from seatwright.cards.parts.words import blank, described, name_text, notes, valves
from seatwright.job.declarations.job_tables import BENCH_ORDER, INSERT_WAS
from seatwright.job.model import Given, Head, Job
from seatwright.planning.basis.instruments import job_unit
from seatwright.planning.plan import Plan

# What a column is called at the bench, where the word of the job file alone could be taken the wrong way round.
_CALLED = {"guide-top": "spring end", "guide-bottom": "port end", "guide-middle": "middle"}
# The parts of the bench's order that share a table, each with a column that is no measurement.
_SEATED, _POCKET, _LAST = (BENCH_ORDER[0], *BENCH_ORDER[2:4]), BENCH_ORDER[5:8], BENCH_ORDER[8:]
_SPRING, _NEW_GUIDE = BENCH_ORDER[1], BENCH_ORDER[4]


def as_found(plan: Plan, head: Head) -> Content:
    """What the bench writes down before an old insert goes, and before money is spent."""
    served = tuple(valve.name for valve in head.valves)
    before = care(plan, ("remove",), served)
    asks = tuple(Box(number, words) for number, words in enumerate(_asks(plan.job, head), start=1))
    number = len(asks)
    tables = (
        _table(head, number + 1, "Old valve, old seat; its guide, two ways, the larger",
               *_flat(_SEATED), "guide-length"),
        _table(head, number + 2, f"Insert out, stop short of the floor; the pocket, from its {_face(head)}",
               *_flat(_POCKET)),
        _table(head, number + 3, "Damage, metal; each new insert in the hand", *_flat(_LAST), "guide-to-floor"),
        *_where_asked(head, number + 4),
    )  # fmt: skip
    closing = [caution for caution in plan.cautions if not caution.steps]
    others = care(plan, ("lift", "clean", "test"), served)
    return Content(
        facts=tuple(_facts(plan, head)),
        asks=asks,
        care=tuple(dict.fromkeys((*others.sentences, *before.sentences))),
        tables=tables,
        below=(
            f"insert-was: {', '.join(INSERT_WAS)}. Not measured: a dash. The fit is made "
            "to the ring in the hand, not to the list.",
            *(caution.text for caution in closing[:1]),
        ),
        closing="Type it under these words, build again. Nothing is guessed: what is not given is not checked.",
        cautioned=(*others.slugs, *before.slugs, *(caution.slug for caution in closing[:1])),
    )


def _where_asked(head: Head, number: int) -> Iterator[CardTable]:
    """Springs and new guides, which are measured where the job gives them limits, or asks for them."""
    wanted = [valve.specification for valve in head.valves]
    springs = any(
        one.spring_force or one.spring_least or one.valve_lift or one.bind_room or one.retainer_room for one in wanted
    )
    guides = any(one.guide_stand or (one.guide and one.guide.renews) for one in wanted)
    titles = [
        *(["Each spring on the tester"] if springs else []),
        *(["A guide that is renewed: its end, its hole with the old one out, the new one"] if guides else []),
    ]
    if titles:
        yield _table(head, number, "; ".join(titles), *(_SPRING if springs else ()), *(_NEW_GUIDE if guides else ()))


def _flat(groups: tuple[tuple[str, ...], ...]) -> tuple[str, ...]:
    return tuple(column for group in groups for column in group)


def _table(head: Head, number: int, title: str, *names: str) -> CardTable:
    columns = (Column("Valve", "", 14), *(_column(name) for name in names))
    rows = tuple((valve.name, *[blank()] * len(names)) for valve in head.valves)
    return CardTable(columns, rows, title, number)


def _column(name: str) -> Column:
    first, _, rest = name.partition("-")
    return Column(first.capitalize(), _CALLED.get(name, rest), 18 if len(first) < 9 else 22)


def _face(head: Head) -> str:
    return head.depth_from.text if head.depth_from is not None else "rim"


def _facts(plan: Plan, head: Head) -> Iterator[str]:
    said = [described(head)]
    said += [f"Stem {stems}" for stems in [_stems(plan.job, head)] if stems]
    said += notes((*plan.job.notes, *head.notes))
    yield ". ".join(each.rstrip(".") for each in said if each) + "."


def _stems(job: Job, head: Head) -> str:
    sizes: dict[str, list[str]] = {}
    for valve in head.valves:
        stem = valve.specification.stem
        if isinstance(stem, Given):
            sizes.setdefault(str(shown(stem, bench(job))), []).append(valve.name)
    return ", ".join(f"{size} ({valves(names)})" for size, names in sizes.items())


def _asks(job: Job, head: Head) -> Iterator[str]:
    unit = job_unit(job)
    filled = [valve.name for valve in head.valves if valve.specification.sodium_filled]

    def asked(words: str, *marks: int) -> Markdown:
        return Markdown(words).format(*(blank(each) for each in marks))

    yield asked("Casting {} maker {}", 7, 5)
    yield asked("Weight {} kg. Marks, earlier work {}", 4, 6)
    if filled:
        yield Markdown("Sodium-filled out first, whole, apart, never into the washer: **{}**").format(valves(filled))
    else:
        yield asked("Sodium-filled valves out first: {}", 6)
    yield "Valves out, laid in order, marked. Clean head, ports, chambers"
    yield Markdown("Crack test, both faces, before money is spent: {}").format(name_text(head.crack_test) or blank(6))
    yield Markdown("Pressure test: {}").format(name_text(head.pressure_test) or blank(12))
    yield asked(f"Flat, {unit}: along {{}} across {{}}", 5, 5)
    yield asked("Diagonals {} {} skimmed {}", 4, 4, 4)
    yield asked("An hour side by side: head {} gauge {}", 4, 4)
    yield asked("Centres {} {} {}", 5, 5, 5)
