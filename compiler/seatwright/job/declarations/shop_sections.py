"""The sections of a shop file: what is on the shelf, and the shop's own practice."""

from __future__ import annotations

from seatwright.job.declarations.kinds import (
    Bounds,
    Dimension,
    Field,
    Form,
    Header,
    SectionDeclared,
    choice,
    count,
    length,
    spread,
    temperature,
    text,
)
from seatwright.syntax.vocabulary import Shape

HAZARDS = ("beryllium", "lead", "none")
SEATS = ("intake", "exhaust", "any")
GUIDE_KINDS = ("guide", "liner")

FORMERLY = Field(
    "formerly", Form.NAME, "what it was called before; old jobs that say so mean it", "formerly C1", repeats=True
)

UNITS = choice("units", "what a bare length in this file is in", "units mm", "mm", "inch", required=True)
MARKED = choice("marked", "what its scale is marked in; left out: the file's units", "marked mm", "mm", "inch")
EXPANSION = Field(
    "expansion",
    Form.NUMBER,
    "of the gauge; left out: 11.5 um/m/C",
    "expansion 11.5 um/m/C",
    Dimension.EXPANSION,
    Bounds(3e-6, 26e-6),  # from carbide to aluminium
)
GAUGE_TEMPERATURE = temperature(
    "temperature", "of the gauge; left out: the head's", "temperature 22 C", -30, 60, Form.TEMPERATURE
)

CHECKED = Field(
    "checked",
    Form.DATED,
    "the day of a check outside the daily work",
    'checked 2026-09-01 "calibrated"',
    attribute="checks",
    repeats=True,
)
CHECK_EVERY = Field(
    "check-every",
    Form.NUMBER,
    "how often it is to be checked",
    "check-every 12 months",
    Dimension.MONTHS,
    Bounds(1, 240),
)

SHOP = SectionDeclared("shop", Shape.FIELDS, "The shop.", 'shop "name"', (UNITS,))

MACHINE = SectionDeclared(
    "machine",
    Shape.FIELDS,
    "The machine that bores.",
    'machine "name"',
    (
        Field(
            "speeds",
            Form.STEPS,
            "its speeds, in steps or stepless",
            "speeds 35 50 70 rpm",
            Dimension.SPEED,
            Bounds(1, 4000),
        ),
        Field(
            "feeds",
            Form.FEEDS,
            "its feeds, in steps or stepless, or by hand",
            "feeds 0.05 0.10 mm/rev",
            Dimension.FEED,
            Bounds(0.002, 0.6),
        ),
        Field(
            "torque-limit",
            Form.NUMBER,
            "the most its spindle may be asked for",
            "torque-limit 120 Nm",
            Dimension.TORQUE,
            Bounds(0.5, 20000),
        ),
        choice("dial", "what its depth stop is marked in; left out: the file's units", "dial inch", "mm", "inch"),
        length("dial-step", "the finest mark of its depth stop", "dial-step 0.02", 0.0005, 1.0),
        choice("guides-by", "what guides the cutter; left out: pilot", "guides-by pilot", "pilot", "spindle"),
        length("parallel", "thickness of the parallel on which depths are zeroed", "parallel 6.00", 0.5, 100),
        length("centring", "how far its spindle's axis may stand off the pilot's", "centring 0.01", 0, 0.5),
        FORMERLY,
        Field(
            "level",
            Form.NUMBER,
            "how far out of square it may stand; never bare",
            "level 0.2 mm/m",
            Dimension.LEVEL,
            Bounds(0, 0.01),
        ),
    ),
)

