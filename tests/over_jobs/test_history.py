"""What all jobs tell of cutters and instruments: groups, chart, rules, wear, next bores, lines for the shop file."""

from __future__ import annotations

import json
from itertools import pairwise
from pathlib import Path
from random import Random

import pytest
from jsonschema import Draft202012Validator
from tests.over_jobs.quarter import QUARTER, quarter, quarters_history, rows_of, run_of

from seatwright.over_jobs.history.document import history_as_json, overcuts_csv, readings_csv, schema
from seatwright.over_jobs.history.rows import BorePoint, FitMade, KnownSize
from seatwright.over_jobs.history.runs import FEWEST_BORES, FEWEST_FOR_WEAR, runs_of
from seatwright.over_jobs.history.said import history_messages
from seatwright.over_jobs.history.whole import whole_history
from seatwright.over_jobs.history.wording import fine_length, lines_to_paste, rounded_up, small_length
from seatwright.over_jobs.history.written import history_as_text
from seatwright.text import Span

JOBS = QUARTER.parent
SPAN = Span("1.seat", 1, 1, 1, 2)
CHIP = ("2172-sawmill.seat", '\nnot-counted E3 2026-10-30 "a chip under the tip"\n', "\n")
NEW_TIP = '  tip-changed     2026-10-05 "worn: its bores had come down by 0.004"\n'


def bore(over: float, number: int, **more: object) -> BorePoint:
    """A bore of one run: over in µm, one a job and day."""
    day = f"2026-{1 + number // 28:02}-{1 + number % 28:02}"
    given: dict[str, object] = {"shelf": "b.shop", "cutter": "C1", "material": "grey iron", "tip_since": "2026-01-01"}
    given |= {"tip_now": "2026-01-01", "units": "mm", "date": day, "job": str(number), "file": f"{number}.seat"}
    given |= {"line": 1, "valve": "E1", "read": 36.5, "bored": 36.5 + over / 1000, "overcut": over / 1000}
    return BorePoint(**{**given, "steps": (0.001, 0.001), "span": SPAN, **more})  # type: ignore[arg-type]


def bores(*overs: float, **more: object) -> list[BorePoint]:
    return [bore(over, number, **more) for number, over in enumerate(overs, 1)]


def slugs(points: list[BorePoint]) -> list[str]:
    """What is said of a run alone."""
    found = whole_history([])
    return [message.slug for message in history_messages(replaced(found, runs=runs_of(points)))]


def replaced(found: object, **fields: object) -> object:
    from msgspec.structs import replace

    return replace(found, **fields)  # type: ignore[type-var]


STEADY = (7.0, 6.2, 7.9, 6.5, 7.3, 6.0, 7.7, 6.7, 7.5)


# --- the demo folder: own figures, for regression -------------------------------------------------------------------


def test_a_chip_under_the_tip_is_out_of_the_run_and_left_out_it_is_not():
    # Own figures of the quarter, recomputed when its figures change.
    with_chip = run_of(quarters_history(CHIP), "C1", "grey iron", "2026-10-05")
    [out] = with_chip.outside
    assert with_chip.bores[out - 1].point.valve == "E3"
    assert with_chip.next is None
    assert lines_to_paste(with_chip) == ()
    run = run_of(quarters_history(), "C1", "grey iron", "2026-10-05")
    assert (len(run.counted), run.outside, run.one_side, run.line) == (11, (), (), None)
    assert run.chart is not None
    assert run.chart.mean == pytest.approx(0.006790, abs=5e-7)
    assert run.chart.mean_range == pytest.approx(0.000351, abs=5e-7)
    assert (run.chart.least, run.chart.most) == pytest.approx((0.005858, 0.007723), abs=5e-7)
    assert run.next is not None
    assert run.next.half == pytest.approx(0.001272, abs=5e-7)
    assert lines_to_paste(run) == (
        'overcut grey iron 0.0068 "11 bores to 2026-11-13"',
        "overcut-spread grey iron 0.00045",
    )


