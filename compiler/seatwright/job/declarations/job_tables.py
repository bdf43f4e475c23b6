"""The tables of a job file: where the valves stand, what was measured, cut and found in the end."""

from __future__ import annotations

from seatwright.job.declarations.kinds import (
    Bounds,
    Dimension,
    Field,
    Form,
    Header,
    SectionDeclared,
    Sisters,
    choice,
    length,
)
from seatwright.syntax.vocabulary import Shape

# How far true figures of one worn head lie apart, mm: common practice, by what gauges, castings and wear show.
_GUIDE = Sisters(0.03, 0.06, thing="guide", within=0.085, alike=True)
_POCKET = Sisters(0.10, 0.30, thing="pocket", within=0.07, alike=True)
_BORE = Sisters(0.50, 0.50, thing="bore", within=0.05, alike=True)
_DEPTH = Sisters(0.50, 0.50, thing="depth", within=0.05, alike=True)
_INSERT = Sisters(0.04, 0.04)
_RECESSION = Sisters(0.50, 0.50, thing="seat", within=0.15)  # what sinks a valve moves all three by as much
_STEM_HEIGHT = Sisters(0.50, 0.50, thing="seat", within=0.15)
_SPRING_HEIGHT = Sisters(0.60, 0.60, thing="seat", within=0.15)
_GUIDE_HOLE = Sisters(0.45, 0.45, thing="guide-hole", within=0.085, alike=True)  # oversizes are in there

VALVE = Field("valve", Form.VALVE, "the valve", "E1")

INSERT_WAS = ("loose", "tight", "cracked", "burnt", "sunk", "fallen-out", "none")

_SOURCE = Field("source", Form.TEXT, "who printed the row", '"p. 12"')

POCKET_SIZES = SectionDeclared(
    "pocket-sizes",
    Shape.TABLE,
    "The maker's sizes of a pocket, a row for the standard and for each oversize; the narrowest table counts, whole.",
    'pocket-sizes exhaust in mm "p. 12"',
    sourced=True,
    headers=(
        Header(
            Field(
                "size",
                Form.SIZE_NAME,
                "its name: `standard`, or how much it is over that",
                "+0.25",
                Dimension.LENGTH,
                Bounds(-5, 15),
            ),
            (
                length("bore-least", "the maker's limits of the pocket", "38.250", 8, 200),
                length("bore-most", "the same; with `insert turned` alone too", "38.266", 8, 200),
                length("insert-od-least", "the maker's limits of the insert", "38.316", 8, 200),
                length("insert-od-most", "the same", "38.328", 8, 200),
                length("insert-height", "of the insert", "7.00", 1.5, 37),
                length("depth-least", "the maker's limits of the depth", "8.60", 1.5, 37),
                length("depth-most", "the same", "8.70", 1.5, 37),
                length("interference-least", "diametral; where the other two do not give it", "0.05", 0.005, 0.6),
                length("interference-most", "the same", "0.08", 0.005, 0.6),
                Field("insert", Form.NAME, "what the stock calls the insert of this size", "X200"),
                _SOURCE,
            ),
        ),
    ),
)

LAYOUT = SectionDeclared(
    "layout",
    Shape.TABLE,
    "Where the valves' axes lie in the seat plane.",
    "layout",
    headers=(
        Header(
            VALVE,
            (
                length("x", "along the head", "48.5", -3000, 3000),
                length("y", "across the head", "-12.0", -3000, 3000),
            ),
        ),
    ),
    dated=True,
    sourced=True,
)

HOLES = SectionDeclared(
    "holes",
    Shape.TABLE,
    "What else is near the pockets.",
    "holes",
    headers=(
        Header(
            Field("hole", Form.NAME, "its name; with a space, in quotes", '"injector 1"'),
            (
                length("x", "along the head", "24.0", -3000, 3000),
                length("y", "across the head", "30.0", -3000, 3000),
                length("diameter", "of the hole, or of the cylinder", "14.0", 1, 600),
                choice(
                    "kind",
                    "hole (if left out), or cylinder: the insert must stay inside its edge",
                    "hole",
                    "hole",
                    "cylinder",
                    former_choices=(("rim", "cylinder"),),
                ),
            ),
        ),
    ),
    dated=True,
    sourced=True,
)

SPACING = SectionDeclared(
    "spacing",
    Shape.ROWS,
    "Distances between the axes of two valves, each pair once.",
    "spacing",
    rows=(
        Field("first", Form.VALVE, "a valve", "I1"),
        Field("second", Form.VALVE, "another", "E1"),
        length("distance", "centre to centre", "48.5", 10, 250),
    ),
    dated=True,
    sourced=True,
)

