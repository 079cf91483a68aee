"""Every outside source once, by key; an exercise, a constant or a check names its source by this key.

`seen` says how far we have seen it: "print" (read in the document itself), "quoted" (read in a page that quotes it,
the named document being the authority), "memory" (not confirmed). A trade rule without a source has the key
"common-practice", a figure of an invented data sheet "invented", one that follows from the others "derived".
"""

from typing import Literal

from msgspec import Struct

Seen = Literal["print", "quoted", "memory", "none"]


class Source(Struct, frozen=True):
    """One source: what it is and how it was seen."""

    title: str
    seen: Seen
    note: str = ""


SOURCES: dict[str, Source] = {
    "common-practice": Source("Common practice, no source", "none"),
    "derived": Source("Follows from the other figures by calculation", "none"),
    "invented": Source("Invented figure of a training vehicle or workshop", "none"),
    "asme-pcc-1-legacy": Source(
        "ASME PCC-1, Guidelines for pressure boundary bolted flange joint assembly: legacy cross pattern",
        "memory",
        "rows for 4, 16 and 20 bolts from memory; rows for 8 and 12 bolts seen in weak pages",
    ),
    "iso-6789": Source(
        "ISO 6789, Assembly tools for screws and nuts: hand torque tools", "quoted", "2003 edition as summarised in a tool manual"
    ),
    "iso-898-1": Source(
        "ISO 898-1, Mechanical properties of fasteners made of carbon steel and alloy steel: bolts, screws and studs",
        "quoted",
    ),
    "mil-hdbk-60": Source("MIL-HDBK-60 (1990), Threaded fasteners: tightening to proper tension", "print"),
    "nasa-tm-106943": Source(
        "NASA TM-106943 (1995), Preloaded joint analysis methodology for space flight systems", "print"
    ),
    "navedtra-14113": Source("NAVEDTRA 14113, chapter on hand tools: use of torque wrenches", "quoted"),
    "navedtra-14315-fig-3-44": Source("NAVEDTRA 14315, figures 3-44 and 3-45: torque wrench with adapter", "quoted"),
    "nist-sp-811": Source("NIST Special Publication 811 (2008), appendix B: conversion factors", "quoted"),
    "tm-9-2350-277": Source("US Army TM 9-2350-277-40&P, page 44: torque wrench with adapter", "quoted"),
    "tm-army-70-100": Source(
        "US Army TM 5-3805-248-23-1 and others: torque pattern at 70 %, then at 100 %, above 41 N·m", "quoted"
    ),
}


def source(key: str) -> Source:
    """Return the source with this key.

    Raises
    ------
    KeyError
        The key is unknown; tests make sure that no exercise or constant uses such a key.
    """
    return SOURCES[key]
