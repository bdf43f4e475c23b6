"""The plan: all that was decided and computed for a job. Names are those of plan.json.

A field that holds None was not computed or does not concern the job; it is left out of plan.json. A `Figure` is written
as its value, six decimals.
"""

from __future__ import annotations

from seatwright.planning.plan.cut import CutPlan, FinishedPlan, IfBig, Waits
from seatwright.planning.plan.fit import AssemblyPlan, Fit, HeatAndChill
from seatwright.planning.plan.found import At20, PilotPlan, Position, Renewed
from seatwright.planning.plan.guide import GuideBore, GuideFit, GuideHole, GuidePlan, SpringPlan
from seatwright.planning.plan.machine import Correction, DepthStop, FirstCut, Overcut, PassBelow, Setting, TrialPlan
from seatwright.planning.plan.pocket import (
    Between,
    Bore,
    Bridge,
    CleanUp,
    Depth,
    InsertPlan,
    Interference,
    MakersPocket,
    Next,
    Order,
    PassedOver,
)
from seatwright.planning.plan.seat import Edges, HeightLimits, SeatCut, SeatPlan
from seatwright.planning.plan.valve import (
    Assembled,
    Closed,
    Fitted,
    Found,
    Guided,
    Hold,
    InSetting,
    Judged,
    Machined,
    Passed,
    Phase,
    Piloted,
    Pocketed,
    Seated,
    Sprung,
    Started,
    Status,
    Stood,
    Timed,
    ValvePlan,
    into,
)
from seatwright.planning.plan.whole import Caution, Fetch, FetchChill, FetchInsert, Plan
