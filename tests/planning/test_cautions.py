"""Cautions follow from the job."""

import pytest
from msgspec.structs import replace
from tests.planning import jobs
from tests.planning.bores import bored, figure

from seatwright.job.model import Assembly, Chill
from seatwright.planning.plan import AssemblyPlan, Bridge, Status
from seatwright.planning.whole_job.cautions import cautions

DRY_ICE = Chill("dry ice", jobs.degrees(-78.5), None, jobs.span())
NITROGEN = Chill("nitrogen", jobs.degrees(-195.8), None, jobs.span())


def chosen(*plans, bridges=(), material="grey iron", assembly=None, alloys=None, **head_fields):
    head = jobs.head([plan.valve for plan in plans], material_name=material, **head_fields)
    parts = {} if alloys is None else {"alloys": alloys}
    shop = jobs.shop(assembly=assembly or Assembly(), **parts)
    return cautions(jobs.job(head, shop=shop), plans, bridges)


def slugs(*plans, **conditions):
    return [caution.slug for caution in chosen(*plans, **conditions)]


def one(slug, *plans, **conditions):
    return next(caution for caution in chosen(*plans, **conditions) if caution.slug == slug)


def with_way(plan, head_C=20.0, chill="none", kind="drop-in"):
    way = AssemblyPlan(figure(head_C, "T", "C"), chill, kind, figure(0.03), (), 1)
    return replace(plan, assembly=way)


def with_guide_in(plan, head_C, kind="drop-in"):
    way = with_way(plan, head_C, kind=kind).assembly
    return replace(plan, insert=None, guide=replace(plan.guide, assembly=way))


E1, E2 = bored("E1", 44.0, 44.02), bored("E2", 44.0, 44.02)


def test_every_bored_job_has_the_machines_cautions_and_a_pressure_test():
    found = slugs(E1)
    for slug in ("weight", "rotating-cutter", "chips-and-eyes", "no-compressed-air", "pressure-test"):
        assert slug in found


def test_the_last_defers_to_local_rules_and_stands_on_no_step_alone():
    last = chosen(E1)[-1]
    assert last.slug == "local-rules-first"
    assert "safety sheets" in last.text
    assert last.steps == ()


def test_iron_dust_is_of_iron_heads():
    assert "iron-dust" in slugs(E1)
    assert "iron-dust" not in slugs(E1, material="aluminium")


def test_an_integral_seat_has_no_old_insert_to_fly():
    never = replace(E1, valve=jobs.valve("E1", seat_integral=jobs.span()))
    assert "flying-pieces" in slugs(E1)
    assert "flying-pieces" not in slugs(never)


def test_sodium_filled_valves_are_named():
    filled = replace(E1, valve=jobs.valve("E1", sodium_filled=True))
    assert one("sodium-filled-valves", filled, E2).valves == ("E1",)
    assert "sodium-filled-valves" not in slugs(E2)


def test_beryllium_in_an_insert_names_the_rule_and_its_valves():
    alloys = (replace(jobs.material("copper beryllium"), hazard=jobs.named("beryllium")),)
    of_it = replace(E1, insert=replace(E1.insert, alloy="copper beryllium"))
    caution = one("copper-beryllium", of_it, E2, alloys=alloys)
    assert caution.valves == ("E1",)
    assert "1910.1024" in caution.agency


@pytest.mark.parametrize(("chill", "slug"), [(DRY_ICE, "dry-ice"), (NITROGEN, "liquid-nitrogen")])
def test_a_cold_substance_is_cautioned_where_it_is_used(chill, slug):
    assembly = Assembly(chills=(DRY_ICE, NITROGEN))
    used = with_way(E1, chill=chill.name)
    found = slugs(used, assembly=assembly)
    assert [each for each in found if each in ("dry-ice", "liquid-nitrogen")] == [slug]
    assert "19.5 %" in one(slug, used, assembly=assembly).agency


def test_before_a_way_is_chosen_all_that_the_shop_has_is_cautioned():
    found = slugs(E1, assembly=Assembly(oven=jobs.degrees(160.0), chills=(DRY_ICE,)))
    assert {"dry-ice", "hot-head"} <= set(found)


def test_a_head_that_is_heated_for_a_guide_alone_is_hot_too_and_a_pressed_guide_is_pressed():
    assert "hot-head" in slugs(with_guide_in(E1, 160.0))
    found = slugs(with_guide_in(E1, 20.0, "press"))
    assert "pressing" in found
    assert "hot-head" not in found


def test_heated_aluminium_is_not_left_in_the_oven():
    assembly = Assembly(oven=jobs.degrees(160.0))
    assert "hot-aluminium-gives-way" in slugs(E1, assembly=assembly, material="aluminium")
    assert "hot-aluminium-gives-way" not in slugs(E1, assembly=assembly, material="grey iron")


def test_carbon_dioxide_by_another_name_is_known_by_its_cold():
    assert "dry-ice" in slugs(
        E1, assembly=Assembly(chills=(Chill("the cold box", jobs.degrees(-78.5), None, jobs.span()),))
    )


def test_dry_ice_by_aluminium_fines_is_cautioned_for_aluminium_only():
    used = with_way(E1, chill="dry ice")
    assembly = Assembly(chills=(DRY_ICE,))
    assert "no-dry-ice-by-aluminium-fines" in slugs(used, assembly=assembly, material="aluminium")
    assert "no-dry-ice-by-aluminium-fines" not in slugs(used, assembly=assembly)


def test_heat_loosens_what_stays():
    left = replace(E2, status=Status.LEFT_ALONE, bore=None, valve=jobs.valve("E2", insert=jobs.wish("none")))
    assert one("heat-loosens-inserts", with_way(E1, head_C=160.0), left).valves == ("E2",)
    assert "heat-loosens-inserts" not in slugs(with_way(E1), left)


def test_a_thin_bridge_is_cautioned_at_both_its_valves():
    def bridge(left):
        return Bridge(("E1", "E2"), 1, figure(46.5), figure(left), figure(2.0))

    assert one("thin-bridge", E1, E2, bridges=(bridge(2.3),)).valves == ("E1", "E2")
    assert "thin-bridge" not in slugs(E1, E2, bridges=(bridge(2.6),))


def test_a_thin_floor_and_one_that_nobody_measured():
    thin = replace(E1, floor_left=figure(4.2))
    assert one("thin-floor", thin, E2, least_floor=4.0).valves == ("E1",)
    assert one("floor-not-known", thin, E2, least_floor=4.0).valves == ("E2",)


def test_a_dry_fuel_wants_an_alloy_for_it():
    assert "dry-fuel" in slugs(E1, fuel="natural gas")
    assert "dry-fuel" not in slugs(E1, fuel="diesel")


def test_no_obsolete_solvent_is_advised():
    for caution in chosen(E1, E2, assembly=Assembly(oven=jobs.degrees(160.0), chills=(DRY_ICE, NITROGEN))):
        assert "chlor" not in caution.text.casefold()
        assert caution.text.endswith(".")


def test_what_cocks_under_the_press_is_named_for_inserts_and_guides():
    assert "an insert or guide that cocks" in one("pressing", with_way(E1, kind="press")).text
