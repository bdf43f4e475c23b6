"""A shop's own templates: laid over ours, told by name and line what is wrong with them, kept in their sandbox."""

from __future__ import annotations

import json
import re
import shutil
import signal
from pathlib import Path

import pytest
from tests.cards.demo import JOBS, plan_of
from tests.whole.shop import seatwright

from seatwright.cards.reference import template_reference
from seatwright.cards.render import documents
from seatwright.cards.templating import TemplateFault, built_in_template
from seatwright.commands.jobs.documents import documents_of

JOB = "single-cylinder"
README = Path(__file__).parents[2] / "templates" / "README.md"


@pytest.fixture
def bench(tmp_path: Path) -> Path:
    """A folder with a job, its shop file and an empty folder of templates."""
    for name in (f"{JOB}.seat", "bench.shop"):
        shutil.copy(JOBS / name, tmp_path)
    (tmp_path / "templates" / "drawings").mkdir(parents=True)
    return tmp_path


def test_what_a_template_may_use_is_written_down_as_it_is_declared() -> None:
    again = "python -m seatwright.cards.reference > templates/README.md"
    assert README.read_text("utf-8") == template_reference(), f"templates/README.md is stale: {again}"


def test_every_built_in_template_is_in_that_page() -> None:
    page = README.read_text("utf-8")
    for place in README.parent.rglob("*.*"):
        name = place.relative_to(README.parent).as_posix()
        if place.suffix in (".md", ".html", ".css", ".svg") and not name.startswith(("README", "face/")):
            assert f"`{name}`" in page, name


def test_a_folder_beside_the_shop_file_is_used_and_its_text_counts_towards_the_stamp(bench: Path) -> None:
    def stamp() -> str:
        done = seatwright("build", f"{JOB}.seat", "-o", "out", cwd=bench)
        assert done.code in (0, 3), done.err
        return str(json.loads((bench / "out" / JOB / "plan.json").read_text("utf-8"))["stamp"])

    before = stamp()
    (bench / "templates" / "guides.md").write_text("Guides of job {{ job.number }} at the small bench.\n", "utf-8")
    after = stamp()
    assert after != before
    assert "at the small bench" in (bench / "out" / JOB / "cards.html").read_text("utf-8")
    assert json.loads(seatwright("plan", f"{JOB}.seat", cwd=bench).out)["stamp"] == after


def test_a_folder_that_is_named_is_used_instead(bench: Path) -> None:
    (bench / "ours").mkdir()
    (bench / "ours" / "guides.md").write_text("Ours.\n", "utf-8")
    (bench / "templates" / "guides.md").write_text("Theirs.\n", "utf-8")
    seatwright("build", f"{JOB}.seat", "-o", "out", "--templates", "ours", cwd=bench)
    text = (bench / "out" / JOB / "cards.md").read_text("utf-8")
    assert "Ours." in text
    assert "Theirs." not in text


def test_plan_prints_what_a_build_writes_and_runs_no_template(bench: Path) -> None:
    drawing = bench / "templates" / "drawings" / "drawing.svg"
    drawing.write_text("<svg><!-- ours --></svg>", "utf-8")
    seatwright("build", f"{JOB}.seat", "-o", "out", cwd=bench)
    built = (bench / "out" / JOB / "plan.json").read_text("utf-8")
    assert seatwright("plan", f"{JOB}.seat", cwd=bench).out == built
    drawing.write_text("{{ nobody }}", "utf-8")
    stamped = seatwright("plan", f"{JOB}.seat", cwd=bench)
    assert stamped.code in (0, 3), stamped.err
    assert json.loads(stamped.out)["stamp"] != json.loads(built)["stamp"], "a template is a source of the cards"


def test_the_template_of_the_drawings_can_be_laid_over(bench: Path) -> None:
    text = built_in_template("drawings/drawing.svg").replace("<title>", "<title>Our own: ")
    (bench / "templates" / "drawings" / "drawing.svg").write_text(text, "utf-8")
    done = seatwright("build", f"{JOB}.seat", "-o", "out", cwd=bench)
    assert done.code in (0, 3), done.err
    assert "<title>Our own: " in (bench / "out" / JOB / "cards.html").read_text("utf-8")


@pytest.mark.parametrize(
    "text,says",
    [
        ("one\ntwo {{ card.speeed }}\n", "template guides.md, line 2: .*speeed"),
        ("one\n\n{{ nobody }}\n", "template guides.md, line 3: 'nobody' is undefined"),
        ("{% if %}\n", "template guides.md, line 1: "),
        ("a\n{% include 'nothing.md' %}\n", "template guides.md, line 2: there is no template nothing.md"),
        (
            "{% include '../pyproject.toml' %}\n",
            r"template guides.md, line 1: there is no template \.\./pyproject.toml",
        ),
        ("\n{{ 1 + 'a' }}\n", "template guides.md, line 2: "),
        ("{% include 'guides.md' %}\n", "template guides.md, line 1: it calls itself without end"),
        ("\n\n{{ ''.__class__.__mro__ }}\n", "template guides.md, line 3: .*unsafe"),
        ("{{ job.heads.append(1) }}\n", "template guides.md, line 1: "),
    ],
)
def test_what_is_wrong_is_said_with_template_and_line_and_nothing_is_written(text: str, says: str, bench: Path) -> None:
    (bench / "templates" / "guides.md").write_text(text, "utf-8")
    done = seatwright("build", f"{JOB}.seat", "-o", "out", cwd=bench)
    assert done.code == 2
    assert re.search(says, done.err), done.err
    assert "Traceback" not in done.err
    assert not (bench / "out").exists()


