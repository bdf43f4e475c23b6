"""Springs: judged at the limit's own height, where they will stand, and at full lift; what is missing is said."""

from __future__ import annotations

import pytest

from seatwright.job import read
from seatwright.planning.plan import Plan, SpringPlan
from seatwright.planning.planner import plan
from seatwright.text import Severity

LIMITS = {
    "spring-height": "38.6 to 39.2", "valve-lift": "9.5", "coil-bind": "25.0", "bind-room": "least 1.0",
    "retainer-room": "least 1.5",
}  # fmt: skip
NEW = ("296 N at 38.9", "790 N at 29.5")
FOUND = {"spring-height": "38.9", "spring-force": "271 N", "spring-at": "38.9", "retainer-to-seal": "11.5"}


def planned(found: dict[str, str], *more: str, new: tuple[str, ...] = NEW, **changed: str) -> Plan:
    limits = {**LIMITS, **{word.replace("_", "-"): value for word, value in changed.items()}}
    lines = ["insert none", *(f"{word} {value}" for word, value in limits.items() if value), *more]
    lines += [f"spring-force {one}" for one in new]
    text = 'job 1\n  units mm\nhead "h"\n  material grey iron\n  temperature 20 C\nvalves E1\n'
    text += "".join(f"  {line}\n" for line in lines)
    text += f"measured at 20 C\n  valve  {'  '.join(found)}\n  E1  {'  '.join(found.values())}\n"
    job, messages = read("a.seat", lambda _: text.encode())
    assert job is not None, messages
    return plan(job)


def spring(made: Plan) -> SpringPlan:
    found = made.valves[0].spring
    assert found is not None
    return found


def said(made: Plan, slug: str) -> str:
    return next((f"{one.severity}: {one.text} {one.help}" for one in made.messages if one.slug == slug), "")


def test_a_used_spring_under_its_least_is_a_new_one_and_over_it_nothing_is_said() -> None:
    weak = planned({**FOUND, "spring-force": "251 N"}, "spring-least 258 N at 38.9")
    assert said(weak, "spring-weak").startswith("warning: The spring has 251 N at 38.9 mm; 258 N is the least")
    assert not said(planned(FOUND, "spring-least 258 N at 38.9"), "spring-weak")


def test_read_at_another_height_it_is_brought_to_that_of_the_limit() -> None:
    # 52.55 N/mm: 231 N read at 39.5 are 262.5 N at 38.9.
    good = planned({**FOUND, "spring-force": "231 N", "spring-at": "39.5"}, "spring-least 258 N at 38.9")
    assert dict(spring(good).verdicts)["force"] == "pass"
    poor = planned({**FOUND, "spring-force": "226 N", "spring-at": "39.5"}, "spring-least 258 N at 38.9")
    assert "The spring has 257.5 N at 38.9 mm; 258 N is the least" in said(poor, "spring-weak")


def test_the_rate_is_never_carried_far_beyond_its_points() -> None:
    # The points are 9.4 apart: 2.35 beyond the longer one it still holds, not 2.4.
    far = planned({**FOUND, "spring-force": "170 N", "spring-at": "41.3"}, "spring-least 258 N at 38.9")
    assert "its rate does not hold that far" in said(far, "spring-not-judged")
    near = planned({**FOUND, "spring-force": "170 N", "spring-at": "41.2"}, "spring-least 258 N at 38.9")
    assert not said(near, "spring-not-judged")


def test_with_one_point_only_there_is_no_rate_and_no_force_elsewhere() -> None:
    made = planned({**FOUND, "spring-height": "39.1"}, new=NEW[:1])
    assert spring(made).rate is None
    assert spring(made).force_shut is None
    assert "its rate is not known" in said(made, "spring-force-not-computed")


def test_without_a_least_a_weak_one_is_a_notice_with_what_it_lost() -> None:
    made = planned({**FOUND, "spring-force": "262 N"})
    assert said(made, "spring-under-new").startswith("notice: The spring has 262 N at 38.9 mm, 11 % under a new one")
    assert "a tenth is what is usually let pass" in said(made, "spring-under-new")
    assert "tenth" not in said(planned({**FOUND, "spring-force": "280 N"}), "spring-under-new")


def test_a_spring_that_was_not_measured_is_reckoned_by_the_makers_line_and_that_is_said() -> None:
    made = planned({name: cell for name, cell in FOUND.items() if not name.startswith(("spring-f", "spring-at"))})
    assert not spring(made).measured
    force = spring(made).force_shut
    assert force is not None
    assert force.value == pytest.approx(296)
    assert said(made, "spring-not-measured").startswith("notice")


