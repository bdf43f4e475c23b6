"""Text of a job stays text, in Markdown and in HTML, wherever on a card it is put."""

from __future__ import annotations

import html
import re

import pytest
from hypothesis import example, given
from hypothesis import strategies as st
from markupsafe import Markup, escape

from seatwright.cards.escape import Markdown, for_html, for_markdown, in_one_line
from seatwright.cards.marks import as_html
from seatwright.cards.templating import environment
from seatwright.cards.templating import texts as html_texts

# Every character that Markdown or HTML could take for its own, more often than chance would give it.
texts = st.text(
    st.one_of(st.sampled_from("\\`*_{}[]()<>#+-.!|~&\"'=:;$@%^/ \t0123456789\n"), st.characters()), max_size=60
)

PLACES = {
    "a paragraph": ("{}\n", r"<p>(.*)</p>"),
    "after other text": ("before {} after\n", r"<p>before (.*) after</p>"),
    "an item": ("- {}\n", r"<ul class=\"list\">\n<li>(.*)</li>\n</ul>"),
    "a step": (
        "1. {} [ ]\n",
        r"<p class=\"step\"><b class=\"n\">1</b> (.*) <span class=\"init\"></span></p>",
    ),
    "a heading": ("## {}\n", r"<h2>(.*)</h2>"),
    "a cell": ("| a | b |\n|---|---|\n| {} | x |\n", r"<tr><th scope=\"row\">(.*)</th><td>x</td></tr>"),
    "a quotation": ("> {}\n", r"<div class=\"care\" role=\"note\"><p>(.*)</p>\n</div>"),
    "bold": ("a **{}** b\n", r"a <strong>(.*)</strong> b"),
}


def shown(rendered: str) -> str:
    """What a reader reads. What keeps a line whole is ours: the no-break space before a unit, the tag of a date."""
    return html.unescape(re.sub(r'<span class="date">([\d-]+)</span>', r"\1", rendered).replace("\u00a0", " "))


@pytest.mark.parametrize("place", sorted(PLACES))
@given(text=texts)
@example(text="+ 0.001")
@example(text="3*4*5")
@example(text="> 5")
@example(text="2026.")
@example(text="- [ ] done")
@example(text="{{ 7*7 }} {% raw %}")
@example(text="<script>alert(1)</script>")
@example(text="a | b \\| c \\")
@example(text="![x](http://x/y.png) <http://x>")
@example(text="[HOLD](cards.html#drawing-head-1)")
@example(text="&lt;b&gt; &#42;")
@example(text="**HOLD E1**")
@example(text="___ ______")
@example(text="---")
@example(text="44.02 mm")
@example(text="2026-11-16 was a Monday")
@example(text="1) a line")
@example(text="~~~")
@example(text="***3 mm***")
def test_any_text_is_read_back_as_it_was(place: str, text: str) -> None:
    if not in_one_line(text):
        return  # a template prints no empty text between marks
    markdown, pattern = PLACES[place]
    rendered = as_html(markdown.format(for_markdown(text)), {})
    found = re.fullmatch(f"(?:.*\n)?.*?{pattern}.*", rendered.strip(), re.S)
    assert found is not None, rendered
    # Nothing typed has a tag, and no text typed has a no-break space left in it.
    assert "<" not in re.sub(r'<span class="date">([\d-]+)</span>', r"\1", found[1]), rendered
    assert shown(found[1]) == in_one_line(text)


@given(text=texts)
def test_html_shows_exactly_the_text(text: str) -> None:
    escaped = for_html(text)
    assert html.unescape(escaped) == in_one_line(text)
    assert not re.search("[<>\"']", escaped)


def test_a_number_keeps_its_sign_its_stars_and_its_point() -> None:
    for text in ("+ 0.001", "-0.02", "3*4*5", "> 5", "2026.", "4)", "1.734 in = 44.04 mm", "# 4"):
        rendered = as_html(for_markdown(text), {})
        assert shown(rendered) == f"<p>{text}</p>\n"
        assert rendered.count("<") == 2


def test_a_title_typed_with_a_number_is_not_the_number_of_a_card() -> None:
    assert as_html("# 2. Guides", {}) == '<h1><span class="no">2</span> Guides</h1>\n'
    assert as_html(f"# {for_markdown('2. Guides')}", {}) == "<h1>2. Guides</h1>\n"


def test_a_date_in_an_address_stays_as_it_is() -> None:
    assert as_html("[the photo](photo-2026-11-16.png)", {}) == '<p><a href="photo-2026-11-16.png">the photo</a></p>\n'


def test_a_size_is_readable_in_the_markdown_itself() -> None:
    assert for_markdown("44.016 mm = 1.7329 in at 22 °C") == "44.016 mm = 1.7329 in at 22 °C"


def test_text_put_into_our_markdown_is_escaped_and_markdown_is_not() -> None:
    assert Markdown("**{}** {}").format("a*b", Markdown("______")) == "**a\\*b** ______"


@given(text=texts)
def test_markdown_filled_in_is_what_markup_makes_of_it(text: str) -> None:
    for form in (Markdown("**{}** {} {{}}"), Markdown("{1} {0}, {1}")):
        for other in (Markdown(text), 3, 0.5):
            filled_in = form.format(text, other)
            assert (type(filled_in), filled_in) == (Markdown, Markup.format(form, text, other))


@pytest.mark.parametrize(
    "template",
    [
        "{{ text }}",
        "{% macro m(x) %}{{ x }}{% endmacro %}{{ m(text) }}",
        "{% macro m() %}{{ caller() }}{% endmacro %}{% call m() %}{{ text }}{% endcall %}",
        "{% set x %}{{ text }}{% endset %}{{ x }}",
        "{% autoescape false %}{{ text }}{% endautoescape %}",
        "{% for x in [text] %}{{ x }}{% endfor %}",
        "{% filter trim %}{{ text }}{% endfilter %}",
    ],
)
@pytest.mark.parametrize("own", [{}, {"other.md": ""}])
def test_text_is_escaped_once_wherever_a_template_prints_it(template: str, own: dict[str, str]) -> None:
    text = "3*4 <b>| {{ 7*7 }} `x`"
    for house, escaped in ((environment, for_markdown(text)), (html_texts, str(escape(text)))):
        assert house(own).from_string(template).render(text=text) == escaped


def test_a_template_escapes_what_it_prints_and_runs_none_of_it() -> None:
    house = environment({"x.md": "{{ text }} {{ ours }}"})
    printed = house.get_template("x.md").render(text="{{ 7*7 }} *a*", ours=Markdown("**b**"))
    assert printed == "{{ 7\\*7 }} \\*a\\* **b**"


def test_a_name_that_a_template_does_not_know_is_refused() -> None:
    from jinja2 import UndefinedError

    house = environment({"x.md": "{{ not_there }}"})
    with pytest.raises(UndefinedError, match="not_there"):
        house.get_template("x.md").render()


def test_a_template_cannot_reach_out_of_its_sandbox() -> None:
    from jinja2.exceptions import SecurityError

    house = environment({"x.md": "{{ ''.__class__.__mro__[1].__subclasses__() }}"})
    with pytest.raises(SecurityError):
        house.get_template("x.md").render()
