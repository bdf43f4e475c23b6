"""One valve, a record for each phase of planning: every phase holds what those before it found, and what it finds.

A stage says which phase it needs and which it gives, so that a stage in the wrong place is an error of types.
"""

from __future__ import annotations

from enum import StrEnum
from typing import Any, Self, TypeVar

from msgspec import Struct
from msgspec.structs import astuple, replace

from seatwright.job.model import Measured, Valve
from seatwright.planning.plan.cut import CutPlan, FinishedPlan, IfBig, Waits
from seatwright.planning.plan.figure import Figure
from seatwright.planning.plan.fit import AssemblyPlan, Fit
from seatwright.planning.plan.found import At20, PilotPlan, Position, Renewed
from seatwright.planning.plan.guide import GuidePlan, SpringPlan
from seatwright.planning.plan.pocket import Bore, CleanUp, Depth, InsertPlan, Interference, MakersPocket, Next, Order
from seatwright.planning.plan.seat import HeightLimits, SeatPlan


class Status(StrEnum):
    """How a valve stands, by the words of the cards; its value is the word of plan.json."""

    TO_BORE = "to-bore"
    GUIDE_FIRST = "guide-first"  # its guide is renewed, and the new one not measured yet
    HOLD = "hold"
    ACCEPTED = "accepted"
    MEASURE_AGAIN = "measure-again"
    BORE_AGAIN = "bore-again"
    OVERSIZE = "oversize"
    FINISHED = "finished"
    LEFT_ALONE = "left-alone"
    NOT_PLANNED = "not-planned"
    KEPT = "kept"
    TO_CUT = "to-cut"  # its insert stays, and its seat is cut again


class Hold(Struct, frozen=True):
    """Why a valve cannot be cut: slug, what is wrong with the figures, what would lift it, the figure behind it."""

    slug: str
    text: str
    help: str
    figure: Figure | None = None
    limit: Figure | None = None


class Started(Struct, frozen=True):
    """A valve as planning begins. valve: as the job gave it. head: number of its head.

    replaced: what was renewed on it, by day. insert_was: how the old insert was found, in the words of the language.
    """

    name: str
    head: int
    kind: str
    status: Status
    valve: Valve
    found: Measured
    at20: At20
    notes: tuple[str, ...] = ()
    replaced: tuple[Renewed, ...] = ()
    insert_was: str | None = None
    position: Position | None = None
    valve_tilt: Figure | None = None
    holds: tuple[Hold, ...] = ()

    @property
    def left_alone(self) -> bool:
        """Whether nothing is planned here: no insert is asked for, or none wanted. A hold does not change that."""
        wish = self.valve.specification.insert
        return wish is None or wish.kind == "none"

    @property
    def insert_stays(self) -> bool:
        """Whether the insert that is in stays, or the casting's own seat, and only its seat is cut again."""
        wish = self.valve.specification.insert
        return wish is not None and wish.kind == "stays"

    @property
    def gets_insert(self) -> bool:
        """Whether an insert is to go in."""
        return not self.left_alone and not self.insert_stays

    @property
    def turned(self) -> bool:
        """Whether a blank is to be turned for it."""
        wish = self.valve.specification.insert
        return wish is not None and wish.kind == "turned"

    @property
    def guide_to_renew(self) -> bool:
        """Whether another guide is asked for, and nobody wrote that it is in."""
        wish = self.valve.specification.guide
        return wish is not None and wish.renews and not self.guide_renewed

    @property
    def guide_renewed(self) -> bool:
        """Whether another guide is in, by a `replaced` row."""
        return any(one.part == "guide" for one in self.valve.replaced)

    @property
    def waits_for_guide(self) -> bool:
        """Whether nothing is planned of its pocket, since its guide is still to be renewed, or to be measured since.

        One that was bored before stays as it was cut.
        """
        found = self.valve.measured
        measured = any((found.guide_top, found.guide_middle, found.guide_bottom))
        return self.valve.cut is None and (self.guide_to_renew or (self.guide_renewed and not measured))

    def on_hold(self, holds: tuple[Hold, ...]) -> Self:
        """The valve with its holds; with any, whatever it else stands at, it is on hold."""
        return replace(self, holds=holds, status=Status.HOLD) if holds else self


class Guided(Started, frozen=True):
    """Its guide is judged."""

    guide: GuidePlan = GuidePlan("not-checked")


class Piloted(Guided, frozen=True):
    """Its pilot is chosen."""

    pilot: PilotPlan | None = None


class Found(Piloted, frozen=True):
    """What its new pocket has to clean up is known. found_size: the maker's size that the pocket had when found."""

    clean_up: CleanUp | None = None
    found_size: str | None = None


class Pocketed(Found, frozen=True):
    """Its insert is chosen, its bore and depth follow."""

    maker: MakersPocket | None = None
    insert: InsertPlan | None = None
    next: Next | None = None
    interference: Interference | None = None
    bore: Bore | None = None
    depth: Depth | None = None
    floor_left: Figure | None = None
    ledge: Figure | None = None
    cutter: str | None = None
    corner_radius: Figure | None = None
    order: Order | None = None

    @property
    def kept(self) -> bool:
        """Whether its insert goes into the pocket as found, without a bore. A hold does not change that."""
        return self.insert is not None and self.bore is None


class Seated(Pocketed, frozen=True):
    """Its seat is planned."""

    seat: SeatPlan | None = None


class Stood(Seated, frozen=True):
    """How its insert is to stand is known. stand: of the insert's face below its depth face, proud negative."""

    stand: HeightLimits | None = None


class Sprung(Stood, frozen=True):
    """What force its spring will have is known."""

    spring: SpringPlan | None = None


class Judged(Sprung, frozen=True):
    """Its bore, where it was cut, is judged."""

    cut: CutPlan | None = None
    if_big: tuple[IfBig, ...] = ()
    waits: Waits | None = None


class Closed(Judged, frozen=True):
    """What was measured of it when finished is judged."""

    finished: FinishedPlan | None = None


class Passed(Closed, frozen=True):
    """The passes to its bore are known."""

    passes: tuple[Figure, ...] = ()


class InSetting(Passed, frozen=True):
    """It stands in a setting of its cutter."""

    setting: int | None = None
    depth_stop: int | None = None
    trial_here: bool | None = None


class Timed(InSetting, frozen=True):
    """Its speed and feed are known."""

    rpm: Figure | None = None
    surface_speed_m_min: Figure | None = None
    feed_mm_rev: Figure | None = None
    minutes: Figure | None = None
    turns: Figure | None = None


class Machined(Timed, frozen=True):
    """Its torque too: all that the machine is asked for."""

    torque_Nm: Figure | None = None


class Fitted(Machined, frozen=True):
    """The stresses of its fit are known."""

    fit: Fit | None = None


class Assembled(Fitted, frozen=True):
    """How its insert goes in is known."""

    assembly: AssemblyPlan | None = None


class ValvePlan(Assembled, frozen=True):
    """Everything decided for one valve, and how sure it is: what cards and commands read."""


Phase = TypeVar("Phase", bound=Started)


def into(phase: type[Phase], plan: Started, **found: Any) -> Phase:
    """The valve in a later phase, with what was found in it."""
    # The fields of a phase are those of the phase before, in that order, and then its own.
    return replace(phase(*astuple(plan)), **found)
