"""A bore that was cut is judged with the ring that is in it, as the instruments stood on its day."""

from pathlib import Path

from msgspec.structs import replace
from tests.planning import jobs
from tests.planning.later_life import cut_readings, finished_readings

from seatwright.job import read
from seatwright.job.model import Master
from seatwright.planning.basis.findings import Findings
from seatwright.planning.certainty.as_made import pair
from seatwright.planning.planner import plan
from seatwright.planning.serves.ring_in_hand import RING_OPEN

JOBS = Path(__file__).resolve().parents[2] / "jobs"
DEPTHS = (7.05, 7.05, 7.05, 7.05)
X44, X44B = jobs.insert("X44", 44.30), jobs.insert("X44B", 44.60)


def planned(valve, *inserts, **of_job):
    job = jobs.job(jobs.head([valve]), shop=jobs.shop(inserts=inserts), **of_job)
    made = plan(job)
    return made.valves[0], {message.slug for message in made.messages}, job


def bored(bore, wish=None, found=None, **more):
    valve = jobs.valve(insert=wish, found=found, pocket="bore", stand=jobs.stand(0.0, 0.10))
    cells = {"low": (bore, bore), "depths": DEPTHS, **more}
    return replace(valve, cut=cut_readings(bore, bore, **cells))


def test_a_ring_in_hand_that_is_not_chosen_gives_no_interference():
    # The old size was measured, the pocket wants the next: 44.30 in a bore of 44.50 would be 0.20 loose.
    one, slugs, job = planned(bored(44.50, found={"insert_od": 44.301, "damage": 44.40}), X44, X44B)
    assert "another-insert-measured" in slugs
    assert (one.insert.name, one.insert.measured, one.status) == ("X44B", False, "accepted")
    assert abs(one.cut.interference.value - 0.10) < 1e-9, "the list's middle, less the bore"
    assert "list figure" in one.cut.interference.note
    assert one.cut.insert_od is None
    made = pair(job, job.heads[0], one, Findings())
    assert abs(made.interference.value - 0.10) < 1e-9


def test_a_ring_measured_beside_its_bore_is_the_one_that_goes_in():
    # Left to choose, the smaller would serve; the ring beside the bore is the larger.
    loose, _, _ = planned(bored(44.50), X44, X44B)
    assert (loose.insert.name, loose.cut.verdict) == ("X44", "big")
    one, slugs, _ = planned(bored(44.50, insert_od=jobs.reading(44.601)), X44, X44B)
    assert (one.insert.name, one.insert.measured, one.status) == ("X44B", True, "accepted")
    assert abs(one.cut.interference.value - 0.101) < 1e-9
    assert "another-insert-measured" not in slugs


def test_a_ring_beside_the_bore_that_is_on_no_list_is_held_and_accepts_nothing():
    one, slugs, _ = planned(bored(44.20, insert_od=jobs.reading(44.35)), X44, X44B)
    assert "measured-insert-unknown" in slugs or "measured-insert-off-list" in slugs
    assert one.status == "hold"
    assert one.cut.insert_od is None


def test_a_ring_read_anew_leaves_the_bores_of_before_as_they_were():
    # Until the 25th the gauge showed nothing too much on its ring, from then on 0.010: 44.218 read then is 44.208 now.
    steady = jobs.bore_gauge()
    dropped = replace(steady, rings=(*steady.rings, Master(jobs.given(44.0), jobs.given(44.010), "2026-11-25")))

    def cut(day):
        cells = {
            name: replace(jobs.reading(44.218), date=day) for name in ("bore_a", "bore_b", "bore_low_a", "bore_low_b")
        }
        valve = bored(44.218, found={"insert_od": 44.300})
        return replace(valve, cut=replace(valve.cut, **cells, date=day))

    before, _, _ = planned(cut("2026-11-20"), X44, bore_gauge=dropped, day="2026-11-26")
    alone, _, _ = planned(cut("2026-11-20"), X44, bore_gauge=steady, day="2026-11-26")
    after, _, _ = planned(cut("2026-11-26"), X44, bore_gauge=dropped, day="2026-11-26")
    assert before.cut.bore.value == alone.cut.bore.value
    assert (before.cut.verdict, alone.cut.verdict) == (alone.cut.verdict, "measure-again")
    assert abs(after.cut.bore.value - (before.cut.bore.value - 0.010)) < 1e-9
    assert after.cut.verdict == "accepted"
    assert before.bore.bench_aim.value - alone.bore.bench_aim.value > 0.008, (
        "what is still to be bored goes by the latest"
    )


