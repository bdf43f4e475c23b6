"""Torque at the spindle, on the wall and on the floor, against what the machine may be asked for."""

from __future__ import annotations

from collections.abc import Sequence

from msgspec import Struct

from seatwright.handbook import cutting
from seatwright.job.model import Cutter, Head, Job, Material
from seatwright.planning.basis.findings import Findings
from seatwright.planning.basis.wording import listed
from seatwright.planning.machine.speeds import machine_feeds_below
from seatwright.planning.plan import Machined, Timed, into
from seatwright.planning.plan.figure import Figure, assumed, computed, given

THINNEST_CHIP = 0.05
"""Chip below which the published cutting forces say nothing [mm]; see handbook cutting.specific_force."""


class _Cut(Struct, frozen=True):
    """What one valve's torque is computed from."""

    bore: Figure
    throat: Figure
    old: Figure
    tip: Figure
    tips: Figure
    force: Figure
    exponent: Figure
    diameters: tuple[float, ...]

    def at(self, feed: float) -> cutting.WallAndFloor:
        """The largest torque on the wall, and on the floor, of any pass [N·m]."""
        wall, floor, inner = 0.0, 0.0, self.throat.value
        for diameter in self.diameters:
            torque = cutting.wall_and_floor_torque(
                self.force.value,
                self.exponent.value,
                feed,
                round(self.tips.value),
                diameter,
                min(max(self.old.value, inner), diameter),
                inner,
                self.tip.value,
            )
            wall, floor, inner = max(wall, torque.wall), max(floor, torque.floor), diameter
        return cutting.WallAndFloor(wall, floor)


def torque(job: Job, head: Head, plans: tuple[Timed, ...], findings: Findings) -> tuple[Machined, ...]:
    """Fill the torque of every valve that has a feed, and warn where it is over the machine's limit."""
    cutters = {cutter.name.text: cutter for cutter in job.shop.cutters}
    turning = tuple(plan.name for plan in plans if plan.setting is not None and plan.feed_mm_rev is not None)
    if not turning:
        return tuple(into(Machined, plan) for plan in plans)
    limit = job.machine.torque_limit if job.machine else None
    if limit is None:
        findings.unchecked(
            "torque-limit",
            "The torque of the cut was not checked: the machine has no `torque-limit`.",
            "Write what its spindle may be asked for, such as `torque-limit 40 Nm`.",
            job.machine.name.span if job.machine else None,
            turning,
        )
    done = []
    for plan in plans:
        cutter, found = cutters.get(plan.cutter or ""), None
        if plan.setting is not None and plan.feed_mm_rev is not None and cutter is not None:
            cut = _cut(head, plan, cutter, findings)
            found = None if cut is None else _torque(job, plan, cut, plan.feed_mm_rev, findings)
        done.append(into(Machined, plan, torque_Nm=found))
    return tuple(done)


def _cut(head: Head, plan: Timed, cutter: Cutter, findings: Findings) -> _Cut | None:
    material = head.material
    if material is None or material.cutting_force is None or material.cutting_exponent is None:
        name = material.name if material else "the head's material"
        _not_computed(plan, findings, f"the cutting force of {name} is not known", "Give it as `cutting-force`.")
        return None
    throat, bore = plan.at20.throat, plan.bore
    old = throat if plan.valve.specification.seat_integral is not None else plan.at20.pocket
    missing = [
        what
        for what, figure in (("the throat", throat), ("the old pocket", old), ("the tip's width", cutter.tip_width))
        if figure is None
    ]
    if throat is None or old is None or cutter.tip_width is None or bore is None:
        _not_computed(plan, findings, f"{listed(missing)} is not given", "Measure it, or write it under the cutter.")
        return None
    if throat.value >= bore.aim.value:
        return None
    aim = plan.passes[-1] if plan.passes else bore.aim
    diameters = tuple(each.value for each in plan.passes) or (aim.value,)
    tip = given("tip_width", "mm", cutter.tip_width)
    _say_built_in(material, plan, findings)
    return _Cut(
        aim.called("D"),
        throat.called("D_throat"),
        old.called("D_old"),
        tip,
        _tips(cutter, plan, findings),
        given("kc", "MPa", material.cutting_force),
        given("m", "1", material.cutting_exponent),
        diameters,
    )


