"""The wording of what may be wrong with a value: one function for each kind of mistake."""

from __future__ import annotations

from collections.abc import Iterable

from seatwright.text import Message, Related, Severity, Span
from seatwright.text.slugs import ErrorSlug


def error(slug: ErrorSlug, span: Span, text: str, help: str, related: tuple[Related, ...] = ()) -> Message:
    """An error: nothing is written until it is put right."""
    return Message(Severity.ERROR, slug, span, text, sentence(help), related)


def sentence(help: str) -> str:
    """What to do, as a sentence."""
    return help[:1].upper() + help[1:] + ("" if help[-1:] in ".?" else ".")


def explained(span: Span, word: str, slip: tuple[ErrorSlug, str, str]) -> Message:
    """A slip that is named wherever a figure or date stands, said of the field in which it stands."""
    slug, text, help = slip
    return error(slug, span, f"{word}: {text}", help)


def any_of(words: Iterable[str], last: str = "or") -> str:
    """`mm`, `in` or `thou`."""
    marked = [f"`{word}`" for word in words]
    return marked[0] if len(marked) == 1 else f"{', '.join(marked[:-1])} {last} {marked[-1]}"


def value_missing(span: Span, word: str, wants: str, example: str) -> Message:
    return error("value-missing", span, f"{word}: nothing stands behind it", f"it takes {wants}, such as `{example}`")


def left_over(span: Span, word: str, typed: str, wants: str, example: str) -> Message:
    return error(
        "left-over",
        span,
        f"{word}: `{typed}` is left over at the end of the line",
        f"it takes {wants}, such as `{example}`; what is meant for a person goes behind a #",
    )


def value_kind(span: Span, word: str, typed: str, wants: str, example: str) -> Message:
    return error("value-kind", span, f"{word}: `{typed}` does not fit here", f"it takes {wants}, such as `{example}`")


def number_missing(span: Span, word: str, after: str, example: str) -> Message:
    return error("number-missing", span, f"{word}: a figure is missing behind `{after}`", f"write it as `{example}`")


def unit_missing(span: Span, word: str, typed: str, what: str, units: Iterable[str]) -> Message:
    listed = tuple(units)
    return error(
        "unit-missing",
        span,
        f"{word}: `{typed}` says no unit, and {a(what)} is never bare",
        f"write {any_of(listed)} behind it, such as `{typed} {listed[0]}`",
    )


def unit_kind(span: Span, word: str, typed: str, unit: str, measures: str, what: str, units: Iterable[str]) -> Message:
    listed = tuple(units)
    wanted = f"{a(what)} in {any_of(listed)}" if listed else "a plain number, without a unit"
    return error(
        "unit-kind", span, f"{word}: `{typed}` is {a(measures)}, because of its `{unit}`", f"it takes {wanted}"
    )


def a(noun: str) -> str:
    """`a length`, `an angle`."""
    return f"{'an' if noun[:1] in 'aeiou' else 'a'} {noun}"


def range_open(span: Span, word: str, typed: str) -> Message:
    return error(
        "range-open",
        span,
        f"{word}: `{typed}` has no second end",
        "write both, the smaller first, such as `1.6 to 2.0`; one limit alone is `most 2.0` or `least 1.6`",
    )


def range_reversed(span: Span, word: str, low: str, high: str) -> Message:
    return error(
        "range-reversed",
        span,
        f"{word}: {low} is more than {high}",
        f"the smaller end stands first: `{high} to {low}`; or one of the two is mistyped",
    )


def tolerance_half(span: Span, word: str, typed: str, nominal: str, limit: str) -> Message:
    size = limit.lstrip("+-− ")
    other = f"-{size}" if limit.startswith("+") else f"+{size}"
    return error(
        "tolerance-half",
        span,
        f"{word}: `{typed}` has one limit only, and a tolerance has two",
        f"`{nominal} +/- {size}`, if it is {other} as well; `{nominal} {limit} 0`, if there is nothing the other way",
    )


def tolerance_reversed(span: Span, word: str, typed: str) -> Message:
    return error(
        "tolerance-empty",
        span,
        f"{word}: `{typed}` leaves no room: both limits are the same",
        "a tolerance has two different limits, such as `44.10 +0.02 -0.01`",
    )