def test_a_master_read_anew_leaves_the_overcut_of_before():
    steady = jobs.gauge()
    dropped = replace(steady, masters=(*steady.masters, Master(jobs.given(40.0), jobs.given(40.012), "2026-11-25")))

    def cut(day):
        valve = bored(44.20, read=replace(jobs.reading(44.194), date=day))
        return replace(valve, cut=replace(valve.cut, date=day))

    before, _, _ = planned(cut("2026-11-20"), X44, gauge=dropped, day="2026-11-26")
    alone, _, _ = planned(cut("2026-11-20"), X44, gauge=steady, day="2026-11-26")
    after, _, _ = planned(cut("2026-11-26"), X44, gauge=dropped, day="2026-11-26")
    # 44.200 - (44.194 - 0.002) = 0.008; with the master showing 0.012 too much 0.018
    assert abs(before.cut.overcut.value - 0.008) < 1e-9
    assert before.cut.overcut.value == alone.cut.overcut.value
    assert abs(after.cut.overcut.value - 0.018) < 1e-9


def test_a_finished_valve_stays_finished_whatever_the_ring_shows_later():
    steady = jobs.bore_gauge()
    dropped = replace(steady, rings=(*steady.rings, Master(jobs.given(44.0), jobs.given(44.015), "2026-11-27")))
    cells = {
        name: replace(jobs.reading(44.20), date="2026-11-20")
        for name in ("bore_a", "bore_b", "bore_low_a", "bore_low_b")
    }
    valve = bored(44.20, found={"insert_od": 44.30})
    done = finished_readings(stand=0.05, pressure_test="pass")
    valve = replace(valve, cut=replace(valve.cut, **cells, date="2026-11-20"), finished=done)
    for gauge in (steady, dropped):
        one, _, _ = planned(valve, X44, bore_gauge=gauge, day="2026-11-28")
        assert (one.cut.verdict, one.status) == ("accepted", "finished")


def test_the_plan_says_what_the_mean_and_what_a_single_reading_may_show():
    one, _, _ = planned(jobs.valve(pocket="bore", found={"insert_od": 44.30}), X44)
    # 44.18 to 44.22; guard 1.65 of 0.00153, inwards to 0.002; bore-round 0.010, half of it beyond, inwards to 0.002
    assert [round(each.value, 4) for each in (one.bore.accept_least, one.bore.accept_most)] == [44.184, 44.216]
    assert [round(each.value, 4) for each in (one.bore.reading_least, one.bore.reading_most)] == [44.176, 44.224]


def test_a_bore_is_not_judged_while_it_is_open_which_ring_goes_in() -> None:
    # 36.588 typed as 36.688: off its list by more than any ring of that size.
    off = (JOBS / "half-way.seat").read_text("utf-8").replace("28.4    36.588", "28.4    36.688", 1)
    files = {"half-way.seat": off.encode(), "bench.shop": (JOBS / "bench.shop").read_bytes()}
    job, _ = read("half-way.seat", files.__getitem__)
    assert job is not None
    valve = next(each for each in plan(job).valves if each.name == "E1")
    assert {hold.slug for hold in valve.holds} & set(RING_OPEN)
    assert valve.cut is not None
    assert (valve.cut.verdict, valve.cut.interference) == (None, None)
