"""Which bore and which insert a fit rests on: as planned, as kept, or as cut and measured; all at 20 °C."""

from __future__ import annotations

from dataclasses import dataclass, replace

from seatwright.job.model import Head, Job, Reading
from seatwright.planning.figure import Figure, computed
from seatwright.planning.findings import Findings
from seatwright.planning.plan import Interference, ValvePlan
from seatwright.planning.temperatures import insert_at20, pocket_at20

_SOURCE = "handbook 5, 13"


@dataclass(frozen=True, slots=True)
class Pair:
    """A bore and the insert that goes into it.

    bore_least : the tightest that the bore may be, for getting the insert in
    bore : its size; of several readings the mean
    od_least, od, od_most : of the insert; all one figure where it is measured
    interference_least, interference, interference_most : diametral, the least and the most that these sizes can give
    measured : the bore was cut, or kept, and measured
    """

    bore_least: Figure
    bore: Figure
    od_least: Figure
    od: Figure
    od_most: Figure
    interference_least: Figure
    interference: Figure
    interference_most: Figure
    measured: bool


def pair(job: Job, head: Head, plan: ValvePlan, findings: Findings) -> Pair | None:
    """The bore and the insert of a valve; None where one of them, or the interference wanted, is not known."""
    cut = _as_cut(job, head, plan, findings)
    if cut is not None:
        return _measured(job, head, plan, *cut, findings)
    if plan.status == "kept":
        smallest, largest = plan.at20.pocket_smallest, plan.at20.pocket
        if smallest is None or largest is None:
            return None
        middle = computed(
            "bore",
            "mm",
            (smallest.value + largest.value) / 2,
            f"({smallest.symbol} + {largest.symbol})/2",
            (smallest, largest),
            _SOURCE,
        )
        return _measured(job, head, plan, smallest, middle, findings)
    return _planned(plan)


def insert_diameters(plan: ValvePlan) -> tuple[Figure, Figure, Figure] | None:
    """Least, middle and most of the insert's outer diameter; a list figure without limits is all three."""
    insert = plan.insert
    if insert is None:
        return None
    one = insert.od or insert.od_most or insert.od_least
    if one is None:
        return None
    least, most = insert.od_least or one, insert.od_most or one
    if insert.od is None and least is not most:
        one = computed("od", "mm", (least.value + most.value) / 2, "(od_least + od_most)/2",
                       (replace(least, symbol="od_least"), replace(most, symbol="od_most")), _SOURCE)  # fmt: skip
    return replace(least, symbol="od_least"), replace(one, symbol="od"), replace(most, symbol="od_most")


def _planned(plan: ValvePlan) -> Pair | None:
    bore, wanted = plan.bore, plan.interference
    if bore is None or wanted is None:
        return None
    sizes = insert_diameters(plan) or _turned(plan, bore.aim, wanted)
    if sizes is None:
        return None
    return Pair(
        replace(bore.least, symbol="bore_least"),
        replace(bore.aim, symbol="bore"),
        *sizes,
        replace(wanted.least, symbol="I_least"),
        replace(wanted.expected or wanted.aim, symbol="I"),
        replace(wanted.most, symbol="I_most"),
        measured=False,
    )


def _measured(job: Job, head: Head, plan: ValvePlan, least: Figure, bore: Figure, findings: Findings) -> Pair | None:
    bore, least = replace(bore, symbol="bore"), replace(least, symbol="bore_least")
    cut = plan.valve.cut
    alloy = plan.insert.alloy if plan.insert else None
    sizes: tuple[Figure, Figure, Figure] | None
    if cut is not None and cut.insert_od is not None:
        od = replace(insert_at20(job, head, cut.insert_od, alloy, "insert_od", findings), symbol="od")
        sizes = (od, od, od)
    else:
        sizes = insert_diameters(plan)
    if sizes is None:
        wanted = plan.interference
        sizes = _turned(plan, bore, wanted) if wanted is not None else None
        if sizes is None or wanted is None:
            return None
        limits = (replace(wanted.least, symbol="I_least"), replace(wanted.aim, symbol="I"),
                  replace(wanted.most, symbol="I_most"))  # fmt: skip
        return Pair(least, bore, *sizes, *limits, measured=True)

    def made(symbol: str, od: Figure) -> Figure:
        return computed(symbol, "mm", od.value - bore.value, f"{od.symbol} - bore", (od, bore), "handbook 13")

    od_least, od, od_most = sizes
    fits = made("I_least", od_least), made("I", od), made("I_most", od_most)
    return Pair(least, bore, *sizes, *fits, measured=True)


def _turned(plan: ValvePlan, bore: Figure, wanted: Interference) -> tuple[Figure, Figure, Figure] | None:
    """A blank is turned to the bore: its diameter is the bore and the interference wanted."""
    wish = plan.valve.specification.insert
    if wish is None or wish.kind != "turned":
        return None

    def turned(symbol: str, interference: Figure) -> Figure:
        value = bore.value + interference.value
        return computed(symbol, "mm", value, f"{bore.symbol} + {interference.symbol}", (bore, interference), _SOURCE)

    return turned("od_least", wanted.least), turned("od", wanted.aim), turned("od_most", wanted.most)


def _as_cut(job: Job, head: Head, plan: ValvePlan, findings: Findings) -> tuple[Figure, Figure] | None:
    """The smallest diameter of a bore that was cut, and the mean of its readings; None where it was not."""
    cut = plan.valve.cut
    if cut is None:
        return None
    cells: list[tuple[str, Reading]] = [
        (symbol, cell)
        for symbol, cell in (
            ("bore_a", cut.bore_a),
            ("bore_b", cut.bore_b),
            ("bore_low_a", cut.bore_low_a),
            ("bore_low_b", cut.bore_low_b),
        )
        if cell is not None
    ]
    if not cells:
        return None
    means = [pocket_at20(job, head, cell, symbol, cell.value, findings) for symbol, cell in cells]
    smallest = [pocket_at20(job, head, cell, symbol, cell.smallest, findings) for symbol, cell in cells]
    names = [each.symbol for each in means]
    mean = computed(
        "bore",
        "mm",
        sum(each.value for each in means) / len(means),
        names[0] if len(names) == 1 else f"({' + '.join(names)})/{len(names)}",
        means,
        "handbook 11, the mean carries the fit",
    )
    least = computed(
        "bore_least", "mm", min(each.value for each in smallest), f"min({', '.join(names)})", smallest, _SOURCE
    )
    return least, mean
