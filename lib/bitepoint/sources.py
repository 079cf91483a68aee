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
    "aircraft-manual-2-90": Source("Aircraft maintenance manual, section 2-90: torque wrench with extension", "quoted"),
    "applied-sciences-2019-4287": Source(
        "Applied Sciences 2019, 9(20), 4287: take-up judder of a dry clutch, 5 to 20 Hz; facing data",
        "quoted",
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
    "bolted-joints-handbook": Source("Handbook of bolts and bolted joints, chapter 2, table 1: nut factors", "quoted"),
    "bolted-joints-introduction-4": Source(
        "Introduction to the design and behavior of bolted joints, 4th edition: stress areas",
        "quoted",
    ),
    "cfr-49-565-4": Source(
        "49 CFR 565.4 (2002 edition; 565.13 today): an identification number has 17 characters and stands readable "
        "through the windscreen",
        "print",
    ),
    "college-physics": Source(
        "Open textbook College physics, examples 11.6 and 14.2, problem 11.24",
        "quoted",
        "answers read in a companion of worked solutions",
    ),
    "common-practice": Source("Common practice, no source", "none"),
    "derived": Source("Follows from the other figures by calculation", "none"),
    "din-2092": Source(
        "DIN 2092 (now EN 16984), Disc springs: calculation",
        "memory",
        "shape factor K1 from memory; the standard's tables agree with it",
    ),
    "din-2093": Source(
        "DIN 2093 (now EN 16983), Disc springs: dimensions and loads",
        "quoted",
        "A 8 and A 25 seen in a table of loads; A 50 from memory",
    ),
    "din-862-863": Source(
        "DIN 862 and DIN 863, Callipers and micrometers: limits of error, as summarised",
        "quoted",
        "the summary is badly laid out: only 20 µm to 100 mm and 4 µm to 50 mm are used",
    ),
    "ea-4-02": Source(
        "EA-4/02 M:2013, Evaluation of the uncertainty of measurement in calibration, example S10", "memory"
    ),
    "engine-orders": Source("Page on engine orders: firing order z/2, second order of four cylinders", "quoted"),
    "entrance-test-mechanical": Source(
        "Engineering entrance tests 2008, 2014 and 2017: questions on friction clutches",
        "quoted",
        "answers of 2008 from memory, of 2014 as a range",
    ),
    "faa-ac-43-13-1b": Source(
        "FAA AC 43.13-1B, paragraph 7-40: torque, calibration at least yearly or after abuse", "quoted"
    ),
    "fluid-power-applications": Source(
        "Textbook Fluid power with applications, examples 3.4 and 3.5",
        "quoted",
        "answers read in a companion of worked solutions",
    ),
    "fluid-power-theory-4": Source("Textbook Fluid power: theory and applications, 4th edition, example 2.3", "quoted"),
    "fmvss-116": Source("49 CFR 571.116 (FMVSS 116): boiling points of brake fluids", "quoted"),
    "hse-indg434": Source("HSE INDG434, Working safely under motor vehicles being repaired", "quoted"),
    "hse-loler-6-months": Source(
        "HSE OC 803/69 and LOLER 1998 regulation 9: vehicle lifts examined about every six months",
        "quoted",
        "six months is practice, not a figure of the regulation for every lift",
    ),
    "hse-mvr-asbestos": Source(
        "HSE, Asbestos in motor vehicle repair: never blow out clutch housings, wet or contained cleaning", "quoted"
    ),
    "hse-mvr-exhaust": Source("HSE, Vehicle exhaust emissions: tail-pipe extraction for engines run indoors", "quoted"),
    "hse-working-under-vehicles": Source(
        "HSE, Working under vehicles: stands, jacks, chocks, rated capacity", "quoted"
    ),
    "invented": Source("Invented figure of a training vehicle or workshop", "none"),
    "iso-14253-1": Source(
        "ISO 14253-1:2017, Inspection by measurement: decision rules for verifying conformity",
        "quoted",
        "zones and the 95 % default seen in summaries; the factor 1.65 follows from them",
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
    "jcgm-100": Source(
        "JCGM 100:2008, Guide to the expression of uncertainty in measurement",
        "quoted",
        "example H.1 seen in a software manual; paragraphs 4.3.7 and F.2.2.1 from memory",
    ),
    "jcgm-106": Source(
        "JCGM 106:2012, The role of measurement uncertainty in conformity assessment",
        "quoted",
        "formulas seen; the figures of its examples from memory, the arithmetic agrees",
    ),
    "jis-b-1083": Source("JIS B 1083, Threaded fasteners: general rules for tightening", "quoted"),
    "loaded-radius-rule": Source(
        "Page on rolling circumference: static loaded radius 0.96 of the free radius", "quoted"
    ),
    "machine-design-clutches": Source(
        "Textbook Machine design, examples 22-1 and 22-5",
        "quoted",
        "answers read in a companion of worked solutions; example 22-1 prints the torque of one face",
    ),
    "machine-design-imperial": Source(
        "Textbook Machine design, examples 16.1 and 16.5 (inch and pound)",
        "quoted",
        "answers read in a companion of worked solutions",
    ),
    "machine-elements-design": Source(
        "Textbook Design of machine elements, examples 10.26, 11.1 to 11.3, 11.5 to 11.8, 11.14",
        "quoted",
        "the worked solutions, read as files of a companion; example 11.5 prints the torque of each face",
    ),
    "manual-drive-trains-2010": Source(
        "Textbook Manual drive trains and axles (2010), pages 130, 131 and 153", "quoted"
    ),
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
    "navedtra-14264a-10": Source(
        "NAVEDTRA 14264A, chapter 10: abnormal noises of the clutch",
        "quoted",
        "noise paragraph read in a re-hosted copy",
    ),
    "navedtra-14315-fig-3-44": Source("NAVEDTRA 14315, figures 3-44 and 3-45: torque wrench with adapter", "quoted"),
    "navy-1004-60046": Source("US Navy course text 1004-60046: miles an hour to kilometres an hour", "quoted"),
    "navy-clutch-dragging": Source(
        "US Navy training manual Construction mechanic: dragging and grabbing of the clutch", "quoted"
    ),
    "navy-clutch-slipping": Source("US Navy training manual Construction mechanic: slipping of the clutch", "quoted"),
    "ncsli-rp-19": Source(
        "NCSLI RP-19, Measurement decision risk: false accept table at ratio 4",
        "quoted",
        "read in the test of a published program",
    ),
    "niosh-94-110": Source(
        "NIOSH 94-110 (revised 2021), Applications manual for the revised NIOSH lifting equation",
        "quoted",
        "limits and tables seen in copies; factors of example 1 from memory",
    ),
    "niosh-98-126": Source(
        "NIOSH 98-126: recommended limit for noise, 85 dB(A)", "quoted", "read in a program that quotes it"
    ),
    "nist-sp-811": Source("NIST Special Publication 811 (2008), appendix B: conversion factors", "quoted"),
    "nsts-08307": Source("NSTS 08307 revision A (1998), Criteria for preloaded bolts", "print"),
    "osha-1910-1001-f": Source("29 CFR 1910.1001, Appendix F: work practices for brake and clutch repair", "quoted"),
    "physics-question-pages": Source(
        "Pages of physics questions: two clutch discs, a hydraulic press, a pedal lever", "quoted"
    ),
    "rolling-radius-rule": Source(
        "Page on gearing: rolling radius from speed and engine speed, factors 2651.51 and 168", "quoted"
    ),
    "theory-of-machines": Source(
        "Textbook Theory of machines, examples 3.12, 10.22 to 10.29",
        "quoted",
        "answers read in a companion of worked solutions",
    ),
    "theory-of-machines-ch-11": Source(
        "Textbook Theory of machines, chapter 11: geared two-rotor system",
        "quoted",
        "answers read in a companion of worked solutions",
    ),
    "theory-of-machines-ch-24": Source(
        "Textbook Theory of machines, chapter 24: stepped shaft with two rotors", "memory"
    ),
    "tm-1-1500-204-23-9": Source(
        "US Army TM 1-1500-204-23-9, table 8-1: range and accuracy of torque wrenches",
        "quoted",
    ),
    "tm-10-3930-669-20": Source("US Army TM 10-3930-669-20, appendix E: torque and angle in stages", "quoted"),
    "tm-10-4320-307-24": Source("US Army TM 10-4320-307-24, page 3-144: table of flywheel face run-out", "quoted"),
    "tm-5-2420-222-34": Source(
        "US Army TM 5-2420-222-34, paragraphs 3-9, 3-10 and 4-2: flywheel, clutch disk, lifting aid", "quoted"
    ),
    "tm-5-3805-298-23-2": Source(
        "US Army TM 5-3805-298-23-2 and others, WP 0176: circular torque pattern of 12 bolts", "quoted"
    ),
    "tm-5-3810-294-34": Source("US Army TM 5-3810-294-34, paragraphs 14 to 17: clutch mounting screws", "quoted"),
    "tm-5-3810-300-24": Source("US Army TM 5-3810-300-24&P2: clutch cover drawn down gradually", "quoted"),
    "tm-5-3810-305-23": Source("US Army TM 5-3810-305-23, page M0471105: torque wrench with adapter", "quoted"),
    "tm-5-3820-256-24-4": Source("US Army TM 5-3820-256-24-4, clutch section: flywheel run-out by diameter", "quoted"),
    "tm-9-2320-361-24-1": Source(
        "US Army TM 9-2320-361-24-1 (2006), table 4 and page 146: burning smell, discoloured faces", "quoted"
    ),
    "tm-9-2350-277": Source("US Army TM 9-2350-277-40&P, page 44: torque wrench with adapter", "quoted"),
    "tm-9-254": Source("US Army TM 9-254, figures 4-5 and 4-6: torque wrench with adapter", "quoted"),
    "tm-9-2815-202-34": Source(
        "US Army TM 9-2815-202-34, paragraph 4-22: flywheel run-out, readings and limit", "quoted"
    ),
    "tm-9-2815-247-34": Source(
        "US Army TM 9-2815-247-34, WP 0012: sealed bearings are not dipped in solvent, no compressed air", "quoted"
    ),
    "tm-army-70-100": Source(
        "US Army TM 5-3805-248-23-1 and others: torque pattern at 70 %, then at 100 %, above 41 N·m", "quoted"
    ),
    "torque-table-hex-head": Source(
        "Trade page: torque of hexagon head screws of class 8.8 at a friction of 0.12", "quoted"
    ),
    "torque-trade-journal-2018": Source(
        "Trade journal on maintenance, April 2018, page 12: scatter of torque control", "quoted"
    ),
    "tribology-handbook-b7": Source(
        "The tribology handbook, section B7, tables 7.4 and 7.5: friction clutches",
        "quoted",
        "scanned pages, digits checked for sense only",
    ),
    "two-inertia-model": Source(
        "Advances in Mechanical Engineering 2015, 1687814015589533: two-inertia model of a driveline",
        "quoted",
        "abstract",
    ),
    "tyre-size-pages": Source("Pages on tyre sizes: section height and diameter of common sizes", "quoted"),
    "un-r30": Source("UN Regulation No. 30, paragraph 6.1.2: section height and diameter of a tyre", "memory"),
    "university-physics-clutch": Source(
        "University physics problem on two clutch plates: three quarters of the energy lost", "quoted"
    ),
    "vdi-2230": Source(
        "VDI 2230:2001, Systematic calculation of high-duty bolted joints: preload and torque tables",
        "quoted",
        "the 1986 edition too, for scatter",
    ),
    "wdk-rolling-circumference": Source(
        "ETRTO and WdK rules: rolling circumference 3.05 D at 60 km/h",
        "quoted",
        "secondary quotation; the rule itself not seen",
    ),
    "wrench-manual-straight-bar": Source(
        "Manual of a torque wrench, page 7: straight socket extension needs no correction", "quoted"
    ),
}


OWN_DOCUMENT = "own document: "
"""Begins the key of a source that a college names for a question of its own; the rest is the name it gives."""


def source(key: str) -> Source:
    """Return the source with this key, or the college's own document that it names.

    Raises
    ------
    KeyError
        The key is unknown; tests make sure that no exercise or constant uses such a key.
    """
    if key.startswith(OWN_DOCUMENT):
        return Source(key.removeprefix(OWN_DOCUMENT), "none", "named by the college, not seen by us")
    return SOURCES[key]
