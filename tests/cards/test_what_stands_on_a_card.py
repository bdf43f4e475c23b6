"""What a hand needs stands on its card, once; and what must not be done yet does not."""

from __future__ import annotations

import json
import re

import pytest
from tests.cards.demo import DEMO_JOBS, made, plan_of
from tests.cards.demo_plans import planned, text, with_a_worn_guide

from seatwright.cards.deck import cards
from seatwright.cards.paper import PAPERS
from seatwright.cards.render import NoCard, documents
from seatwright.cards.sheets import sheets

DIESEL, HALF_WAY, SIXTEEN = "four-cylinder-diesel", "half-way", "four-valve-aluminium"


def rows(markdown: str, valve: str) -> list[list[str]]:
    """The cells of each row of a valve."""
    return [
        [cell.strip() for cell in line.strip().strip("|").split(" |")]
        for line in markdown.split("\n")
        if line.strip().startswith(f"| {valve} |")
    ]


# --- the setting card ----------------------------------------------------------------------------------------------


def test_one_figure_is_set_and_all_others_are_checked() -> None:
    for name in DEMO_JOBS:
        for card in re.split(r"\n---\n", made(name, "a4").markdown):
            loud = re.findall(r"\*\*\*[^*]+\*\*\*", card)
            assert len(loud) <= (3 if re.search(r"^# \d+\. Seat", card, re.M) else 1), card[:60]


def test_the_first_pocket_has_a_sum_for_its_bore_and_one_for_its_depth() -> None:
    card = text(planned(DIESEL), "Setting C2 at 41.014")
    assert "First pocket E1: bore 0.100 under size and short of depth at 8.16. Cool, clean, measure." in card
    assert (
        "− measured | \\= open by *deeper by* | half, needle *parallel, thick* | gauge now *40.914 + open by* |" in card
    )
    assert "| **Bore** | 41.019 | ______ | ______ | ______ | ______ |" in card
    assert "| **Depth** | 8.25 | ______ | ______ | ______ | ~~~ |" in card


def test_the_depth_is_zeroed_at_every_pocket_on_its_own_face_over_a_parallel() -> None:
    for name, face in ((DIESEL, "deck"), (SIXTEEN, "rim")):
        assert f"- Tip on parallel on its own {face}: dial to −thickness." in text(planned(name), "Setting")


def test_a_head_whose_valves_lean_is_tilted_and_one_whose_valves_stand_is_levelled_once() -> None:
    leaning, standing = text(planned(SIXTEEN), "Setting"), text(planned(DIESEL), "Setting")
    assert leaning.count("Tilt the head, clamp, check again") == 4
    assert "the guide square to the table. It leans 21°." in re.sub(r"\s+", " ", leaning)
    assert "Level both ways" not in leaning
    assert standing.count("Level both ways, clamp, check again") == 1
    assert standing.count("As for C2 at 41.014. Moved since: level again, to 0.05 mm/m.") == 2


def test_the_needle_is_said_to_show_radius_or_diameter_and_moved_by_half_or_all() -> None:
    radius, diameter = text(planned(DIESEL), "Setting"), text(planned(SIXTEEN), "Setting")
    assert "Shows RADIUS" in radius
    assert "DIAMETER" not in radius
    assert "Shows DIAMETER" in diameter
    assert "half" not in diameter.replace("half-way", "")


def test_every_reading_of_a_bore_and_its_depth_has_a_cell_under_its_word_of_the_job_file() -> None:
    card = text(planned(DIESEL), "Setting C2 at 41.014")
    head = next(line for line in card.split("\n") if line.startswith("| Valve |"))
    for word in ("bore-a", "bore-b", "low-a", "low-b", "-a", "-b", "-c", "-d", "Initial"):
        assert f"*{word}*" in head or word in head
    (row,) = rows(card, "E1")
    assert row.count("______") == 9


def test_what_is_done_with_a_bore_is_said_for_all_five_outcomes() -> None:
    card = text(planned(DIESEL), "Setting C2 at 41.014")
    for outcome in ("Inside", "In between", "Small", "Big", "Out of round"):
        assert f"- **{outcome}** " in card
    assert "Open by 41.019 − measured, half on the needle. Never past 41.019." in card
    assert "Over round 0.012, taper 0.010, floor 0.02: stop." in card


def test_passes_below_size_stand_before_the_first_cut_each_with_its_valves() -> None:
    card = text(planned("integral-seats"), "Setting")
    assert "**35.294** E1 E2 E4" in card
    assert card.index("**35.294**") < card.index("***36.820***")


def test_a_bore_that_waits_is_boxed_and_has_no_cell_to_write_in() -> None:
    card = text(planned(HALF_WAY), "Setting")
    assert "> **WAIT E4** E3 may take its insert." in card
    # E2 is opened from its own cut, so the card is begun without E4.
    assert "do not begin this card" not in card
    (row,) = rows(card, "E4")
    assert "______" not in row
    assert row.count("~~~") == 9
    assert "1. Level both ways, clamp, check again [ ]" in card