GAUGE = SectionDeclared(
    "gauge",
    Shape.FIELDS,
    "The gauge that sets the cutter.",
    'gauge "name"',
    (
        length("range", "from its smallest to its largest", "range 32 to 60", 5, 400, Form.TWO_LIMITS),
        MARKED,
        length("step", "its finest mark", "step 0.002", 0.0002, 0.2),
        length(
            "master",
            "a master (or `standard`) and what the gauge shows on it; dated: from then on",
            "master 40.000 reads 40.002",
            5,
            400,
            Form.MASTER,
            attribute="masters",
            repeats=True,
            also="standard",
        ),
        spread("master-uncertainty", "of the master", "master-uncertainty +/- 0.001", 0.1),
        spread("repeatability", "of the gauge", "repeatability 0.001", 0.1),
        choice("indicator", "what its needle shows", "indicator radius", "radius", "diameter"),
        length("indicator-step", "the finest mark of its needle", "indicator-step 0.002", 0.0002, 0.2),
        GAUGE_TEMPERATURE,
        EXPANSION,
        CHECKED,
        CHECK_EVERY,
        FORMERLY,
    ),
)

BORE_GAUGE = SectionDeclared(
    "bore-gauge",
    Shape.FIELDS,
    "The gauge that measures the bore.",
    'bore-gauge "name"',
    (
        length("range", "from its smallest to its largest", "range 35 to 60", 5, 400, Form.TWO_LIMITS),
        MARKED,
        length("step", "its finest mark", "step 0.002", 0.0002, 0.2),
        length(
            "ring",
            "a ring and what the gauge shows in it; dated: from then on",
            "ring 44.000 reads 44.001",
            5,
            400,
            Form.MASTER,
            attribute="rings",
            repeats=True,
        ),
        spread("ring-uncertainty", "of the ring", "ring-uncertainty +/- 0.001", 0.1),
        spread("repeatability", "of the gauge", "repeatability 0.001", 0.1),
        GAUGE_TEMPERATURE,
        EXPANSION,
        CHECKED,
        CHECK_EVERY,
        FORMERLY,
    ),
)

CUTTER = SectionDeclared(
    "cutter",
    Shape.FIELDS,
    "An adjustable counterbore cutter.",
    "cutter C2",
    (
        length("range", "from its smallest to its largest bore", "range 32 to 52", 5, 400, Form.TWO_LIMITS),
        length("tip-width", "radial width that one tip cuts", "tip-width 7.5", 1.5, 37),
        count("tips", "how many tips cut; left out: 1", "tips 1", 1, 12),
        choice("tip", "what the tip is of", "tip carbide", "carbide", "cbn", "hss"),
        length("corner-radius", "radius left at the floor", "corner-radius 0.4", 0, 3, former="corner"),
        length("reach", "how deep it can go", "reach 25", 2, 300, former="deepest-cut"),
        FORMERLY,
        Field("retired", Form.DATE, "from when on it is no longer used; never chosen then", "retired 2026-11-01"),
        length(
            "overcut",
            "bores bigger than set, in that material or in any; may be negative",
            'overcut aluminium 0.006 "12 bores"',
            -0.05,
            0.05,
            Form.OVERCUT,
            attribute="overcuts",
            repeats=True,
        ),
        Field(
            "overcut-spread",
            Form.OVERCUT_SPREAD,
            "of its overcut, likewise",
            "overcut-spread 0.002",
            Dimension.LENGTH,
            Bounds(0, 0.015),
            attribute="overcut_spreads",
            repeats=True,
        ),
        Field(
            "tip-changed",
            Form.DATED_REASON,
            "a new or reground tip, which cuts from that day on",
            'tip-changed 2026-10-05 "worn"',
            attribute="tip_changes",
            repeats=True,
        ),
    ),
)

_PILOT = Field("pilot", Form.NAME, "its name", "P801", attribute="name")
_LENGTH = length("length", "of its guided part", "70", 8, 1000)
_TIR = length("tir", "its own, full needle movement", "0.005", 0, 0.5, attribute="tir_offset", halved=True)
_FORMER_NAME = Field("formerly", Form.NAME, "what it was called before", "P8")
_GRIP = (
    length("from", "the smallest it grips", "7.9", 2.5, 50, attribute="smallest"),
    length("to", "the largest it grips", "8.2", 2.5, 50, attribute="largest"),
    _LENGTH,
    _TIR,
    length("tir-at", "how far above the port end of the guide its tir was read", "45", 1, 500),
    _FORMER_NAME,
)