def test_a_fault_in_a_macro_that_another_template_calls_is_laid_to_the_macro() -> None:
    own = {
        "ours.md": "{% macro m(x) %}\n\n{{ x.none }}\n{% endmacro %}",
        "guides.md": "{% import 'ours.md' as o %}{{ o.m(1) }}",
    }
    with pytest.raises(TemplateFault, match=r"template ours\.md, line 3: "):
        documents(plan_of(JOB), templates=own)


def test_a_folder_without_a_template_and_one_that_is_none_are_refused(bench: Path) -> None:
    for folder in ("templates", "nowhere"):
        done = seatwright("build", f"{JOB}.seat", "-o", "out", "--templates", folder, cwd=bench)
        assert done.code == 2
        assert folder in done.err
    (bench / "templates" / "guides.md").write_bytes(b"\xff\xfe")
    done = seatwright("build", f"{JOB}.seat", "-o", "out", cwd=bench)
    assert (done.code, "no UTF-8 text" in done.err) == (2, True)


def test_a_link_out_of_the_folder_of_templates_is_not_followed(bench: Path) -> None:
    (bench / "secret.md").write_text("secret", "utf-8")
    (bench / "templates" / "guides.md").symlink_to(bench / "secret.md")
    done = seatwright("build", f"{JOB}.seat", "-o", "out", cwd=bench)
    assert done.code == 2
    assert "leads out of" in done.err


def test_a_card_without_the_drawing_that_a_template_asks_for_is_printed_without_it() -> None:
    built = documents(plan_of(JOB), templates={"guides.md": "[A plan](cards.html#drawing-none-such)\n"})
    assert "A plan" in built.html
    assert '<figure id="drawing-none-such"' not in built.html


def test_drawings_are_drawn_by_our_own_template_again_after_a_shops() -> None:
    own = {"drawings/drawing.svg": '<svg viewBox="0 0 10 10"></svg>'}
    assert '<svg viewBox="0 0 10 10">' in documents(plan_of("four-cylinder-diesel"), templates=own).html
    assert '<svg viewBox="0 0 10 10">' not in documents(plan_of("four-cylinder-diesel")).html


REFUSED = {
    "one\n<script>alert(1)</script>\n": r"template guides.md, line 2: `<script` is refused",
    '<b onclick="x()">a</b>\n': r"template guides.md, line 1: `<b onclick=` is refused",
    "[a](javascript:x)\n": r"template guides.md, line 1: `javascript:` is refused",
}
MADE = {
    "{{ ('<scr' ~ 'ipt>') | safe }}": "make a `<script>`, which is refused",
    "{{ ('<img src=x one' ~ 'rror=y>') | safe }}": "make a `<img onerror=…>`, which is refused",
    "{{ ('<a href=\"java' ~ 'script:x\">') | safe }}": "make a `<a href=javascript:…>`, which is refused",
}


@pytest.mark.parametrize("text", MADE)
def test_what_a_browser_would_run_is_refused_also_where_it_is_put_together(text: str) -> None:
    name = "drawings/drawing.svg"
    own = {name: built_in_template(name).replace("<title>", f"{text}<title>")}
    with pytest.raises(TemplateFault, match=MADE[text]):
        documents(plan_of(JOB), templates=own)


@pytest.mark.parametrize("text", REFUSED)
def test_what_a_browser_would_run_is_refused_with_its_line(text: str, bench: Path) -> None:
    (bench / "templates" / "guides.md").write_text(text, "utf-8")
    done = seatwright("build", f"{JOB}.seat", cwd=bench)
    assert done.code == 2
    assert re.search(REFUSED[text], done.err), done.err
    assert not (bench / "cards").exists()


ENDLESS = {
    "{% for a in range(9999) %}{% for b in range(9999) %}{% set c = b %}{% endfor %}{% endfor %}": "line 1: .*longer",
    "{{ 9 ** (9 ** 9) }}\n": "longer than|memory",
    "{% set x = namespace(y='a') %}\n{% for a in range(99) %}{% set x.y = x.y * 2 %}{% endfor %}": "2: .*memory|longer",
    "{{ 'a' * 60000000 }}\n": "longer than|more than 50 MB|memory",
}


@pytest.mark.skipif(not hasattr(signal, "setitimer"), reason="elsewhere the whole process is ended without a line")
@pytest.mark.parametrize("text", ENDLESS)
def test_a_template_without_end_is_ended(text: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("seatwright.commands.jobs.documents._SECONDS", 2)
    monkeypatch.setattr("seatwright.commands.jobs.documents._GRACE", 1)
    with pytest.raises(TemplateFault, match=ENDLESS[text]):
        documents_of(plan_of(JOB), templates={"guides.md": text})
