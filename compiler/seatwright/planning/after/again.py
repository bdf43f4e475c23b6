"""Whether a pocket was measured a second time since it was last cut (handbook 11).

What cannot be told, or is beyond its limit, is measured again; a second reading in the file then settles it: several of
one place behind a slash, or a cell that a later `cut` says again. After a bore that was small, and beside another
reading of the setting gauge, it is the first reading of another cut.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable

from seatwright.job.model import CutReadings, Head, Job, Reading
from seatwright.planning.basis.bore_gauge import bore_at20
from seatwright.planning.basis.findings import Findings
from seatwright.planning.basis.verdicts import REWORK, BoreLimits
from seatwright.planning.plan import Depth


def bore_again(job: Job, head: Head, cut: CutReadings, limits: BoreLimits | None) -> bool:
    """Whether the diameter was. limits : that the bore is judged by"""

    def opened_since(before: Reading) -> bool:
        bore = bore_at20(job, head, before, before.at, "bore", before.value, Findings())
        small = limits is not None and limits.verdict(bore.value) == REWORK
        return small or _set_anew_since(cut, before)

    return _again((cut.bore_a, cut.bore_b, cut.bore_low_a, cut.bore_low_b), opened_since)


def depth_again(cut: CutReadings, depth: Depth | None) -> bool:
    """Whether the depth was. depth : that is wanted"""

    def deepened_since(before: Reading) -> bool:
        return depth is not None and before.value < depth.least.value

    return _again((cut.depth_a, cut.depth_b, cut.depth_c, cut.depth_d), deepened_since)


def _again(cells: Iterable[Reading | None], cut_since: Callable[[Reading], bool]) -> bool:
    return any(
        cell.count > 1 or (cell.earlier and not cut_since(cell.earlier[0])) for cell in cells if cell is not None
    )


def _set_anew_since(cut: CutReadings, before: Reading) -> bool:
    """Whether the cutter was set to another reading after a bore was measured."""
    read = cut.read
    if read is None or (read.date or "") <= (before.date or ""):
        return False
    return not read.earlier or read.earlier[0].value != read.value