PILOTS = SectionDeclared(
    "pilots",
    Shape.TABLE,
    "The pilots; all three kinds may stand in one section.",
    "pilots",
    headers=(
        Header(
            _PILOT,
            (
                length("diameter", "of the pilot", "8.000", 2.5, 50),
                _LENGTH,
                choice(
                    "kind", "dead (stands still, if left out) or live (turns with the spindle)", "dead", "dead", "live"
                ),
                _TIR,
                _FORMER_NAME,
            ),
        ),
        Header(Field("expanding", Form.NAME, "the name of an expanding one", "XP8", attribute="name"), _GRIP),
        Header(Field("tapered", Form.NAME, "the name of a tapered one", "T8", attribute="name"), _GRIP),
    ),
    dated=True,
)

INSERTS = SectionDeclared(
    "inserts",
    Shape.TABLE,
    "The inserts in stock; a date says at the end of which day they were counted.",
    "inserts 2026-11-01",
    headers=(
        Header(
            Field("insert", Form.NAME, "its name", "X46", attribute="name"),
            (
                length("od", "outer diameter", "44.57", 8, 200),
                length("od-least", "its least outer diameter", "44.565", 8, 200),
                length("od-most", "its largest outer diameter", "44.578", 8, 200),
                length("height", "of the insert", "7.00", 1.5, 37),
                length("id", "its bore", "36.0", 6, 200),
                length("chamfer", "along the od", "0.8", 0, 6),
                Field("chamfer-angle", Form.NUMBER, "from the od; left out: 45", "30", Dimension.ANGLE, Bounds(5, 85)),
                Field("alloy", Form.NAME, "what it is of", "tool-steel"),
                choice("seat", "which seats it is for", "exhaust", *SEATS),
                count("on-hand", "how many; `-` is not counted", "8", 0, 100000),
                Field("formerly", Form.NAME, "what it was called before", "X45"),
            ),
        ),
    ),
    dated=True,
)

STOCK = SectionDeclared(
    "stock",
    Shape.TABLE,
    "What was counted at the end of a day, and what came in on it; as many such tables as wanted.",
    "stock 2026-11-20",
    headers=(
        Header(
            Field("insert", Form.NAME, "one that stands under `inserts`", "X46", attribute="name"),
            (
                count("counted", "how many there were at the end of that day", "5", 0, 100000),
                count("delivered", "how many came in on that day", "10", 0, 100000),
            ),
        ),
        Header(
            Field("guide", Form.NAME, "one that stands under `guides`", "G11", attribute="name"),
            (
                count("counted", "how many there were at the end of that day", "8", 0, 100000),
                count("delivered", "how many came in on that day", "4", 0, 100000),
            ),
        ),
    ),
    dated=True,
)

INTERFERENCE = SectionDeclared(
    "interference",
    Shape.TABLE,
    "The shop's press fits: over < od <= to; the row with fewest `any` counts.",
    "interference",
    headers=(
        Header(
            Field("head", Form.NAME, "the head's material", "grey-iron", names="material"),
            (
                Field("alloy", Form.NAME, "of the insert, or `any`", "any", choices=("any",)),
                choice("seat", "intake, exhaust or any", "any", *SEATS),
                length("over", "the od must be over this; `-` no bound", "30", 5, 400),
                length("to", "and at most this; `-` no bound", "50", 5, 400),
                length("least", "least interference", "0.06", 0.005, 0.6),
                length("most", "most interference", "0.10", 0.005, 0.6),
                Field("source", Form.TEXT, "whose figure it is", '"shop book"', required=True),
            ),
        ),
    ),
    dated=True,
)