READINGS_OF_PART: dict[str, tuple[str, ...]] = {
    "guide": (
        *("guide-top", "guide-middle", "guide-bottom", "guide-end"),
        *("pocket-tir", "pocket-offset", "throat-offset"),
        "retainer-to-seal",  # its other end is the guide, or the seal that sits on it
    ),
    "valve": ("head-diameter", "margin", "stem", "recession", "stem-height", "spring-height"),
    "spring": ("spring-free", "spring-force", "spring-at"),
    "retainer": ("spring-height", "retainer-to-seal"),
    "seal": ("spring-height", "retainer-to-seal"),
}
"""The columns of `measured` that no longer count once a part is a new one."""

REPLACED = SectionDeclared(
    "replaced",
    Shape.TABLE,
    "What was renewed before the measuring that follows; readings of the old part stay on the record only.",
    "replaced 2026-11-18",
    headers=(Header(VALVE, (choice("part", "what was renewed", "guide", *READINGS_OF_PART),)),),
    dated=True,
)

_MEASURED: tuple[tuple[Field, ...], ...] = (
    (
        length("recession", "found: the flat of the valve head below the deck", "0.7", -8, 12, sisters=_RECESSION),
        length(
            "stem-height",
            "found: end of the stem to spring seat",
            "41.10",
            5,
            125,
            former="tip-height",
            sisters=_STEM_HEIGHT,
        ),
        length("spring-height", "found: retainer to spring seat", "38.1", 8, 200, sisters=_SPRING_HEIGHT),
    ),
    (
        length("retainer-to-seal", "retainer to seal or guide, valve shut", "11.5", 2, 60, sisters=Sisters(0.8, 0.8)),
        length("spring-free", "the spring, free", "47.2", 10, 250, sisters=Sisters(2.0, 2.0)),
        Field("spring-force", Form.NUMBER, "of the spring", "271 N", Dimension.FORCE, Bounds(10, 20000)),
        length("spring-at", "the height of that reading", "38.9", 8, 200, sisters=Sisters(2.0, 2.0, rests=False)),
    ),
    (
        length("head-diameter", "of the valve", "42.0", 10, 220, sisters=Sisters(0.25, 0.25)),
        length("margin", "of the valve", "1.4", 0, 8, sisters=Sisters(0.4, 0.3)),
    ),
    (
        length("stem", "of the valve", "7.965", 2.5, 50, sisters=Sisters(0.06, 0.03)),
        length("guide-top", "the guide at its spring end", "8.021", 2.5, 50, sisters=_GUIDE),
        length("guide-middle", "the guide in the middle", "8.015", 2.5, 50, sisters=_GUIDE),
        length("guide-bottom", "the guide at its port end", "8.024", 2.5, 50, sisters=_GUIDE),
    ),
    (
        length("guide-end", "its end above the spring seat", "13.6", 0.5, 100, sisters=Sisters(0.8, 0.8)),
        length("guide-hole-top", "the old guide out: its hole, spring end", "10.988", 4, 80, sisters=_GUIDE_HOLE),
        length("guide-hole-middle", "the hole in the middle", "10.984", 4, 80, sisters=_GUIDE_HOLE),
        length("guide-hole-bottom", "the hole at its port end", "10.986", 4, 80, sisters=_GUIDE_HOLE),
        length("guide-od", "of the guide that goes in", "11.029", 4, 80, sisters=Sisters(0.6, 0.6)),
    ),
    (
        choice("insert-was", "how the one that came out sat", "loose", *INSERT_WAS),
        length(
            "old-insert-od",
            "of the insert that came out",
            "44.05",
            8,
            200,
            sisters=Sisters(0.3, 0.6, rests=False),
        ),
    ),
    (
        length("pocket-a", "the pocket", "44.02", 8, 200, sisters=_POCKET),
        length("pocket-b", "the pocket, at right angles to a", "44.05", 8, 200, sisters=_POCKET),
        length("pocket-low-a", "the pocket near its floor", "44.01", 8, 200, sisters=_POCKET),
        length("pocket-low-b", "the pocket near its floor, at right angles", "44.03", 8, 200, sisters=_POCKET),
    ),
    (
        length("pocket-depth", "of the pocket", "7.10", 0.5, 37, sisters=Sisters(0.07, 0.07)),
        length(
            "pocket-tir",
            "pocket to guide, full needle movement",
            "0.04",
            0,
            5,
            attribute="pocket_offset",
            halved=True,
            sisters=Sisters(1.0, 0.06),
        ),
        length("pocket-offset", "pocket to guide, axis to axis", "0.02", 0, 2.5, sisters=Sisters(1.0, 0.06)),
        length("throat", "the port below the seat", "36.0", 6, 200, sisters=Sisters(0.35, 0.35)),
        length("throat-offset", "throat to guide, axis to axis", "0.3", 0, 8, sisters=Sisters(8.0, 0.6)),
    ),
    (
        length("damage", "the diameter that damage reaches", "44.6", 8, 200),
        length("damage-depth", "how deep damage reaches", "7.6", 0, 40),
        length(
            "floor-thickness",
            "metal under the present floor, to water",
            "6.5",
            0,
            40,
            former="floor",
            sisters=Sisters(0.35, 0.35, at_most=0.38),
        ),
        length(
            "metal-around",
            "radial metal around the pocket",
            "9",
            1,
            100,
            sisters=Sisters(1.5, 1.5, rests=False),
        ),
    ),
    (
        Field("insert", Form.INSERT, "the insert that goes in", "X46"),
        length("insert-od", "of the insert that goes in", "44.102", 8, 200, sisters=_INSERT),
        length("insert-height", "of the insert that goes in", "7.02", 1.5, 37, sisters=Sisters(0.06, 0.06)),
    ),
)
"""What is found, in the order in which a bench comes to it, step by step: the valve on its old seat, the valve, stem
and guide, what comes out, the pocket and what lies around it, the new insert in the hand. As-found sheet and starter
job follow this order: a column that is added here has its blank there."""