def _torque(job: Job, plan: Timed, cut: _Cut, feed: Figure, findings: Findings) -> Figure | None:
    chip = feed.value / cut.tips.value
    if not THINNEST_CHIP - 1e-9 <= chip <= 1.0:
        _not_computed(
            plan,
            findings,
            f"the chip of a tip is {chip:.3f} mm thick, and the published forces hold from {THINNEST_CHIP:g} to 1 mm",
            "Take the torque as not checked: a light feed asks for little, but rubs.",
        )
        return None
    found = cut.at(feed.value)
    f, floor_counts = feed.called("f"), found.floor >= found.wall
    inner, formula = (
        (cut.throat, "min((D - D_throat) / 2, tip_width)") if floor_counts else (cut.old, "(D - D_old) / 2")
    )
    inputs = [cut.force, cut.exponent, f, cut.tips, cut.bore, inner, cut.tip]
    if len(cut.diameters) > 1:
        inputs += plan.passes[:-1]
    each = " of the heaviest pass" if len(cut.diameters) > 1 else ""
    where = "floor" if floor_counts else "wall"
    figure = computed(
        "M",
        "Nm",
        found.larger,
        f"tips * kc * b * (f / tips)^(1 - m) * (D - b) / 2000, b = {formula}{each}",
        inputs,
        f"handbook 8, {cut.force.origin.source if cut.force.origin else ''}",
        f"on the {where}",
    )
    _check(job, plan, cut, figure, feed, where, findings)
    return figure


def _check(job: Job, plan: Timed, cut: _Cut, torque: Figure, feed: Figure, where: str, findings: Findings) -> None:
    limit = job.machine.torque_limit if job.machine else None
    if limit is None or torque.value <= limit.value:
        return
    smaller = [
        (each, cut.at(each).larger)
        for each in machine_feeds_below(job.machine, feed.value)
        if each / cut.tips.value >= THINNEST_CHIP - 1e-9
    ]
    enough = [(each, asked) for each, asked in smaller if asked <= limit.value]
    findings.warning(
        "torque-over-limit",
        f"The cut asks for {torque.value:.1f} Nm on the {where} at {feed.value:g} mm/rev, and the "
        f"machine's limit is {limit.typed}.",
        _suggestion(enough, smaller),
        limit.span,
        (plan.name,),
    )


def _suggestion(enough: Sequence[tuple[float, float]], smaller: Sequence[tuple[float, float]]) -> str:
    if enough:
        feed, asked = enough[0]
        return f"Feed {feed:g} mm/rev: that asks for {asked:.1f} Nm."
    if smaller:
        feed, asked = smaller[-1]
        known = f"Even {feed:g} mm/rev asks for {asked:.1f} Nm"
    else:
        known = "No smaller feed is known to do"
    return f"{known}: take a narrower tip in several passes, or a stronger machine."


def _tips(cutter: Cutter, plan: Timed, findings: Findings) -> Figure:
    if cutter.tips is not None:
        return given("tips", "1", cutter.tips)
    findings.notice(
        "tips-left-out",
        f"How many tips {cutter.name.text} has is left out: one.",
        "Write `tips 1`, or how many there are.",
        cutter.name.span,
        (plan.name,),
    )
    return assumed("tips", "1", 1.0, "language: tips left out")


def _say_built_in(material: Material, plan: Timed, findings: Findings) -> None:
    force = material.cutting_force
    if force is not None and force.given is None:
        findings.notice(
            "cutting-force-built-in",
            f"The cutting force of {material.name}, {force.value:g} MPa, is built in: {force.source}.",
            f"Harder castings ask for more. Give `cutting-force` under `material {material.name}` where it is known.",
            None,
            (plan.name,),
        )


def _not_computed(plan: Timed, findings: Findings, why: str, help: str) -> None:
    findings.unchecked(
        "torque-not-computed", f"The torque of the cut was not computed: {why}.", help, None, (plan.name,)
    )