def test_the_old_tip_wore_and_its_next_bore_is_the_lines():
    run = run_of(quarters_history(), "C1", "grey iron", "2026-08-24")
    assert (len(run.counted), run.broken) == (16, False)
    assert run.line is not None
    assert run.line.slope == pytest.approx(-0.000234, abs=1e-6)
    assert run.next is not None
    assert run.next.middle == pytest.approx(run.line.at(17), abs=1e-12)
    assert lines_to_paste(run) == ()
    # A tip that was changed is nobody's worry any more; were it still in, it would be said.
    assert not any(message.slug == "tip-wears" for message in history_messages(quarters_history()))


def test_a_worn_tip_that_is_still_in_is_said_with_what_to_do():
    not_changed = quarters_history(("bench.shop", NEW_TIP, ""), ("bench.shop", "2026-08-24", "2026-08-25"))
    # With the tip never changed all bores are one run; up to October it falls.
    slugs_ = {message.slug for message in history_messages(not_changed)}
    assert slugs_ & {"tip-wears", "run-on-one-side", "bore-out-of-run"}


def test_settings_still_open_want_no_trial_where_the_next_bores_are_accepted_for_sure():
    by_job = {(each.setting.job, each.setting.name): each for each in quarters_history().trials}
    steady = by_job["2186", "C1 at 37.515"]
    assert steady.why == ""
    assert steady.least is not None
    assert steady.most is not None
    assert steady.setting.least < steady.least < steady.most < steady.setting.most
    assert by_job["2185", "S1 at 1.4380"].why == "4 bores with this tip"
    broken = {(each.setting.job, each.setting.name): each for each in quarters_history(CHIP).trials}
    assert broken["2186", "C1 at 37.515"].why == "its last bores are out of run"


def test_an_overcut_that_the_shop_has_wrong_moves_the_next_bores_out_of_their_limits():
    wrong = ("bench.shop", "  overcut         0.007\n", "  overcut         0.017\n")
    by_valve = {(each.setting.job, *each.setting.valves): each for each in quarters_history(wrong).trials}
    assert by_valve["2186", "E3"].why == "below the least of E3"


def test_the_master_has_moved_and_checks_are_overdue_by_the_jobs_days():
    found = quarters_history()
    [moved] = found.sizes
    assert (moved.drifts, round(moved.moved, 6)) == (True, 0.003)
    assert moved.a_year == pytest.approx(0.003 * 365.2425 / 70)
    late = {check.now.instrument: check.late for check in found.checks}
    assert set(late) == {"setting gauge", "two-point bore gauge", "van setting gauge"}
    assert "2146" not in late["setting gauge"]  # of 2026-09-15, the day it was due
    assert "2147" in late["setting gauge"]
    assert late["van setting gauge"] == ("2185",)


def test_a_bore_gauge_that_repeats_worse_than_its_shop_file_says_is_found_out():
    [one] = quarters_history().repeats
    assert (one.of.instrument, one.of.kind, one.found.degrees, one.worse) == ("two-point bore gauge", "bore", 38, True)
    honest = ("bench.shop", "  repeatability     0.0008\n", "  repeatability     0.0020\n")
    [again] = quarters_history(honest).repeats
    assert again.worse is False


def test_causes_are_holds_verdicts_and_what_failed_the_replaced_ones_too():
    causes = {(each.what, each.slug): (each.count, each.jobs) for each in quarters_history().causes}
    assert causes == {
        ("cut", "big"): (1, ("2172",)),
        ("cut", "bore-again"): (1, ("2179",)),  # bored small and opened the next day
        ("finished", "leak"): (1, ("2179",)),  # of the day before it held
        ("hold", "hold-by-hand"): (1, ("2187",)),
    }
    assert quarters_history().causes[-1].share == 1.0


def test_fits_have_an_index_from_twenty_five_bores():
    fits = {(each.cutter, each.material): each for each in quarters_history().fits}
    iron, aluminium = fits["C1", "grey iron"], fits["C1", "aluminium"]
    assert (iron.bores, aluminium.bores, aluminium.made) == (25, 14, None)
    assert iron.made is not None
    assert iron.made.bound < iron.made.Ppk
    assert iron.made.Ppk == pytest.approx((1 - abs(iron.mean)) / (3 * (iron.s or 0)))


