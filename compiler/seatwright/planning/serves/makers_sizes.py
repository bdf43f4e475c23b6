"""The maker's sizes of a pocket, and which of them an insert is of (between jobs, 2)."""

from __future__ import annotations

from collections.abc import Sequence

from msgspec import Struct

from seatwright.handbook import fits as fit_sums
from seatwright.job.model import Head, Job, Limits, PocketSize, Practice, SizeName, Specification
from seatwright.planning.basis.wording import length, listed, name_key, span_of
from seatwright.planning.plan import Between, Found, MakersPocket
from seatwright.planning.plan.figure import Figure, computed, given
from seatwright.planning.serves.offers import Offer
from seatwright.planning.serves.reasons import Reason
from seatwright.planning.serves.whose_interference import fit_limits

WIDENED = 0.005
"""How far an insert's od may lie outside the limits of a size that it is of [mm]."""

WIDENED_INCH = 0.00508
"""The same in a job in inches, .0002 in [mm]."""

_SLACK = 1e-9


class MakersSize(Struct, frozen=True):
    """One of the maker's sizes as figures. bore: the least is None where he gives the most alone."""

    row: PocketSize
    bore: tuple[Figure | None, Figure] | None
    depth: tuple[Figure, Figure] | None
    height: Figure | None

    @property
    def name(self) -> str | None:
        """What it is called, None where it is the only one and has no name."""
        return None if self.row.name is None else self.row.name.text


def makers_sizes(spec: Specification, practice: Practice) -> tuple[MakersSize, ...]:
    """The sizes that a pocket may get, the smallest first; () where the maker gives none, or none is asked for.

    One of which he gives the most bore alone is for a blank that is turned to its bore.
    """
    turned = spec.insert is not None and spec.insert.kind == "turned"
    rows = (row for row in spec.sizes_asked_for if turned or row.bore is None or row.bore.least is not None)
    found = [_figures(row, practice) for row in rows]
    return tuple(sorted(found, key=lambda size: size.bore[1].value if size.bore else 0.0))


def _figures(row: PocketSize, practice: Practice) -> MakersSize:
    bore = None
    if row.bore is not None and row.bore.most is not None:
        least = None if row.bore.least is None else given("maker_bore_least", "mm", row.bore.least)
        bore = (least, given("maker_bore_most", "mm", row.bore.most))
    height = None if row.insert_height is None else given("height", "mm", row.insert_height)
    return MakersSize(row, bore, _depth(row.depth, practice), height)


def _depth(limits: Limits | None, practice: Practice) -> tuple[Figure, Figure] | None:
    """The maker's two limits, or his single figure with the shop's tolerance either way."""
    if limits is None:
        return None
    if limits.least is not None and limits.most is not None:
        return given("maker_depth_least", "mm", limits.least), given("maker_depth_most", "mm", limits.most)
    if limits.nominal is None or practice.depth_tolerance is None:
        return None
    printed = given("maker_depth", "mm", limits.nominal)
    either_way = given("depth_tolerance", "mm", practice.depth_tolerance)
    least, most = (
        computed(
            f"maker_depth_{which}",
            "mm",
            printed.value + sign * either_way.value,
            f"maker_depth {'-' if sign < 0 else '+'} depth_tolerance",
            (printed, either_way),
            "handbook 5",
        )
        for which, sign in (("least", -1), ("most", 1))
    )
    return least, most


def size_of(job: Job, head: Head, plan: Found, sizes: Sequence[MakersSize], offer: Offer) -> MakersSize | Reason | None:
    """The size that an insert is of; None where the maker gives none; a reason where it is of none, or of several.

    That which names it; else by its od within the od limits of a size, or within what bore and interference of a size
    make; else by the bores that the insert itself allows.
    """
    if not sizes:
        return None
    if len(sizes) == 1 and sizes[0].row.name is None:
        return sizes[0]
    naming = [one for one in sizes if one.row.insert is not None and _same(one.row.insert.text, offer.name)]
    own = own_window(job, head, plan, offer)
    found = naming or [one for one in sizes if _is_of(job, one, offer, own)]
    if len(found) == 1:
        return found[0]
    if found:
        names = listed((size_called(job, one.row) for one in found), "or")
        return Reason("size-which", f"{offer.name} could be {names}.", offer.od)
    if own is not None and not any(one.row.insert_od or one.row.interference for one in sizes):
        return outside(job, offer, own, sizes)
    text = f"{offer.name}, {length(job, offer.od.value)}, is of no size of the maker's."
    return Reason("no-makers-size", text, offer.od)


