"""Guides that are renewed: the choice against every other way to share a small stock out, and what waits for what."""

from __future__ import annotations

import itertools
import random

import pytest

from seatwright.job import read
from seatwright.planning.plan import Plan
from seatwright.planning.planner import plan
from seatwright.told.plan_json import plan_document

SHOP = """shop "x"
  units mm
{guides}
{reamers}
guide-fits
  head  alloy  kind  over  to  least  most  source
  grey-iron  any  guide  -  -  0.027  0.059  "shop book"
  grey-iron  any  liner  -  -  0.010  0.030  "shop book"
practice
  guide-room  0.020
  slip  0.03
assembly
  press  60 kN
"""
GUIDES = (
    "guides\n  guide  od  od-least  od-most  length  id  kind  alloy  on-hand\n"
    "  G11  11.03  11.023  11.034  42  6.85  guide  guide-bronze  4\n"
    "  G112  11.23  11.223  11.234  42  6.85  guide  guide-bronze  1\n"
    "  L8  8.02  8.017  8.022  42  6.85  liner  guide-bronze  9\n"
)
REAMERS = (
    "reamers\n  reamer  diameter  for  overcut\n  R112  11.183  hole  0.003\n  R80  7.998  hole  -\n"
    "  R7  7.004  guide  0.003\n"
)
HEAD = """job 1 "x"
  units mm
use "a.shop"
head "h"
  material grey iron
  temperature 20 C
"""
VALVE = """valves {names}
  insert none
  guide choose
  stem 6.965
  guide-clearance 0.035 to 0.050
  guide-length 42
"""
ROW = "measured at 20 C\n  valve  guide-top  guide-middle  guide-bottom  guide-hole-top  guide-hole-bottom\n"
RENEWED = """replaced 2026-11-20
  valve  part
  E1  guide
measured 2026-11-20 at 20 C
  valve  guide-top  guide-middle  guide-bottom
"""


def planned(text: str, guides: str = GUIDES, reamers: str = REAMERS, shop: str = SHOP) -> Plan:
    files = {"a.seat": text, "a.shop": shop.format(guides=guides, reamers=reamers)}
    job, messages = read("a.seat", lambda name: files[name].encode())
    assert job is not None, messages
    return plan(job)


def one(row: str = "  E1  7.090  7.060  7.080  10.990  10.986\n", valve: str = VALVE, more: str = "") -> Plan:
    return planned(HEAD + valve.format(names="E1") + ROW + row + more)


def slugs(made: Plan) -> set[str]:
    return {message.slug for message in made.messages}


# --- the choice -------------------------------------------------------------------------------------------------------

LEAST, MOST, ROOM = 27, 59, 20  # thousandths, as in the shop above


def _way(hole: tuple[int, int], od: tuple[int, int], cuts: list[int]) -> int | None:
    """0: goes in as it is; 1: a reamer cuts its hole; 2: it is bored; None: it does not serve. In thousandths."""
    if od[0] - hole[1] >= LEAST and od[1] - hole[0] <= MOST:
        return 0
    low, high = max(od[1] - MOST, hole[1] + ROOM), od[0] - LEAST
    if low > high:
        return None
    return 1 if any(low <= cut <= high for cut in cuts) else 2


def _mm(thousandths: int) -> str:
    return f"{thousandths / 1000:.3f}"


def test_the_choice_is_the_best_of_all_ways_to_share_three_hundred_small_stocks_out() -> None:
    draw = random.Random(1611)
    for _ in range(300):
        valves = [f"E{n}" for n in range(1, draw.randint(2, 4))]
        holes = [(low, low + draw.randint(0, 12)) for low in (draw.randint(10970, 11060) for _ in valves)]
        stock = sorted(draw.sample(range(11010, 11260, 10), draw.randint(1, 3)))
        ods = [(od - draw.randint(2, 7), od + draw.randint(0, 6)) for od in stock]
        counts = [draw.choice((0, 1, 1, 2)) for _ in stock]
        cuts = draw.sample(range(10980, 11240, 6), draw.randint(0, 3))
        made = _planned_stock(valves, holes, ods, counts, cuts)
        ways = [[_way(hole, od, cuts) for od in ods] for hole in holes]
        best = min(
            _worth(choice, ways, ods)
            for choice in itertools.product([None, *range(len(stock))], repeat=len(valves))
            if all(choice.count(at) <= counts[at] for at in range(len(stock)))
            and all(at is None or ways[row][at] is not None for row, at in enumerate(choice))
        )
        chosen = [None if valve.guide.name is None else int(valve.guide.name[1:]) for valve in made.valves]
        assert _worth(tuple(chosen), ways, ods) == best, (holes, ods, counts, cuts, chosen)


