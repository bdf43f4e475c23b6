"""The names of all messages as types, made from grammar/slugs.txt by `seatwright.text.registry`."""

from __future__ import annotations

from typing import TYPE_CHECKING, Literal, TypeAlias

# fmt: off
if TYPE_CHECKING:
    ErrorSlug: TypeAlias = Literal[
        "alloy-apart", "alloy-unknown", "angle-which", "angle-word", "angles-order", "bore-gauge-unknown",
        "bore-gauge-which", "both-shapes", "cell-empty", "cell-extra", "cell-first", "cell-missing", "cell-mixed",
        "cell-range", "cell-twice", "cells-exchanged", "cells-parted", "character-control", "choice-unknown",
        "column-twice", "column-unknown", "count-whole", "cutter-unknown", "date-wanted", "dates-order",
        "decimal-comma", "equals-open", "expansion-twice", "field-misplaced", "field-missing", "field-twice",
        "field-unknown", "figure-mark", "figure-points", "figure-power", "figure-unlikely", "figures-many",
        "file-binary", "file-encoding", "file-large", "file-utf16", "fit-disagrees", "fraction-improper",
        "fraction-zero", "gauge-unknown", "gauge-which", "guide-over-pocket", "head-missing", "head-twice",
        "head-wanted", "header-missing", "insert-chamfer", "insert-id", "insert-limits", "insert-od-outside",
        "insert-over-pocket", "insert-under-pocket", "insert-unknown", "interference-bounds", "interference-lacks",
        "interference-large", "interference-overlap", "interference-reversed", "item-twice", "job-late", "job-missing",
        "job-unreadable", "language-unknown", "left-over", "letter-for-digit", "limit-word", "limits-apart",
        "limits-wanted", "line-wordless", "machine-unknown", "machine-which", "mark-needless", "master-far",
        "material-unknown", "measure-crossed", "name-forbidden", "not-counted-nothing", "number-missing",
        "od-under-bore", "pilot-range", "pilot-unknown", "place-lacks", "place-twice", "radius-diameter",
        "range-hyphen", "range-open", "range-reversed", "range-slash", "reading-whole", "readings-apart",
        "readings-here", "replaced-twice", "replaced-undated", "replaced-what", "row-length", "row-word", "runout-bare",
        "seat-wide", "section-again", "section-incomplete", "section-left-over", "section-misplaced", "section-missing",
        "section-none", "section-twice-said", "section-unknown", "setback-wide", "shop-missing", "shop-uses",
        "sign-loose", "single-form", "single-kind", "spacing-same", "spacing-twice", "stand-way", "stem-over-guide",
        "table-at", "table-units", "text-bare", "text-open", "throat-over-pocket", "tolerance-empty", "tolerance-glued",
        "tolerance-half", "tolerance-nominal", "tolerance-open", "tolerance-sign", "tolerance-slash", "trial-far",
        "unit-before", "unit-kind", "unit-last", "unit-missing", "unit-twice", "unit-unknown", "unit-which",
        "units-disagree", "use-many", "use-refused", "use-twice", "use-unreadable", "value-kind", "value-missing",
        "valve-apart", "valve-headless", "valve-name", "valve-outside-cylinders", "valve-twice", "valve-unknown",
        "valves-differ", "valves-missing", "valves-which", "wear-limit-small", "word-renamed",
    ]
    HoldSlug: TypeAlias = Literal[
        "bore-big", "bridge-bears-no-oversize", "bridge-thin", "bridge-thin-as-found", "cutter-first-pass",
        "cutter-not-deep-enough", "cutter-range", "deck-leans", "depth-limits-disagree", "depth-tolerance-not-given",
        "does-not-clean-up", "does-not-cover-seat", "floor-does-not-clean-up", "floor-thin", "guide-worn",
        "hold-by-hand", "hole-too-wide", "insert-od-not-known", "insert-unknown", "inserts-not-allowed",
        "kept-fit-cannot-be-told", "kept-fit-loose", "kept-fit-tight", "kept-stand-wrong", "ledge-narrow",
        "makers-bore-apart", "makers-bore-too-small", "measured-insert-off-list", "measured-insert-unknown",
        "measured-insert-which", "no-floor", "no-insert-fits", "no-interference", "none-on-hand", "od-too-wide-for-fit",
        "other-alloy", "pilot-does-not-enter", "pilot-leans", "pilot-none-enters", "pilot-unknown", "pocket-damaged",
        "pocket-not-kept", "pocket-not-measured", "pocket-not-round", "pocket-runs-out", "pocket-tapers",
        "rides-on-corner", "seat-integral", "seat-outer-not-known", "stands-proud", "stock-short", "under-seat-thin",
    ]
    WarningSlug: TypeAlias = Literal[
        "aluminium-warm", "angles-order", "another-insert-measured", "beyond-gauge", "bore-big", "bore-cannot-be-told",
        "bore-gauge-too-coarse", "bore-not-round", "bore-small", "bore-tapers", "bridge-at-most",
        "bridge-neighbour-unknown", "bridge-thin-as-found", "damage-below-floor", "depth-between-steps", "depth-floor",
        "feed-lowest", "finished-on-open-bore", "fit-gone-running", "fit-gone-soaked", "floor-not-square",
        "guide-tight", "guide-worn-left-alone", "head-may-crack", "head-may-yield", "heat-loosens-inserts",
        "inner-edge-carries", "insert-for-another-seat", "insert-may-take-a-set", "insert-may-yield",
        "insert-not-measured", "insert-od-measured", "kept-pocket-untold", "leak-fails", "no-common-recession",
        "no-first-cut", "nothing-left-to-accept", "overcut-moved", "pilot-tilts-floor", "pocket-deep",
        "pocket-not-measured", "pocket-shallow", "press-too-weak", "pressure-test-fails", "reading-outside",
        "recession-aim-moved", "recession-fails", "seat-above-insert", "seat-outer-not-known", "seat-tir-fails",
        "seat-wide", "seat-width-fails", "skim-leaves-no-recession", "spacing-layout", "speed-lowest",
        "spring-height-fails", "spring-long", "spring-short", "stand-fails", "stem-grind-sodium", "stem-height-fails",
        "stem-high", "stem-low", "stem-tight", "torque-over-limit", "trial-in-this-bore", "turned-bore-wide",
        "valve-alone",
    ]
    NoticeSlug: TypeAlias = Literal[
        "aim-not-a-limit", "arrives-not-given", "assembly-not-computed", "beyond-masters", "beyond-rings",
        "bore-gauge-not-given", "bore-gauge-not-on-ring", "bore-gauge-uncertainty", "bore-measured-one-way",
        "bore-not-measured-low", "bore-round-not-given", "bore-taper-not-given", "bridge-tilted", "centring-not-given",
        "chamfer-angle-left-out", "chamfer-not-given", "choice-not-proved", "clean-up-not-given", "corner-not-given",
        "creep-not-computed", "cut-angle-not-given", "cut-not-judged", "cutter-range-not-given",
        "cutter-reach-not-checked", "cutters-not-given", "cutting-force-built-in", "depth-from-left-out",
        "depth-not-measured", "dial-step", "earlier-oversize", "expansion-not-known", "expansion-not-that-far",
        "expansion-table-ends", "expansion-unknown", "feed", "first-cut-elsewhere", "first-cut-smaller",
        "floor-clean-up-not-given", "floor-not-checked", "floor-not-measured", "floor-square-not-given",
        "floor-square-not-known", "force-not-computed", "gauge-depth-after-skim", "gauge-depth-not-computed",
        "gauge-expansion-left-out", "gauge-not-on-master", "gauge-step", "grab-temperature-not-known", "guard-left-out",
        "guide-length-not-given", "guide-limit-not-given", "guide-measured-once", "guide-not-measured",
        "guide-to-floor-not-given", "head-strength-not-known", "head-stress-upper-estimate", "heat-limit-not-given",
        "height-not-given", "insert-expansion-unknown", "insert-height-not-given", "insert-not-said",
        "insert-uncertainty-not-given", "insert-yield-not-known", "interference-built-in", "interference-not-given",
        "leak-limit-not-given", "leak-not-judged", "lean-not-counted", "least-bridge-not-given",
        "least-floor-not-given", "least-land-not-given", "least-ledge-not-given", "least-under-seat-not-given",
        "machine-feeds", "machine-speeds", "maker-depth-not-used", "metal-around-not-known", "no-bore-gauge",
        "no-limits-for-kept-pocket", "no-master-that-day", "no-ring-that-day", "no-setting-gauge", "not-yet-finished",
        "oven-over-heat-limit", "overcut-not-known", "overcut-spread-not-given", "paper-left-out",
        "pilot-clearance-left-out", "pilot-kind-left-out", "pilot-length-not-given", "pilot-tir-at-not-given",
        "pilot-tir-left-out", "pilots-not-given", "pocket-depth-not-given", "pocket-depth-not-measured", "pocket-kept",
        "pocket-measured-once", "pocket-not-measured-low", "pocket-runout-not-known", "pocket-runout-not-measured",
        "press-force-not-computed", "press-not-given", "recession-no-aim", "recession-not-judged",
        "running-temperature-not-given", "runout-limit-not-given", "seat-cover-not-checked", "seat-inner-not-checked",
        "seat-runout-not-given", "seat-tir-not-judged", "seat-width-no-aim", "seat-width-not-given",
        "seat-width-not-judged", "second-cut-off", "setting-gauge-uncertainty", "shop-replaced", "skim-when-not-said",
        "slip-not-given", "spacing-not-given", "spring-height-not-computed", "spring-height-not-judged",
        "stand-not-given", "stand-not-judged", "stand-not-used", "stem-height-not-computed", "stem-height-not-judged",
        "stem-not-given", "stress-not-computed", "surface-speed", "surface-speed-built-in", "temperature-not-given",
        "temperature-uncertainty", "throat-not-measured", "throat-offset-not-measured", "time-from-floor",
        "tips-left-out", "torque-limit", "torque-not-computed", "trial-round-not-checked", "trial-under", "turn-insert",
        "turned-not-computed", "under-seat-not-checked", "valves-none-meant",
    ]
    ReasonSlug: TypeAlias = Literal[
        "all-used", "bridge-thin", "clean-up-unknown", "cutter-first-pass", "cutter-range", "cutter-unknown",
        "depth-limits-disagree", "depth-tolerance-not-given", "does-not-clean-up", "does-not-cover-seat",
        "floor-does-not-clean-up", "floor-thin", "for-another-seat", "height-not-given", "hole-too-wide",
        "insert-od-not-known", "kept-fit-cannot-be-told", "kept-fit-loose", "kept-fit-tight", "kept-stand-not-known",
        "kept-stand-wrong", "larger-than-needed", "ledge-narrow", "makers-bore-apart", "no-floor", "no-interference",
        "no-limits-for-kept-pocket", "none-on-hand", "not-the-sets-size", "od-too-wide-for-fit", "other-alloy",
        "pocket-damaged", "pocket-kept", "pocket-measured-once", "pocket-not-measured", "pocket-not-measured-low",
        "pocket-not-round", "pocket-runout-not-known", "pocket-runs-out", "pocket-tapers", "rides-on-corner",
        "seat-integral", "stand-not-given", "stands-proud", "under-seat-thin",
    ]
    Slug: TypeAlias = ErrorSlug | HoldSlug | WarningSlug | NoticeSlug | ReasonSlug
else:
    # A program that runs has no use for the names: it would only take longer to start.
    ErrorSlug = HoldSlug = WarningSlug = NoticeSlug = ReasonSlug = Slug = str