def plus_minus_here(span: Span, word: str, typed: str, wants: str, example: str) -> Message:
    return error(
        "tolerance-nominal",
        span,
        f"{word}: `{typed}` says how far off, but not of what",
        f"it takes {wants}, such as `{example}`",
    )


def runout_bare(span: Span, word: str, typed: str) -> Message:
    return error(
        "runout-bare",
        span,
        f"{word}: `{typed}` may be needle movement or axis offset, which is half of it",
        f"write `{typed} tir` for the full movement of the needle, `{typed} offset` for axis to axis",
    )


def radius_diameter(span: Span, word: str, typed: str) -> Message:
    return error(
        "radius-diameter",
        span,
        f"{word}: `{typed}` does not stand behind a figure in this language",
        "sizes are diameters: double a radius, and write the figure alone",
    )


def size_before(span: Span, word: str, typed: str, figure: str, *, radius: bool) -> Message:
    return error(
        "radius-diameter",
        span,
        f"{word}: `{typed}` does not stand in front of a figure in this language",
        "sizes are diameters: double the radius, and write the figure alone"
        if radius
        else f"leave it out, sizes are diameters: `{figure}`",
    )


def unit_before(span: Span, word: str, typed: str, meant: str) -> Message:
    return error(
        "unit-before", span, f"{word}: `{typed}` stands in front of its figure", f"a unit stands behind it: `{meant}`"
    )


def unit_again(span: Span, word: str, unit: str, typed: str) -> Message:
    return error(
        "unit-twice",
        span,
        f"{word}: `{typed}` stands behind a figure that has its unit already",
        "keep the one that is right; the same figure in two units is written `1.739 in = 44.17 mm`",
    )


def about_before(span: Span, word: str, typed: str, figure: str) -> Message:
    return error(
        "figure-mark",
        span,
        f"{word}: `{typed}` stands in front of a figure, and nothing is taken as about right",
        f"write what it is: `{figure}`",
    )


def figures_many(span: Span, word: str, typed: str, count: int, meant: Iterable[str], example: str) -> Message:
    listed = tuple(meant)
    return error(
        "figures-many",
        span,
        f"{word}: `{typed}` are {count} figures, and one belongs here",
        f"was {any_of(listed)} meant? Else keep the figure that is right"
        if listed
        else f"keep the one that is right, such as `{example}`",
    )


def limits_here(span: Span, word: str, typed: str, example: str) -> Message:
    return error(
        "figures-many",
        span,
        f"{word}: `{typed}` are two limits, and one figure belongs here",
        f"keep the one that counts, such as `{example}`",
    )


def cell_empty(span: Span, word: str, typed: str) -> Message:
    return error("cell-empty", span, f"{word}: `{typed}` is no figure", "a cell that is not filled in is written `-`")


def angle_word(span: Span, word: str, typed: str) -> Message:
    return error(
        "angle-word",
        span,
        f"{word}: `{typed}` is no way to take an angle",
        "a bare angle is from the plane square to the stem; else write `from-axis` or `included` behind it",
    )


def angle_which(span: Span, word: str, typed: str, from_plane: str) -> Message:
    return error(
        "angle-which",
        span,
        f"{word}: `{typed}` may be from the plane square to the stem, or from the stem's axis, which is {from_plane} "
        "from the plane",
        f"write which: `{typed} from-plane` or `{typed} from-axis`",
    )


def units_disagree(
    span: Span, word: str, first: str, first_mm: str, second: str, apart: str, meant: tuple[str, str] | None
) -> Message:
    help = "correct one of them, or write only the one that was measured"
    if meant is not None:
        help = f"if `{meant[0]}` is right, the other is `{meant[1]}`: write that, or only the one that was measured"
    return error(
        "units-disagree",
        span,
        f"{word}: {first} is {first_mm}, but {second} stands behind it; they are {apart} apart",
        help,
    )


def centimetres(span: Span, word: str, typed: str, millimetres: str) -> Message:
    return error(
        "unit-unknown",
        span,
        f"{word}: `{typed}` is in centimetres, no unit of this language",
        f"write `{millimetres} mm`",
    )


