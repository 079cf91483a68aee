"""A whole job on the college's own car, step by step, as lines of the command and as forms of the page."""

from pathlib import Path

from bitepoint.job.order import due
from bitepoint.job.reading import read_job

WRENCH_2 = {"wrench": "wrench 2", "calibrated": "2026-01-12", "due": "2099-01-12"}
WRENCH_3 = {"wrench": "wrench 3", "calibrated": "2026-01-12", "due": "2099-01-12"}
MEASURED = {
    "crank-end-float": "0.12 mm",
    "flywheel-flatness": "0,03 mm",
    "flywheel-scoring": "0.1 mm",
    "input-shaft-play": "0.08 mm",
    "plate-thickness": "6.4 mm",
    "rivet-depth": "0.2 mm",
    "hub-play": "0.2 mm",
    "plate-runout": "0.3 mm",
}
BUILT = {"flywheel-runout": "0.05 mm", "finger-height": "0.3 mm"}
Row = tuple[str, dict[str, str]]
"""Key of a form, and what is typed in it."""
IN_STAGE: dict[str, list[Row]] = {
    "diagnose": [("note", {"text": "slips at full load in fourth, not with a light foot"})],
    "inspect": [
        *(("measure", {"what": key, "value": value, "instrument": "gauge"}) for key, value in MEASURED.items()),
        ("decide", {"part": "flywheel", "decision": "reuse", "because": "within every limit", "finding": ""}),
        (
            "decide",
            {
                "part": "flywheel bolts",
                "decision": "replace",
                "because": "always new",
                "finding": "flywheel-bolts-used",
            },
        ),
    ],
    "assemble": [
        ("part", {"name": "clutch kit", "number": "K-225-21", "lot": "L2207"}),
        ("part", {"name": "flywheel bolts, 7", "number": "B-1024", "lot": "L19"}),
        ("tighten", {"joint": "flywheel.bolt", "setting": "35", "second": "paint marks looked at", **WRENCH_2}),
        *(
            ("measure", {"what": key, "value": value, "instrument": "dial gauge", "uncertainty": "0.006"})
            for key, value in BUILT.items()
        ),
        ("tighten", {"joint": "clutch.cover", "setting": "22", "second": "", **WRENCH_2}),
        ("check", {"what": "flywheel and cover bolts, every mark", "by": "A. Head"}),
    ],
    "refit": [
        ("tighten", {"joint": "gearbox.bell_bolts.1", "setting": "70", "second": "", **WRENCH_2}),
        ("tighten", {"joint": "release.slave_bolts", "setting": "22", "second": "", **WRENCH_2}),
        (
            "tighten",
            {
                "joint": "wheels",
                "setting": "110 Nm",
                "second": "crosswise, on the ground",
                "adaptor": "straight extension",
                **WRENCH_3,
            },
        ),
        ("deviation", {"what": "seal from another box", "why": "kit had none", "agreed": "A. Head"}),
    ],
    "check": [("check", {"what": "pedal, leaks, every gear on the ground", "by": "A. Head"})],
}


def rows_of(folder: Path) -> list[Row]:
    """Return what is filled in for the stage that is due: cautions, begun, entries, every step in order, done."""
    found = due(read_job(folder))
    assert found is not None
    stage = found.stage
    read = [("cautions", {})] if stage.id != "identify" else []
    return [
        *read,
        ("stage", {"stage": stage.id, "what": "begun"}),
        *IN_STAGE.get(stage.id, []),
        ("steps", {"steps": " ".join(stage.steps)}),
        ("stage", {"stage": stage.id, "what": "done"}),
    ]


def as_command(folder: Path, stage: str, row: Row) -> list[str]:
    """Return a row as the words of a command line."""
    kind, typed = row
    word = {"cautions": "stage", "steps": "step"}.get(kind, kind)
    start = ["job", word, str(folder)]
    if kind == "cautions":
        return [*start, stage, "cautions-read"]
    if kind == "stage":
        return [*start, typed["stage"], typed["what"]]
    if kind == "steps":
        return [*start, *typed["steps"].split()]
    if kind == "note":
        return [*start, typed["text"], "--stage", stage]
    if kind == "measure":
        unsure = ["--uncertainty", typed["uncertainty"]] if "uncertainty" in typed else []
        return [*start, typed["what"], typed["value"], "--instrument", typed["instrument"], *unsure]
    if kind == "decide":
        known = ["--finding", typed["finding"]] if typed["finding"] else []
        return [*start, typed["part"], typed["decision"], "--because", typed["because"], *known]
    if kind == "part":
        return [*start, typed["name"], typed["number"], "--lot", typed["lot"]]
    if kind == "check":
        return [*start, typed["what"], "--checked-by", typed["by"]]
    if kind == "deviation":
        return [*start, typed["what"], "--why", typed["why"], "--agreed-by", typed["agreed"]]
    options = {
        "wrench": "wrench",
        "calibrated": "calibrated",
        "due": "due",
        "adaptor": "adaptor",
        "second": "second-round",
    }
    said = [part for key, name in options.items() if typed.get(key) for part in (f"--{name}", typed[key])]
    return [*start, typed["joint"], "--set", typed["setting"].removesuffix(" Nm"), *said]