def _planned_stock(
    valves: list[str], holes: list[tuple[int, int]], ods: list[tuple[int, int]], counts: list[int], cuts: list[int]
) -> Plan:
    guides = "guides\n  guide  od-least  od-most  od  kind  on-hand\n" + "".join(
        f"  G{n}  {_mm(low)}  {_mm(high)}  {_mm((low + high) // 2)}  guide  {count}\n"
        for n, ((low, high), count) in enumerate(zip(ods, counts, strict=True))
    )
    reamers = "reamers\n  reamer  diameter  for  overcut\n" + "".join(
        f"  R{n}  {_mm(cut)}  hole  0\n" for n, cut in enumerate(cuts)
    )
    rows = "measured at 20 C\n  valve  guide-hole-top  guide-hole-bottom\n" + "".join(
        f"  {name}  {_mm(low)}  {_mm(high)}\n" for name, (low, high) in zip(valves, holes, strict=True)
    )
    said = f"valves {' '.join(valves)}\n  insert none\n  guide choose\n"
    return planned(HEAD + said + rows, guides, reamers if cuts else "")


def _worth(
    choice: tuple[int | None, ...], ways: list[list[int | None]], ods: list[tuple[int, int]]
) -> tuple[int, int, int]:
    """Most served, then the least cutting, then the smallest guides."""
    served = [(row, at) for row, at in enumerate(choice) if at is not None]
    cutting = sum(ways[row][at] or 0 for row, at in served)
    return -len(served), cutting, sum(sum(ods[at]) for _, at in served)


def test_a_guide_goes_in_as_found_where_it_grips_and_the_oversize_where_the_hole_has_grown() -> None:
    (grips,) = one().valves
    assert (grips.guide.name, grips.guide.reamer) == ("G11", None)
    (grown,) = one("  E1  7.090  7.060  7.080  11.020  11.012\n").valves
    assert (grown.guide.name, grown.guide.reamer) == ("G112", "R112")
    hole = grown.guide.hole
    assert hole is not None
    assert hole.least is not None
    assert hole.most is not None
    # 11.234 − 0.059 and 11.223 − 0.027
    assert (hole.least.value, hole.most.value) == pytest.approx((11.175, 11.196))


def test_a_liner_goes_into_the_old_guide_where_it_is_named_or_no_guide_serves() -> None:
    made = one("  E1  8.004  7.996  8.000  -  -\n", VALVE.replace("guide choose", "guide L8"))
    (lined,) = made.valves
    assert (lined.guide.action, lined.guide.name) == ("line", "L8")
    assert lined.guide.closes is None
    # 8.017 − 8.004 = 0.013 and 8.022 − 7.996 = 0.026: within 0.010 to 0.030, so nothing is cut.
    assert lined.guide.hole is not None
    assert lined.guide.hole.least is None
    # Its force is reckoned in the metal of the head, which is not what it stands in: said once.
    assert sum("goes by the head's metal" in message.text for message in made.messages) == 1


def test_no_liner_is_taken_where_the_old_guide_is_out() -> None:
    worn_out = "  E1  7.090  7.060  7.080  11.220  11.216\n"  # no guide of the shop grips there
    (valve,) = one(worn_out).valves
    assert [hold.slug for hold in valve.holds] == ["guide-none-serves"]
    assert "that one is out" in valve.holds[0].text


def test_a_measured_guide_is_both_limits_of_its_own() -> None:
    row = (
        ROW.replace("guide-hole-bottom", "guide-hole-bottom  guide-od")
        + "  E1  7.09  7.06  7.08  10.990  10.986  11.018\n"
    )
    made = planned(HEAD + VALVE.format(names="E1") + row)
    guide = made.valves[0].guide
    # 11.018 − 10.990 = 0.028: in, though the list alone would have it from 11.023 on.
    assert guide.fit is not None
    assert guide.fit.expected is not None
    assert (guide.name, guide.fit.expected.value) == ("G11", pytest.approx(11.018 - 10.988))


