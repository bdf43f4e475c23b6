"""`seatwright completion SHELL`: what a shell needs to complete the command, made of its words."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator

from seatwright.commands.terminal.exits import Exit
from seatwright.commands.terminal.word import Slot
from seatwright.commands.terminal.words import COMMANDS, Command
from seatwright.text.registry import declared

_SLUGS = "JOB|SLUG"
_JOBS, _FILES, _FOLDERS = ("JOB", "OLD", "NEW", _SLUGS), ("FILE",), ("DIR", "FOLDER")


def completion(shell: str) -> Exit:
    """Print the script for bash, zsh or fish."""
    made: dict[str, Callable[[tuple[Command, ...]], Iterator[str]]] = {"bash": _bash, "zsh": _zsh, "fish": _fish}
    sys.stdout.write("\n".join(made[shell](COMMANDS)) + "\n")
    return Exit.DONE


def _endings(word: Slot) -> tuple[str, ...]:
    """The endings of the files that a word may name."""
    if word.takes in _JOBS:
        return ("seat",)
    return ("seat", "shop", "engine") if word.takes in _FILES else ()


def _bash(known: tuple[Command, ...]) -> Iterator[str]:
    yield "# bash completion for seatwright; made by `seatwright completion bash`."
    yield "_seatwright_files() {"
    yield "  compopt -o filenames 2>/dev/null"
    yield "  local path"
    yield '  while IFS= read -r path; do [[ -d $path || $path == $1 ]] && COMPREPLY+=("$path"); done \\'
    yield '    < <(compgen -f -- "$2")'
    yield "}"
    yield "_seatwright() {"
    yield "  local word=${COMP_WORDS[COMP_CWORD]} before=${COMP_WORDS[COMP_CWORD-1]}"
    yield "  COMPREPLY=()"
    first = " ".join((*(each.name for each in known), "--help", "--version"))
    yield "  if (( COMP_CWORD == 1 )); then"
    yield f'    COMPREPLY=( $(compgen -W "{first}" -- "$word") ); return'
    yield "  fi"
    yield '  case "${COMP_WORDS[1]} $before" in'
    for each in known:
        for option in each.options:
            if option.takes:
                pattern = "|".join(f'"{each.name} {spelling}"' for spelling in option.spellings)
                yield f"    {pattern}) {_bash_value(option)} return;;"
    yield "  esac"
    yield '  case "${COMP_WORDS[1]}" in'
    for each in known:
        options = " ".join(spelling for option in each.options for spelling in option.spellings)
        place = each.places[0] if each.places else None
        value = _bash_value(place) if place is not None else ""
        yield f"    {each.name})"
        yield f'      if [[ $word == -* ]]; then COMPREPLY=( $(compgen -W "{options}" -- "$word") )'
        yield f"      else {value or ':;'} fi;;"
    yield "  esac"
    yield "}"
    yield "complete -F _seatwright seatwright"


def _bash_value(word: Slot) -> str:
    if word.offered:
        # A choice of several words is one word of the shell's.
        choices = "\\n".join(choice.replace(" ", "-") for choice in word.offered)
        return f"COMPREPLY=( $(compgen -W $'{choices}' -- \"$word\") );"
    if word.takes in _FOLDERS:
        return "_seatwright_files '' \"$word\";"
    endings = _endings(word)
    slugs = f'COMPREPLY=( $(compgen -W "{" ".join(declared())}" -- "$word") ); ' if word.takes == _SLUGS else ""
    return f"{slugs}_seatwright_files '*.@({'|'.join(endings)})' \"$word\";" if endings else ""


def _zsh(known: tuple[Command, ...]) -> Iterator[str]:
    yield "#compdef seatwright"
    yield "# zsh completion for seatwright; made by `seatwright completion zsh`."
    yield "_seatwright() {"
    yield "  local -a known"
    yield "  known=("
    for each in known:
        yield f"    {_quoted(each.name + ':' + each.summary.replace(':', ' '))}"
    yield "  )"
    yield "  if (( CURRENT == 2 )); then _describe command known; return; fi"
    yield "  local command=$words[2]"
    yield "  shift words; (( CURRENT-- ))"
    yield "  case $command in"
    for each in known:
        yield f"    {each.name})"
        yield "      _arguments -s \\"
        specs = [spec for option in each.options for spec in _zsh_option(option)]
        specs += [_zsh_place(place) for place in each.places]
        for number, spec in enumerate(specs, 1):
            yield f"        {_quoted(spec)}{' ' + chr(92) if number < len(specs) else ''}"
        yield "      ;;"
    yield "  esac"
    yield "}"
    # As a file of fpath it is the function's own body; sourced, it only says what it is for.
    yield 'if [[ $funcstack[1] == _seatwright ]]; then _seatwright "$@"; else compdef _seatwright seatwright; fi'


def _zsh_option(option: Slot) -> Iterator[str]:
    help_ = _plain(option.help)
    for spelling in option.spellings:
        yield f"{spelling}[{help_}]" + (f":{_plain(option.takes)}:{_zsh_value(option)}" if option.takes else "")


def _zsh_place(place: Slot) -> str:
    return f"{'*' * (place.how_many in ('+', '*'))}:{_plain(place.takes)}:{_zsh_value(place)}"


def _zsh_value(word: Slot) -> str:
    if word.offered:
        return f"({' '.join(choice.replace(' ', '-') for choice in word.offered)})"
    if word.takes in _FOLDERS:
        return "_files -/"
    endings = _endings(word)
    # In brackets, a single ending would be read as a qualifier of the pattern.
    pattern = f"*.({'|'.join(endings)})" if len(endings) > 1 else f"*.{''.join(endings)}"
    files = f'_files -g "{pattern}"' if endings else " "
    return f"{{{files}; compadd {' '.join(declared())}}}" if word.takes == _SLUGS else files


def _fish(known: tuple[Command, ...]) -> Iterator[str]:
    yield "# fish completion for seatwright; made by `seatwright completion fish`."
    yield "complete -c seatwright -f"
    for each in known:
        yield f"complete -c seatwright -n __fish_use_subcommand -a {each.name} -d {_quoted(each.summary)}"
    for each in known:
        when = f"-n '__fish_seen_subcommand_from {each.name}'"
        for option in each.options:
            spelled = " ".join(
                f"-l {spelling[2:]}" if spelling.startswith("--") else f"-s {spelling[1:]}"
                for spelling in option.spellings
            )
            value = f" {_fish_value(option)}" if option.takes else ""
            yield f"complete -c seatwright {when} {spelled}{value} -d {_quoted(option.help)}"
        for place in each.places:
            if value := _fish_value(place).removeprefix("-x").strip():
                yield f"complete -c seatwright {when} {value}"


def _fish_value(word: Slot) -> str:
    if word.offered:
        return f"-x -a '{' '.join(choice.replace(' ', '-') for choice in word.offered)}'"
    if word.takes in _FOLDERS:
        return "-x -a '(__fish_complete_directories)'"
    endings = _endings(word)
    if endings:
        slugs = tuple(declared()) if word.takes == _SLUGS else ()
        return "-x -a '" + " ".join((*(f"(__fish_complete_suffix .{ending})" for ending in endings), *slugs)) + "'"
    return "-x"


def _plain(text: str) -> str:
    """Without what a zsh specification reads as its own."""
    return text.replace("[", "(").replace("]", ")").replace(":", " ")


def _quoted(text: str) -> str:
    return "'" + text.replace("'", "'\\''") + "'"
