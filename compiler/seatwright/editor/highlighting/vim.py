"""The same for Vim and Neovim."""

from __future__ import annotations

from seatwright.editor.highlighting.known_words import FILE_ENDS, either, known_words

_HEAD = """\
" Colours for Seatwright's job and shop files, made of the declarations: `python -m seatwright.editor.highlighting`.
if exists("b:current_syntax")
  finish
endif
syntax case ignore
syntax sync minlines=1
"""
_LINKS = {
    "Opening": "Statement",
    "Field": "Identifier",
    "Column": "Identifier",
    "Text": "String",
    "Figure": "Number",
    "Mark": "Operator",
    "Valve": "Special",
    "Taken": "Constant",
    "Unit": "Type",
    "Comment": "Comment",
}


def vim() -> str:
    """syntax/seatwright.vim: later rules win over earlier ones at the same place."""
    words = known_words()
    space, end = r"[ \t]", r"%(\_s|[:=,#]|$)@="
    columns = f"%({_piped(either(words.columns))}|x-\\S+)"
    rules = {
        "Unit": rf"\v\C%(^|{space})@1<=%({_piped(either(words.of_units))})%(\_s|#|$)@=",
        "Taken": rf"\v%({space})@1<=%({_piped(either(words.taken))}|to){end}",
        "Valve": r"\v%(^|[ \t])@1<=[IE][1-9]\d?[A-Z]?%([ \t#]|$)@=",
        "Figure": r'\v%(^|[ \t])@1<=[-+±−–]?[Øø⌀∅]?%(\d|\.\d|[½⅓⅔¼¾⅛⅜⅝⅞])[^ \t#"]*"?',
        "Mark": r"\v%([ \t])@1<=%(\+/-|±|-)%([ \t]|$)@=",
        "Field": rf"\v^%({space}+%({_piped(either(words.fields))}|x-[a-z]\S*)|x-[a-z]\S*){end}",
        "Opening": rf"\v^%({_piped(either(words.opening))}){end}",
    }
    lines = [_HEAD]
    lines += [f"syntax match seatwright{name} /{_slashes(rule)}/" for name, rule in rules.items()]
    header = rf"\v^{space}+%({_piped(either(words.first))}){space}+%({columns}{space}*)*%(#.*)?$"
    lines += [
        f"syntax match seatwrightHeader /{_slashes(header)}/ contains=seatwrightColumn,seatwrightComment",
        r"syntax match seatwrightColumn /[^ \t#]\+/ contained",
        r'syntax match seatwrightText /"\%([^"]\|""\)*"/',
        "syntax match seatwrightComment /#.*$/",
        "",
        *(f"highlight default link seatwright{name} {group}" for name, group in _LINKS.items()),
        "",
        'let b:current_syntax = "seatwright"',
    ]
    return "\n".join(lines) + "\n"


def vim_filetype() -> str:
    """ftdetect/seatwright.vim."""
    patterns = ",".join(f"*.{end}" for end in FILE_ENDS)
    return (
        "\" Which files are Seatwright's.\n"
        f"autocmd BufNewFile,BufRead {patterns} set filetype=seatwright\n"
        "autocmd FileType seatwright setlocal commentstring=#\\ %s comments=:# expandtab shiftwidth=2\n"
    )


def _piped(pattern: str) -> str:
    """With the marks that mean more to Vim taken as themselves."""
    return pattern.replace("\\", "\\").replace("%", r"\%").replace("@", r"\@").replace("<", r"\<").replace("=", r"\=")


def _slashes(pattern: str) -> str:
    return pattern.replace("/", r"\/")
