"""One declaration, many uses: the model, the words of the parser and the reference page all agree with it."""

from __future__ import annotations

from pathlib import Path

import pytest

from seatwright.job import model
from seatwright.job.declarations import Field, Form, Kind, SectionDeclared, sections, vocabulary
from seatwright.job.reference import page
from seatwright.job.typed.fields import READERS

KINDS: tuple[Kind, ...] = ("job", "shop", "engine")


class PocketRow(model.PocketSize, frozen=True):
    """A row of the maker's sizes, its two limits beside each other as the table has them."""

    size: None = None
    bore_least: None = None
    bore_most: None = None
    depth_least: None = None
    depth_most: None = None
    insert_od_least: None = None
    insert_od_most: None = None
    interference_least: None = None
    interference_most: None = None


MODELS: dict[str, type] = {
    "job": model.Job,
    "head": model.Head,
    "valves": model.Specification,
    "measured": model.Measured,
    "replaced": model.Replacement,
    "cut": model.CutReadings,
    "finished": model.Finished,
    "engine": model.Head,
    "pocket-sizes": PocketRow,
    "layout": model.Place,
    "holes": model.Hole,
    "spacing": model.Spacing,
    "trial": model.Trial,
    "machine": model.Machine,
    "gauge": model.Gauge,
    "bore-gauge": model.BoreGauge,
    "cutter": model.Cutter,
    "pilots": model.Pilot,
    "inserts": model.Insert,
    "interference": model.InterferenceLine,
    "guides": model.StockGuide,
    "reamers": model.Reamer,
    "guide-fits": model.InterferenceLine,
    "practice": model.Practice,
    "assembly": model.Assembly,
}

EVERY = [(kind, section) for kind in KINDS for section in sections(kind)]


def declared(section: SectionDeclared) -> list[Field]:
    columns = [column for header in section.headers for column in (header.first, *header.columns)]
    return [*section.fields, *columns, *section.rows]


@pytest.mark.parametrize(("kind", "section"), EVERY, ids=lambda one: getattr(one, "word", one))
def test_every_field_has_its_place_in_the_model(kind: Kind, section: SectionDeclared) -> None:
    if section.word not in MODELS:
        assert section.word in ("shop", "material", "alloy", "stock")  # these are put together by hand
        return
    known = set(MODELS[section.word].__struct_fields__)
    here = {field.to for field in declared(section) if field.word not in ("valve", "hole", "head", "units", "source")}
    assert here <= known


@pytest.mark.parametrize(("kind", "section"), EVERY, ids=lambda one: getattr(one, "word", one))
def test_every_field_can_be_read_and_says_what_it_is(kind: Kind, section: SectionDeclared) -> None:
    for field in declared(section):
        assert field.form in READERS or field.form is Form.LEAK_FOUND
        assert field.help
        assert field.example
        assert (field.dimension is None) or field.bounds is not None
    words = vocabulary(kind).sections[section.word]
    assert words.fields == {field.word for field in section.fields} | set(section.of_piece)


def test_the_reference_page_is_what_the_declarations_make() -> None:
    written = Path(__file__).parents[2] / "grammar" / "README.md"
    assert written.read_text("utf-8") == page(), "stale: python -m seatwright.job.reference > grammar/README.md"
