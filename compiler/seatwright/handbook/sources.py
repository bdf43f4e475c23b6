"""What the handbook rests on, numbered: a standard, an agency, or a kind of source in neutral words."""

from __future__ import annotations

from msgspec import Struct

__all__ = ["SOURCES", "UNPUBLISHED", "PublishedSource", "numbered"]


class PublishedSource(Struct, frozen=True):
    """A published source: the `words` by which a formula or a figure names it, and what it is."""

    words: str
    about: str


SOURCES: tuple[PublishedSource, ...] = (
    PublishedSource("ISO 1", "reference temperature of lengths, 20 °C"),
    PublishedSource("ISO 286-1", "limits and fits: what interference and clearance mean"),
    PublishedSource("ISO 80000-1", "quantities and units, annex B: rounding of figures"),
    PublishedSource(
        "ISO 14253-1:2017", "decision rules: what an uncertain reading proves against its limits; the factor 1.65"
    ),
    PublishedSource("JCGM 100:2008", "guide to the expression of uncertainty in measurement"),
    PublishedSource("JCGM 106:2012", "the part of uncertainty in assessing conformity"),
    PublishedSource("DIN 7190-1", "interference fits: cylindrical press fits; edition of 2017 unless said"),
    PublishedSource("VDI 3323", "groups of materials for cutting"),
    PublishedSource("EN 1561", "grey cast irons, with an annex of properties"),
    PublishedSource("EN 1563", "ductile cast irons, with an annex of properties"),
    PublishedSource("ISO 16112", "compacted graphite cast irons, with an annex of properties"),
    PublishedSource("MPIF 35", "standard for sintered structural materials, with typical properties"),
    PublishedSource("machine-design textbook", "thick rings, press and shrink fits"),
    PublishedSource("elasticity textbook", "plane stress by two complex functions, several holes taken in turn"),
    PublishedSource("metal-cutting textbook", "cutting force by thickness of chip, and its exponent"),
    PublishedSource("operations-research textbook", "shortest augmenting paths; points that pierce intervals"),
    PublishedSource(
        "university textbook problem", "a steel shaft chilled in a shrink fit, with its expansion down to the cold"
    ),
    PublishedSource("equation of state", "of carbon dioxide and of nitrogen: their temperatures at one atmosphere"),
    PublishedSource("machinist's reference book", "tables of materials, cutting speeds and rules of the shop"),
    PublishedSource("shop chart of cutting speeds", "surface speeds by material, as a workshop hangs them up"),
    PublishedSource("published cutting data", "a tool supplier's tables of cutting force by group of material"),
    PublishedSource("army technical manual", "tables of fits and recession of engines in service, by their numbers"),
    PublishedSource(
        "published service manual", "an engine maker's printed limits, and what he says of recession, stem and spring"
    ),
    PublishedSource("published workshop manual", "an engine maker's printed sizes of pockets and inserts"),
    PublishedSource("published repair specifications", "an engine maker's printed sizes of pockets and inserts"),
    PublishedSource("published cylinder-head procedure", "an engine maker's printed sizes of pockets and inserts"),
    PublishedSource(
        "supplier's data sheet", "an alloy's properties as its supplier prints them, the alloy named beside it"
    ),
    PublishedSource("suppliers' data sheets", "the same of more than one supplier"),
    PublishedSource("foundry's data sheet", "a cast iron's properties as a foundry prints them"),
    PublishedSource(
        "copper association's data", "properties of a copper alloy by its number, as its trade association prints them"
    ),
    PublishedSource("light-metal association's data", "properties of cast aluminium, by alloy and temper"),
    PublishedSource("ISO 16269-6:2014", "statistical tolerance intervals: the exact factors"),
    PublishedSource("ISO 22514-2:2017", "capability and performance of a process, and their confidence limits"),
    PublishedSource("ASTM E2587", "control charts, with the table of their factors"),
    PublishedSource("NIST Digital Library of Mathematical Functions", "the incomplete gamma function"),
    PublishedSource(
        "NIST handbook of statistical methods",
        "an agency's: outliers, charts of single values, straight lines, capability, repeatability",
    ),
    PublishedSource("published materials database", "properties of an alloy by its number"),
)
"""Published sources, in the order of their numbers from 1. Which of them were seen in print is said beside each figure:
one that was not ends in "from memory"."""

UNPUBLISHED = (
    "geometry",
    "arithmetic",
    "common practice",
    "derived here",
    "the meaning of",
    "the definition of",
    "as `",
)
"""Beginnings of words for what needs no publisher."""


def numbered(text: str) -> tuple[int, ...]:
    """Numbers of the published sources that a text names, ascending [-].

    Raises no error. Source: arithmetic.

    >>> numbered("ISO 14253-1:2017 for the guard; the rule of the oval is common practice.")
    (4,)
    """
    found = []
    for number, source in enumerate(SOURCES, 1):
        at = text.find(source.words)
        # "ISO 1" is not the beginning of "ISO 14253" or "ISO 16112".
        while at >= 0 and text[at + len(source.words) : at + len(source.words) + 1].isdigit():
            at = text.find(source.words, at + 1)
        if at >= 0:
            found.append(number)
    return tuple(found)