GUIDES = SectionDeclared(
    "guides",
    Shape.TABLE,
    "The guides and liners in stock; a date says at the end of which day they were counted.",
    "guides 2026-11-01",
    headers=(
        Header(
            Field("guide", Form.NAME, "its name", "G11", attribute="name"),
            (
                length("od", "outer diameter", "11.03", 4, 80),
                length("od-least", "its least outer diameter", "11.023", 4, 80),
                length("od-most", "its largest outer diameter", "11.034", 4, 80),
                length("length", "of the guide", "42", 8, 350),
                length("id", "its bore as bought", "6.90", 2, 60),
                Field("id-finished", Form.YES, "yes: it needs no reaming", "no"),
                choice("kind", "guide (if left out), or liner: it goes into the old guide", "guide", *GUIDE_KINDS),
                Field("alloy", Form.NAME, "what it is of", "guide-bronze"),
                count("on-hand", "how many; `-` is not counted", "8", 0, 100000),
                Field("formerly", Form.NAME, "what it was called before", "G10"),
            ),
        ),
    ),
    dated=True,
)

REAMERS = SectionDeclared(
    "reamers",
    Shape.TABLE,
    "The reamers for guides and their holes.",
    "reamers",
    headers=(
        Header(
            Field("reamer", Form.NAME, "its name", "R1104", attribute="name"),
            (
                length("diameter", "of the reamer", "11.040", 2.5, 80),
                choice("for", "hole or guide; left out: either", "hole", "hole", "guide", attribute="serves"),
                length("overcut", "holes bigger than the reamer; left out: 0", "0.004", -0.05, 0.05),
            ),
        ),
    ),
    dated=True,
)

GUIDE_FITS = SectionDeclared(
    "guide-fits",
    Shape.TABLE,
    "The shop's fits of guides and liners: over < od <= to; the row with fewest `any` counts.",
    "guide-fits",
    headers=(
        Header(
            Field("head", Form.NAME, "the head's material", "grey-iron", names="material"),
            (
                Field("alloy", Form.NAME, "of the guide, or `any`", "any", choices=("any",)),
                choice("kind", "guide, liner or any", "any", *GUIDE_KINDS, "any", attribute="seat"),
                length("over", "the od must be over this; `-` no bound", "8", 2, 80),
                length("to", "and at most this; `-` no bound", "14", 2, 80),
                length("least", "least interference", "0.025", 0.002, 0.3),
                length("most", "most interference", "0.050", 0.002, 0.3),
                Field("source", Form.TEXT, "whose figure it is", '"shop book"', required=True),
            ),
        ),
    ),
    dated=True,
)

PRACTICE = SectionDeclared(
    "practice",
    Shape.FIELDS,
    "The shop's own practice; a later shop file counts field by field.",
    "practice",
    (
        length("clean-up", "least stock, on diameter", "clean-up 0.15", 0, 4),
        length("floor-clean-up", "least stock on the floor", "floor-clean-up 0.05", 0, 4),
        length("trial-under", "how much below size the first cut is", "trial-under 0.20", 0.01, 0.8),
        Field("top-speed", Form.NUMBER, "never faster", "top-speed 50 rpm", Dimension.SPEED, Bounds(1, 4000)),
        Field(
            "surface-speed",
            Form.NUMBER,
            "at the bore",
            "surface-speed 8 m/min",
            Dimension.SURFACE_SPEED,
            Bounds(0.3, 600),
        ),
        Field("feed", Form.NUMBER, "for each turn", "feed 0.05 mm/rev", Dimension.FEED, Bounds(0.002, 0.6)),
        length("slip", "clearance that lets an insert drop in", "slip 0.03", 0, 0.12),
        length("bore-round", "most out of round", "bore-round 0.012", 0.0005, 0.25),
        length("bore-taper", "most taper", "bore-taper 0.012", 0.0005, 0.25),
        length("floor-square", "most out of square over the floor", "floor-square 0.03", 0.0005, 0.5),
        length("runout", "most of bore to guide", "runout 0.05 tir", 0.0005, 0.5, Form.RUNOUT),
        length("least-land", "least insert outside the seat, radial", "least-land 0.8", 0, 12),
        length("least-ledge", "least ledge under the insert, radial", "least-ledge 1.0", 0, 12),
        length("least-under-seat", "least insert below the seat", "least-under-seat 1.5", 0, 20),
        length("pilot-clearance", "least, pilot to guide; left out: 0.003 mm", "pilot-clearance 0.003", 0, 0.1),
        length("depth-tolerance", "for a single `stand`", "depth-tolerance 0.05", 0.002, 1),
        spread("insert-uncertainty", "of a measured insert", "insert-uncertainty 0.002", 0.1),
        count("guard", "times the standard uncertainty; 0 turns it off; left out: 1.65", "guard 1.65", 0, 3),
        Field(
            "leak", Form.LEAK, "how tight a seat must be", 'leak 3 s "85 to 58 kPa"', Dimension.TIME, Bounds(0.1, 3600)
        ),
        length("shims", "spring shims in stock", "shims 0.4 0.8 1.5", 0.03, 6, Form.LIST),
        length("shim-limit", "the most shims under one spring", "shim-limit 1.5", 0.05, 12),
        length(
            "stem-grind-most",
            "the most that may be ground off a stem end",
            "stem-grind-most 0.25",
            0,
            4,
            former="tip-grind-most",
        ),
        length("guide-room", "least stock that a reamer must take, on diameter", "guide-room 0.02", 0, 1),
        length("roughness", "Rz of the bore, then of the insert", "roughness 6 4 um", 0.0002, 0.2, Form.ONE_OR_TWO),
    ),
)