def second_cut_off(span: Span, word: str, first: str, second: str, rounded: str) -> Message:
    return Message(
        Severity.NOTICE,
        "second-cut-off",
        span,
        f"{word}: `{second}` behind `{first}` was cut off, not rounded; the first is used",
        sentence(f"rounded it is `{rounded}`"),
    )


def both_shapes(span: Span, word: str, first: str, second: str) -> Message:
    return error(
        "both-shapes",
        span,
        f"{word}: `{first}` and `{second}` are not the same figure twice",
        "on both sides of = stands one figure, or the same two limits, such as `1.739 in = 44.17 mm`",
    )


def figure_unlikely(
    span: Span, word: str, typed: str, is_: str, least: str, most: str, meant: tuple[str, ...], units: str
) -> Message:
    said = f" ({is_})" if is_ else ""
    if not meant:
        help = "check the figure and its decimal point"
    else:
        help = f"was {any_of(meant)} meant? Then write that"
        if units:
            help += f"; a bare figure in this file is in {units}"
    return error("figure-unlikely", span, f"{word} of {typed}{said}: {word} lies between {least} and {most}", help)


def text_open(span: Span) -> Message:
    return error("text-open", span, "the quote is not closed on this line", 'close it with " at the end of the text')


def text_bare(span: Span, word: str, typed: str) -> Message:
    return error("text-bare", span, f"{word}: `{typed}` is a text without quotes", f'write it as `"{typed}"`')


def word_renamed(span: Span, typed: str, now: str) -> Message:
    return error("word-renamed", span, f"`{typed}` is called `{now}` here", f"write `{now}`")


def choice_unknown(span: Span, word: str, typed: str, choices: Iterable[str], meant: str | None) -> Message:
    listed = any_of(choices)
    return error(
        "choice-unknown",
        span,
        f"{word}: `{typed}` is not one of its words",
        f"did you mean `{meant}`? It takes {listed}" if meant else f"it takes {listed}",
    )


def name_forbidden(span: Span, word: str, typed: str) -> Message:
    return error(
        "name-forbidden",
        span,
        f"{word}: `{typed}` means something else in this language and cannot be a name",
        "give it another, such as the number on its box; a unit, `-`, `any`, `choose`, `turned`, `stays`, `keep` and "
        "`none` are taken",
    )


def valve_name(span: Span, typed: str, meant: str | None) -> Message:
    help = "a valve is I or E, the cylinder's number, and a letter where there are several: `I1`, `E4`, `I2B`"
    if meant:
        help = f"did you mean `{meant}`? {help[0].upper()}{help[1:]}"
    return error("valve-name", span, f"`{typed}` is no valve", help)


def fields_twice(span: Span, word: str, section: str, first: Span) -> Message:
    return error(
        "field-twice",
        span,
        f"{word} stands twice in `{section}`",
        "keep the one that is right, and delete the other",
        (Related(first, f"{word} stands here first"),),
    )


def field_unknown(span: Span, typed: str, section: str, meant: str | None) -> Message:
    return error(
        "field-unknown",
        span,
        f"`{typed}` is no field of `{section}`",
        f"did you mean `{meant}`?" if meant else "delete it, or begin it with `x-` to keep it on the record unread",
    )


def field_missing(span: Span, word: str, section: str, example: str) -> Message:
    return error("field-missing", span, f"{section} does not say its {word}", f"add a line such as `{example}`")


def limits_wanted(span: Span, word: str, typed: str, wants: str, example: str) -> Message:
    return error(
        "limits-wanted",
        span,
        f"{word}: `{typed}` is one figure, and there have to be limits",
        f"it takes {wants}, such as `{example}`",
    )


def stand_way(span: Span, typed: str) -> Message:
    return error(
        "stand-way",
        span,
        f"stand: `{typed}` does not say whether the insert stands above or below",
        "write `stand flush`, `stand proud 0.10`, `stand below 0.20` or `stand below 0.05 to 0.15`",
    )


def of_the_piece(span: Span, word: str, section: str) -> Message:
    where = "head" if section == "engine" else "valves"
    return error(
        "of-the-piece",
        span,
        f"`{word}` is of one head on one day, not of its type",
        f"write it under `{where}` in the job",
    )