def test_minutes_are_those_of_what_was_cut_by_month_and_machine():
    minutes = {(each.month, each.machine): each.bores for each in quarters_history().minutes}
    assert minutes["2026-09", "seat-and-guide machine"] == 18
    assert minutes["2026-11", "seat-and-guide machine"] == 8
    assert all(each.minutes > 0 for each in quarters_history().minutes)


def test_a_demo_job_half_way_has_its_bores_counted_in_its_own_order():
    # Own figures: the trials first, then each cut; the replaced one of I2 too.
    rows = rows_of("half-way.seat", folder=JOBS)
    told = [(point.kind, point.valve, round(point.overcut * 1000, 1)) for point in rows.points]
    assert ("cut", "E3", 22.5) in told
    assert [valve for kind, valve, _ in told if kind == "cut"].count("I2") == 2
    assert sum(kind == "trial" for kind, _, _ in told) == 2


# --- groups, rules, wear ----------------------------------------------------------------------------------------------


def test_seven_bores_have_no_limits_and_eight_have():
    [few] = runs_of(bores(*STEADY[: FEWEST_BORES - 1]))
    [enough] = runs_of(bores(*STEADY[:FEWEST_BORES]))
    assert few.chart is None
    assert enough.chart is not None
    assert slugs(bores(*STEADY[: FEWEST_BORES - 1])) == ["few-bores"]
    assert slugs(bores(*STEADY[:FEWEST_BORES])) == []


def test_a_group_is_a_shelf_a_cutter_a_material_and_a_tip():
    found = runs_of(
        [*bores(7.0), *bores(7.0, shelf="c.shop"), *bores(7.0, cutter="C2"), *bores(7.0, material="aluminium"),
         *bores(7.0, tip_since="2026-02-01")]
    )  # fmt: skip
    assert len(found) == 5


def test_what_has_no_date_is_in_no_group():
    assert runs_of(bores(*STEADY, date=None)) == ()


def test_what_does_not_count_keeps_its_number_and_is_in_no_figure():
    plain = [*STEADY[:4], *STEADY[4:]]
    with_chip = bores(*plain[:4], 25.0, *plain[4:])
    with_chip[4] = bore(25.0, 5, not_counted="a chip under the tip")
    [run], [without] = runs_of(with_chip), runs_of(bores(*plain))
    assert run.chart == without.chart
    assert [each.number for each in run.bores] == list(range(1, 11))
    assert not run.broken


def test_a_bore_outside_is_a_warning_with_its_figures_and_the_line_that_leaves_it_out():
    points = bores(*STEADY, 14.0)
    assert slugs(points) == ["bore-out-of-run"]
    [message] = history_messages(replaced(whole_history([]), runs=runs_of(points)))
    assert message.text.startswith("job 10 E1 bored 0.0140 mm over its setting; the limits of C1 in grey iron are ")
    assert 'not-counted E1 2026-01-11 "' in message.help


def test_eight_in_a_row_on_one_side_are_a_warning():
    points = bores(6.5, 6.6, 6.4, 7.5, 7.6, 7.4, 7.5, 7.7, 7.4, 7.5, 7.6, 6.5, 6.4, 6.6, 6.5, 6.4)
    assert "run-on-one-side" in slugs(points)


def test_a_falling_tip_is_a_drift_from_ten_bores_and_its_limits_move_with_it():
    falls = [9.0 - 0.4 * number + (0.15 if number % 2 else -0.15) for number in range(16)]
    assert runs_of(bores(*falls[: FEWEST_FOR_WEAR - 1]))[0].line is None
    [run] = runs_of(bores(*falls))
    assert run.line is not None
    assert run.line.slope == pytest.approx(-0.0004, abs=2e-5)
    first, last = run.limits_at(1), run.limits_at(16)
    assert first is not None
    assert last is not None
    assert first[1] - last[1] == pytest.approx(-15 * run.line.slope)
    assert slugs(bores(*falls)) == ["tip-wears"]


def test_bores_that_scatter_less_than_the_steps_give_the_steps_and_say_so():
    points = bores(*[7.0, 7.1] * 6)
    [run] = runs_of(points)
    assert run.pasted is not None
    assert run.pasted.lifted
    assert run.pasted.spread == pytest.approx((2 * 0.001**2 / 12) ** 0.5)
    assert slugs(points) == ["step-hides-spread"]
    assert lines_to_paste(run)[1] == "overcut-spread grey iron 0.00041"


