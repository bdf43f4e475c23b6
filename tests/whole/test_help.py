"""Help, manual and completions: all commands in all of them, and every example does what it says."""

from __future__ import annotations

import os
import re
import shutil
import signal
import subprocess
import sys
from pathlib import Path

import pytest
from tests.whole.shop import JOBS, seatwright

from seatwright.commands.terminal.words import COMMANDS, SHELLS, argument_parser
from seatwright.job.declarations import sections

LINES = [(each.name, line) for each in COMMANDS for line, _ in each.examples]


@pytest.fixture
def bench(tmp_path: Path) -> Path:
    """A home with two jobs and a shop file under git, and the folders that a shell keeps its own things in."""
    for name in ("2214.seat", "2215.seat"):
        shutil.copy(JOBS / "single-cylinder.seat", tmp_path / name)
    shutil.copy(JOBS / "bench.shop", tmp_path)
    (tmp_path / "engines").mkdir()
    shutil.copy(JOBS / "engines" / "rj4.engine", tmp_path / "engines" / "tc3.engine")
    for folder in (
        ".local/share/bash-completion/completions",
        ".config/fish/completions",
        ".zfunc",
        ".local/share/man/man1",
        "bin",
    ):
        (tmp_path / folder).mkdir(parents=True)
    command = tmp_path / "bin" / "seatwright"
    command.write_text(f'#!/bin/sh\nexec "{sys.executable}" -m seatwright "$@"\n', "utf-8")
    command.chmod(0o755)
    files = ("2214.seat", "2215.seat", "bench.shop", "engines")
    for words in (("init", "-q"), ("add", *files), ("commit", "-q", "-m", "a job")):
        who = ("-c", "user.name=bench", "-c", "user.email=bench@example.test")
        subprocess.run(["git", *who, *words], cwd=tmp_path, check=True)
    subprocess.run(["git", "tag", "v1"], cwd=tmp_path, check=True)
    return tmp_path


def surroundings(bench: Path) -> dict[str, str]:
    path = f"{bench / 'bin'}:{os.environ['PATH']}"
    return {**os.environ, "HOME": str(bench), "PATH": path, "BROWSER": "true", "MANPAGER": "cat"}


@pytest.mark.parametrize("name,line", LINES, ids=[line for _, line in LINES])
def test_every_example_of_the_help_runs(name: str, line: str, bench: Path) -> None:
    if name == "new":
        (bench / "bench.shop").unlink()
        if "tc3.engine" in line.split(maxsplit=3)[2]:
            (bench / "engines" / "tc3.engine").unlink()
    if "man -l" in line and shutil.which("man") is None:
        pytest.skip("man is not installed (Debian: apt-get install man-db)")
    process = subprocess.Popen(
        ["bash", "-o", "pipefail", "-c", f"exec {line}" if name == "watch" else line],
        cwd=bench,
        env=surroundings(bench),
        stdin=subprocess.DEVNULL,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
    )
    if name == "watch":
        assert process.stdout is not None
        assert "http://127.0.0.1:" in process.stdout.readline()
        process.send_signal(signal.SIGINT)
    _, err = process.communicate(timeout=60)
    allowed = (0, 1) if name in ("format", "compare") else (0, 3)  # 1: something would change; 3: a valve on hold
    if name == "card":
        allowed = (0, 2)  # a stamp that no card of the demo has
    if "--strict" in line:
        allowed = (0, 1, 3)
    assert process.returncode in allowed, err
    assert "Traceback" not in err
    if ">" in line:
        written = bench / line.rpartition("~/")[2]
        assert written.stat().st_size > 500


def test_every_command_has_examples_and_says_them_in_its_help() -> None:
    for each in COMMANDS:
        assert each.examples, f"{each.name} has no example"
        ran = seatwright(each.name, "--help")
        assert ran.code == 0
        for line, _ in each.examples:
            assert line in ran.out
            assert re.search(rf"\bseatwright {each.name}\b", line)


def test_every_option_says_what_it_is_for() -> None:
    for each in COMMANDS:
        assert each.summary
        for word in (*each.options, *each.places):
            assert word.help, (each.name, word)


def test_the_manual_has_every_command_option_section_and_field() -> None:
    page = seatwright("manual").out.replace("\\-", "-")
    for each in COMMANDS:
        assert f'.SS "seatwright {each.name}"' in page
        for option in each.options:
            for spelling in option.spellings:
                assert rf"\fB{spelling}\fR" in page
    for kind in ("job", "shop", "engine"):
        for section in sections(kind):
            assert f'.SS "{section.word}"' in page
            for field in section.fields:
                assert rf"\fB{field.word}\fR" in page


