"""Every outside source once, by key; an exercise, a constant or a check names its source by this key.

`seen` says how far we have seen it: "print" (read in the document itself), "quoted" (read in a page that
quotes it, the named document being the authority), "memory" (not confirmed). A trade rule without a source
has the key "common-practice", a figure of an invented data sheet "invented", one that follows from the
others "derived".
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
    "aircraft-manual-2-90": Source(
        "Aircraft maintenance manual, section 2-90: torque wrench with extension", "quoted"
    ),
    "asme-pcc-1-legacy": Source(
        "ASME PCC-1, Guidelines for pressure boundary bolted flange joint assembly: legacy cross pattern",
        "memory",
        "rows for 4, 16 and 20 bolts from memory; rows for 8 and 12 bolts seen in weak pages",
    ),
    "asme-pcc-1-trade-pages": Source(
        "Trade pages on ASME PCC-1: 30/60/100 % or 20/40/80/100 %, then a circular pass",
        "quoted",
        "the guideline's own text was not seen",
    ),
    "bolted-joints-handbook": Source(
        "Handbook of bolts and bolted joints, chapter 2, table 1: nut factors", "quoted"
    ),
    "bolted-joints-introduction-4": Source(
        "Introduction to the design and behavior of bolted joints, 4th edition: stress areas",
        "quoted",
    ),
    "faa-ac-43-13-1b": Source(
        "FAA AC 43.13-1B, paragraph 7-40: torque, calibration at least yearly or after abuse", "quoted"
    ),
    "iso-16047": Source(
        "ISO 16047, Fasteners: torque/clamp force testing",
        "memory",
        "form of the torque equation, clause numbers not seen",
    ),
    "iso-273": Source("ISO 273, Fasteners: clearance holes for bolts and screws, medium series", "memory"),
    "iso-4014": Source("ISO 4014, Hexagon head bolts: diameter of the bearing face", "memory"),
    "iso-6789": Source(
        "ISO 6789, Assembly tools for screws and nuts: hand torque tools",
        "quoted",
        "2003 edition as summarised in a tool manual",
    ),
    "iso-6789-2017": Source(
        "ISO 6789-1:2017, Hand torque tools: design conformance",
        "quoted",
        "changes against 2003 as described in trade pages; clause numbers from memory",
    ),
    "iso-68-1": Source(
        "ISO 68-1 and ISO 724, ISO general purpose metric screw threads: basic profile and dimensions",
        "quoted",
    ),
    "iso-898-1": Source(
        "ISO 898-1, Mechanical properties of fasteners of carbon and alloy steel: bolts, screws and studs",
        "quoted",
    ),
    "jis-b-1083": Source("JIS B 1083, Threaded fasteners: general rules for tightening", "quoted"),
    "mech-eng-design-5": Source(
        "Textbook Mechanical engineering design, 5th edition: nut factor for unknown condition", "quoted"
    ),
    "mech-eng-design-9": Source(
        "Textbook Mechanical engineering design, 9th edition, tables 8-2, 8-15, ex. 8-3",
        "quoted",
        "answers of example 8-3 (b) and (c) from memory",
    ),
    "mechanical-fastening-joining-assembly": Source(
        "Mechanical fastening, joining and assembly, page 85: torque by nut factor", "quoted"
    ),
    "mil-hdbk-60": Source("MIL-HDBK-60 (1990), Threaded fasteners: tightening to proper tension", "print"),
    "msfc-std-486b": Source("MSFC-STD-486B (1992), Threaded fasteners, torque limits for", "print"),
    "nasa-std-5020b": Source(
        "NASA-STD-5020B (2021), Requirements for threaded fastening systems in spaceflight hardware", "print"
    ),
    "nasa-tm-106943": Source(
        "NASA TM-106943 (1995), Preloaded joint analysis methodology for space flight systems", "print"
    ),
    "navedtra-14001": Source("NAVEDTRA 14001, chapter on hand tools: adjustable wrenches", "quoted"),
    "navedtra-14008": Source("NAVEDTRA 14008: bolts on a flange, torque wrench with adapter", "quoted"),
    "navedtra-14113": Source("NAVEDTRA 14113, chapter on hand tools: use of torque wrenches", "quoted"),
    "navedtra-14315-fig-3-44": Source(
        "NAVEDTRA 14315, figures 3-44 and 3-45: torque wrench with adapter", "quoted"
    ),
    "navy-1004-60046": Source(
        "US Navy course text 1004-60046: miles an hour to kilometres an hour", "quoted"
    ),
    "nist-sp-811": Source("NIST Special Publication 811 (2008), appendix B: conversion factors", "quoted"),
    "nsts-08307": Source("NSTS 08307 revision A (1998), Criteria for preloaded bolts", "print"),
    "tm-1-1500-204-23-9": Source(
        "US Army TM 1-1500-204-23-9, table 8-1: range and accuracy of torque wrenches",
        "quoted",
    ),
    "tm-10-3930-669-20": Source(
        "US Army TM 10-3930-669-20, appendix E: torque and angle in stages", "quoted"
    ),
    "tm-5-3805-298-23-2": Source(
        "US Army TM 5-3805-298-23-2 and others, WP 0176: circular torque pattern of 12 bolts", "quoted"
    ),
    "tm-5-3810-294-34": Source(
        "US Army TM 5-3810-294-34, paragraphs 14 to 17: clutch mounting screws", "quoted"
    ),
    "tm-5-3810-300-24": Source("US Army TM 5-3810-300-24&P2: clutch cover drawn down gradually", "quoted"),
    "tm-5-3810-305-23": Source(
        "US Army TM 5-3810-305-23, page M0471105: torque wrench with adapter", "quoted"
    ),
    "tm-9-2350-277": Source("US Army TM 9-2350-277-40&P, page 44: torque wrench with adapter", "quoted"),
    "tm-9-254": Source("US Army TM 9-254, figures 4-5 and 4-6: torque wrench with adapter", "quoted"),
    "tm-army-70-100": Source(
        "US Army TM 5-3805-248-23-1 and others: torque pattern at 70 %, then at 100 %, above 41 N·m", "quoted"
    ),
    "torque-table-hex-head": Source(
        "Trade page: torque of hexagon head screws of class 8.8 at a friction of 0.12", "quoted"
    ),
    "torque-trade-journal-2018": Source(
        "Trade journal on maintenance, April 2018, page 12: scatter of torque control", "quoted"
    ),
    "vdi-2230": Source(
        "VDI 2230:2001, Systematic calculation of high-duty bolted joints: preload and torque tables",
        "quoted",
        "the 1986 edition too, for scatter",
    ),
    "wrench-manual-straight-bar": Source(
        "Manual of a torque wrench, page 7: straight socket extension needs no correction", "quoted"
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
