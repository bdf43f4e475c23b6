"""What the whole job needs, and the plan itself."""

from __future__ import annotations

from msgspec import Struct, field

from seatwright.job.model import Head, Job
from seatwright.planning.plan.figure import Figure
from seatwright.planning.plan.machine import Setting, TrialPlan
from seatwright.planning.plan.pocket import Bridge, Order
from seatwright.planning.plan.valve import ValvePlan
from seatwright.text import Message


class FetchInsert(Struct, frozen=True):
    """An insert or guide to fetch: how many, and how many stay on the shelf, None where not counted."""

    name: str
    count: int
    left: int | None = None


class FetchChill(Struct, frozen=True):
    """A chill to fetch."""

    name: str
    C: Figure


class Fetch(Struct, frozen=True):
    """What to fetch from the rack for this job."""

    cutters: tuple[str, ...] = ()
    pilots: tuple[str, ...] = ()
    gauge: str | None = None
    bore_gauge: str | None = None
    master: Figure | None = None
    ring: Figure | None = None
    inserts: tuple[FetchInsert, ...] = ()
    guides: tuple[FetchInsert, ...] = ()
    reamers: tuple[str, ...] = ()
    order: tuple[Order, ...] = ()
    heat_C: Figure | None = None
    chill: FetchChill | None = None
    press_N: Figure | None = None


class Caution(Struct, frozen=True):
    """A caution that this job calls for, its valves (() for all) and the steps that it stands beside.

    steps: names of card steps, such as `clean`, `remove`, `bore`, `heat`, `chill`, `press`, `seat`, `test`, `lift`.
    """

    slug: str
    text: str
    agency: str
    valves: tuple[str, ...]
    steps: tuple[str, ...]


class Plan(Struct, frozen=True):
    """The whole plan. valves in the order of the heads; not_checked: slugs of what was not given and so not checked."""

    job: Job
    heads: tuple[Head, ...]
    valves: tuple[ValvePlan, ...]
    settings: tuple[Setting, ...] = ()
    trials: tuple[TrialPlan, ...] = ()
    fewest_settings_proof: tuple[str, ...] = ()
    bridges: tuple[Bridge, ...] = ()
    fetch: Fetch = field(default_factory=Fetch)
    cautions: tuple[Caution, ...] = ()
    not_checked: tuple[str, ...] = ()
    messages: tuple[Message, ...] = ()
