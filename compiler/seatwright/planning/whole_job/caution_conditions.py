"""When a caution is called for: conditions on the job, each giving the valves concerned."""

from __future__ import annotations

from collections.abc import Callable

from msgspec import Struct

from seatwright.job.model import Head, Job, Material
from seatwright.planning.plan import AssemblyPlan, Bridge, ValvePlan

BURNS_FROM = 40.0
"""A head warmer than this is handled as hot [°C]; common practice, no printed source."""

_NEAR_LIMIT = 0.5
"""A bridge or floor that is left less than this above its limit counts as thin [mm]; common practice, no source."""

DRY_FUELS = frozenset({"natural gas", "propane", "biogas", "hydrogen", "alcohol"})

Whom = tuple[str, ...] | None
"""Valves that a caution concerns: () for all of the job, None where the job does not call for it."""


def ways_in(plan: ValvePlan) -> tuple[AssemblyPlan, ...]:
    """How the insert and the guide of a valve go in, those of them that do and for which a way was chosen."""
    return tuple(way for way in (plan.assembly, plan.guide.assembly) if way is not None)


class Work(Struct, frozen=True):
    """What the conditions look at."""

    job: Job
    plans: tuple[ValvePlan, ...]
    bridges: tuple[Bridge, ...]

    def head(self, plan: ValvePlan) -> Head:
        """The head that a valve stands in."""
        return next(head for head in self.job.heads if head.number == plan.head)

    @property
    def bored(self) -> tuple[ValvePlan, ...]:
        """Valves whose pocket is bored, those on hold too: a hold may be lifted while the cards hang."""
        return tuple(plan for plan in self.plans if plan.bore is not None)

    @property
    def fitted(self) -> tuple[ValvePlan, ...]:
        """Valves that get an insert."""
        return tuple(plan for plan in self.plans if plan.gets_insert)

    @property
    def heated(self) -> tuple[ValvePlan, ...]:
        """Valves for whose insert or guide the head is heated; all that get an insert where the shop has an oven and
        no way is chosen yet."""
        ways = [(plan, found) for plan in self.plans if (found := ways_in(plan))]
        if ways:
            return tuple(plan for plan, found in ways if any(way.head_C.value > BURNS_FROM for way in found))
        return self.fitted if self.job.shop.assembly.oven is not None else ()

    def chilled(self, words: tuple[str, ...], coldest: float, warmest: float) -> tuple[ValvePlan, ...]:
        """Valves whose insert is chilled by a substance of these words, or between these temperatures [°C]."""
        names = {
            chill.name
            for chill in self.job.shop.assembly.chills
            if any(word in chill.name.casefold() for word in words) or coldest <= chill.temperature.value <= warmest
        }
        ways = [(plan, found) for plan in self.plans if (found := ways_in(plan))]
        if ways:
            return tuple(plan for plan, found in ways if any(way.chill in names for way in found))
        return self.fitted if names else ()

    def alloy(self, plan: ValvePlan) -> Material | None:
        """The alloy of the insert that goes in."""
        return self._named(plan.insert.alloy if plan.insert else None)

    def with_hazard(self, word: str) -> tuple[ValvePlan, ...]:
        """Valves whose insert or head holds a substance, or the guide that goes in."""
        found = []
        for plan in self.plans:
            parts = (self.alloy(plan), self.head(plan).material) if plan.gets_insert else ()
            guide = self._named(plan.guide.alloy) if plan.guide_to_renew else None
            if word in {part.hazard.text for part in (*parts, guide) if part and part.hazard}:
                found.append(plan)
        return tuple(found)

    def _named(self, alloy: str | None) -> Material | None:
        return next((one for one in self.job.shop.alloys if one.name == alloy), None)


# --- conditions: () for the whole job, names where only some valves are concerned, None where none is -----------------


def always(work: Work) -> Whom:
    """Every job."""
    return ()