def outside(job: Job, offer: Offer, own: tuple[float, float], sizes: Sequence[MakersSize]) -> Reason:
    """No bore is both the insert's and the maker's."""
    bores = [one.bore for one in sizes if one.bore is not None]
    middle = (own[0] + own[1]) / 2
    nearest = min(bores, key=lambda bore: abs(bore[1].value - middle))
    least, most = nearest
    makers = f"{length(job, most.value)} at most" if least is None else span_of(job, least.value, most.value)
    whose = "the maker's bore is" if len(bores) == 1 else "the nearest of the maker's bores is"
    limit = most if least is None or middle > most.value else least
    return Reason(
        "outside-makers-bore",
        f"{offer.name} wants {span_of(job, *own)}; {whose} {makers}.",
        offer.od,
        limit,
    )


def own_window(job: Job, head: Head, plan: Found, offer: Offer) -> tuple[float, float] | None:
    """The bores that an insert allows by itself, with the job's interference or the shop's [mm]."""
    fit = fit_limits(job, head, plan, offer.alloy, offer.od.value)
    if fit is None:
        return None
    least, most, _ = fit_sums.bore_window(offer.od_least.value, offer.od_most.value, fit.least.value, fit.most.value)
    return (least, most) if least <= most else None


def size_to_come(sizes: Sequence[MakersSize], needed: Figure | None) -> MakersSize | None:
    """The smallest of the maker's sizes that cleans a pocket up; the largest where none does."""
    bored = [one for one in sizes if one.bore is not None]
    if not bored:
        return sizes[0] if len(sizes) == 1 else None
    enough = [one for one in bored if needed is None or one.bore is None or one.bore[1].value >= needed.value - _SLACK]
    return enough[0] if enough else bored[-1]


def as_planned(job: Job, size: MakersSize | None, *, binds: bool) -> MakersPocket | None:
    """A size of the maker's as the plan holds it."""
    if size is None:
        return None
    row = size.row
    bore = None if size.bore is None else Between(size.bore[1], size.bore[0])
    depth = None if size.depth is None else Between(size.depth[1], size.depth[0])
    od = None
    if row.insert_od is not None and (limits := row.insert_od.both) is not None:
        least, most = limits
        od = Between(given("maker_od_most", "mm", most), given("maker_od_least", "mm", least))
    return MakersPocket(binds, None if row.name is None else size_called(job, row), bore, depth, od)


def size_called(job: Job, row: PocketSize) -> str:
    """What a size is called, with the unit of its figure where that is another than the job's."""
    name: SizeName | None = row.name
    if name is None:
        return "the maker's size"
    unit = "in" if job.units == "inch" else "mm"
    return name.text if not name.unit or name.unit == unit else f"{name.text} {name.unit}"


def _same(one: str, other: str) -> bool:
    return name_key(one) == name_key(other)


def _is_of(job: Job, size: MakersSize, offer: Offer, own: tuple[float, float] | None) -> bool:
    od, row = offer.od.value, size.row
    if row.insert_od is not None and (limits := row.insert_od.both) is not None:
        least, most = limits
        wide = WIDENED_INCH if job.units == "inch" else WIDENED
        return least.value - wide - _SLACK <= od <= most.value + wide + _SLACK
    if size.bore is None:
        return True
    low, high = size.bore
    if row.interference is not None and (limits := row.interference.both) is not None:
        tight, loose = limits
        smallest = high.value if low is None else low.value
        return smallest + tight.value - _SLACK <= od <= high.value + loose.value + _SLACK
    if own is None:
        return False
    return own[0] <= high.value + _SLACK and (low is None or own[1] >= low.value - _SLACK)
