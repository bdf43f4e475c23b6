"""Readings at the bench: asked in the order of the as-found sheet, judged with the whole job, written one by one."""

from __future__ import annotations

import io
import os
import signal
import sys
from pathlib import Path

import pytest
from tests.whole.bench_terminal import AtTheBench

from seatwright.commands.bench.asked import as_typed_by_a_gauge
from seatwright.commands.disk import writing
from seatwright.commands.main import main
from seatwright.job import Job, read
from seatwright.job.declarations import job_tables, vocabulary
from seatwright.syntax.formatting.format import formatted
from seatwright.text.reading import read_source as read_text

HEAD = (
    'job 51 "two cylinders"\n  units  mm\n\nhead "two cylinders, iron"\n  material     grey iron\n'
    "  temperature  22 C\n\nvalves I1 E1 I2 E2\n  insert  choose\n"
)
READINGS = {
    "recession": "0.72 0.81 0.70 0.84",
    "stem-height": "41.10 41.22 41.08 41.25",
    "spring-height": "38.1 38.2 38.1 38.2",
    "head-diameter": "42.0 36.0 42.0 36.0",
    "margin": "1.4 1.3 1.4 1.2",
    "stem": "7.965 7.952 7.966 7.950",
    "guide-top": "8.021 8.024 8.019 8.047",
    "guide-middle": "8.015 8.013 8.014 8.012",
    "guide-bottom": "8.024 8.022 8.023 8.026",
    "insert-was": "loose tight loose cracked",
    "old-insert-od": "44.05 38.04 44.06 38.05",
    "pocket-a": "44.021 38.004 44.026 38.011",
    "pocket-b": "44.032 38.012 44.030 38.015",
    "pocket-low-a": "44.019 38.001 44.022 38.009",
    "pocket-low-b": "44.024 38.006 44.027 38.010",
    "pocket-depth": "7.10 7.11 7.09 7.12",
    "pocket-tir": "0.04 0.03 0.05 0.04",
    "throat": "36.0 31.0 36.1 31.0",
}
VALVES = ("I1", "E1", "I2", "E2")


def job_of(folder: Path) -> Job:
    """The job of a folder, which must read."""
    job, messages = read("a.seat", lambda name: (folder / name).read_bytes())
    assert job is not None, messages
    return job


def laid_out(content: bytes) -> bytes:
    source, _ = read_text("a.seat", content)
    assert source is not None
    return formatted(source, vocabulary("job")).text.encode()


def past(column: str) -> str:
    """What takes one from the first question to the station of a column."""
    station = next(at for at, columns in enumerate(job_tables.BENCH_ORDER) if column in columns)
    return " ".join([">>"] * station)


