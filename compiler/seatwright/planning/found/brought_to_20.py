"""Where planning starts: each valve of a head with what is wanted of it, what was found, and that brought to 20 °C."""

from __future__ import annotations

from msgspec import Struct
from msgspec.structs import replace

from seatwright.job.model import Head, Job, Place, Reading, Valve
from seatwright.planning.basis.bore_gauge import bore_at20
from seatwright.planning.basis.findings import Findings
from seatwright.planning.basis.temperatures import insert_at20, pocket_at20
from seatwright.planning.basis.wording import name_key
from seatwright.planning.plan import At20, Position, Renewed, Started, Status
from seatwright.planning.plan.figure import Figure, computed, given


def start(job: Job, head: Head, findings: Findings) -> tuple[Started, ...]:
    """The valves of a head, in its order."""
    places = {place.valve: place for place in head.layout}
    return tuple(_started(job, head, valve, places.get(valve.name), findings) for valve in head.valves)


def _started(job: Job, head: Head, valve: Valve, place: Place | None, findings: Findings) -> Started:
    _hand_holds(head, valve, findings)
    tilt = valve.specification.valve_tilt
    plan = Started(
        name=valve.name,
        head=head.number,
        kind=valve.kind,
        status=_status(head, valve, findings),
        valve=valve,
        found=valve.measured,
        at20=_at20(job, head, valve, findings),
        replaced=tuple(Renewed(one.part, one.date) for one in valve.replaced),
        insert_was=None if valve.measured.insert_was is None else valve.measured.insert_was.text,
        notes=tuple(note.text for note in head.notes if valve.name in note.valves),
        position=None if place is None else Position(given("x", "mm", place.x), given("y", "mm", place.y)),
        valve_tilt=None if tilt is None else given("tilt", "deg", tilt),
    )
    return replace(plan, status=Status.GUIDE_FIRST) if _guide_first(plan, findings) else plan


def _guide_first(plan: Started, findings: Findings) -> bool:
    """Whether its guide comes before all else; a new one of a valve that is left alone asks for nothing further."""
    measured = guide_stations(plan.valve, findings, largest=True)
    return plan.guide_to_renew or (plan.guide_renewed and not measured and not plan.left_alone)


def _status(head: Head, valve: Valve, findings: Findings) -> Status:
    wish = valve.specification.insert
    if wish is None:
        findings.notice(
            "insert-not-said",
            "No insert is asked for here, so nothing is planned.",
            "Say `insert choose`, an insert by name, `insert turned`, `insert stays` where only the seat is cut again, "
            "or `insert none` under `valves`.",
            head.span,
            (valve.name,),
        )
        return Status.NOT_PLANNED
    return {"none": Status.LEFT_ALONE, "stays": Status.TO_CUT}.get(wish.kind, Status.TO_BORE)


def _hand_holds(head: Head, valve: Valve, findings: Findings) -> None:
    if head.inserts_not_allowed is not None:
        findings.hold(
            valve.name,
            "inserts-not-allowed",
            f"The maker forbids inserts in this head: {head.inserts_not_allowed.text}.",
            "Ask the engine maker; nothing is cut here until the line `inserts not-allowed` is gone.",
            head.inserts_not_allowed.span,
        )
    for note in valve.holds:
        findings.hold(
            valve.name,
            "hold-by-hand",
            f"Held by hand: {note.text}.",
            "Take the `hold` line out when the reason is gone.",
            note.span,
        )


def _at20(job: Job, head: Head, valve: Valve, findings: Findings) -> At20:
    found = valve.measured
    insert_od = insert_reading(valve)

    def in_head(reading: Reading | None, symbol: str) -> Figure | None:
        return None if reading is None else pocket_at20(job, head, reading, symbol, reading.value, findings)

    largest = pocket_readings(job, head, valve, findings, largest=True)
    smallest = pocket_readings(job, head, valve, findings, largest=False)
    means = tuple(cell.mean for cell in pocket_cells(job, head, valve, findings))
    stations = guide_stations(valve, findings, largest=True)
    tightest = guide_stations(valve, findings, largest=False)
    return At20(
        guide=_extreme("guide", stations, largest=True),
        guide_tightest=_extreme("guide_tightest", tightest, largest=False),
        stem=stem(valve),
        pocket=_extreme("pocket", largest, largest=True),
        pocket_smallest=_extreme("pocket_smallest", smallest, largest=False),
        pocket_mean=_mean("pocket_mean", means),
        throat=in_head(found.throat, "throat"),
        damage=in_head(found.damage, "damage"),
        insert_od=None
        if insert_od is None
        else insert_at20(job, head, insert_od, likely_alloy(job, valve), "insert_od", findings),
    )


def insert_reading(valve: Valve) -> Reading | None:
    """The insert measured beside the bore as cut counts before the one measured when the job came in."""
    as_cut = None if valve.cut is None else valve.cut.insert_od
    return valve.measured.insert_od if as_cut is None else as_cut