def when(plans: Callable[[Work], tuple[ValvePlan, ...]]) -> Callable[[Work], Whom]:
    """The valves named, or the whole job where it is every valve of it, or not at all."""

    def whom(work: Work) -> Whom:
        concerned = plans(work)
        if not concerned:
            return None
        return () if len(concerned) == len(work.plans) else tuple(plan.name for plan in concerned)

    return whom


def sodium(work: Work) -> tuple[ValvePlan, ...]:
    """Valves that hold sodium."""
    return tuple(plan for plan in work.plans if plan.valve.specification.sodium_filled)


def old_inserts(work: Work) -> tuple[ValvePlan, ...]:
    """Valves whose old insert comes out."""
    return tuple(plan for plan in work.fitted if plan.valve.specification.seat_integral is None)


def bored_in(word: str) -> Callable[[Work], tuple[ValvePlan, ...]]:
    """Valves bored in a metal with this word in its name."""

    def plans(work: Work) -> tuple[ValvePlan, ...]:
        materials = {plan.name: work.head(plan).material for plan in work.bored}
        return tuple(plan for plan in work.bored if word in getattr(materials[plan.name], "name", ""))

    return plans


def heated_aluminium(work: Work) -> tuple[ValvePlan, ...]:
    """Aluminium gives way when it is held hot."""
    return tuple(plan for plan in work.heated if "aluminium" in getattr(work.head(plan).material, "name", ""))


def dry_ice(work: Work) -> tuple[ValvePlan, ...]:
    """Valves whose insert goes into dry ice."""
    return work.chilled(("dry ice", "dry-ice", "co2", "carbon dioxide"), -85.0, -65.0)


def nitrogen(work: Work) -> tuple[ValvePlan, ...]:
    """Valves whose insert goes into liquid nitrogen."""
    return work.chilled(("nitrogen",), -273.15, -150.0)


def dry_ice_by_aluminium(work: Work) -> tuple[ValvePlan, ...]:
    """Dry ice beside a bored aluminium head."""
    return tuple(plan for plan in dry_ice(work) if "aluminium" in getattr(work.head(plan).material, "name", ""))


def pressed(work: Work) -> tuple[ValvePlan, ...]:
    """Valves whose insert or guide is pushed or pressed in."""
    return tuple(plan for plan in work.plans if any(way.kind != "drop-in" for way in ways_in(plan)))


def thin_bridge(work: Work) -> Whom:
    """Valves on both sides of a bridge that is near its limit."""
    thin = [
        bridge for bridge in work.bridges
        if bridge.least is not None and bridge.left.value < bridge.least.value + _NEAR_LIMIT
    ]  # fmt: skip
    names = {name for bridge in thin for name in bridge.between}
    valves = tuple(plan.name for plan in work.plans if plan.name in names)
    return valves or None


def thin_floor(work: Work) -> tuple[ValvePlan, ...]:
    """Valves with little metal left under the pocket."""
    thin = []
    for plan in work.bored:
        limit = work.head(plan).least_floor
        if plan.floor_left is not None and limit is not None and plan.floor_left.value < limit.value + _NEAR_LIMIT:
            thin.append(plan)
    return tuple(thin)


def floor_unknown(work: Work) -> tuple[ValvePlan, ...]:
    """Valves bored over a floor that nobody measured."""
    return tuple(plan for plan in work.bored if plan.floor_left is None)


def stay_in_heated_head(work: Work) -> Whom:
    """Heating one head loosens what stays in it: left alone, kept as it is, or only named as a neighbour."""
    heated = {plan.head for plan in work.heated}
    stay = [plan.name for plan in work.plans if plan.head in heated and not plan.gets_insert]
    stay += [valve.name for head in work.job.heads if head.number in heated for valve in head.neighbours]
    return tuple(stay) or None


def dry_fuel(work: Work) -> tuple[ValvePlan, ...]:
    """Valves in a head that runs on a dry fuel."""

    def is_dry(plan: ValvePlan) -> bool:
        fuel = work.head(plan).fuel
        return fuel is not None and fuel.text in DRY_FUELS

    return tuple(plan for plan in work.fitted if is_dry(plan))