def test_lines_of_a_shop_file_in_inches_are_in_inches():
    [run] = runs_of(bores(*STEADY, units="inch", material="aluminium"))
    first, second = lines_to_paste(run)
    assert first.startswith("overcut aluminium .00027 ")
    assert second.startswith("overcut-spread aluminium .0000")


@pytest.mark.parametrize(
    ("mm", "units", "up"),
    [
        (0.00123, "mm", "0.0013"),
        (0.0012, "mm", "0.0012"),
        (0.000999, "mm", "0.0010"),
        (0.0127, "inch", ".00050"),
        (0.99, "mm", "0.99"),
    ],
)
def test_a_spread_is_rounded_up_to_two_digits(mm: float, units: str, up: str):
    assert rounded_up(mm, units) == up


def test_lengths_are_said_in_the_units_of_their_file():
    assert (fine_length(0.0225, "mm"), fine_length(0.00254, "inch"), fine_length(-0.0254, "inch")) == (
        "0.0225", ".00010", "-.00100",
    )  # fmt: skip
    assert (small_length(0.0071, "mm"), small_length(0.00762, "inch"), small_length(-0.00001, "mm")) == (
        "7.1", "3.0", "0.0",
    )  # fmt: skip


def test_pasted_lines_read_as_the_shop_file_reads_them():
    lines = [line for run in quarters_history().runs for line in lines_to_paste(run) if run.now]
    pasted = "  overcut         0.007\n" + "".join(f"  {line}\n" for line in lines)
    again = rows_of("2188-boatyard.seat", ("bench.shop", "  overcut         0.007\n", pasted))
    assert {setting.overcut for setting in again.settings} == {0.0071}


def test_a_mastered_size_without_a_date_has_no_yearly_change():
    def size(since: str, reads: float) -> KnownSize:
        return KnownSize("b.shop", "g", "mm", 40.0, since, reads, f"{reads}", 0.001, SPAN)

    one = replaced(rows_of("2141-dairy.seat"), sizes=(size("", 40.002), size("2026-11-09", 40.003)))
    [found] = whole_history([one]).sizes  # type: ignore[list-item]
    assert (found.a_year, found.drifts) == (None, False)  # a step is no more than a step


def test_twenty_four_fits_have_no_index():
    fits = tuple(FitMade("b.shop", "C1", "grey iron", "1", "1.seat", f"E{n}", n / 100, None) for n in range(24))
    one = replaced(rows_of("2141-dairy.seat"), fits=fits)
    [found] = whole_history([one]).fits  # type: ignore[list-item]
    assert found.made is None


# --- what must hold ---------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("seed", range(5))
def test_the_order_of_the_files_changes_nothing(seed: int):
    shuffled = list(quarter())
    Random(seed).shuffle(shuffled)
    found = whole_history(shuffled)
    assert history_as_json(found, []) == history_as_json(quarters_history(), [])
    assert overcuts_csv(found) == overcuts_csv(quarters_history())
    assert readings_csv(found) == readings_csv(quarters_history())
    assert history_as_text(found) == history_as_text(quarters_history())
    assert history_messages(found) == history_messages(quarters_history())


def test_a_bore_far_in_the_future_changes_no_earlier_line_of_the_table():
    later = rows_of("2141-dairy.seat")
    points = tuple(replaced(point, date="2030-01-01", job="9999", tip_since="2026-10-05") for point in later.points)
    grown = whole_history([*quarter(), replaced(later, number="9999", file="9999.seat", points=points)])  # type: ignore[list-item]
    before, after = overcuts_csv(quarters_history()).splitlines(), overcuts_csv(grown).splitlines()
    assert [line for line in after if ",9999," not in line] == before
    assert len(after) == len(before) + len(points)


