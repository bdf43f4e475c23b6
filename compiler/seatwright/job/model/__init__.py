"""The job as the compiler understands it: one typed value for every figure, each with the place where it was typed.

Lengths are in mm, angles in degrees from the plane square to the stem, temperatures in °C, forces in N, pressures and
stiffness in MPa, torque in N·m, speeds in rpm, m/min and mm/rev, expansions per °C, times in s. None means: not given.
What a figure defaults to, if anything, is the business of planning, which says so in a notice.
"""

from seatwright.job.model.head import (
    CutReadings,
    Engine,
    Finished,
    ForceAt,
    GuideStand,
    GuideWish,
    Head,
    Hole,
    InsertWish,
    Job,
    LeftShelf,
    Measured,
    NotCounted,
    OfEngine,
    Overridden,
    Place,
    PocketSize,
    Replacement,
    Skim,
    Spacing,
    Specification,
    Stand,
    Trial,
    Valve,
)
from seatwright.job.model.shop import (
    Assembly,
    BoreGauge,
    Chill,
    Cutter,
    Dated,
    ExpansionLine,
    Gauge,
    Insert,
    InterferenceLine,
    Leak,
    Machine,
    Master,
    Material,
    OvercutLine,
    Pieces,
    Pilot,
    Practice,
    Reamer,
    Shop,
    SpreadLine,
    Stated,
    StockGuide,
    standing_masters,
)
from seatwright.job.model.values import Extra, Given, Limits, Named, Note, NotUsed, Reading, SizeName, Spread
