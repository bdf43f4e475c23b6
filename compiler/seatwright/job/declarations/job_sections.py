"""The sections of a job file: the job, its heads, and what the valves of a head have in common."""

from __future__ import annotations

from msgspec.structs import replace

from seatwright.job.declarations.kinds import (
    Bounds,
    Dimension,
    Field,
    Form,
    SectionDeclared,
    angle,
    choice,
    length,
    temperature,
    text,
)
from seatwright.syntax.vocabulary import Shape

FUELS = ("petrol", "diesel", "natural gas", "propane", "biogas", "alcohol", "hydrogen", "other")
_PAPERS = ("a4", "letter", "a5", "half-letter")
_UNITS = ("mm", "inch")
SKIMS = ("before-measuring", "after-measuring", "still-to-come")


def _of_piece(field: Field) -> Field:
    """The same, of one head on one day."""
    return replace(field, of_piece=True)


JOB = SectionDeclared(
    "job",
    Shape.FIELDS,
    "The job: whose it is, and what it is done with. Stands once, before the first head.",
    'job 2214 "title"',
    (
        text("customer", "whose head it is", 'customer "the dairy"'),
        text("machinist", "who does the work", 'machinist "bench two"'),
        Field("received", Form.DATE, "the day the head came in", "received 2026-11-16"),
        Field("due", Form.DATE, "the day it is wanted", "due 2026-11-23"),
        choice("units", "what a bare length in this file is in", "units mm", *_UNITS, required=True),
        choice("paper", "the paper of the cards; left out: a4 in mm, letter in inch", "paper a4", *_PAPERS),
        Field("machine", Form.NAME, "which machine, where the shop has several", 'machine "seat-and-guide machine"'),
        Field("gauge", Form.NAME, "which setting gauge, where the shop has several", 'gauge "setting gauge"'),
        Field("bore-gauge", Form.NAME, "which bore gauge, where the shop has several", 'bore-gauge "three-point"'),
    ),
)

HEAD = SectionDeclared(
    "head",
    Shape.FIELDS,
    "A cylinder head; the sections after it belong to it.",
    'head left "description"',
    (
        Field(
            "material",
            Form.NAME,
            "what the head is cast of; built in or the shop's; required where no engine file has it",
            "material grey iron",
        ),
        choice("fuel", "for cautions on dry fuels", "fuel diesel", *FUELS),
        Field("engine", Form.NAME, "of which engine it is, or `none`", "engine TC3", choices=("none",), of_piece=True),
        Field(
            "cylinders",
            Form.IN_ORDER,
            "which the engine's are here, its smallest first; left out: the same",
            "cylinders 4 5 6",
            Dimension.PLAIN,
            Bounds(1, 99),
            of_piece=True,
        ),
        _of_piece(
            temperature(
                "temperature", "of the head while measured and bored", "temperature 24 C", -30, 60, Form.TEMPERATURE
            )
        ),
        choice(
            "depth-from",
            "the face that depths are measured from; left out: rim",
            "depth-from rim",
            "rim",
            "deck",
            "floor",
        ),
        length("least-bridge", "least metal between two bores", "least-bridge 2.0", 0.3, 30),
        length("least-floor", "least metal under a bore, to water", "least-floor 4.0", 0.5, 30),
        length("metal-around", "radial metal around a pocket, for stresses", "metal-around 9", 1, 100),
        Field(
            "deck-removed",
            Form.SKIM,
            "skimmed off the deck in this job",
            "deck-removed 0.20 before-measuring",
            Dimension.LENGTH,
            Bounds(0, 5),
            attribute="skim",
            of_piece=True,
        ),
        Field(
            "recession-limit-follows",
            Form.FOLLOWS,
            "the most recession is the valve train's and moves with a skim; `both`: the least too",
            "recession-limit-follows valve-train",
        ),
        temperature("heat-limit", "the hottest the head may be taken to", "heat-limit 180 C", 40, 400),
        temperature("hot-head", "running temperature of the metal round the pocket", "hot-head 190 C", 40, 450),
        temperature("hot-insert", "running temperature of the insert", "hot-insert 320 C", 40, 900),
        _of_piece(text("crack-test", "what was done and found; for the record", 'crack-test "dye, none found"')),
        _of_piece(text("pressure-test", "what was done and found; for the record", 'pressure-test "3 bar, tight"')),
        Field(
            "inserts",
            Form.NOT_ALLOWED,
            "the maker forbids inserts here: every valve is on hold",
            'inserts not-allowed "walls too thin"',
            attribute="inserts_not_allowed",
        ),
    ),
    sourced=True,
)

