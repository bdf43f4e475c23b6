"""What a card's Markdown means beyond Markdown: boxes with room to initial, blanks, loud figures, tables to fill in.

`1.` lists are boxes, `1)` lists lines to fill in. In a box a paragraph that begins `***` is the figure that is set, one
that begins `**` a figure to check; a bulleted list is what is repeated for each pocket. `[ ]` is room to initial, in a
bulleted list a box to tick. `______` is a blank. A quotation that begins `**HOLD`, `**NOT YET` or `**WAIT` is a hold,
any other a caution. A list each of whose items begins bold is set in two columns, one whose items begin with a blank is
signed. A cell `~~~` is hatched, `*small*` in a cell is a line of its own, and the dashes under the head of a table say
how wide a column is. A paragraph that is one link to `cards.html#drawing-NAME` is that drawing. Text of a job is
escaped, so that none of it comes about by what somebody typed.
"""

from seatwright.cards.marks.page import as_html

__all__ = ["as_html"]