def test_a_finished_guide_must_be_bought_as_much_bigger_as_its_fit_closes_it() -> None:
    finished = GUIDES.replace("  id  kind", "  id  id-finished  kind").replace("6.85  liner", "6.85  no  liner")
    named = VALVE.format(names="E1").replace("guide choose", "guide G11")
    row = HEAD + named + ROW + "  E1  7.090  7.060  7.080  10.990  10.986\n"
    # Bought to the finished size it closes under it; what it has to measure is said.
    small = planned(row, finished.replace("6.85  guide", "7.008  yes  guide"))
    (hold,) = small.valves[0].holds
    assert hold.slug == "guide-none-serves"
    assert "it must be bought 7.028 to 7.042 mm" in hold.text
    bigger = planned(row, finished.replace("6.85  guide", "7.034  yes  guide")).valves[0].guide
    assert bigger.name == "G11"
    assert bigger.bore is not None
    assert bigger.bore.reamer is None
    assert bigger.bought is not None
    assert bigger.closes is not None
    assert bigger.bought.least.value == pytest.approx(7.000 + bigger.closes.value)


# --- what waits for what ----------------------------------------------------------------------------------------------


def test_a_valve_whose_guide_is_renewed_is_no_hold_whatever_the_old_one_is_like() -> None:
    made = one(valve=VALVE.replace("insert none", "insert choose"))
    (valve,) = made.valves
    assert (valve.status, valve.holds) == ("guide-first", ())
    assert valve.insert is None
    assert valve.bore is None
    assert made.settings == ()
    assert [(each.name, each.count, each.left) for each in made.fetch.guides] == [("G11", 1, 3)]
    assert made.fetch.reamers == ("R7",)


def test_it_is_on_no_card_of_a_pocket_and_on_that_of_the_guides() -> None:
    from seatwright.cards.deck import cards

    served = {card.name: card.valves for card in cards(one(valve=VALVE.replace("insert none", "insert choose")))}
    assert set(served) == {"job", "guides", "record"}
    assert served["guides"] == ("E1",)


def test_in_and_not_measured_yet_it_still_waits() -> None:
    made = one(valve=VALVE.replace("insert none", "insert choose"), more=RENEWED.partition("measured")[0])
    assert made.valves[0].status == "guide-first"


def test_a_new_guide_that_is_tight_is_a_hold_with_the_reamer_and_reamed_and_measured_again_it_is_none() -> None:
    tight = one(more=RENEWED + "  E1  6.985  6.981  6.988\n")
    assert tight.valves[0].status == "hold"
    (hold,) = tight.valves[0].holds
    assert hold.slug == "guide-new-tight"
    assert "Ream it with R7 to 7.00 to 7.015 mm, then measure it again." in hold.help
    reamed = (
        RENEWED + "  E1  6.985  6.981  6.988\nmeasured 2026-11-21\n  valve  guide-top  guide-middle  guide-bottom\n"
    )
    good = one(more=f"{reamed}  E1  7.006  7.005  7.008\n")
    assert good.valves[0].holds == ()
    assert good.valves[0].guide.verdict == "fit"


def test_keep_holds_a_worn_guide_and_none_says_nothing_of_it() -> None:
    kept = one(valve=VALVE.replace("guide choose", "guide keep\n  guide-wear-limit 0.10").replace("none", "choose"))
    assert "guide-worn" in {hold.slug for hold in kept.valves[0].holds}
    left = one(
        valve=VALVE.replace("guide choose", "guide none\n  guide-wear-limit 0.10").replace(
            "insert none", "insert stays"
        )
    )
    assert not {hold.slug for hold in left.valves[0].holds} & {"guide-worn"}
    assert left.valves[0].guide.verdict == "not-checked"


def test_once_it_is_in_nothing_more_is_fetched_and_the_record_still_names_it() -> None:
    done = one(more=RENEWED + "  E1  7.006  7.005  7.008\n")
    assert done.fetch.guides == ()
    assert plan_document(done)["valves"]["E1"]["guide"]["name"] == "G11"


# --- what is missing is said once, and the rest goes on ---------------------------------------------------------------


