"""The trade's other words for what this language calls by one: each leads to ours, and is read as that for the rest.

Common practice, from memory: how engine shops speak and how manuals print.
"""

from __future__ import annotations

from collections.abc import Mapping

FIELDS: Mapping[str, str] = {
    "bottom-angle": "throat-angle", "lower-angle": "throat-angle", "upper-angle": "top-angle",
    "counterbore": "bore bore-a pocket-a", "protrusion": "stand", "installed-height": "spring-height",
    "assembled-height": "spring-height", "concentricity": "seat-runout",
    "runout": "seat-runout", "wall": "metal-around", "wall-thickness": "metal-around",
    "valve-recession": "recession", "sink": "recession", "contact-width": "seat-width", "face-width": "seat-width",
    "press-fit": "interference", "crush": "interference", "stem-diameter": "stem", "valve-diameter": "head-diameter",
    "counterbore-depth": "pocket-depth", "seat-pressure": "spring-force", "spring-pressure": "spring-force",
    "free-length": "spring-free", "guide-height": "guide-stand guide-end", "guide-protrusion": "guide-stand guide-end",
    "solid-height": "coil-bind", "bush-bore": "guide-bore", "max-lift": "valve-lift", "lift": "valve-lift",
}  # fmt: skip
"""Of fields and columns, the likelier first; it counts where ours stands in the section and the other does not."""

MATERIAL_WORDS: Mapping[str, str] = {
    "cast iron": "grey iron", "gray cast iron": "grey iron", "grey cast iron": "grey iron", "ci": "grey iron",
    "cgi": "compacted iron", "compacted graphite iron": "compacted iron", "vermicular iron": "compacted iron",
    "nodular iron": "ductile iron", "sg iron": "ductile iron", "spheroidal iron": "ductile iron",
    "alloy": "aluminium", "aluminium alloy": "aluminium", "alu": "aluminium", "al": "aluminium",
    "powdered metal": "sintered", "powder metal": "sintered", "pm": "sintered", "sinter": "sintered",
    "hss": "tool steel", "h13": "tool steel", "stainless": "high-chrome steel", "chrome steel": "high-chrome steel",
    "cobalt": "cobalt alloy", "nickel": "nickel alloy", "beryllium copper": "copper beryllium",
}  # fmt: skip
"""Of head materials and insert alloys."""
