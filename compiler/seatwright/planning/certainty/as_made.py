"""Which bore and which insert count: as planned, as kept, or as cut and measured; all at 20 °C.

One rule for bridges, floor, fit, the way in and probabilities: a pocket that is still to be cut, or to be cut again
(`verdicts.to_cut_again`), counts as planned; one that was cut and stays counts as it was cut.
"""

from __future__ import annotations

from msgspec import Struct
from msgspec.structs import replace

from seatwright.job.model import Head, Job
from seatwright.planning.basis.findings import Findings
from seatwright.planning.basis.temperatures import insert_at20
from seatwright.planning.basis.verdicts import to_cut_again
from seatwright.planning.certainty.as_measured import AsMeasured, as_measured
from seatwright.planning.plan import Interference, Judged, Pocketed, Status
from seatwright.planning.plan.figure import Figure, computed

_SOURCE = "handbook 5, 13"


class MadePair(Struct, frozen=True):
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


def pair(job: Job, head: Head, plan: Judged, findings: Findings) -> MadePair | None:
    """The bore as the insert will find it, and the insert; None where one of them, or the interference wanted, is not
    known."""
    cut = bore_that_stays(job, head, plan, findings)
    if cut is not None:
        return _measured(job, head, plan, cut.smallest, cut.bore, findings)
    if plan.kept and plan.status != Status.FINISHED:
        smallest, mean = plan.at20.pocket_smallest, plan.at20.pocket_mean
        return None if smallest is None or mean is None else _measured(job, head, plan, smallest, mean, findings)
    return _planned(plan)


def bore_that_stays(job: Job, head: Head, plan: Judged, findings: Findings) -> AsMeasured | None:
    """The bore as cut, into which the insert goes as it is; None where it is still to be cut, or to be cut again."""
    cut = plan.valve.cut
    return None if cut is None or to_cut_again(plan) else as_measured(job, head, cut, findings)


def insert_diameters(plan: Pocketed) -> tuple[Figure, Figure, Figure] | None:
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
                       (least.called("od_least"), most.called("od_most")), _SOURCE)  # fmt: skip
    return least.called("od_least"), one.called("od"), most.called("od_most")


def _planned(plan: Judged) -> MadePair | None:
    bore, wanted = plan.bore, plan.interference
    if bore is None or wanted is None:
        return None
    if plan.turned:
        # The blank follows its own bore, so it is the aim that counts, however far apart the bore's limits are.
        aim = bore.aim.called("bore")
        return MadePair(aim, aim, *_to_turn(aim, wanted), *_limits(wanted, wanted.aim), measured=False)
    sizes = insert_diameters(plan)
    if sizes is None:
        return None
    least, aim = bore.least.called("bore_least"), bore.aim.called("bore")
    return MadePair(least, aim, *sizes, *_limits(wanted, wanted.expected or wanted.aim), measured=False)


def _measured(job: Job, head: Head, plan: Judged, least: Figure, bore: Figure, findings: Findings) -> MadePair | None:
    bore, least = bore.called("bore"), least.called("bore_least")
    cut = plan.valve.cut
    if cut is not None and cut.insert_od is not None and plan.at20.insert_od is not None:
        alloy = plan.insert.alloy if plan.insert else None
        od = replace(insert_at20(job, head, cut.insert_od, alloy, "insert_od", findings), symbol="od")
        sizes: tuple[Figure, Figure, Figure] | None = (od, od, od)
    elif plan.turned:
        wanted = plan.interference
        if wanted is None:
            return None
        return MadePair(least, bore, *_to_turn(bore, wanted), *_limits(wanted, wanted.aim), measured=True)
    else:
        sizes = insert_diameters(plan)
    if sizes is None:
        return None

    def made(symbol: str, od: Figure) -> Figure:
        return computed(symbol, "mm", od.value - bore.value, f"{od.symbol} - bore", (od, bore), "handbook 13")

    od_least, od, od_most = sizes
    fits = made("I_least", od_least), made("I", od), made("I_most", od_most)
    return MadePair(least, bore, *sizes, *fits, measured=True)


def _limits(wanted: Interference, expected: Figure) -> tuple[Figure, Figure, Figure]:
    return wanted.least.called("I_least"), expected.called("I"), wanted.most.called("I_most")


def _to_turn(bore: Figure, wanted: Interference) -> tuple[Figure, Figure, Figure]:
    """A blank is turned to the bore: its diameter is the bore and the interference wanted."""

    def turned(symbol: str, interference: Figure) -> Figure:
        value = bore.value + interference.value
        return computed(symbol, "mm", value, f"bore + {interference.symbol}", (bore, interference), _SOURCE)

    return turned("od_least", wanted.least), turned("od", wanted.aim), turned("od_most", wanted.most)