@pytest.mark.parametrize(
    ("gone", "slug", "still"),
    [
        ("reamers", "reamers-not-given", {"name", "fit", "closes", "bore"}),
        ("guides", "guides-not-given", {"bore"}),
        ("guide-fits", "guide-fit-not-given", {"bore", "hole"}),
        ("stem", "guide-bore-not-known", {"name", "fit", "closes"}),
        ("hole", "guide-hole-not-measured", {"bore"}),
        ("slip", "guide-way-not-computed", {"name", "fit", "closes", "bore"}),
    ],
)
def test_what_is_missing_is_said_once_and_the_rest_goes_on(gone: str, slug: str, still: set[str]) -> None:
    names = "E1 E2"
    valve = VALVE.format(names=names)
    rows = ROW + "".join(f"  {name}  7.09  7.06  7.08  10.990  10.986\n" for name in names.split())
    shop = SHOP
    if gone == "guide-fits":
        shop = SHOP[: SHOP.index("guide-fits")] + SHOP[SHOP.index("practice") :]
    if gone == "slip":
        shop = SHOP.replace("  slip  0.03\n", "")
    if gone == "stem":
        valve = valve.replace("  stem 6.965\n", "")
    if gone == "hole":
        rows = rows.replace("10.990  10.986", "-  -")
    made = planned(HEAD + valve + rows, "" if gone == "guides" else GUIDES, "" if gone == "reamers" else REAMERS, shop)
    (said,) = [message for message in made.messages if message.slug == slug]
    assert said.valves == ("E1", "E2")
    for plan_of in made.valves:
        assert plan_of.status == "guide-first"
        assert all(getattr(plan_of.guide, name) is not None for name in still), plan_of.guide


# --- a bore that the maker prints, and a stem that is another ---------------------------------------------------------


@pytest.mark.parametrize(
    ("stem", "said"),
    [
        ("6.965", None),  # 7.000 to 7.015 less 6.965: 0.035 to 0.050
        ("6.960", "0.04 to 0.055 mm; 0.035 to 0.050 is its clearance. Size the guide to 7.00 to 7.01 mm,"),
        ("6.942", "0.058 to 0.073 mm; 0.035 to 0.050 is its clearance. Take another valve;"),
        ("6.990", "0.01 to 0.025 mm; 0.035 to 0.050 is its clearance. Take another valve;"),
    ],
)
def test_the_makers_bore_is_held_against_the_stem_as_measured(stem: str, said: str | None) -> None:
    valve = VALVE.replace("  stem 6.965\n", "  guide-bore 7.000 to 7.015\n")
    row = (
        ROW.replace("guide-hole-bottom", "guide-hole-bottom  stem")
        + f"  E1  7.090  7.060  7.080  10.990  10.986  {stem}\n"
    )
    made = planned(HEAD + valve.format(names="E1") + row)
    found = [f"{one.text} {one.help}" for one in made.messages if one.slug == "guide-bore-off-stem"]
    if said is None:
        assert not found
    else:
        assert len(found) == 1
        assert said in found[0]


@pytest.mark.parametrize(
    ("lines", "holds", "said"),
    [
        # Over 42 - 14 = 28 mm: 0.10 x 96.4 MPa x pi x 11.0285 x 28, reckoned beside.
        ("  guide-stand 13 to 14\n  guide-tightness 3500 N\n", True, None),
        ("  guide-stand 13 to 14\n  guide-tightness 12 kN\n", False, "guide-not-held"),
        ("  guide-stand shoulder\n  guide-tightness 3500 N\n", None, "guide-grip-not-computed"),
        ("  guide-tightness 3500 N\n", None, "guide-grip-not-computed"),
        ("  guide-tightness 15 kN\n", False, "guide-not-held"),  # not even all of it
    ],
)
def test_a_guide_is_only_said_to_hold_where_it_is_known_what_of_it_grips(
    lines: str, holds: bool | None, said: str
) -> None:
    made = one(valve=VALVE + lines)
    assert made.valves[0].guide.holds is holds
    assert {slug for slug in slugs(made) if slug in ("guide-not-held", "guide-grip-not-computed")} == {said} - {None}