def test_a_first_day_leaves_out_what_was_before_and_keeps_the_numbers():
    found = whole_history(quarter(), since="2026-10-15")
    run = run_of(found, "C1", "grey iron", "2026-10-05")
    assert run.bores[0].number == 4
    assert all((bore.point.date or "") >= "2026-10-15" for each in found.runs for bore in each.bores)
    assert {each.month for each in found.minutes} == {"2026-10", "2026-11"}
    assert [each.now.instrument for each in found.checks]
    with pytest.raises(ValueError, match="not enough values"):
        run_of(found, "C1", "grey iron", "2026-08-24")


def test_the_document_is_as_its_schema_says_and_the_schema_is_up_to_date():
    document = json.loads(history_as_json(quarters_history(), ["2200.seat"]))
    Draft202012Validator(json.loads(schema())).validate(document)
    assert document["format"] == "seatwright-history/1"
    assert document["left_out"] == ["2200.seat"]
    place = Path(__file__).parents[2] / "grammar" / "history.schema.json"
    assert place.read_text("utf-8") == schema(), "python -m seatwright.over_jobs.history.document > " + place.name


def test_every_figure_of_a_run_in_the_document_is_the_runs_own():
    document = json.loads(history_as_json(quarters_history(), []))
    for entry, run in zip(document["runs"], quarters_history().runs, strict=True):
        assert (entry["shelf"], entry["cutter"], entry["material"]) == run.group[:3]
        assert [each["overcut"] for each in entry["bores"]] == [round(b.point.overcut, 6) for b in run.bores]
        assert ("chart" in entry) == (run.chart is not None)


def test_both_tables_have_the_columns_that_are_promised():
    overcuts, readings = overcuts_csv(quarters_history()), readings_csv(quarters_history())
    assert overcuts.splitlines()[0] == (
        "shelf,cutter,material,tip_since,number,date,job,file,line,valve,from,read_mm,bored_20_mm,overcut_mm,counted,"
        "why_not"
    )
    assert readings.splitlines()[0] == "instrument,column,date,job,file,line,valve,readings,mean_mm,s_mm"
    chip = next(line for line in overcuts.splitlines() if "chip" in line)
    assert chip.endswith(",no,a chip under the tip")


# --- the demo jobs beside the quarter: own figures, recomputed since I2 of one is opened by its card ----------------


def test_the_half_way_job_has_a_chip_under_the_tip_and_left_out_its_limits_are_those_of_the_rest():
    chip = ("half-way.seat", "# Two first cuts.", 'not-counted E3 "a chip under the tip"\n# Two first cuts.')
    names = sorted(path.name for path in JOBS.glob("*.seat"))
    points = [point for name in names for point in rows_of(name, folder=JOBS).points]
    aluminium, iron = runs_of(points)
    assert [round(bore.point.overcut * 1000, 1) for bore in aluminium.bores] == [7.5, 8.5, 6.8, 6.1]
    assert aluminium.chart is None
    told = [7.5, 7.5, 7.2, 9.0, 22.5, 7.0, 7.5, 6.0, 8.5]
    assert [round(bore.point.overcut * 1000, 1) for bore in iron.bores] == told
    assert iron.chart is not None
    figures = (iron.chart.mean, iron.chart.mean_range, iron.chart.least, iron.chart.most)
    assert [round(each * 1000, 2) for each in figures] == [9.17, 4.44, -2.64, 20.98]
    assert [iron.bores[number - 1].point.valve for number in iron.outside] == ["E3"]
    [without] = runs_of(rows_of("half-way.seat", chip, folder=JOBS).points)
    assert without.chart is not None
    figures = (without.chart.mean, without.chart.mean_range, without.chart.least, without.chart.most)
    assert [round(each * 1000, 2) for each in figures] == [7.5, 1.22, 4.26, 10.74]
    assert not without.broken


def test_counting_by_hand_gives_the_same_figures_of_the_half_way_job():
    # The same by plain arithmetic on the overcuts as rounded above: mean, mean of the differences, 3/1.128 of it.
    told = [7.5, 7.5, 7.2, 9.0, 7.0, 7.5, 6.0, 8.5]
    apart = [abs(after - before) for before, after in pairwise(told)]
    mean, off = sum(told) / 8, 3 * sum(apart) / 7 / 1.128
    assert (round(mean, 1), round(mean - off, 1), round(mean + off, 1)) == (7.5, 4.3, 10.8)