def test_a_limit_counts_where_its_height_lies_within_those_of_the_spring_and_nowhere_else() -> None:
    low = {**FOUND, "spring-force": "264 N", "spring-height": "39.1"}
    assert "258 N is the least" in said(planned(low, "spring-least 258 N at 38.9"), "spring-force-low")
    assert not said(planned(low, "spring-least 258 N at 38.9", spring_height="39.0 to 39.4"), "spring-force-low")


def test_room_at_full_lift() -> None:
    made = spring(planned(FOUND))
    assert made.bind_room is not None
    assert made.retainer_room is not None
    assert (made.bind_room.value, made.retainer_room.value) == pytest.approx((38.9 - 9.5 - 25.0, 11.5 - 9.5))
    assert "spring-binds" in {one.slug for one in planned(FOUND, coil_bind="28.5").messages}
    assert "retainer-strikes" in {one.slug for one in planned({**FOUND, "retainer-to-seal": "10.9"}).messages}
    assert "`coil-bind`" in said(planned(FOUND, coil_bind=""), "spring-lift-not-checked")


def test_a_shim_brings_the_height_back_and_costs_the_room_between_the_coils() -> None:
    shop = 'shop "x"\n  units mm\npractice\n  shims 0.5\n  shim-limit 1.5\n'
    text = (
        'job 1\n  units mm\nuse "a.shop"\nhead "h"\n  material grey iron\n  temperature 20 C\n'
        "  depth-from deck\nvalves E1\n"
        "  insert stays\n  recession 1.0 to 1.2\n  spring-height 38.6 to 39.0\n  valve-lift 9.5\n  coil-bind 28.0\n"
        "  bind-room least 1.2\n  spring-force 296 N at 38.9\n  spring-force 790 N at 29.4\n"
        "measured at 20 C\n  valve  recession  spring-height  spring-force  spring-at  retainer-to-seal\n"
        "  E1  0.70  38.8  280 N  38.9  11.5\n"
    )
    job, messages = read("a.seat", lambda name: (shop if name == "a.shop" else text).encode())
    assert job is not None, messages
    made = plan(job)
    found = spring(made)
    # Sunk by 0.40 to 1.10: 39.20, which a shim of 0.5 brings to 38.70. 52 N/mm: 20.8 N lost, 26 N got back.
    assert [figure and round(figure.value, 6) for figure in (found.height, found.shim, found.loss)] == [38.7, 0.5, 20.8]
    assert found.force_shut is not None
    assert found.force_unshimmed is not None
    assert found.force_shut.value - found.force_unshimmed.value == pytest.approx(26.0)
    assert found.force_shut.value == pytest.approx(280 + 52 * 0.2)
    # The shim costs its thickness between the coils, nothing over the seal.
    assert found.bind_room is not None
    assert found.bind_room.value == pytest.approx(39.2 - 0.5 - 9.5 - 28.0)
    assert found.retainer_room is not None
    assert found.retainer_room.value == pytest.approx(11.5 + 0.4 - 9.5)
    assert dict(found.verdicts)["bind_room"] == "pass"


def test_nothing_of_springs_given_nothing_is_said_of_them() -> None:
    bare = {word.replace("-", "_"): "" for word in LIMITS}
    made = planned({"stem": "7.96"}, new=(), **bare)
    assert made.valves[0].spring is None
    assert not [one for one in made.messages if one.slug.startswith("spring") and one.severity is not Severity.NOTICE]


def test_what_a_new_spring_has_is_no_limit_of_the_force_shut() -> None:
    # 38.9 to 39.2 is the maker's own range: a new one of 296 N at 38.9 has 280 N at its end.
    made = planned({**FOUND, "spring-height": "39.2"}, new=("296 N at 38.9", "790 N at 29.4"))
    assert not said(made, "spring-force-low")
    assert "shut" not in dict(spring(made).verdicts)
    assert said(made, "spring-under-new").startswith("notice")


def test_a_shim_that_would_bind_is_not_advised_for_a_force_that_is_low() -> None:
    # 52 N/mm: 270 N at 38.9 are 254 N at 39.2. Back at 38.9 it has 38.9 - 9.5 - 28.6 = 0.80 at full lift.
    low, least = {**FOUND, "spring-height": "39.2", "spring-force": "270 N"}, "spring-least 258 N at 38.9"
    new = ("296 N at 38.9", "790 N at 29.4")
    tight = said(planned(low, least, new=new, coil_bind="28.6"), "spring-force-low")
    assert "would bring it back to 38.9 mm, and leave 0.80 mm between the coils at full lift; 1.0 mm is the" in tight
    wide = said(planned(low, least, new=new), "spring-force-low")
    assert "A shim of 0.30 mm brings it back to 38.9 mm" in wide
    assert wide.endswith("; or a new spring.")