def test_what_is_to_be_ordered_says_the_bore_where_that_is_what_is_wrong() -> None:
    # 7.03 closes by 0.027 or 0.028: the same od again would not serve either. 7.000 - 0.020 + 0.027 is the most.
    wide = planned(HEAD + VALVE.format(names="E1") + ROW + "  E1  7.090  7.060  7.080  10.990  10.986\n",
                   GUIDES.replace("6.85", "7.03"))  # fmt: skip
    hold = next(each for each in wide.messages if each.slug == "guide-none-serves")
    assert "Order one of 11.017 to 11.045 mm for the hole as it is" in hold.help
    assert ", with a bore of 7.008 mm at most" in hold.help
    # Where od and bore are right but nothing is on hand, no bore is spoken of.
    guides = "".join(line for line in GUIDES.splitlines(True) if "liner" not in line)
    short = planned(HEAD + VALVE.format(names="E1") + ROW + "  E1  7.090  7.060  7.080  11.178  11.170\n", guides)
    hold = next(each for each in short.messages if each.slug == "guide-none-serves")
    assert "with a bore" not in hold.help
    assert "its hole may be 11.196 mm at most, which leaves a reamer 0.018 mm" in hold.text


@pytest.mark.parametrize(
    ("od", "off"),
    [("11.030", False), ("11.035", True), ("11.022", True), ("11.050", True), ("11.03", False)],
)
def test_a_guide_in_the_hand_is_held_against_its_list(od: str, off: bool) -> None:
    # G11 is listed 11.023 to 11.034; half a last digit of the reading is no difference.
    row = (
        ROW.replace("guide-hole-bottom", "guide-hole-bottom  guide-od")
        + f"  E1  7.090  7.060  7.080  10.990  10.986  {od}\n"
    )
    made = planned(HEAD + VALVE.format(names="E1") + row)
    assert ("guide-od-off-list" in slugs(made)) is off
    assert made.valves[0].guide.name == "G11"


BESIDE = """job 1 "x"
  units mm
use "a.shop"
head "h"
  material grey iron
  temperature 20 C
  depth-from rim
  least-bridge 2.0
valves all
  insert turned
valves I1 E1
  guide-length 60
valves E1
  guide choose
spacing
  I1  E1  46.500
measured 2026-11-19 at 20 C
  valve  pocket-a  pocket-b  pocket-depth  guide-top  guide-bottom
  I1  46.000  46.000  7.5  9.00  9.00
  E1  40.000  40.000  8.0  9.09  9.08
"""


def test_a_bridge_beside_a_pocket_that_waits_for_its_guide_is_said_to_count_it_as_found() -> None:
    slug = "bridge-neighbour-waits"
    (waits,) = [each for each in planned(BESIDE).messages if each.slug == slug]
    assert waits.valves == ("I1", "E1")
    new = RENEWED.replace("  guide-top  guide-middle  guide-bottom\n", "  guide-top  guide-bottom\n  E1  9.00  9.00\n")
    assert slug not in slugs(planned(BESIDE + new))
    # A seat that is only cut again takes no metal from the bridge.
    assert slug not in slugs(planned(BESIDE.replace("  guide choose\n", "  guide choose\n  insert stays\n")))


def test_a_guide_in_the_hand_that_is_another_than_the_one_asked_for_is_not_said_to_be_nobodys() -> None:
    row = (
        ROW.replace("guide-hole-bottom", "guide-hole-bottom  guide-od")
        + "  E1  7.090  7.060  7.080  10.990  10.986  {}\n"
    )
    text = HEAD + VALVE.format(names="E1") + row
    for wish, od, said in (
        ("G11", "11.229", "is not G11, which is asked for."),  # it is G112
        ("choose", "11.600", "is none of the shop's."),
    ):
        (hold,) = [
            each
            for each in planned(text.format(od).replace("guide choose", f"guide {wish}")).messages
            if each.slug == "guide-od-nobodys"
        ]
        assert hold.text == f"The guide measured for E1, {float(od):.3f} mm, {said}".replace("11.600", "11.60")


def test_a_guide_that_would_stand_out_with_all_its_length_is_a_slip() -> None:
    assert "guide-stand-odd" in slugs(one(valve=VALVE + "  guide-stand 41 to 42\n"))  # it is 42 long
    assert "guide-stand-odd" not in slugs(one(valve=VALVE + "  guide-stand 13 to 14\n"))