MEASURED = SectionDeclared(
    "measured",
    Shape.TABLE,
    "What was found, before anything is cut.",
    "measured 2026-11-17 in mm at 24 C",
    headers=(Header(VALVE, tuple(column for step in _MEASURED for column in step)),),
    dated=True,
    of_one=True,
)


BENCH_ORDER: tuple[tuple[str, ...], ...] = tuple(
    tuple({column.to: column.word for column in reversed(step)}.values())[::-1] for step in _MEASURED
)
"""The columns of `measured` by the steps of the bench. A runout has two columns for one thing: the first stands."""


TRIAL = SectionDeclared(
    "trial",
    Shape.ROWS,
    "Trial cuts: what the gauge read, what the bore came to.",
    "trial at 22 C",
    rows=(
        Field("cutter", Form.NAME, "the cutter", "C2"),
        length("read", "what the setting gauge read", "44.480", 5, 400),
        length("bored", "what the bore came to", "44.487", 5, 400),
    ),
    dated=True,
)

CUT = SectionDeclared(
    "cut",
    Shape.TABLE,
    "What was cut.",
    "cut 2026-11-20 at 22 C",
    headers=(
        Header(
            VALVE,
            (
                Field("cutter", Form.NAME, "the cutter", "C2"),
                length("read", "what the setting gauge read", "44.480", 5, 400),
                length("bore-a", "the bore near the rim", "44.487", 8, 200, sisters=_BORE),
                length("bore-b", "the same, at right angles", "44.489", 8, 200, sisters=_BORE),
                length("bore-low-a", "the bore near the floor", "44.486", 8, 200, sisters=_BORE),
                length("bore-low-b", "the same, at right angles", "44.488", 8, 200, sisters=_BORE),
                length("depth-a", "the depth, first place", "7.62", 0.5, 60, sisters=_DEPTH),
                length("depth-b", "the depth, second place", "7.62", 0.5, 60, sisters=_DEPTH),
                length("depth-c", "the depth, third place", "7.63", 0.5, 60, sisters=_DEPTH),
                length("depth-d", "the depth, fourth place", "7.61", 0.5, 60, sisters=_DEPTH),
                length("insert-od", "of the insert that goes in", "44.571", 8, 200, sisters=_INSERT),
            ),
        ),
    ),
    dated=True,
    of_one=True,
)

FINISHED = SectionDeclared(
    "finished",
    Shape.TABLE,
    "What was found on the finished valve.",
    "finished 2026-11-21",
    headers=(
        Header(
            VALVE,
            (
                length(
                    "stand",
                    "the insert's face below the depth face; negative is proud",
                    "0.08",
                    -5,
                    8,
                    sisters=Sisters(0.15, 0.15),
                ),
                length("seat-tir", "seat to guide, full needle movement", "0.03", 0, 2, sisters=Sisters(2.0, 0.08)),
                length("seat-width", "along the seat", "1.8", 0.2, 10, sisters=Sisters(0.4, 0.4)),
                length("recession", "the flat of the valve head below the deck", "0.7", -8, 12, sisters=_RECESSION),
                length(
                    "stem-height",
                    "end of the stem to spring seat",
                    "41.2",
                    5,
                    125,
                    former="tip-height",
                    sisters=_STEM_HEIGHT,
                ),
                length("spring-height", "retainer to spring seat", "38.2", 8, 200, sisters=_SPRING_HEIGHT),
                Field("leak", Form.LEAK_FOUND, "pass, fail or a time", "4 s", Dimension.TIME, Bounds(0, 3600)),
                choice("pressure-test", "pass or fail", "pass", "pass", "fail"),
            ),
        ),
    ),
    dated=True,
    of_one=True,
)

__all__ = [
    "CUT",
    "FINISHED",
    "HOLES",
    "LAYOUT",
    "MEASURED",
    "POCKET_SIZES",
    "READINGS_OF_PART",
    "REPLACED",
    "SPACING",
    "TRIAL",
    "VALVE",
]
