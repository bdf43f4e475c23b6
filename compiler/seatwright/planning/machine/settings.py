"""The fewest settings of each cutter under a head, what the gauge must read for each, and the proof."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from msgspec import Struct
from msgspec.structs import replace

from seatwright.handbook import grouping, setting
from seatwright.handbook.opening import Opening
from seatwright.job.model import Cutter, Head, Job, standing_masters
from seatwright.planning.basis.bore_gauge import shows
from seatwright.planning.basis.check_dates import check_state
from seatwright.planning.basis.findings import Findings
from seatwright.planning.basis.masters import nearest_master
from seatwright.planning.basis.overcut import of_cutter, overcut, trials
from seatwright.planning.basis.verdicts import still_to_bore
from seatwright.planning.basis.wording import span_of
from seatwright.planning.certainty.windows import NO_STEP, Gauging, Window, gauging, windows
from seatwright.planning.machine.depth_stops import depth_stops
from seatwright.planning.machine.depth_zero import (
    corner_error,
    dial_back,
    from_parallel,
    on_parallel,
    parallel_of,
    short_of_depth,
)
from seatwright.planning.machine.first_cut import first_cut
from seatwright.planning.machine.opening import ToOpen, as_set, half_way, moved_of
from seatwright.planning.machine.passes import below_size, shared, with_last_pass
from seatwright.planning.machine.setting_name import setting_name, told_apart
from seatwright.planning.plan import (
    Correction,
    DepthStop,
    FirstCut,
    InSetting,
    Overcut,
    Passed,
    Setting,
    TrialPlan,
    into,
)
from seatwright.planning.plan.figure import Figure, assumed, computed, given

_SOURCE = "handbook 6, 7"


class Settings(Struct, frozen=True):
    """What the stage hands on. plans: with setting, stop, last pass and expected interference filled.

    proof : as many valves as settings, no two of which one setting of one cutter under one head can serve
    openings : what opens each bore that came out small, by valve
    """

    plans: tuple[InSetting, ...]
    settings: tuple[Setting, ...]
    trials: tuple[TrialPlan, ...]
    proof: tuple[str, ...]
    openings: Mapping[str, ToOpen]


class _OfCutter(Struct, frozen=True):
    """All windows of one cutter under one head, and their grouping."""

    cutter: Cutter
    windows: tuple[Window, ...]
    gauging: Gauging
    grouping: grouping.Grouping
    moved: Mapping[str, Opening]


def settings(
    job: Job,
    head: Head,
    plans: tuple[Passed, ...],
    findings: Findings,
    first_number: int,
) -> Settings:
    """Group the bores of a head into the fewest settings of each cutter, numbered upwards from `first_number`.

    A valve on hold is in no setting: nobody is to cut it by mistake. Nor is one whose bore is done.
    """
    made = trials(job, head, findings)
    if job.gauge is None and any(still_to_bore(plan) for plan in plans):
        findings.unchecked(
            "no-setting-gauge",
            "No setting gauge is given: what it must read was not computed, and the cards say what to bore only.",
            'Write it as `gauge "name"` in the shop file.',
            job.span,
            tuple(plan.name for plan in plans if still_to_bore(plan)),
        )
    by_cutter = []
    for cutter in job.shop.cutters:
        bored = [plan for plan in plans if plan.cutter == cutter.name.text and still_to_bore(plan)]
        if bored:
            by_cutter.append(_of_cutter(job, head, bored, cutter, of_cutter(made, cutter), findings))
    by_cutter.sort(key=_smallest_first)

    done = {plan.name: into(InSetting, plan) for plan in plans}
    made_settings: list[Setting] = []
    proof: list[str] = []
    openings: dict[str, ToOpen] = {}
    for each in by_cutter:
        proof += [each.windows[at].plan.name for at in each.grouping.proof]
        for group in each.grouping.groups:
            number = first_number + len(made_settings)
            one, members, to_open = _setting(job, head, each, group, number, findings)
            made_settings.append(replace(one, name=told_apart(one.name, one.valves, made_settings)))
            done.update({plan.name: plan for plan in members})
            openings.update(to_open)
    return Settings(tuple(done[plan.name] for plan in plans), tuple(made_settings), made, tuple(proof), openings)


def _of_cutter(
    job: Job,
    head: Head,
    plans: Sequence[Passed],
    cutter: Cutter,
    made: tuple[TrialPlan, ...],
    findings: Findings,
) -> _OfCutter:
    names = tuple(plan.name for plan in plans)
    gauge = job.gauge
    if gauge is not None:
        bigger = overcut(head, cutter, made, findings, names)
        if gauge.step is None:
            findings.unchecked(
                "gauge-step",
                f'The step of the gauge "{gauge.name.text}" is not given: its readings are not rounded to '
                "what it shows.",
                "Write `step 0.002` under the gauge.",
                gauge.name.span,
                names,
            )
    else:
        bigger = Overcut(assumed("overcut", "mm", 0.0, "no setting gauge"), "shop", 0)
    at_bench = gauging(job, head, bigger, findings)
    found = windows(job, head, plans, cutter, made, at_bench, findings)
    moved = moved_of(found, head, cutter, bigger, job)
    return _OfCutter(cutter, found, at_bench, _grouped(found, moved), moved)


def _grouped(found: Sequence[Window], moved: Mapping[str, Opening]) -> grouping.Grouping:
    """Fewest settings for all windows; where something moved, the bore is opened by half and has one of its own."""
    shared = [at for at, each in enumerate(found) if each.plan.name not in moved]
    alone = [at for at, each in enumerate(found) if each.plan.name in moved]
    made = grouping.fewest_points(
        [(found[at].first, found[at].last) for at in shared], [found[at].aim for at in shared]
    )
    groups = [replace(group, members=tuple(shared[at] for at in group.members)) for group in made.groups]
    for at in alone:
        own = grouping.fewest_points([(found[at].first, found[at].last)], [found[at].aim])
        groups.append(replace(own.groups[0], members=(at,)))
    groups.sort(key=lambda group: group.point)
    return grouping.Grouping(tuple(groups), (*(shared[at] for at in made.proof), *alone))


def _smallest_first(each: _OfCutter) -> tuple[float, str]:
    groups = each.grouping.groups
    return (groups[0].point * each.gauging.step if groups else 0.0, each.cutter.name.text)


def _setting(
    job: Job, head: Head, each: _OfCutter, group: grouping.Group, number: int, findings: Findings
) -> tuple[Setting, tuple[InSetting, ...], dict[str, ToOpen]]:
    members = [each.windows[at] for at in group.members]
    # What the setting is reckoned with is of the bores that are new; of one to be opened alone, what its own cut did.
    fresh = [window for window in members if window.overcut is each.gauging.overcut] or members
    gauge = job.gauge
    alike = [window if window.overcut is fresh[0].overcut else as_set(window, fresh[0].overcut) for window in members]
    least, most = _common(alike)
    wanted = _wanted(alike)
    bench = each.gauging.bench(wanted)
    shown_wrong, bigger = fresh[0].error.called("error"), fresh[0].overcut.value
    step = given("step", "mm", gauge.step) if gauge and gauge.step else None
    if gauge is None:
        reading, aim, correction, left = None, wanted.called("aim"), None, None
    else:
        value = setting.at_step(group.point, each.gauging.step)
        rounded = ", to a whole step inside every window" if step else ""
        terms = (bench, shown_wrong, bigger, *((step,) if step else ()))
        formula = f"{bench.symbol} + error - overcut{rounded}"
        reading = computed("reading", "mm", value, formula, terms, _SOURCE)
        aim, correction = _aim(reading, shown_wrong, bigger, each.gauging)
        left = computed("rounding_left", "mm", aim.value - wanted.value, "aim - D_wanted", (aim, wanted), _SOURCE)
    name = setting_name(job, head, each.cutter.name.text, reading, aim)
    if reading is not None:
        _check_range(job, name, reading, [window.plan.name for window in members], findings)
    aims = {
        window.plan.name: aim if window.overcut is fresh[0].overcut else _own_aim(window, reading, each.gauging, aim)
        for window in members
    }
    # One whose insert may go elsewhere comes last, and has the first cut only where no other pocket is right for it.
    plans = sorted(
        (_served(window, number, aims[window.plan.name]) for window in members),
        key=lambda plan: plan.waits is not None,
    )
    plans = list(shared(plans, each.cutter, aim))
    to_open = {
        window.plan.name: ToOpen(aims[window.plan.name], each.moved.get(window.plan.name))
        for window in members
        if window.overcut is not each.gauging.overcut
    }
    # A bore that is opened from its own cut proves the setting; one that waits is not bored for that.
    new = [plan for plan in plans if plan.name not in to_open and (plan.waits is None or not to_open)]
    if new:
        trial = first_cut(job, name, new, aim, reading, each.gauging.step, findings)
    else:
        trial = half_way(fresh[0], aim, reading, step) if fresh[0].plan.name in each.moved else None
    if trial is not None:
        plans.sort(key=lambda plan: plan.name != trial.valve)
    parallel = parallel_of(job, head)
    stops = on_parallel(depth_stops(job, plans, findings), parallel)
    first = None if trial is None else _short(job, head, trial.first, plans[0], stops, parallel)
    stop_of = {name: stop.number for stop in stops for name in stop.valves}
    master = nearest_master(standing_masters(gauge.masters), (reading or aim).value) if gauge else None
    temperature = each.gauging.conditions.gauge_temperature if each.gauging.conditions else None
    bench_aim = _bench_aim(job, head, aim, findings)
    ring = nearest_master(standing_masters(job.bore_gauge.rings), bench_aim.value) if job.bore_gauge else None
    checked = check_state(gauge, job.day) if gauge and job.day else None
    made = Setting(
        name=name,
        number=number,
        head=head.number,
        cutter=each.cutter.name.text,
        reading=reading,
        reading_unit=None if gauge is None else "in" if gauge.marked == "inch" else "mm",
        aim=aim,
        least=least,
        most=most,
        valves=tuple(plan.name for plan in plans),
        rounding_left=left,
        machine=job.machine.name.text if job.machine else None,
        gauge=gauge.name.text if gauge else None,
        temperature_C=temperature,
        indicator=gauge.indicator.text if gauge and gauge.indicator else None,
        indicator_step=given("indicator_step", "mm", gauge.indicator_step) if gauge and gauge.indicator_step else None,
        master=given("master", "mm", master.size) if master else None,
        master_reads=given("reads", "mm", master.reads) if master else None,
        first=first,
        trial_under=trial.under if trial else None,
        overcut=fresh[0].overcut if gauge else None,
        correction=correction,
        pilots=tuple((plan.name, plan.pilot.name) for plan in plans if plan.pilot and plan.pilot.name),
        depth_stops=stops,
        bench_aim=bench_aim,
        ring=given("ring", "mm", ring.size) if ring else None,
        ring_reads=given("reads", "mm", ring.reads) if ring else None,
        passes=below_size(job, plans, correction, step),
        waits=tuple(plan.name for plan in plans if plan.waits is not None),
        parallel=parallel,
        dial_on_parallel=dial_back(parallel),
        zero_error=corner_error(plans, first.bore if first else aim),
        gauge_checked=checked.checked if checked else None,
        gauge_check_due=checked.due if checked else None,
    )
    return made, tuple(replace(plan, depth_stop=stop_of.get(plan.name)) for plan in plans), to_open


def _short(
    job: Job, head: Head, first: FirstCut, plan: InSetting, stops: Sequence[DepthStop], parallel: Figure | None
) -> FirstCut:
    """The first cut, short of depth too."""
    stop = short_of_depth(job, head, plan, stops)
    return first if stop is None else replace(first, stop=stop, from_parallel=from_parallel(stop, parallel))


def _own_aim(window: Window, reading: Figure | None, gauge: Gauging, aim: Figure) -> Figure:
    """What a bore that is opened at a shared setting comes to, by what its own cut did."""
    return aim if reading is None else _aim(reading, window.error.called("error"), window.overcut.value, gauge)[0]


def _bench_aim(job: Job, head: Head, aim: Figure, findings: Findings) -> Figure:
    """What the bore gauge shows of the aim: the first bore is measured with it, not with the setting gauge."""
    return shows(job, head, aim, "bench_aim", findings)


def _common(members: Sequence[Window]) -> tuple[Figure, Figure]:
    """The bores that all members allow, at 20 °C. One that no step of the gauge fits is served by its trial cut."""
    fitting = [window for window in members if not window.emptied] or list(members)
    least = tuple(window.bore.least.called(f"D_least_{window.plan.name}") for window in fitting)
    most = tuple(window.bore.most.called(f"D_most_{window.plan.name}") for window in fitting)
    low, high = max(figure.value for figure in least), min(figure.value for figure in most)
    if low > high:
        low, high = min(figure.value for figure in least), max(figure.value for figure in most)
        names = ("smallest", "largest")
    else:
        names = ("largest", "smallest")
    return (
        computed("least", "mm", low, f"{names[0]} of ({', '.join(figure.symbol for figure in least)})", least, _SOURCE),
        computed("most", "mm", high, f"{names[1]} of ({', '.join(figure.symbol for figure in most)})", most, _SOURCE),
    )


def _wanted(members: Sequence[Window]) -> Figure:
    """Midway between the outermost aims, where no limit is nearer: there the largest departure is least."""
    aims = tuple(window.bore.aim.called(f"D_{window.plan.name}") for window in members)
    values = [figure.value for figure in aims]
    middle = (min(values) + max(values)) / 2
    fitting = [window for window in members if not window.emptied] or list(members)
    floor = max((window.least for window in fitting), key=lambda figure: figure.value)
    ceiling = min((window.most for window in fitting), key=lambda figure: figure.value)
    listed = ", ".join(figure.symbol for figure in aims)
    formula = aims[0].symbol if len(aims) == 1 else f"midway between the outermost of ({listed})"
    if middle < floor.value <= ceiling.value:
        bound = floor.called("D_least")
        return computed("D_wanted", "mm", floor.value, f"{formula}, not below D_least", (*aims, bound), _SOURCE)
    if middle > ceiling.value >= floor.value:
        bound = ceiling.called("D_most")
        return computed("D_wanted", "mm", ceiling.value, f"{formula}, not above D_most", (*aims, bound), _SOURCE)
    return computed("D_wanted", "mm", middle, formula, aims, _SOURCE)


def _aim(reading: Figure, shown_wrong: Figure, bigger: Figure, gauge: Gauging) -> tuple[Figure, Correction]:
    """The bore at 20 °C that a reading gives, and what makes the reading from it."""
    value = setting.bore_from_reading(reading.value, shown_wrong.value, bigger.value)
    inputs = (reading, shown_wrong, bigger)
    bench = computed("aim_bench", "mm", value, "reading - error + overcut", inputs, _SOURCE)
    minus = computed("overcut_taken_off", "mm", -bigger.value, "-overcut", (bigger,), _SOURCE)
    if gauge.conditions is None:
        none = assumed("temperature", "mm", 0.0, "no temperature given: no correction")
        return bench.called("aim"), Correction(none, shown_wrong, minus)
    aim = gauge.conditions.at20(bench, "aim")
    grown = computed("temperature", "mm", bench.value - aim.value, "aim_bench - aim", (bench, aim), "handbook 0")
    return aim, Correction(grown, shown_wrong, minus)


def _served(window: Window, number: int, aim: Figure) -> InSetting:
    plan = into(
        InSetting,
        window.plan,
        setting=number,
        trial_here=window.emptied,
        passes=with_last_pass(window.plan.passes, aim),
    )
    od = plan.insert.od if plan.insert else None
    if plan.interference is None or od is None:
        return plan
    inputs = (od.called("od"), aim)
    expected = computed("I_expected", "mm", od.value - aim.value, "od - aim", inputs, _SOURCE)
    return replace(plan, interference=replace(plan.interference, expected=expected))


def _check_range(job: Job, name: str, reading: Figure, valves: Sequence[str], findings: Findings) -> None:
    limits = job.gauge.range if job.gauge else None
    least, most = (limits.least, limits.most) if limits else (None, None)
    if job.gauge is None or least is None or most is None:
        return
    if not least.value - NO_STEP <= reading.value <= most.value + NO_STEP:
        findings.warning(
            "beyond-gauge",
            f"Setting {name}: the reading lies beyond the range of the gauge "
            f'"{job.gauge.name.text}", {span_of(job, least.value, most.value)}.',
            "Set the cutter with another gauge.",
            job.gauge.name.span,
            valves,
        )