def typed_in(monkeypatch: pytest.MonkeyPatch, figures: str, *words: str) -> int:
    """Run the command with its figures from a pipe."""
    monkeypatch.setattr(sys, "stdin", io.StringIO("".join(f"{one}\n" for one in figures.split())))
    return main(["enter", *words])


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder with a job that has no reading yet, and the place where the command runs."""
    (tmp_path / "a.seat").write_text(HEAD)
    monkeypatch.chdir(tmp_path)
    return tmp_path


def as_a_gauge_sends(figure: str) -> str:
    """With its sign and all places of its display."""
    return f"+{figure.partition('.')[0].zfill(4)}.{figure.partition('.')[2]}" if figure[0].isdigit() else figure


@pytest.mark.slow
def test_a_whole_head_typed_by_a_gauge_with_three_slips(folder: Path) -> None:
    wanted = {
        f"{valve} {column}": figure
        for column, row in READINGS.items()
        for valve, figure in zip(VALVES, row.split(), strict=True)
    }
    bench = AtTheBench(folder, "a.seat", "--date", "2026-11-17", "--at", "22C")
    order = []
    while bench.asked:
        asked = bench.asked
        order.append(asked)
        if asked not in wanted:
            bench.type("")
        elif asked == "E1 guide-top":  # tenfold: refused, and asked again
            assert bench.type("+0080.24") == asked
            assert "guide-top lies between 2.5 mm and 50 mm" in bench.screen
            assert bench.screen.count("\a") == 1
            assert b"80.24" not in (folder / "a.seat").read_bytes()
            bench.type(as_a_gauge_sends(wanted[asked]))
        elif asked == "I2 stem":  # two digits exchanged: warned of, and the right one typed
            assert bench.type("+0007.696") == asked
            assert "warning" in bench.screen
            assert b"7.696" not in (folder / "a.seat").read_bytes()
            bench.type(as_a_gauge_sends(wanted[asked]))
        elif asked == "E2 pocket-a":  # noticed one cell too late
            bench.type("+0038.001")
            assert bench.type("<") == asked
            assert "(38.001)" in bench.screen
            bench.type(as_a_gauge_sends(wanted[asked]))
        else:
            before = asked
            bench.type(as_a_gauge_sends(wanted[asked]))
            if bench.asked == before:  # a true odd one, as a worn guide: the same once more
                assert "once more to keep it" in bench.screen
                bench.type(as_a_gauge_sends(wanted[asked]))
        content = (folder / "a.seat").read_bytes()
        assert content == laid_out(content)
        assert asked not in wanted or wanted[asked].encode() in content
    assert bench.process.returncode == 0
    assert "72 figures of 4 valves stand in a.seat, under `measured 2026-11-17 at 22 C`" in bench.screen
    columns = [column for station in job_tables.BENCH_ORDER for column in station]
    firsts = [asked.split()[1] for asked in dict.fromkeys(order) if asked.startswith("I1 ")]
    assert firsts == columns
    declared = job_tables.MEASURED.headers[0].by_word
    for valve in job_of(folder).heads[0].valves:
        for column in READINGS:
            found = getattr(valve.measured, declared[column].to)
            assert getattr(found, "typed", None) == wanted[f"{valve.name} {column}"] or (
                column in ("insert-was",) and found.text == wanted[f"{valve.name} {column}"]
            )


def test_ctrl_c_loses_the_figure_being_typed_and_no_other(folder: Path) -> None:
    bench = AtTheBench(folder, "a.seat", "E1")
    assert bench.asked == "E1 recession"
    bench.type("0.81")
    assert bench.type("41.22") == "E1 spring-height"
    os.write(bench._ours, b"38.")
    assert bench.end(signal.SIGINT) == 130
    (valve,) = [one for one in job_of(folder).heads[0].valves if one.name == "E1"]
    assert valve.measured.recession is not None
    assert valve.measured.stem_height is not None
    assert valve.measured.spring_height is None


def test_another_hand_is_never_overwritten(folder: Path) -> None:
    bench = AtTheBench(folder, "a.seat", "I1")
    bench.type("0.72")
    path = folder / "a.seat"
    path.write_text(path.read_text() + '\nnote I1 "stem is bent"\n')
    assert bench.type("41.10") == "I1 spring-height"
    assert 'note I1 "stem is bent"' in path.read_text()
    path.write_text(path.read_text().replace("41.10        -", "41.10        38.5"))
    assert bench.type("38.1") == "I1 retainer-to-seal"
    assert "I1 spring-height stands in the file as 38.5 now, and stays" in bench.screen
    (valve,) = [one for one in job_of(folder).heads[0].valves if one.name == "I1"]
    assert valve.measured.spring_height is not None
    assert valve.measured.spring_height.typed == "38.5"
    path.write_bytes(b"\0\1")
    assert bench.type("5.0") == ""
    assert bench.process.returncode == 2
    assert "a.seat is no text any more" in bench.screen
    assert path.read_bytes() == b"\0\1"


def _kill_at(where: str, byte: int) -> None:
    """End this program, as a power cut would, at a byte of what it writes or at a step behind it."""

    class Half(io.RawIOBase):
        def __init__(self, handle: int) -> None:
            self.handle = handle

        def write(self, content: object) -> int:
            assert isinstance(content, bytes)
            os.write(self.handle, content[:byte])
            os.kill(os.getpid(), signal.SIGKILL)
            return 0

    def die(*_: object, **__: object) -> None:
        os.kill(os.getpid(), signal.SIGKILL)

    if where == "byte":
        os.fdopen = lambda handle, *_: Half(handle)  # type: ignore[assignment, return-value]
    else:
        setattr(writing if where.startswith("_") else os, where, die)


class _Typing:
    """A standard input that types figures, and ends the program over the writing of one of them."""

    def __init__(self, figures: list[str], at: int, where: str, byte: int) -> None:
        self.figures, self.left, self.moment = figures, at, (where, byte)

    def readline(self) -> str:
        if self.left == 0:
            _kill_at(*self.moment)
        self.left -= 1
        return f"{self.figures.pop(0)}\n" if self.figures else ""

    def isatty(self) -> bool:
        return False


def test_killed_at_any_byte_the_file_reads_and_holds_every_figure_confirmed_before(folder: Path) -> None:
    path = folder / "a.seat"
    given = list(zip(("recession", "stem-height", "spring-height"), ("0.72", "41.10", "38.1"), strict=True))
    size = len(HEAD) + 120
    moments = [("byte", byte) for byte in range(0, size, size // 20)]
    moments += [("fsync", 0), ("chown", 0), ("_change_places", 0), ("_settle", 0), ("unlink", 0)]
    for number, (where, byte) in enumerate(moments):
        path.write_text(HEAD)
        at = number % len(given)
        child = os.fork()
        if child == 0:
            sys.stdin = _Typing([figure for _, figure in given], at, where, byte)  # type: ignore[assignment]
            main(["enter", "a.seat", "I1"])
            os._exit(0)
        _, status = os.waitpid(child, 0)
        assert os.WIFSIGNALED(status), (where, byte)
        content = path.read_bytes()
        assert content == laid_out(content) or content == HEAD.encode()
        (valve,) = [one for one in job_of(folder).heads[0].valves if one.name == "I1"]
        for column, figure in given[:at]:
            assert getattr(valve.measured, column.replace("-", "_")).typed == figure, (where, byte)
        assert not any(getattr(valve.measured, column.replace("-", "_")) for column, _ in given[at + 1 :])
    assert main(["format", "a.seat"]) == 0
    path.write_text(path.read_text().replace("  ", " "))
    assert main(["format", "a.seat"]) == 0
    assert sorted(one.name for one in folder.iterdir()) == ["a.seat"]


def test_a_gauge_has_its_sign_and_zeros_taken_off_and_no_digit() -> None:
    for sent, meant in {
        "+0012.345": "12.345", "-0000.012": "-0.012", "0.345": "0.345", "+.375": ".375", "1.000": "1.000",
        "+0009.020/+0009.022": "9.020/9.022", "9/16": "9/16", "-": "-", "+000.000": "0.000", "26.0 mm": "26.0 mm",
    }.items():  # fmt: skip
        assert as_typed_by_a_gauge(sent) == meant


def test_what_is_given_is_not_asked_for_and_the_table_of_a_station_goes_on(
    folder: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    assert typed_in(monkeypatch, "0.72 41.10 .", "a.seat", "I1", "E1") == 0
    out = capsys.readouterr().out
    assert "2 figures of 1 valve stand in a.seat, under `measured`" in out
    assert "the section has no date" in out
    assert typed_in(monkeypatch, "38.1 0.81 .", "a.seat", "I1", "E1") == 0
    assert capsys.readouterr().err.count("I1 spring-height") == 1
    assert (folder / "a.seat").read_text() == HEAD + (
        "\nmeasured\n  valve  recession  stem-height  spring-height\n  I1     0.72       41.10        38.1\n"
        "  E1     0.81       -            -\n"
    )


def test_again_lays_a_later_section_over_the_earlier(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    skip = past("head-diameter")[3:]
    earlier = f"0.72 41.10 38.1 {skip} 42.0 1.4 ."
    typed_in(monkeypatch, earlier, "a.seat", "I1", "--date", "2026-11-17")
    assert typed_in(monkeypatch, "0.90", "a.seat", "I1", "--again") == 2
    assert typed_in(monkeypatch, "0.90", "a.seat", "I1", "--again", "--date", "2026-11-16") == 2
    assert typed_in(monkeypatch, f"0.75 >> {skip} 42.1 1.3 .", "a.seat", "I1", "--again", "--date", "2026-11-20") == 0
    (valve,) = [one for one in job_of(folder).heads[0].valves if one.name == "I1"]
    found = valve.measured
    assert [one.typed for one in (found.recession, found.stem_height, found.margin) if one] == ["0.75", "41.10", "1.3"]
    assert found.recession is not None
    assert [one.typed for one in found.recession.earlier] == ["0.72"]
    assert (folder / "a.seat").read_text().count("measured 2026-11-20\n") == 1


def test_a_reading_of_an_old_part_is_not_taken(
    folder: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    path = folder / "a.seat"
    path.write_text(HEAD + "\nreplaced 2026-11-18\n  valve  part\n  E1     guide\n")
    before = path.read_text()
    typed_in(monkeypatch, f"{past('stem')} 7.95 8.02 .", "a.seat", "E1", "--date", "2026-11-17")
    assert "the guide of E1 was renewed on 2026-11-18" in capsys.readouterr().err
    assert "8.02" not in path.read_text()
    path.write_text(before)
    typed_in(monkeypatch, f"{past('stem')} 7.95 8.02 .", "a.seat", "E1", "--date", "2026-11-18")
    (valve,) = [one for one in job_of(folder).heads[0].valves if one.name == "E1"]
    assert valve.measured.guide_top is not None


def test_each_head_has_its_own_part_and_its_own_order(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = folder / "a.seat"
    second = '\n# the other bank\nhead right "rear"\n  material  grey iron\n\nvalves I3 E3\n  stem  8.0\n'
    path.write_text(HEAD.replace('head "two', 'head left "two') + second)
    typed_in(monkeypatch, f"0.72 {past('insert')} >> 0.61 .", "a.seat", "E1", "E3")
    text = path.read_text()
    assert text.index("E1     0.72") < text.index("# the other bank") < text.index("E3     0.61")
    assert text.encode() == laid_out(text.encode())


def test_cut_and_finished_are_typed_valve_by_valve(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (folder / "bench.shop").write_text('shop "bench"\n  units  mm\n\ncutter C2\n  range  30 to 60\n')
    path = folder / "a.seat"
    path.write_text(HEAD.replace("\nhead", '\nuse "bench.shop"\n\nhead'))
    words = ("a.seat", "E1", "E2", "--table", "cut", "--date", "2026-11-20")
    typed_in(monkeypatch, "C2 38.480 38.487/38.488 > C2 .", *words)
    one, other = (valve.cut for valve in job_of(folder).heads[0].valves if valve.name in ("E1", "E2"))
    assert one is not None
    assert other is not None
    assert one.bore_a is not None
    assert (one.bore_a.typed, one.bore_a.count, one.date) == ("38.487/38.488", 2, "2026-11-20")
    assert other.cutter is not None
    assert typed_in(monkeypatch, "0.08 0.03 1.8 > .", "a.seat", "E1", "--table", "finished") == 0
    (valve,) = [valve for valve in job_of(folder).heads[0].valves if valve.name == "E1"]
    assert valve.finished is not None
    assert valve.finished.seat_width is not None


def test_what_cannot_be_is_said_before_anything_is_asked(
    folder: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    for words, why in {
        ("a.seat", "E9"): "this job has no valve E9",
        ("-",): "standard input is none",
        ("x.shop",): "readings belong in a job file",
        ("none.seat",): "cannot be read",
    }.items():
        assert typed_in(monkeypatch, "1", *words) == 2
        assert why in capsys.readouterr().err
    for words in (("--date", "17.11.2026"), ("--at", "warm"), ("--table", "trial")):
        with pytest.raises(SystemExit):
            main(["enter", "a.seat", *words])
    (folder / "a.seat").write_text(HEAD + "measured\n  valve stem\n  E1 8,0\n")
    assert typed_in(monkeypatch, "1", "a.seat") == 1
    assert "put a.seat right first" in capsys.readouterr().err


def test_a_file_that_cannot_be_written_is_named(
    folder: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    def full(*_: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(writing, "rewrite", full)
    assert typed_in(monkeypatch, "0.72", "a.seat") == 2
    assert "a.seat cannot be written: no space left on device" in capsys.readouterr().err
    assert (folder / "a.seat").read_text() == HEAD