class PocketCell(Struct, frozen=True):
    """One cell of the pocket as found, at 20 °C and freed of what the bore gauge shows wrong on its ring."""

    mean: Figure
    largest: Figure
    smallest: Figure
    low: bool
    again: bool  # measured more than once: several readings, or an earlier one that this replaced


def pocket_cells(job: Job, head: Head, valve: Valve, findings: Findings) -> tuple[PocketCell, ...]:
    """Every diameter of the pocket that was measured, upper ones first."""
    # Kept beside what it was made of, so that no other can come to have its id.
    key = ("pocket cells", id(head), id(valve.measured))
    return findings.once(key, lambda: (valve.measured, _pocket_cells(job, head, valve, findings)))[1]


def _pocket_cells(job: Job, head: Head, valve: Valve, findings: Findings) -> tuple[PocketCell, ...]:
    found = valve.measured
    cells = (
        ("pocket_a", found.pocket_a, False),
        ("pocket_b", found.pocket_b, False),
        ("pocket_low_a", found.pocket_low_a, True),
        ("pocket_low_b", found.pocket_low_b, True),
    )
    made = []
    for symbol, cell, low in cells:
        if cell is None:
            continue
        values = (cell.value, cell.largest, cell.smallest)
        read = {value: bore_at20(job, head, cell, cell.at, symbol, value, findings) for value in dict.fromkeys(values)}
        mean, largest, smallest = (read[value] for value in values)
        made.append(PocketCell(mean, largest, smallest, low, cell.count > 1 or bool(cell.earlier)))
    return tuple(made)


def pocket_readings(job: Job, head: Head, valve: Valve, findings: Findings, *, largest: bool) -> tuple[Figure, ...]:
    """Every diameter of the pocket at 20 °C, the largest (or smallest) where one cell holds several readings."""
    return tuple(cell.largest if largest else cell.smallest for cell in pocket_cells(job, head, valve, findings))


def guide_stations(valve: Valve, findings: Findings, *, largest: bool) -> tuple[Figure, ...]:
    """Spring end, middle and port end of the guide as read, those that were measured."""
    return findings.once(("guide stations", id(valve), largest), lambda: _guide_stations(valve, largest))


def _guide_stations(valve: Valve, largest: bool) -> tuple[Figure, ...]:
    found = valve.measured
    cells = (
        ("guide_top", found.guide_top),
        ("guide_middle", found.guide_middle),
        ("guide_bottom", found.guide_bottom),
    )
    return tuple(
        given(symbol, "mm", cell, cell.largest if largest else cell.smallest)
        for symbol, cell in cells
        if cell is not None
    )


def stem(valve: Valve) -> Figure | None:
    """The stem: measured, at its smallest, since it wears too; else the middle of what `valves` says."""
    if valve.measured.stem is not None:
        return given("stem", "mm", valve.measured.stem, valve.measured.stem.smallest)
    said = valve.specification.stem
    return None if said is None else given("stem", "mm", said)


def likely_alloy(job: Job, valve: Valve) -> str | None:
    """The alloy of the insert that was measured for this valve: of the named one, else of the nearest in stock that
    the wishes allow."""
    wish, measured = valve.specification.insert, insert_reading(valve)
    name = wish.name if wish is not None and wish.kind == "stock" else None
    if name is not None:
        named = [insert for insert in job.shop.inserts if name_key(insert.name.text) == name_key(name)]
        return named[0].alloy.text if named and named[0].alloy else None
    wished = {name_key(alloy.text) for alloy in valve.specification.alloys}
    sized = [
        insert
        for insert in job.shop.inserts
        if insert.od is not None
        and insert.seat in ("any", valve.kind)
        and (not wished or (insert.alloy is not None and name_key(insert.alloy.text) in wished))
    ]
    if measured is None or not sized:
        return None
    nearest = min(sized, key=lambda insert: abs(insert.od.value - measured.value) if insert.od else 0.0)
    return nearest.alloy.text if nearest.alloy else None


def _mean(symbol: str, figures: tuple[Figure, ...]) -> Figure | None:
    if len(figures) < 2:
        return figures[0].called(symbol) if figures else None
    names = " + ".join(figure.symbol for figure in figures)
    value = sum(figure.value for figure in figures) / len(figures)
    return computed(symbol, "mm", value, f"({names})/{len(figures)}", figures, "handbook 1")


def _extreme(symbol: str, figures: tuple[Figure, ...], *, largest: bool) -> Figure | None:
    if not figures:
        return None
    if len(figures) == 1:
        return figures[0].called(symbol) if not figures[0].inputs else figures[0]
    pick = max if largest else min
    value = pick(figure.value for figure in figures)
    names = ", ".join(figure.symbol for figure in figures)
    return computed(symbol, "mm", value, f"{pick.__name__}({names})", figures, "handbook 1, 3")
