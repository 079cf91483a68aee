"""The cards of a job as pages: made from the vehicle's own sheet, to be compared with its repair data before they are used."""

from datetime import date
from typing import Any

from bitepoint.classroom.bench_sheets.checking import final_figures
from bitepoint.classroom.bench_sheets.inspecting import looked_at
from bitepoint.classroom.bench_sheets.sheets import SHEETS
from bitepoint.classroom.bench_sheets.tightening import rings
from bitepoint.classroom.job_cards.guarded_limits import guarded_rows
from bitepoint.classroom.job_cards.tools_at_hand import ToolsAtHand
from bitepoint.classroom.job_cards.worked_figures import release_figures, speed_table
from bitepoint.classroom.job_cards.wrench_settings import joint_settings
from bitepoint.classroom.render import Paper, render
from bitepoint.workshop.hazards import LOCAL_RULES
from bitepoint.workshop.sheets import Vehicle

JOB_FRAME = "COMPARE WITH THE VEHICLE'S REPAIR DATA BEFORE USE · TRAINING RECORD"
_SAME = ("risk", "order-of-work", "final-check")
"""Bench sheets that a job uses as they are."""


def card_pages(
    v: Vehicle, tools: ToolsAtHand, *, on: date, frame: str = JOB_FRAME, stamp: str = "", paper: Paper = "A4"
) -> dict[str, str]:
    """Return the cards of a job by their names, each a whole page.

    Parameters
    ----------
    v : Vehicle
        Whose figures stand on them; a missing one says “look it up”.
    tools : ToolsAtHand
        Wrenches, adaptors and gauges of the job.
    on : date
        Day of the job, for the dates of the wrenches.
    frame, stamp : str
        What stands in the frame, and across the page.
    paper : "A4" or "letter"
        Page size.
    """
    common: dict[str, Any] = {
        "paper": paper,
        "v": v,
        "frame": frame,
        "stamp": stamp,
        "class_title": "",
        "local_rules": LOCAL_RULES,
    }
    made = {}
    for key in _SAME:
        title, more = SHEETS[key]
        made[key] = render(f"{key}.html.jinja", title=title, **common, **more(v))
    made["inspection"] = render(
        "job-inspection.html.jinja", title="Inspection", lines=guarded_rows(v, tools), parts=looked_at(v), **common
    )
    made["tightening"] = render("tightening.html.jinja", title="Tightening card", rings=rings(v), **common)
    made["wrench-settings"] = render(
        "job-settings.html.jinja", title="Wrench settings", rows=joint_settings(v, tools, on), on=on, **common
    )
    made["figures"] = render(
        "job-figures.html.jinja",
        title="Figures of the sheet",
        release=release_figures(v),
        final=final_figures(v),
        speeds=speed_table(v),
        **common,
    )
    return made
