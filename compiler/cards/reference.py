"""templates/README.md: what a shop's own template may use, from the declarations of what the cards hold.

Written by `python -m seatwright.cards.reference > templates/README.md`; a test fails when the two differ.
"""

from __future__ import annotations

import inspect
import re
import sys

from msgspec import Struct
from seatwright.cards.figures import Shown

from seatwright.cards.card import Card, Cautioned, Content, Drawing, Held, Step, Table
from seatwright.cards.drawings import shapes
from seatwright.cards.paper import Paper, Sheet, Sizes
from seatwright.job.model import Head, Job, Machine, Note

_TOP = """\
# The templates

A card is a [Jinja2](https://jinja.palletsprojects.com/templates/) template that writes Markdown, one file for each kind
of card. A shop that wants its cards otherwise lays a template of the same name over the built-in one: in a folder
`templates` beside its shop file, or in any folder, with `seatwright build --templates DIR`. What it does not replace
stays built in, and a file of the shop's own may be called by `import` or `include` as the built-in ones call
`blocks.md`.

What goes wrong in a template is said with its name and line, and nothing is written then (exit code 2). A name that is
not listed here is refused, it never prints as nothing. Templates run in a sandbox: they cannot read files, reach the
network or change what they are given. Text of the job is escaped where it is printed. The templates count towards the
stamp of the sources.

How far down the page a block reaches is reckoned from the Markdown and the sizes in `compiler/cards/paper.py`. A shop's
own `card.css` that makes type or gaps larger than those will run over its pages.

## The files

FILES
The typeface is not a template: see `face/README.md`.

## Marks

Besides what Markdown has, a card reads these:

| written | printed |
|---|---|
| `1. Do this. [ ]` | a step, its number large, a box to initial |
| a paragraph of a step that begins `**bold**` | a figure to read off a dial, large |
| `- [ ] C2` | a box to tick; where each item of a list has one, two stand beside each other |
| `______` | a ruled blank, 3.2 mm for each mark; three marks at least |
| `> **HOLD E1** why` | a hold, heavily boxed; any other `>` is a caution |
| `[what it shows](cards.html#drawing-NAME)`, alone in its paragraph | the drawing of that name, if the card has it |
| `# 3. Title` | a card's title, its number in a box |

## What is given
"""

_FILES = (
    (
        "`heading.md`",
        "the heading of each page of a card",
        "`card` (Card), `job`, `several_heads`, `letter`, `own_stamp`, `sources_stamp`, `commit`",
    ),
    (
        "`as-found.md` `job.md` `guides.md` `setting.md` `press.md` `seat.md` `record.md`",
        "the card of that name, without its heading",
        "`card` (Content), `job` (Job), `head` (Head, or none on a card of all heads)",
    ),
    ("`blocks.md`", "steps, tables, holds: macros that the others import as `show`", "what each macro asks for"),
    ("`page.html`", "the page around all cards", "`title`, `style`, `cards`, `made_by`"),
    (
        "`card.css`",
        "the style of the page",
        "`paper` (Paper), `sheet` (Sheet), `s` (Sizes), `face.regular` and `face.bold` (WOFF2 in base64), `two_up`",
    ),
    ("`drawings/drawing.svg`", "each drawing", "`drawing` (Drawing on paper), the filter `mm`"),
)

_SHOWN = (
    ("Card", Card),
    ("Content", Content),
    ("Step", Step),
    ("Shown", Shown),
    ("Table", Table),
    ("Held", Held),
    ("Cautioned", Cautioned),
    ("Drawing", Drawing),
    ("Job", Job),
    ("Note", Note),
    ("Head", Head),
    ("Machine", Machine),
    ("Paper", Paper),
    ("Sheet", Sheet),
    ("Sizes", Sizes),
    ("Drawing on paper", shapes.Drawing),
    ("Path", shapes.Path),
    ("Circle", shapes.Circle),
    ("Text", shapes.Text),
)


def template_reference() -> str:
    """The page as Markdown."""
    rows = "".join(f"| {file} | {writes} | {given} |\n" for file, writes, given in _FILES)
    top = _TOP.replace("FILES\n", f"| file | writes | is given |\n|---|---|---|\n{rows}\n")
    return top + "".join(_declared(name, declared) for name, declared in _SHOWN)


def _declared(name: str, declared: type[Struct]) -> str:
    says = re.sub(r"\n +", "\n", inspect.getdoc(declared) or "").strip()
    fields = "".join(f"| `{each}` | `{_type(declared, each)}` |\n" for each in declared.__struct_fields__)
    names = set(declared.__struct_fields__)
    computed = (
        f"| `{found}` | computed: {inspect.getdoc(member) or ''} |\n".replace("\n|", "|")
        for found, member in vars(declared).items()
        if isinstance(member, property) and found not in names
    )
    return f"\n### {name}\n\n{says}\n\n| name | holds |\n|---|---|\n{fields}{''.join(computed)}"


def _type(declared: type[Struct], field: str) -> str:
    return str(declared.__annotations__[field]).replace("|", "or")


if __name__ == "__main__":
    sys.stdout.write(template_reference())