def test_the_manual_is_a_page_without_a_fault_and_loses_nothing_to_the_formatter() -> None:
    if shutil.which("groff") is None:
        pytest.skip("groff is not installed (Debian: apt-get install groff)")
    source = seatwright("manual").out
    # -ww: every warning there is. -P-c: no colours, so that the text can be searched.
    done = subprocess.run(
        ["groff", "-man", "-Tutf8", "-ww", "-P-c", "-P-b", "-P-u", "-rLL=200n"],
        input=source,
        capture_output=True,
        text=True,
        check=True,
    )
    assert done.stderr == ""
    shown = " ".join(done.stdout.split())
    for words in (
        'such as machine "seat-and-guide machine"',
        "-0.2 to 0.3" if "-0.2 to 0.3" in source else "pocket-a",
        "JOB@REV",
    ):
        assert words in shown


def complete(bench: Path, *words: str) -> set[str]:
    """What bash would offer for the last of these words."""
    script = f"""
source <(seatwright completion bash)
COMP_WORDS=({" ".join(f"'{word}'" for word in words)}); COMP_CWORD={len(words) - 1}
_seatwright; printf '%s\\n' "${{COMPREPLY[@]}}"
"""
    done = subprocess.run(
        ["bash", "--norc", "-c", script], cwd=bench, env=surroundings(bench), capture_output=True, text=True, check=True
    )
    assert done.stderr == "", done.stderr
    return set(done.stdout.split("\n")) - {""}


def test_bash_offers_commands_options_choices_and_the_right_files(bench: Path) -> None:
    (bench / "a folder").mkdir()
    (bench / "notes.txt").touch()
    assert complete(bench, "seatwright", "") >= {each.name for each in COMMANDS}
    assert complete(bench, "seatwright", "co") == {"compare", "completion"}
    assert "--jobs" in complete(bench, "seatwright", "build", "--")
    assert complete(bench, "seatwright", "build", "--paper", "") == {"a4", "letter", "a5", "half-letter"}
    assert complete(bench, "seatwright", "build", "2") == {"2214.seat", "2215.seat"}
    offered = complete(bench, "seatwright", "build", "")
    assert "a folder" in offered
    assert not {"notes.txt", "bench.shop"} & offered
    assert complete(bench, "seatwright", "format", "b") == {"bin", "bench.shop"}
    assert "a folder" in complete(bench, "seatwright", "build", "2214.seat", "-o", "")
    assert complete(bench, "seatwright", "stock", "a") == {"a folder"}
    assert complete(bench, "seatwright", "completion", "") == set(SHELLS)
    assert complete(bench, "seatwright", "explain", "bridge-thin") == {"bridge-thin", "bridge-thin-as-found"}
    assert complete(bench, "seatwright", "explain", "2") == {"2214.seat", "2215.seat"}
    assert "natural-gas" in complete(bench, "seatwright", "new", "x.seat", "--fuel", "n")


def test_every_choice_that_is_offered_is_taken() -> None:
    for each in COMMANDS:
        places = ["x"] * sum(1 for place in each.places if place.how_many != "?" and not place.offered)
        for word in each.options:
            for choice in word.offered:
                given = argument_parser(each.name).parse_args(
                    [each.name, *places, word.spelled, choice.replace(" ", "-")]
                )
                assert getattr(given, word.name) == choice


@pytest.mark.parametrize("shell", SHELLS)
def test_each_shell_can_read_its_script_and_finds_every_command_in_it(shell: str) -> None:
    script = seatwright("completion", shell).out
    for each in COMMANDS:
        assert re.search(rf"\b{each.name}\b", script)
        for option in each.options:
            assert option.spellings[-1].lstrip("-") in script
    # To zsh, brackets round a single ending are a qualifier, and then nothing at all is offered.
    assert "*.(seat)" not in script
    if shutil.which(shell) is None:
        pytest.skip(f"{shell} is not installed (Debian: apt-get install {shell})")
    done = subprocess.run([shell, "-n"], input=script, capture_output=True, text=True, check=False)
    assert (done.returncode, done.stderr) == (0, "")


def test_every_word_that_is_declared_is_in_the_help_of_its_command() -> None:
    for each in COMMANDS:
        helped = seatwright(each.name, "--help").out
        for word in (*each.options, *each.places):
            for shown in (*word.spellings, word.value, *word.offered):
                assert shown in helped