ASSEMBLY = SectionDeclared(
    "assembly",
    Shape.FIELDS,
    "What the shop heats, chills and presses with; field by field.",
    "assembly",
    (
        temperature("oven", "the hottest it takes a head to", "oven 160 C", 30, 400),
        Field(
            "chill",
            Form.CHILL,
            "a way to chill an insert; as many as the shop has",
            'chill "dry ice" -78.5 C arrives -40 C',
            Dimension.TEMPERATURE,
            Bounds(-273.15, 40),
            attribute="chills",
            repeats=True,
        ),
        Field("press", Form.NUMBER, "what it can press with", "press 40 kN", Dimension.FORCE, Bounds(50, 5e6)),
    ),
)

_PROPERTIES = (
    Field(
        "stiffness", Form.NUMBER, "its modulus of elasticity", "stiffness 71 GPa", Dimension.PRESSURE, Bounds(1e3, 1e6)
    ),
    count("poisson", "its Poisson's ratio", "poisson .33", 0, 0.499),
    Field(
        "expansion",
        Form.EXPANSION_LINE,
        "mean from 20 °C to that temperature; one a line",
        "expansion 21.4 um/m/C to 100 C",
        Dimension.EXPANSION,
        Bounds(-1e-6, 35e-6),
        repeats=True,
    ),
    Field("strength", Form.NUMBER, "its tensile strength", "strength 250 MPa", Dimension.PRESSURE, Bounds(5, 5000)),
    Field(
        "yield",
        Form.NUMBER,
        "its yield strength",
        "yield 36 ksi",
        Dimension.PRESSURE,
        Bounds(5, 5000),
        attribute="yield_strength",
    ),
    Field(
        "friction",
        Form.NUMBER_OR_RANGE,
        "of the insert in the head",
        "friction 0.10 to 0.16",
        Dimension.PLAIN,
        Bounds(0.01, 1.5),
    ),
    Field(
        "cutting-force",
        Form.CUTTING_FORCE,
        "specific, for a chip 1 mm thick, and how it falls off",
        "cutting-force 1150 MPa exponent 0.20",
        Dimension.PRESSURE,
        Bounds(50, 10000),
    ),
    choice("hazard", "what its dust or fume holds", "hazard beryllium", *HAZARDS),
    text("source", "whose figures they are", 'source "maker\'s sheet"'),
)

MATERIAL = SectionDeclared(
    "material", Shape.FIELDS, "A head material; replaces a built-in of that name.", "material grey iron", _PROPERTIES
)
ALLOY = SectionDeclared(
    "alloy", Shape.FIELDS, "An insert's alloy; replaces a built-in of that name.", "alloy tool steel", _PROPERTIES
)
