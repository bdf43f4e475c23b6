"""`seatwright explain`: a budget as a table, what a stress takes for granted, what lifts a hold, no digit too many."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest

from seatwright.commands.main import main

JOBS = Path(__file__).parents[2] / "jobs"


@pytest.fixture
def said(capsys: pytest.CaptureFixture[str]):
    def ask(job: str, *words: str) -> str:
        assert main(["explain", str(JOBS / job), *words]) == 0
        return capsys.readouterr().out

    return ask


def test_an_uncertainty_is_shown_as_a_table_of_its_budget(said):
    # By hand from jobs/bench.shop: step 0.002/sqrt(12), two trials 0.002*sqrt(1 + 1/2), and what read them, on a
    # ring known to 0.001/sqrt(3); of the masters only what differs from those of the trials is left.
    printed = said("half-way.seat", "I1", "bore.u")
    assert re.search(r"what of +as stated +divided by +adds", printed)
    assert re.search(r"step of the setting gauge +0.002 mm +sqrt\(12\) +0.0005774 mm", printed)
    assert re.search(r"ring of the bore gauge that read the trials +0.001 mm +sqrt\(3\) +0.0005774 mm", printed)
    assert re.search(r"spread of the overcut of C1, 2 trials +0.002 mm +1 +0.002449 mm", printed)


def test_the_budgets_lines_add_up_in_squares_to_what_it_comes_to(said):
    answer = json.loads(said("half-way.seat", "I1", "bore.u_accept", "--as", "json"))
    (figure,) = answer["figures"]
    adds = [float(line["contribution"].split()[0]) for line in figure["budget"]]
    assert sum(each**2 for each in adds) ** 0.5 == pytest.approx(float(figure["result"].split()[0]), rel=1e-3)


def test_a_stress_says_what_it_takes_for_granted_and_a_bore_does_not(said):
    stress = said("four-cylinder-diesel.seat", "E1", "fit.hoop_head_most")
    assert "plane stress" in stress
    assert "10 to 38 % more pressure" in stress  # handbook 9
    assert "thinnest bridge" in stress
    assert "taken for granted" not in said("four-cylinder-diesel.seat", "E1", "bore.aim")
    assert "Creep" in said("four-valve-aluminium.seat", "I1A", "fit.soaked_least")


@pytest.mark.parametrize("job", sorted(path.name for path in JOBS.glob("*.seat")))
def test_stress_force_probability_and_reckoned_temperature_have_no_digit_too_many(job, said):
    from seatwright.job import read

    made, _ = read(job, lambda name: (JOBS / name).read_bytes())
    assert made is not None
    for head in made.heads:
        for valve in head.valves:
            answer = json.loads(said(job, valve.name, "--as", "json"))
            steps = [step for figure in answer["figures"] for step in figure["steps"] if step["formula"]]
            for step in steps:
                if step["result"].endswith((" MPa", " N")):
                    digits = step["result"].split()[0].lstrip("-").replace(".", "").lstrip("0").rstrip("0")
                    # The force of a spring is a sum of what was read: whole newtons.
                    assert len(digits) <= (4 if step["source"] == "handbook 17" else 2), step
                if step["symbol"] == "P":
                    assert re.fullmatch(r"(over |under )?\d+ %", step["result"]), step
                if step["result"].endswith(" °C") and "per" not in step["result"]:
                    assert int(step["result"].split()[0]) % 5 == 0, step


def test_a_hold_says_what_is_short_what_cleans_up_and_what_metal_it_would_leave(said):
    # By hand from jobs/integral-seats.seat: 10.4 to the water less 4.0 is 6.4 deep; X37 is 7.00 high: 0.60 over.
    printed = said("integral-seats.seat", "E3")
    assert "It is 7.00 mm against 6.40 mm: 0.60 mm over it." in printed
    assert "The least bore that cleans up is" in printed
    assert re.search(r"That bore would leave [\d.]+ mm to I3; 2.50 mm is the least", printed)
    assert "The least oversize that serves has an od of at least" in printed
    held = json.loads(said("integral-seats.seat", "E3", "holds", "--as", "json"))["holds"]
    assert len(held[0]["would_lift"]) >= 3


def test_a_worn_guide_says_by_how_much(said):
    assert re.search(
        r"It is [\d.]+ mm against [\d.]+ mm: [\d.]+ mm over it", said("../tests/messages/guide-worn.seat", "E1")
    )


def test_a_setting_is_explained_down_to_its_masters_and_trials(said):
    printed = said("half-way.seat", "setting", "1")
    assert re.match(r"setting C1 at [\d.]+, for E2 E4", printed)
    name = printed.partition(",")[0].removeprefix("setting ")
    assert said("half-way.seat", "setting", name) == said("half-way.seat", "setting", name.split()[-1]) == printed
    assert re.search(r"reads_1 = 30.001 mm +\S*bench.shop:24, typed 30.001", printed)
    assert "overcut_2 = bored_20 - (read_20 - error)" in printed


def test_an_insert_passed_over_shows_the_figure_that_ruled_it_out(said):
    printed = said("four-cylinder-diesel.seat", "E1", "insert", "X40")
    assert "[does-not-clean-up]" in printed
    assert "bore_most = od_least - I_least" in printed
    assert "D_clean = max(" in printed


def test_the_insert_that_was_chosen_and_one_nobody_has(said, capsys):
    assert "is the insert that was chosen" in said("four-cylinder-diesel.seat", "E1", "insert", "X41")
    assert main(["explain", str(JOBS / "four-cylinder-diesel.seat"), "E1", "insert", "X99"]) == 2
    assert "was not looked at for E1" in capsys.readouterr().err


def test_a_setting_that_is_not_there_is_told_which_are(capsys):
    assert main(["explain", str(JOBS / "half-way.seat"), "setting", "9"]) == 2
    assert "there is no setting 9" in capsys.readouterr().err


@pytest.mark.parametrize(
    ("job", "valve", "says"),
    [
        (
            "single-cylinder.seat",
            "E1",
            "Bore E1 33.404 to 33.428 mm because the ring is 33.498 mm and its fit 0.07 to ",
        ),
        ("four-valve-aluminium.seat", "E1A", "Bore E1A 1.1463 to 1.1477 in because the ring is 1.1501 in and its fit"),
        ("../tests/messages/guide-worn.seat", "E1", "E1 is on hold: The guide of E1 has 0.141 mm to the stem"),
    ],
)
def test_the_first_line_is_the_sentence_a_machinist_asks_for_and_short_prints_it_alone(job, valve, says, said):
    short = said(job, valve, "--short")
    assert short.startswith(says)
    assert short.count("\n") == 1
    assert said(job, valve).startswith(short)


def test_no_bore_is_named_to_be_cut_beside_a_hold_or_a_bore_that_is_done(said):
    assert said("half-way.seat", "I4", "--short").startswith("I4 is on hold")
    assert said("half-way.seat", "E1", "bore.most", "--short").startswith("The bore of E1 was to be")


def test_the_words_of_the_cards_stand_for_a_status(said):
    assert "E2, exhaust: bore again" in said("half-way.seat", "E2")
    assert "(exhaust" not in said("half-way.seat", "E2")


def test_a_job_in_inches_is_answered_in_inches_and_fahrenheit(said):
    # 1.1477 in × 25.4 = 29.1516; 72 °F = (72 − 32) × 5/9 °C = 22.222.
    printed = said("four-valve-aluminium.seat", "E1A", "bore.most")
    assert "bore.most = 1.1477 in (29.15163 mm)" in printed
    assert "T_gauge = 72 °F (22.22 °C)" in printed
    assert " in (" not in said("single-cylinder.seat", "E1", "bore.most")


def test_a_whole_valve_begins_with_its_bore_and_ends_with_the_readings_that_it_rests_on(said):
    lines = said("four-valve-aluminium.seat", "E1A").splitlines()
    assert lines[0].startswith("Bore E1A 1.1463 to 1.1477 in because the ring is ")
    paths = [line.partition(" = ")[0] for line in lines if " = " in line and not line.startswith(" ")]
    assert (
        paths.index("insert.od") < paths.index("bore.least") < paths.index("fit.hot_least") < paths.index("at20.guide")
    )


def test_no_inch_has_more_digits_than_it_is_worth(said):
    inches = re.findall(r"(-?[\d.]+(?:e-\d+)?) in \(", said("four-valve-aluminium.seat", "E1A"))
    assert len(inches) > 50
    for each in inches:
        assert "e" not in each
        assert len(each.partition(".")[2]) <= (5 if abs(float(each)) >= 0.01 else 6), each