def test_a_setting_keeps_its_name_when_another_is_done() -> None:
    assert [card.title for card in cards(plan_of(DIESEL)) if card.name == "setting"] == [
        "Setting C2 at 41.014", "Setting C2 at 46.512", "Setting C2 at 47.012",
    ]  # fmt: skip
    assert "C2 at 46.512 |" in text(planned(DIESEL), "Job 2214")


# --- press, seat, close-out ----------------------------------------------------------------------------------------


def test_nothing_goes_in_before_every_bore_is_accepted() -> None:
    card = text(with_a_worn_guide(), "Inserts in")
    assert card.index("> **NOT YET** Nothing goes in before every bore of this head is accepted") < card.index("1. ")
    assert "E2 on hold" in card
    assert "E4 waits: E3 may take its insert." in text(planned(HALF_WAY), "Inserts in")


def test_feeler_stand_and_pressing_down_again_come_with_each_insert_and_before_it_cools() -> None:
    card = text(planned(DIESEL), "Inserts in")
    each, cool = card.index("With each, warm: feeler nowhere"), card.index("Cool to the room by itself")
    assert card.index("One at a time, in this order") < each < cool
    assert "High: press down again while it is warm." in card
    (row,) = rows(card, "E3")
    assert row[-3:] == ["*9.024* ______", "*9.022* ______", "*9.058* ______"]


def test_the_head_temperature_that_is_too_low_for_the_next_insert_has_a_column_where_the_plan_says_it() -> None:
    card = text(planned(DIESEL), "Inserts in")
    said = "reheat_below_C" in documents(planned(DIESEL)).plan_json
    assert ("Reheat" in card) is said


def test_heat_that_leaves_nothing_of_a_fit_is_said_where_the_plan_says_it() -> None:
    for name in DEMO_JOBS:
        gone = "gone_at_C" in made(name, "a4").plan_json
        assert ("nothing holds the insert any more" in made(name, "a4").markdown) <= gone


def test_a_seat_is_cut_seat_top_throat_and_the_gauge_depth_waits_for_its_edge() -> None:
    card = text(planned(DIESEL), "Seat 45°, exhaust")
    seat, top, throat, light = (card.index(f"\n{n}. ") for n in (1, 2, 3, 4))
    assert "gauge" not in card[seat:top].lower()
    assert "Only then there is an edge to measure the gauge depth to" in card[top:throat]
    assert "***1.8–2.2***" in card[throat:light]
    assert "A last light pass at 45°, burrs off" in card[light:]


def test_a_height_without_a_limit_has_no_column_on_a_seat_card() -> None:
    assert "Stem" not in text(planned(DIESEL), "Seat")
    assert "Recession *found*" in text(planned(DIESEL), "Seat")


def test_the_whole_head_is_pressure_tested_on_the_last_card_before_the_record_always() -> None:
    for name in DEMO_JOBS:
        if name == "as-found":
            continue
        decks = re.split(r"\n---\n", made(name, "a4").markdown)
        asks = [n for n, card in enumerate(decks) if "Close-out: pressure-test the whole head, behind a guard." in card]
        told = "Pressure test of the whole head after the work: pass." in decks[-1]
        assert told or asks in ([len(decks) - 2], [len(decks) - 1]), name


# --- job sheet, guides, as found, record ----------------------------------------------------------------------------


def test_a_valve_on_hold_has_no_figure_on_the_job_sheet() -> None:
    (row,) = rows(text(with_a_worn_guide(), "Job 2214"), "E2")
    assert row == ["E2", "**HOLD**", "guide", "X41", "~~~", "~~~", "~~~"]


def test_the_job_sheet_fetches_what_the_cards_ask_for() -> None:
    sheet = text(planned(DIESEL), "Job 2214")
    for thing in ("masters 40.000 and 50.000", "ring 44.000", "Parallel", "P9000, P9005, P9010, XP9",
                  "Seat cutters 30°, 45°, 60°", "leak tester", "X41 3 (0 left)", "Oven at 160 °C",
                  "Nitrogen −195.8 °C"):  # fmt: skip
        assert thing in sheet, thing


def test_what_was_not_checked_stands_once_on_the_job_sheet_grouped_by_what_it_may_cost() -> None:
    sheet = text(planned(DIESEL), "Job 2214")
    assert "## Not checked. May cost the head" in sheet
    lines = [line for line in sheet.split("\n") if line.startswith("* ")]
    assert len(lines) == len(set(lines))


def test_a_finished_head_has_neither_a_back_nor_cautions() -> None:
    deck = cards(plan_of("ready-to-leave"))
    assert [card.name for card in deck] == ["job", "record"]
    assert not deck[0].content.back
    assert "## Cautions" not in made("ready-to-leave", "a4").markdown


