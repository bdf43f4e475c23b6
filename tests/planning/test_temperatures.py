"""One temperature: what is corrected by what, and what is said when nothing can be."""

import pytest
from tests.planning import jobs

from seatwright.handbook import thermal
from seatwright.planning.basis import temperatures
from seatwright.planning.basis.findings import Findings

POCKET = {"pocket_a": 44.02}


def pocket(head, **job_fields):
    findings = Findings()
    job = jobs.job(head, shop=jobs.shop(), **job_fields)
    reading = head.valves[0].measured.pocket_a
    return temperatures.pocket_at20(job, head, reading, "pocket_a", reading.value, findings), findings


def warm_head(celsius, material="aluminium", **cells):
    return jobs.head([jobs.valve(found={**POCKET, **cells})], material_name=material, temperature=jobs.degrees(celsius))


def test_aluminium_out_of_the_washer_reads_18_um_big():
    # Worked figure: reference/worked-checks.md 2, 44.02 in aluminium at 40 °C with a gauge at 22 °C: 17.8 µm.
    figure, findings = pocket(warm_head(40), bore_gauge=jobs.bore_gauge(temperature=22))
    assert 44.02 - figure.value == pytest.approx(0.0178, abs=0.0006)
    assert "aluminium-warm" in jobs.slugs(findings)


def test_three_degrees_apart_is_still_no_warning():
    _, findings = pocket(warm_head(25), bore_gauge=jobs.bore_gauge(temperature=22))
    assert "aluminium-warm" not in jobs.slugs(findings)


def test_an_iron_head_is_not_warned_of():
    _, findings = pocket(warm_head(40, "grey iron"), bore_gauge=jobs.bore_gauge(temperature=22))
    assert "aluminium-warm" not in jobs.slugs(findings)


def test_a_gauge_without_a_temperature_lay_beside_the_head():
    # Worked figure: reference/worked-checks.md 2, aluminium, head 24/gauge 24: 1.7 µm.
    figure, _ = pocket(warm_head(24), bore_gauge=jobs.bore_gauge(temperature=None))
    assert 44.02 - figure.value == pytest.approx(0.0017, abs=0.0002)


def test_a_head_without_a_temperature_lay_beside_the_gauge():
    head = jobs.head([jobs.valve(found=POCKET)], material_name="aluminium", temperature=None)
    figure, _ = pocket(head, bore_gauge=jobs.bore_gauge(temperature=24))
    assert 44.02 - figure.value == pytest.approx(0.0017, abs=0.0002)


def test_where_only_the_setting_gauge_has_a_temperature_all_lay_beside_it():
    head = jobs.head([jobs.valve(found=POCKET)], material_name="aluminium", temperature=None)
    for bore_gauge in (None, jobs.bore_gauge(temperature=None)):
        figure, findings = pocket(head, bore_gauge=bore_gauge, gauge=jobs.gauge(temperature=24))
        assert 44.02 - figure.value == pytest.approx(0.0017, abs=0.0002)
        assert "temperature-not-given" not in findings.not_checked()


def test_without_any_temperature_the_figure_stays_as_read_and_it_is_said():
    head = jobs.head([jobs.valve(found=POCKET)], temperature=None)
    figure, findings = pocket(head, bore_gauge=jobs.bore_gauge(temperature=None), gauge=jobs.gauge(temperature=None))
    assert figure.value == 44.02
    assert "temperature-not-given" in findings.not_checked()


def test_what_the_table_says_overrides_head_and_gauge():
    head = jobs.head(
        [jobs.valve(found={"pocket_a": jobs.reading(44.02, at=20)})],
        material_name="aluminium",
        temperature=jobs.degrees(40),
    )
    figure, findings = pocket(head, bore_gauge=jobs.bore_gauge(temperature=30))
    assert figure.value == pytest.approx(44.02, abs=1e-12)
    assert "aluminium-warm" not in jobs.slugs(findings)


def test_a_gauge_without_expansion_is_taken_as_steel_with_a_notice():
    figure, findings = pocket(warm_head(24), bore_gauge=jobs.bore_gauge(temperature=24, expansion=None))
    assert figure.value == pytest.approx(44.0183, abs=1e-4)
    assert "11.5 um/m/C" in jobs.texts(findings, "gauge-expansion-left-out")


def test_the_figure_rests_on_the_reading_and_both_temperatures():
    head = warm_head(24)
    gauge = jobs.bore_gauge(temperature=22)
    figure, _ = pocket(head, bore_gauge=gauge)
    reading = head.valves[0].measured.pocket_a
    wanted = {reading.span, head.temperature.span, gauge.temperature.span, gauge.expansion.span}
    assert set(figure.lines()) == wanted


def test_an_insert_expands_by_its_own_alloy_and_lies_at_the_gauge():
    head = jobs.head([jobs.valve(found={"insert_od": 44.30})], temperature=jobs.degrees(24))
    findings = Findings()
    job = jobs.job(head, shop=jobs.shop(), bore_gauge=jobs.bore_gauge(temperature=30))
    reading = head.valves[0].measured.insert_od
    figure = temperatures.insert_at20(job, head, reading, "tool-steel", "insert_od", findings)
    tool_steel = next(one for one in job.shop.alloys if one.name == "tool steel")
    expansion = thermal.mean_expansion([(line.to, line.per_degree) for line in tool_steel.expansion], 30.0)
    growth = (1 + 11.5e-6 * 10) / (1 + expansion * 10)
    assert figure.value == pytest.approx(44.30 * growth, abs=1e-9)
    assert head.temperature.span not in set(figure.lines())


def test_an_insert_of_unknown_alloy_is_taken_as_read_and_it_is_said():
    head = jobs.head([jobs.valve(found={"insert_od": 44.30})])
    findings = Findings()
    job = jobs.job(head, shop=jobs.shop())
    figure = temperatures.insert_at20(job, head, head.valves[0].measured.insert_od, None, "insert_od", findings)
    assert figure.value == 44.30
    assert "insert-expansion-unknown" in findings.not_checked()


def test_what_is_printed_for_the_bench_comes_back_to_the_same_size():
    head = warm_head(26)
    job = jobs.job(head, shop=jobs.shop(), bore_gauge=jobs.bore_gauge(temperature=24))
    conditions = temperatures.head_at_bench(job, head, Findings())
    figure, _ = pocket(head, bore_gauge=job.bore_gauge)
    bench = conditions.at_bench(figure, "bench")
    assert conditions.at20(bench, "again").value == pytest.approx(figure.value, abs=1e-12)