def test_where_no_spring_was_measured_a_new_one_is_no_way_out() -> None:
    found = {word: value for word, value in FOUND.items() if word not in ("spring-force", "spring-at")}
    made = planned(
        {**found, "spring-height": "39.2"}, "spring-least 290 N at 38.9", new=("296 N at 38.9", "790 N at 29.4")
    )
    assert said(made, "spring-force-low").endswith("takes as much off the room between the coils.")


RENEWED = "replaced 2026-11-20\n  valve  part\n  E1  guide\n"
NEW_GUIDE = (
    "measured 2026-11-20 at 20 C\n  valve  guide-top  guide-middle  guide-bottom{}\n  E1  7.005  7.003  7.006{}\n"
)


@pytest.mark.parametrize(
    ("more", "room"),
    [
        ("", None),  # still to come: what was read over the old one is not carried over
        (RENEWED + NEW_GUIDE.format("", ""), None),
        (RENEWED + NEW_GUIDE.format("  retainer-to-seal", "  10.8"), 10.8 - 9.5),
    ],
)
def test_room_over_the_seal_is_never_that_of_the_guide_that_came_out(more: str, room: float | None) -> None:
    lines = ["insert none", "guide choose", "stem 6.965", *(f"{word} {value}" for word, value in LIMITS.items())]
    text = 'job 1\n  units mm\nhead "h"\n  material grey iron\n  temperature 20 C\nvalves E1\n'
    text += "".join(f"  {line}\n" for line in lines)
    text += f"measured 2026-11-18 at 20 C\n  valve  {'  '.join(FOUND)}\n  E1  {'  '.join(FOUND.values())}\n{more}"
    job, messages = read("a.seat", lambda _: text.encode())
    assert job is not None, messages
    made = plan(job)
    if room is None:
        assert spring(made).retainer_room is None
        assert "retainer_room" not in dict(spring(made).verdicts)
        assert "`retainer-to-seal` over the new guide" in said(made, "spring-lift-not-checked")
        return
    kept = spring(made).retainer_room
    assert kept is not None
    assert kept.value == pytest.approx(room)
    assert said(made, "retainer-strikes")


def test_a_limit_in_another_unit_is_said_in_that_of_the_job_too() -> None:
    # 58 lbf are 58 x 4.4482216 = 257.997 N.
    made = planned({**FOUND, "spring-force": "251 N"}, "spring-least 58 lbf at 38.9")
    assert "has 251 N at 38.9 mm; 58 lbf, 258 N, is the least of a used one" in said(made, "spring-weak")


@pytest.mark.parametrize(
    ("bind", "shim", "binds"),
    [
        ("27.9", 0.45, False),  # 39.20 - 0.45 = 38.75, nearest to the middle of 38.6 to 39.0
        ("28.2", 0.25, False),  # that would leave 38.75 - 9.5 - 28.2 = 1.05, and 1.2 is the least: 38.95 leaves 1.25
        ("28.4", 0.45, True),  # not even the thin one leaves 1.2: said
    ],
)
def test_a_stack_that_leaves_the_coils_their_room_goes_before_one_that_does_not(
    bind: str, shim: float, binds: bool
) -> None:
    shop = 'shop "x"\n  units mm\npractice\n  shims 0.25 0.45\n  shim-limit 0.45\n'
    text = (
        'job 1\n  units mm\nuse "a.shop"\nhead "h"\n  material grey iron\n  temperature 20 C\n'
        "  depth-from deck\nvalves E1\n"
        f"  insert stays\n  recession 1.0 to 1.2\n  spring-height 38.6 to 39.0\n  valve-lift 9.5\n  coil-bind {bind}\n"
        "  bind-room least 1.2\n"
        "measured at 20 C\n  valve  recession  spring-height\n  E1  0.70  38.8\n"
    )
    job, messages = read("a.seat", lambda name: (shop if name == "a.shop" else text).encode())
    assert job is not None, messages
    made = plan(job)
    found = spring(made).shim
    assert found is not None
    assert found.value == pytest.approx(shim)
    assert bool(said(made, "spring-binds")) is binds
