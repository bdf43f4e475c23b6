"""The face of the setting gauge's indicator, and what the needle does between the first cut and the last."""

from __future__ import annotations

import math

from seatwright.cards import figures
from seatwright.cards.drawings.dimensions import arrow
from seatwright.cards.drawings.shapes import (
    LEADING,
    LETTERING,
    THICK,
    Circle,
    Drawing,
    Path,
    Point,
    Sketch,
    around,
    wrapped,
)
from seatwright.handbook import MM_PER_INCH
from seatwright.job.model import Job
from seatwright.planning.plan import Setting

_WIDTH = 120.0
_RADIUS = 17.0
_X, _Y = 18.0, 18.5
_NOTES = 51.0  # where the notes begin [mm]
_TURN = 300.0  # degrees of the face that carry marks, at most
_MARKS = 50  # on the face, at most


def indicator_face(job: Job, setting: Setting) -> Drawing | None:
    """The drawing; None where it is not said what the needle shows, or without a reading."""
    if setting.indicator is None or setting.reading is None or setting.reading_unit is None:
        return None
    unit = setting.reading_unit
    per = MM_PER_INCH if unit == "in" else 1.0
    step = setting.indicator_step.value / per if setting.indicator_step is not None else None
    instrument = figures.indicator(job, setting)
    open_by = None
    if setting.first is not None and setting.first.reading is not None:
        whole = setting.reading.value - setting.first.reading.value
        open_by = whole / 2 if setting.indicator == "radius" else whole
    sketch = Sketch()
    figure = "" if open_by is None else figures.shown(open_by, instrument).text
    _face(sketch, figure, step, None if open_by is None else open_by / per)
    notes = _notes(setting, figures.setting_gauge(job, setting), instrument, open_by)
    level = 4.0
    for index, note in enumerate(notes):
        for line in wrapped(note, _WIDTH - _NOTES):
            sketch.text(_NOTES, level, line, "start", bold=index == 0)
            level += LEADING
        level += 0.9
    says = " ".join(notes)
    return sketch.done(_WIDTH, max(38.0, level - LEADING), f"Indicator for setting {setting.number}", says)


def _face(sketch: Sketch, figure: str, step: float | None, move: float | None) -> None:
    """Marks of one step, or of so many that they can be told apart; needle on 0, and where it goes."""
    sketch.add(Circle(_X, _Y, _RADIUS, THICK))
    if step is None or step <= 0:
        _mark(sketch, 0.0, 3.2, THICK)
        sketch.text(_X, _Y - _RADIUS + 7.4, "0")
        _needle(sketch, 0.0)
        return
    need = abs(move) if move is not None else 10 * step
    mark = next(each for each in _coarser(step) if need / each <= _MARKS * 0.45)
    degrees = min(_TURN / 2 / max(math.ceil(need / mark) + 2, 10), 12.0)
    count = int(_TURN / 2 / degrees)
    for index in range(-count, count + 1):
        long = index % 5 == 0
        _mark(sketch, index * degrees, 3.2 if index % 10 == 0 else 2.4 if long else 1.6, THICK if long else 0.3)
    sketch.text(_X, _Y - _RADIUS + 7.4, "0")
    if move is not None and move != 0:
        turn = move / mark * degrees
        _mark(sketch, turn, 4.4, 1.0)
        sketch.line(*around(_X, _Y, _RADIUS - 6.5, -90 + 4, -90 + turn - 4, 16))
        tip = around(_X, _Y, _RADIUS - 6.5, -90 + turn - 4, -90 + turn - 4, 1)[0]
        arrow(sketch, tip, turn)
        x, y = _at(turn, _RADIUS + 2.4)
        sketch.text(x, y + LETTERING * 0.35, figure, "start", bold=True)
    _needle(sketch, 0.0)


def _coarser(step: float) -> list[float]:
    return [step * factor for factor in (1, 2, 5, 10, 20, 50, 100, 200, 500, 1000, 10000)]


def _mark(sketch: Sketch, turn: float, length: float, weight: float) -> None:
    sketch.line(_at(turn, _RADIUS), _at(turn, _RADIUS - length), weight=weight)


def _at(turn: float, radius: float) -> Point:
    angle = math.radians(turn - 90)
    return (_X + radius * math.cos(angle), _Y + radius * math.sin(angle))


def _needle(sketch: Sketch, turn: float) -> None:
    tip = _at(turn, _RADIUS - 8.4)
    sketch.add(Path((_at(turn + 180, 3.5), tip), 1.0))
    sketch.add(Circle(_X, _Y, 1.4, THICK, fill="white"))


def _notes(
    setting: Setting, gauge: figures.Instrument, instrument: figures.Instrument, open_by: float | None
) -> list[str]:
    assert setting.reading is not None
    reading = figures.shown(setting.reading, gauge)
    notes = [f"The needle shows {'RADIUS' if setting.indicator == 'radius' else 'DIAMETER'}."]
    if setting.first is not None and setting.first.reading is not None and open_by is not None:
        first, moved = figures.shown(setting.first.reading, gauge), figures.shown(open_by, instrument)
        notes.append(f"First cut, gauge at {first}: 0.")
        part = f"half of {figures.shown(2 * open_by, gauge)} on" if setting.indicator == "radius" else "the whole on"
        notes.append(f"At {reading}: on by {moved}, {part} diameter.")
        notes.append("If the first bore measures otherwise, the sum on the card counts.")
    else:
        notes.append(f"Gauge at {reading}: 0.")
    if setting.indicator_step is not None:
        step = figures.shown(setting.indicator_step, instrument)
        notes.append(f"One division {step}; its face may be marked otherwise.")
    return notes
