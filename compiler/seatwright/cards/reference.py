"""templates/README.md: what a shop's own template may use, from the declarations of what the cards hold.

Written by `python -m seatwright.cards.reference > templates/README.md`; a test fails when the two differ.
"""

from __future__ import annotations

import inspect
import re
import sys

from msgspec import Struct

from seatwright.cards.card import Box, Card, CardTable, Column, Content, DrawingOnCard, Held, Listed
from seatwright.cards.drawings import shapes
from seatwright.cards.paper import Paper
from seatwright.cards.parts.figures import Shown
from seatwright.cards.sheets import Sheet
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

Pages are the browser's: a sheet that is longer than the paper goes on overleaf with its head again, and no row, box or
drawing is broken. How many valves a sheet holds stands in `compiler/seatwright/cards/sheets.py`.

## The files

FILES
The typeface is not a template: see `face/README.md`.

## Marks

Besides what Markdown has, a card reads these:

| written | printed |
|---|---|
| `1. Do this. [ ]` | a box, numbered, with room to initial; as wide as the sheet with a table, drawing, blank or list |
| a paragraph of a box that begins `***bold***` | the figure that is set, largest of all, the box in a heavy frame |
| a paragraph of a box that begins `**bold**` | a figure to check, half as large |
| a bulleted list in a box | what is repeated for each pocket, lettered |
| `1) Casting ______ [ ]` | a line to fill in |
| `- [ ] C2` | a box to tick |
| `- **What** of it` | two columns; a drawing right after it stands beside it |
| `* ______ Checked by, date` | room to sign |
| `______` | a blank, 3.2 mm for each mark; three marks at least; alone in a cell of a table, the cell |
| `~~~` alone in a cell | a cell that needs nothing, hatched |
| `*small*` in a cell | a line of its own, smaller |
| the dashes under the head of a table | how wide the columns are, in proportion |
| a row whose first cell is empty | goes on with the row above |
| `> **HOLD E1** why`, `**NOT YET**`, `**WAIT**` | heavily boxed; any other `>` is a caution |
| `[what it shows](cards.html#drawing-NAME)`, alone in its paragraph | the drawing of that name, if the card has it |
| `# 3. Title *at 22 °C*` | a card's title, its number in a box, the rest at the right |

## What is given
"""

_FILES = (
    (
        "`heading.md`",
        "the heading of each sheet of a card",
        "`card` (Card), `job`, `sheet` (Sheet), `several_heads`, `own_stamp` (in cards.md alone)",
    ),
    (
        "`as-found.md` `job.md` `job-back.md` `guides.md` `setting.md` `press.md` `seat.md` `record.md`",
        "the card of that name, without its heading",
        "`card` (Content), `job` (Job), `head` (Head, or none on a card of all heads)",
    ),
    (
        "`history-heading.md` `history.md`",
        "the cards of `seatwright history`, which are laid out as they are here everywhere",
        "`card` (Card in the heading, then Content), `sheet` (Sheet), `own_stamp` (in history.md alone)",
    ),
    ("`blocks.md`", "boxes, tables, holds: macros that the others import as `show`", "what each macro asks for"),
    ("`page.html`", "the page around all cards", "`title`, `style`, `cards`, `made_by`"),
    (
        "`card.css`",
        "the style of the page",
        "`paper` (Paper), `sheet` (Paper: what is printed on), `face.regular` and `face.bold` (WOFF2 in base64), "
        "`two_up`, `feet` (number and words of each card's foot)",
    ),
    ("`drawings/drawing.svg`", "each drawing", "`drawing` (Drawing on paper), the filter `mm`"),
)

_SHOWN = (
    ("Card", Card),
    ("Content", Content),
    ("Box", Box),
    ("Shown", Shown),
    ("Table", CardTable),
    ("Column", Column),
    ("Held", Held),
    ("Listed", Listed),
    ("Drawing", DrawingOnCard),
    ("Sheet", Sheet),
    ("Job", Job),
    ("Note", Note),
    ("Head", Head),
    ("Machine", Machine),
    ("Paper", Paper),
    ("Drawing on paper", shapes.Drawing),
    ("Path", shapes.Path),
    ("Circle", shapes.Circle),
    ("Text", shapes.Lettering),
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