def test_the_guides_card_names_stations_by_the_ends_of_the_guide() -> None:
    card = text(with_a_worn_guide(), "Guides and pilots")
    head = next(line for line in card.split("\n") if line.startswith("| Valve |"))
    assert "Spring *end, mm*" in head
    assert "Port *end*" in head
    assert "top" not in head
    (row,) = rows(card, "E2")
    assert row[5:8] == ["**0.132**", "0.045 to 0.12", "**WORN**"]
    assert row[-3:] == ["~~~"] * 3


def test_the_as_found_sheet_has_a_blank_for_every_column_that_a_job_may_be_asked_for() -> None:
    card = made("as-found", "a5").markdown.split("\n---\n")[0]
    for words in ("Guide *length*", "Guide *to-floor*", "Centres", "Insert *was*", "Insert *od*", "Pocket *tir*",
                  "Recession", "Casting", "Weight", "Flat"):  # fmt: skip
        assert words in card, words
    assert "**Sodium**" in card


def test_the_caution_of_flying_pieces_stands_on_the_sheet_on_which_an_insert_is_broken_out() -> None:
    named = planned("as-found")
    if any(caution.slug == "flying-pieces" for caution in named.cautions):
        assert "**Pieces fly**" in text(named, "As found")


def test_the_record_has_no_words_of_the_compiler_and_signatures_on_its_first_sheet() -> None:
    for name in DEMO_JOBS:
        record = made(name, "a4").markdown.split("\n---\n")[-1]
        assert not re.search(r"\bx-\w+|`|guide-wear|seat-runout|spring-height", record)
    sixteen = cards(plan_of(SIXTEEN))[-1]
    first, *others = sheets(sixteen, PAPERS["letter"])
    assert first.content.signed
    assert len(others) == 1
    assert not others[0].content.signed


def test_a_left_alone_or_held_valve_has_nothing_to_write_on_the_record() -> None:
    (row,) = rows(text(with_a_worn_guide(), "Record"), "E2")
    assert "______" not in row
    assert "**HOLD**" in row


def test_a_pocket_that_stays_is_as_found_on_the_record() -> None:
    (row,) = rows(text(planned(DIESEL), "Record"), "E4")
    assert "as found" in row


# --- sheets, one card alone -----------------------------------------------------------------------------------------


@pytest.mark.parametrize("paper", sorted(PAPERS))
@pytest.mark.parametrize("name", DEMO_JOBS)
def test_every_row_of_every_table_is_on_one_sheet_and_only_once(name: str, paper: str) -> None:
    for card in cards(plan_of(name)):
        parts = [sheet.content for sheet in sheets(card, PAPERS[paper]) if not sheet.back]
        for table in card.content.tables:
            written = [cell for row in table.rows for cell in row if cell]
            printed = [
                cell for part in parts for each in part.tables for row in each.rows for cell in row if cell
            ]  # fmt: skip
            assert all(printed.count(cell) >= written.count(cell) for cell in set(written))
        for field in ("boxes", "first", "outcomes", "below", "last", "care", "holds"):
            assert [x for part in parts for x in getattr(part, field)] == list(getattr(card.content, field)), field


def test_stamps_do_not_depend_on_the_paper() -> None:
    for name in DEMO_JOBS:
        every = [[card["stamp"] for card in json.loads(made(name, paper).plan_json)["cards"]] for paper in PAPERS]
        assert all(one == every[0] for one in every)


def test_one_card_alone_is_made_by_its_kind_its_number_or_its_setting() -> None:
    plan = plan_of(DIESEL)
    for name in ("press", "6", "C2 at 46.512", "setting c2 at 46.512"):
        page = documents(plan, only=name)
        assert page.html.count("<section") == 1
        assert len(json.loads(page.plan_json)["cards"]) == 9
    with pytest.raises(
        NoCard, match=r"there is no card lathe; this job has 1 \(job\), 2 \(guides\), 3 \(C2 at 41.014\)"
    ):
        documents(plan, only="lathe")


def test_the_record_says_of_the_head_what_was_not_looked_at_and_nothing_of_the_shop() -> None:
    """A customer asks whether the metal was measured, and not how deep a cutter can go."""
    job = text(planned("single-cylinder"), "Job 41")
    record = text(planned("single-cylinder"), "Record")
    assert "How deep C1 can go is not given" in job
    assert "cutter" not in record
    assert "C1" not in record
    assert "Metal under the pockets. Metal between the pockets." in record
    assert "How exactly the bores are known" in record


def test_a_folded_head_names_every_column() -> None:
    """On narrow paper a row goes on below: a bare 2 would not say that it is the second reading of the stand."""
    card = next(card for card in cards(planned("single-cylinder")) if card.name == "press")
    heads = {
        word for sheet in sheets(card, PAPERS["a5"]) for table in sheet.content.tables for column in table.columns
        for word in (column.name, *column.below.split(" / "))
    }  # fmt: skip
    assert {"Stand 1", "Stand 2", "Stand 3", "Stand 4", "now middle", "now port"} <= heads
