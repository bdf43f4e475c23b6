"""Spindle speed, feed, time: what the machine has, not faster than the shop or a table allows."""

from __future__ import annotations

from msgspec import Struct
from msgspec.structs import replace

from seatwright.handbook import cutting
from seatwright.handbook import speeds as tables
from seatwright.job.model import Cutter, Given, Head, Job, Machine
from seatwright.planning.basis.findings import Findings
from seatwright.planning.plan import InSetting, Setting, Timed, into
from seatwright.planning.plan.figure import Figure, assumed, computed, given


class _Feed(Struct, frozen=True):
    figure: Figure
    by_hand: bool


def speeds(
    job: Job, head: Head, plans: tuple[InSetting, ...], settings: tuple[Setting, ...], findings: Findings
) -> tuple[tuple[Timed, ...], tuple[Setting, ...]]:
    """Fill speed, feed and time of every setting of this head and of the valves that it serves.

    All valves of a setting are bored at one speed: that for its aim.
    """
    done = []
    served = {plan.name: into(Timed, plan) for plan in plans}
    for setting in settings:
        if setting.head != head.number:
            done.append(setting)
            continue
        cutter = next(each for each in job.shop.cutters if each.name.text == setting.cutter)
        rpm = _spindle_speed(job, head, cutter, setting, findings)
        feed = _feed(job, setting, findings)
        done.append(replace(setting, rpm=rpm, feed_mm_rev=feed.figure if feed else None))
        for name in setting.valves:
            served[name] = _timed(served[name], setting, rpm, feed, findings)
    return tuple(served[plan.name] for plan in plans), tuple(done)


def minutes_to_bore(job: Job, head: Head, plan: Timed, cutter: Cutter, aim: Figure) -> Figure | None:
    """The time that a bore is planned to take which stands in no setting any more [min]; None where it is not known."""
    alone = Setting("", 0, head.number, cutter.name.text, None, None, aim, aim, aim, (plan.name,), None)
    said_before = Findings()
    rpm = _spindle_speed(job, head, cutter, alone, said_before)
    return _timed(plan, alone, rpm, _feed(job, alone, said_before), said_before).minutes


def machine_feeds_below(machine: Machine | None, feed: float) -> tuple[float, ...]:
    """Feeds smaller than this one that the machine has [mm/rev], the largest first.

    A stepless feed, or one by hand, is tried at three quarters, a half and a quarter.
    """
    if machine is None or machine.feeds_by_hand is not None or machine.feeds_stepless or not machine.feeds:
        least = machine.feeds[0].value if machine and machine.feeds_stepless and machine.feeds else 0.0
        return tuple(part * feed for part in (0.75, 0.5, 0.25) if part * feed >= least)
    return tuple(sorted((step.value for step in machine.feeds if step.value < feed), reverse=True))


def _spindle_speed(job: Job, head: Head, cutter: Cutter, setting: Setting, findings: Findings) -> Figure | None:
    wanted = _wanted(job, head, cutter, setting, findings)
    machine = job.machine
    if machine is None or not machine.speeds:
        name = f'machine "{machine.name.text}"' if machine else "machine"
        findings.unchecked(
            "machine-speeds",
            f"No speed was chosen: the {name} has no `speeds` in the shop file.",
            "Write them, such as `speeds 35 50 70 rpm` or `speeds 30 to 400 rpm`.",
            machine.name.span if machine else None,
            setting.valves,
        )
        return None
    if wanted is None:
        return None
    steps = [step.value for step in machine.speeds]
    if machine.speeds_stepless:
        chosen = cutting.machine_range(wanted.value, steps[0], steps[-1])
    else:
        chosen = cutting.machine_step(wanted.value, steps)
    if chosen.below_lowest:
        findings.warning(
            "speed-lowest",
            f"Setting {setting.name} wants {wanted.value:.0f} rpm or less, and the lowest speed of the machine is "
            f"{chosen.step:g} rpm.",
            "Take the lowest, a light cut and a sharp tip; look for chatter, or bore on a slower machine.",
            machine.speeds[0].span,
            setting.valves,
        )
    if machine.speeds_stepless:
        limit = given(
            "n_lowest" if chosen.below_lowest else "n_most", "rpm", machine.speeds[0 if chosen.below_lowest else -1]
        )
        inputs = [wanted, limit]
    else:
        step = next(step for step in machine.speeds if step.value == chosen.step)
        inputs = [wanted, given("n_step", "rpm", step)]
    formula = f"lowest speed of the machine, {inputs[1].symbol}" if chosen.below_lowest else (
        "min(n_wanted, n_most)" if machine.speeds_stepless else "largest step n_step <= n_wanted"
    )  # fmt: skip
    return computed("rpm", "rpm", chosen.step, formula, inputs, "handbook 8")


def _wanted(job: Job, head: Head, cutter: Cutter, setting: Setting, findings: Findings) -> Figure | None:
    """The fastest that the surface speed and the shop's top speed allow."""
    practice = job.shop.practice
    top = given("n_top", "rpm", practice.top_speed) if practice.top_speed else None
    surface = _surface_speed(job, head, cutter, setting, findings)
    if surface is None:
        return top
    n = cutting.spindle_speed(surface.value, setting.aim.value)
    by_surface = computed("n_v", "rpm", n, "1000 * v / (pi * D)", (surface, setting.aim.called("D")), "handbook 8")
    if top is None:
        return by_surface.called("n_wanted")
    return computed("n_wanted", "rpm", min(n, top.value), "min(n_v, n_top)", (by_surface, top), "handbook 8")