VALVES = SectionDeclared(
    "valves",
    Shape.FIELDS,
    "What a set of valves has in common: by name, kind or `all`; the narrowest wins. Above all heads: of all.",
    "valves exhaust",
    (
        Field("insert", Form.INSERT, "what goes in; left out: not planned", "insert choose"),
        Field("alloy", Form.NAMES, "alloys that `choose` may take", "alloy tool-steel sintered", attribute="alloys"),
        _of_piece(choice("pocket", "left out: both looked at", "pocket keep", "keep", "bore")),
        _of_piece(
            choice(
                "limits",
                "which limits of the maker's count; left out: new",
                "limits reconditioned",
                "new",
                "reconditioned",
            )
        ),
        Field(
            "size",
            Form.SIZE_NAME,
            "the maker's size it gets, or `any`: none of them; left out: the one that serves",
            "size +0.50",
            Dimension.LENGTH,
            Bounds(-5, 15),
            of_piece=True,
        ),
        Field("seat", Form.INTEGRAL, "this head never had an insert here", "seat integral", attribute="seat_integral"),
        length(
            "interference",
            "diametral; overrides the shop's practice",
            'interference 0.08 to 0.10 "manual"',
            0.005,
            0.6,
            Form.TWO_LIMITS_SOURCE,
        ),
        length(
            "bore",
            "the maker's limits of the pocket; with `insert turned` the most alone",
            'bore 38.000 to 38.016 "manual"',
            8,
            200,
            Form.TWO_OR_MOST_SOURCE,
        ),
        length(
            "depth",
            "the maker's limits of its depth; a single figure: ± `depth-tolerance`",
            'depth 8.60 to 8.70 "manual"',
            1.5,
            37,
            Form.LIMITS_OR_ONE_SOURCE,
        ),
        length(
            "insert-od",
            "the maker's limits of the insert",
            'insert-od 38.066 to 38.078 "manual"',
            8,
            200,
            Form.TWO_LIMITS_SOURCE,
        ),
        Field(
            "stand",
            Form.STAND,
            "the insert's face against the depth face after pressing",
            "stand below 0.05 to 0.15",
            Dimension.LENGTH,
            Bounds(-5, 8),
        ),
        length("head-diameter", "of the valve", "head-diameter 42.0", 10, 220, Form.SIZE),
        length("margin", "of the valve, at its edge", "margin 1.5", 0.2, 8, Form.SIZE),
        length("stem", "of the valve", "stem 7.960 to 7.975", 2.5, 50, Form.SIZE),
        Field("valve-tilt", Form.SIZE, "of the valve to the deck", "valve-tilt 20", Dimension.ANGLE, Bounds(0, 60)),
        angle("face-angle", "of the valve's face", "face-angle 44.5", 10, 75, asks_over=50),
        angle("seat-angle", "of the seat cut", "seat-angle 45", 10, 75, asks_over=50),
        angle("top-angle", "of the cut above the seat", "top-angle 30", 8, 70),
        angle("throat-angle", "of the cut below the seat", "throat-angle 60", 30, 90),
        length("seat-width", "width along the seat", "seat-width 1.6 to 2.0", 0.3, 8, Form.LIMITS),
        length(
            "setback", "radial, from the valve's edge in to the contact's outer edge", "setback 0.8", 0, 6, Form.SIZE
        ),
        length("guide-clearance", "stem to guide, new", "guide-clearance 0.03 to 0.06", 0.005, 0.6, Form.CLEARANCE),
        length("guide-wear-limit", "the most that a used guide may have", "guide-wear-limit 0.10", 0.02, 1.0),
        Field("guide", Form.GUIDE, "left out: a worn one holds its valve; named or chosen: renewed", "guide choose"),
        length(
            "guide-hole",
            "the maker's limits of the hole in the head",
            'guide-hole 10.975 to 10.996 "manual"',
            4,
            80,
            Form.TWO_LIMITS_SOURCE,
        ),
        length(
            "guide-fit",
            "of the guide in its hole, diametral; overrides the shop's",
            'guide-fit 0.027 to 0.059 "manual"',
            0.002,
            0.3,
            Form.TWO_LIMITS_SOURCE,
        ),
        length(
            "guide-stand",
            "its end above the spring seat, or a shoulder it stops at",
            "guide-stand 13.3 to 13.9",
            0.5,
            100,
            Form.GUIDE_STAND,
        ),
        length(
            "guide-bore",
            "the finished bore; left out: stem and `guide-clearance`",
            'guide-bore 7.000 to 7.015 "manual"',
            2.5,
            50,
            Form.TWO_LIMITS_SOURCE,
        ),
        Field(
            "guide-tightness",
            Form.NUMBER,
            "the least that it must hold when it is pushed",
            "guide-tightness 3500 N",
            Dimension.FORCE,
            Bounds(50, 100000),
        ),
        length("guide-length", "of the guide", "guide-length 62", 15, 350),
        length("guide-to-floor", "from the guide's port end to the floor of the pocket", "guide-to-floor 28", 0, 250),
        length(
            "recession",
            "the flat of the valve head below the deck; negative is proud",
            "recession 0.5 to 0.9",
            -8,
            12,
            Form.LIMITS,
        ),
        length(
            "stem-height",
            "end of the stem to spring seat",
            "stem-height 40.95 to 41.45",
            5,
            125,
            Form.LIMITS,
            former="tip-height",
        ),
        choice(
            "stem-height-from",
            "where it is measured to; left out: spring-seat",
            "stem-height-from head-edge",
            "spring-seat",
            "head-edge",
            "cam",
        ),
        length(
            "spring-height",
            "retainer to spring seat, the installed height",
            "spring-height 38.0 +/- 0.3",
            8,
            200,
            Form.LIMITS,
        ),
        length("valve-lift", "of the valve, fully open", "valve-lift 9.5", 2, 45),
        Field(
            "spring-force",
            Form.FORCE_AT,
            "of a new spring at a height; two of them give its rate",
            "spring-force 296 N at 38.9 mm",
            Dimension.FORCE,
            Bounds(10, 20000),
            repeats=True,
        ),
        Field(
            "spring-least",
            Form.FORCE_AT,
            "the least of a used one at a height",
            "spring-least 258 N at 38.9 mm",
            Dimension.FORCE,
            Bounds(10, 20000),
            repeats=True,
        ),
        length("coil-bind", "height at which the coils touch", "coil-bind 25.0", 6, 150),
        length("bind-room", "between the coils at full lift", "bind-room least 1.0", 0.05, 10, Form.CLEARANCE),
        length(
            "retainer-room",
            "retainer to seal or guide, at full lift",
            "retainer-room least 1.5",
            0.05,
            10,
            Form.CLEARANCE,
        ),
        length("seat-runout", "finished seat to guide", "seat-runout 0.05 tir", 0.002, 0.3, Form.RUNOUT),
        Field("pilot", Form.NAME, "chosen by hand", "pilot P901", of_piece=True),
        Field("cutter", Form.NAME, "chosen by hand", "cutter C2", of_piece=True),
        Field("sodium-filled", Form.YES, "for the caution", "sodium-filled yes"),
        length("oversize-of", "the pocket as the maker made it", "oversize-of 44.00", 8, 200),
    ),
    sourced=True,
)
