"""What is printed names a standard, an agency, or a kind of source in neutral words; no company, person or address."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from tests.whole.shop import DEMO_JOBS, JOBS, ROOT

from seatwright import documents, plan, read
from seatwright.handbook.sources import SOURCES
from seatwright.planning.plan import Plan
from seatwright.told.derivation import named_figures

ADDRESS = re.compile(
    r"https?://|www\.|\.(?:com|org|net|edu|gov|co\.uk|de|nl|jp)\b(?!\s*\()|\b[\w.]+@[\w-]+\.\w+|\[S\d", re.IGNORECASE
)
OUR_OWN = re.compile(
    r"handbook \d|language\b|common practice|from memory|trials made with this cutter|what the seat card speaks of"
    r"|an integral seat|(ring steel|bench ring): certificate"  # two alloys that the demo shops state
)
# The template language that a shop's own templates are written in, the licence of the typeface, which must name it, and
# the standard of the schemas, which each of them must name.
# Names of devices end in what looks like an address on one system.
MAY_SAY_WHERE = (
    "names.py",
    "OFL.txt",
    "README.md",
    "reference.py",
    "sarif.py",
    "forms.py",
    "plan_schema.py",
    "server.py",
)


def planned(job: Path) -> Plan:
    made, messages = read(job.name, lambda name: (JOBS / name).read_bytes())
    assert made is not None, messages
    return plan(made)


@pytest.mark.parametrize("job", DEMO_JOBS, ids=lambda job: job.stem)
def test_every_source_that_a_figure_names_is_one_of_the_numbered_or_our_own(job: Path) -> None:
    made = planned(job)
    named = set()
    for part in (*made.valves, *made.settings, *made.bridges):
        for _, figure in named_figures(part):
            for each in figure.walk():
                named.add(each.source)
                if each.origin is not None and each.origin.span is None:
                    named.add(each.origin.source)
    named.discard("")
    known = [source.words for source in SOURCES]
    other = [text for text in sorted(named) if not OUR_OWN.search(text) and not any(word in text for word in known)]
    assert [text for text in other if "published" not in text] == []


@pytest.mark.parametrize("job", DEMO_JOBS, ids=lambda job: job.stem)
def test_no_card_and_no_plan_has_an_address(job: Path) -> None:
    made = documents(planned(job))
    text = re.sub(r'xmlns(?::\w+)?="[^"]*"|http://www\.w3\.org/\S+', "", made.html)
    for printed in (re.sub(r"data:[^\"')]*", "", text), made.markdown, made.plan_json):
        assert ADDRESS.findall(printed) == []


def test_no_file_that_ships_has_an_address_or_a_number_nobody_can_look_up() -> None:
    folders = [ROOT / name for name in ("compiler", "grammar", "templates", "jobs")]
    shipped = [
        path for folder in folders for path in folder.rglob("*") if path.suffix in (".py", ".md", ".txt", ".shop")
    ]
    assert shipped
    for path in [*shipped, ROOT / "README.md"]:
        if (path.name in MAY_SAY_WHERE and path.parent != ROOT) or "cards" in path.relative_to(ROOT).parts[:2]:
            continue
        found = ADDRESS.findall(path.read_text("utf-8"))
        assert found == [], f"{path.relative_to(ROOT)}: {found}"