def _surface_speed(job: Job, head: Head, cutter: Cutter, setting: Setting, findings: Findings) -> Figure | None:
    practice = job.shop.practice
    if practice.surface_speed is not None:
        return given("v", "m/min", practice.surface_speed)
    material = head.material.name if head.material else ""
    tip = cutter.tip.text if cutter.tip else ""
    row = tables.built_in_speed(material, tip)
    if row is None:
        what = f"{material or 'a head of unknown material'} with {tip or 'a tip of unknown kind'}"
        if practice.top_speed is not None:
            then = f"the speed goes by the shop's top speed of {practice.top_speed.typed} alone."
        else:
            then = "no speed was chosen."
        findings.unchecked(
            "surface-speed",
            f"No surface speed is given, and none is built in for {what}: {then}",
            "Write `surface-speed` under `practice`.",
            cutter.name.span,
            setting.valves,
        )
        return None
    findings.notice(
        "surface-speed-built-in",
        f"The surface speed of {row.speed:.1f} m/min for {material} with a {tip} tip is built in: {row.source}.",
        "It is a general table, not one for a cutter on a long pilot. Write the shop's own `surface-speed` or "
        "`top-speed` under `practice`.",
        None,
        setting.valves,
    )
    return assumed("v", "m/min", row.speed, row.source)


def _feed(job: Job, setting: Setting, findings: Findings) -> _Feed | None:
    machine, wish = job.machine, job.shop.practice.feed
    if wish is None:
        findings.unchecked(
            "feed",
            "No feed was chosen, and no time or torque computed: `practice` names no `feed`.",
            "Write it, such as `feed 0.10 mm/rev`.",
            None,
            setting.valves,
        )
        return None
    wanted = given("f_wanted", "mm/rev", wish)
    if machine is not None and machine.feeds_by_hand is not None:
        return _Feed(wanted.called("f"), True)
    if machine is None or not machine.feeds:
        findings.unchecked(
            "machine-feeds",
            "No feed was chosen, and no time or torque computed: the machine has no `feeds` in the shop file.",
            "Write `feeds 0.05 0.10 mm/rev`, or `feeds hand`.",
            machine.name.span if machine else None,
            setting.valves,
        )
        return None
    steps = [step.value for step in machine.feeds]
    if machine.feeds_stepless:
        chosen = cutting.machine_range(wish.value, steps[0], steps[-1])
    else:
        chosen = cutting.machine_step(wish.value, steps)
    if chosen.below_lowest:
        findings.warning(
            "feed-lowest",
            f"The shop's feed is {wish.typed}, and the finest feed of the machine is {machine.feeds[0].typed}.",
            "Take the finest, or feed by hand.",
            machine.feeds[0].span,
            setting.valves,
        )
    return _Feed(_feed_figure(machine, wanted, chosen), False)


def _feed_figure(machine: Machine, wanted: Figure, chosen: cutting.MachineStep) -> Figure:
    def at(place: int) -> Given:
        return machine.feeds[place]

    if machine.feeds_stepless:
        formula = "f_limit" if chosen.below_lowest else "min(f_wanted, f_limit)"
        limit = at(0) if chosen.below_lowest else at(-1)
        return computed("f", "mm/rev", chosen.step, formula, (wanted, given("f_limit", "mm/rev", limit)), "handbook 8")
    step = given("f_step", "mm/rev", next(step for step in machine.feeds if step.value == chosen.step))
    formula = "finest feed f_step" if chosen.below_lowest else "largest step f_step <= f_wanted"
    return computed("f", "mm/rev", chosen.step, formula, (wanted, step), "handbook 8")


def _timed(plan: Timed, setting: Setting, rpm: Figure | None, feed: _Feed | None, findings: Findings) -> Timed:
    plan = replace(plan, rpm=rpm, feed_mm_rev=feed.figure if feed else None)
    if rpm is not None:
        v = cutting.surface_speed(rpm.value, setting.aim.value)
        diameter = setting.aim.called("D")
        plan = replace(
            plan,
            surface_speed_m_min=computed("v_cut", "m/min", v, "pi * D * rpm / 1000", (diameter, rpm), "handbook 8"),
        )
    if feed is None or plan.depth is None:
        return plan
    if plan.depth.from_ == "floor":
        findings.unchecked(
            "time-from-floor",
            "The time of the cut was not computed: depths are measured from the old floor, and how far the cutter "
            "travels to it is not known.",
            "Write `depth-from rim` and the pocket's depth where the rim is flat.",
            None,
            (plan.name,),
        )
        return plan
    return _with_time(plan, rpm, feed, plan.depth.aim)


def _with_time(plan: Timed, rpm: Figure | None, feed: _Feed, depth: Figure) -> Timed:
    passes = max(len(plan.passes), 1)
    dwell = assumed("dwell", "turns", cutting.DWELL_TURNS, "three turns on the floor, common practice")
    t = depth.called("t")
    count = f"{passes} * " if passes > 1 else ""
    each = plan.passes if passes > 1 else ()
    if feed.by_hand:
        turns = passes * cutting.turns(depth.value, feed.figure.value)
        formula = f"{count}(t / f + dwell)"
        return replace(
            plan, turns=computed("turns", "turns", turns, formula, (t, feed.figure, dwell, *each), "handbook 8")
        )
    if rpm is None:
        return plan
    minutes = passes * cutting.boring_minutes(depth.value, feed.figure.value, rpm.value)
    formula = f"{count}(t / f + dwell) / rpm"
    return replace(
        plan, minutes=computed("minutes", "min", minutes, formula, (t, feed.figure, dwell, rpm, *each), "handbook 8")
    )
