"""The fewest settings of each cutter under a head, what the gauge must read for each, and the proof."""

from __future__ import annotations

from collections.abc import Sequence

from msgspec import Struct
from msgspec.structs import replace

from seatwright.handbook import grouping, setting
from seatwright.job.model import Cutter, Head, Job, standing
from seatwright.planning.basis.bore_gauge import shows
from seatwright.planning.basis.findings import Findings
from seatwright.planning.basis.masters import nearest
from seatwright.planning.basis.overcut import of_cutter, overcut, trials
from seatwright.planning.basis.verdicts import still_to_bore
from seatwright.planning.basis.wording import length, span_of
from seatwright.planning.certainty.windows import NO_STEP, Gauging, Window, gauging, windows
from seatwright.planning.machine.depth_stops import depth_stops
from seatwright.planning.machine.first_cut import first_cut
from seatwright.planning.machine.passes import below_size, with_last_pass
from seatwright.planning.plan import Correction, InSetting, Overcut, Passed, Setting, TrialPlan, into
from seatwright.planning.plan.figure import Figure, assumed, computed, given

_SOURCE = "handbook 6, 7"


class Settings(Struct, frozen=True):
    """What the stage hands on. plans: with setting, stop, last pass and expected interference filled.

    proof : as many valves as settings, no two of which one setting of one cutter under one head can serve
    """

    plans: tuple[InSetting, ...]
    settings: tuple[Setting, ...]
    trials: tuple[TrialPlan, ...]
    proof: tuple[str, ...]


class _OfCutter(Struct, frozen=True):
    """All windows of one cutter under one head, and their grouping."""

    cutter: Cutter
    windows: tuple[Window, ...]
    gauging: Gauging
    grouping: grouping.Grouping


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
    for each in by_cutter:
        proof += [each.windows[at].plan.name for at in each.grouping.proof]
        for group in each.grouping.groups:
            number = first_number + len(made_settings)
            one, members = _setting(job, head, each, group, number, findings)
            made_settings.append(one)
            done.update({plan.name: plan for plan in members})
    return Settings(tuple(done[plan.name] for plan in plans), tuple(made_settings), made, tuple(proof))


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
        bigger = overcut(cutter, made, findings, names)
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
    groups = grouping.fewest_points([(each.first, each.last) for each in found], [each.aim for each in found])
    return _OfCutter(cutter, found, at_bench, groups)


def _smallest_first(each: _OfCutter) -> tuple[float, str]:
    groups = each.grouping.groups
    return (groups[0].point * each.gauging.step if groups else 0.0, each.cutter.name.text)


def _setting(
    job: Job, head: Head, each: _OfCutter, group: grouping.Group, number: int, findings: Findings
) -> tuple[Setting, tuple[InSetting, ...]]:
    members = [each.windows[at] for at in group.members]
    gauge = job.gauge
    least, most = _common(members)
    wanted = _wanted(members)
    bench = each.gauging.bench(wanted)
    shown_wrong, bigger = members[0].error.called("error"), each.gauging.overcut.value
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
        _check_range(job, number, reading, [window.plan.name for window in members], findings)
    # One whose insert may go elsewhere comes last, and has the first cut only where no other pocket is right for it.
    plans = sorted((_served(window, number, aim) for window in members), key=lambda plan: plan.waits is not None)
    trial = first_cut(job, number, plans, aim, reading, each.gauging.step, findings)
    if trial is not None:
        plans.sort(key=lambda plan: plan.name != trial.valve)
    stops = depth_stops(job, plans, findings)
    stop_of = {name: stop.number for stop in stops for name in stop.valves}
    master = nearest(standing(gauge.masters), (reading or aim).value) if gauge else None
    temperature = each.gauging.conditions.gauge_temperature if each.gauging.conditions else None
    bench_aim = _bench_aim(job, head, aim, findings)
    ring = nearest(standing(job.bore_gauge.rings), bench_aim.value) if job.bore_gauge else None
    made = Setting(
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
        first=trial.first if trial else None,
        trial_under=trial.under if trial else None,
        overcut=each.gauging.overcut if gauge else None,
        correction=correction,
        pilots=tuple((plan.name, plan.pilot.name) for plan in plans if plan.pilot and plan.pilot.name),
        depth_stops=stops,
        bench_aim=bench_aim,
        ring=given("ring", "mm", ring.size) if ring else None,
        ring_reads=given("reads", "mm", ring.reads) if ring else None,
        passes=below_size(job, plans, correction, step),
        waits=tuple(plan.name for plan in plans if plan.waits is not None),
    )
    return made, tuple(replace(plan, depth_stop=stop_of.get(plan.name)) for plan in plans)


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


def _check_range(job: Job, number: int, reading: Figure, valves: Sequence[str], findings: Findings) -> None:
    limits = job.gauge.range if job.gauge else None
    least, most = (limits.least, limits.most) if limits else (None, None)
    if job.gauge is None or least is None or most is None:
        return
    if not least.value - NO_STEP <= reading.value <= most.value + NO_STEP:
        findings.warning(
            "beyond-gauge",
            f"Setting {number}: the reading {length(job, reading.value)} lies beyond the range of the gauge "
            f'"{job.gauge.name.text}", {span_of(job, least.value, most.value)}.',
            "Set the cutter with another gauge.",
            job.gauge.name.span,
            valves,
        )
