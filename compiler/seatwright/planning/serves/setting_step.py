"""Whether the setting gauge can still be set inside a window of bores that the clean-up has cut off (handbook 4a)."""

from __future__ import annotations

from seatwright.handbook.bore_windows import serving_window
from seatwright.handbook.setting import reading
from seatwright.job.model import Cutter, Head, Job
from seatwright.planning.basis.findings import Findings
from seatwright.planning.basis.masters import gauge_error
from seatwright.planning.basis.overcut import of_cutter, overcut, trials
from seatwright.planning.certainty import budgets
from seatwright.planning.certainty.uncertainty import guard_of
from seatwright.planning.certainty.windows import Gauging, gauging
from seatwright.planning.plan import Overcut, Started
from seatwright.planning.plan.figure import Figure, assumed


class SettingGauge:
    """The setting gauge under one head. What there is to say of it is said when the cutter is set."""

    def __init__(self, job: Job, head: Head) -> None:
        self.job, self.head = job, head
        self.trials = trials(job, head, Findings())

    def sure(self, plan: Started, aim: Figure, cutter: Cutter | None) -> tuple[Figure, Figure] | None:
        """Guard and planning uncertainty of a bore; None where they are not known."""
        if cutter is None:
            return None
        made = of_cutter(self.trials, cutter)
        u = budgets.planned_uncertainty(self.job, self.head, plan.name, aim, cutter, made, Findings())
        return None if u is None else (guard_of(self.job, Findings()), u)

    def can_be_set(
        self, fit: tuple[float, float], needed: float, drawn: float, aim: Figure, cutter: Cutter | None
    ) -> bool:
        """Whether a whole step of the gauge lies where the bore cleans up and the fit is sure.

        fit : bores that fit and maker allow [mm]
        needed : D_clean [mm]
        drawn : what each end is drawn in by, guard times the planning uncertainty [mm]
        """
        at = self._gauging(cutter)
        wrong = None if self.job.gauge is None else gauge_error(self.job, self.job.gauge, at.bench(aim), Findings(), ())
        shown_wrong = 0.0 if wrong is None else wrong.value
        shift = reading(at.bench(aim).value, shown_wrong, at.overcut.value.value) - aim.value
        return serving_window(fit, needed, drawn, at.step, None, shift) is not None

    def _gauging(self, cutter: Cutter | None) -> Gauging:
        if cutter is None or self.job.gauge is None:
            bigger = Overcut(assumed("overcut", "mm", 0.0, "no cutter is set"), "shop", 0)
        else:
            bigger = overcut(self.head, cutter, of_cutter(self.trials, cutter), Findings(), ())
        return gauging(self.job, self.head, bigger, Findings())
