"""The fault tree for the wall: the looks of the lesson's own picture, and beside each what it means when it finds something."""

from typing import Any

from bitepoint.pictures.work.fault_figures import COMPLAINTS, LOOKS

_MEANS = (
    (
        "None, or it hangs: the bearing holds the clutch open. Put that right, test again.",
        "Lost, wet or frayed: mend that first. No drive before.",
        "Yes: the engine, not the clutch.",
    ),
    (
        "Twice at full throttle, none with a light foot: clutch worn or oiled.",
        "Short or springy: set it, bleed it, test again.",
        "Torn: a new mount, test again.",
    ),
    (
        "All wrong by one share: a figure is wrong, stop and ask.",
        "Does not free, and the release is in order: the fault is inside.",
        "Oil: the facing has it too. Clutch and seal.",
    ),
)
"""What each look means, a row of the picture a row here. Source: common-practice."""

STAYS = (
    "The clutch does not let go.",
    "Fluid is lost from a tank shared with the brakes.",
    "A deep knock after work on the flywheel: engine off at once.",
)
"""With any of these the car is fetched, not driven. Source: common-practice."""


def values() -> dict[str, Any]:
    """Return what the page shows: a column a complaint, its looks from quick to slow, and what each means."""
    columns = [
        {
            "name": name,
            "said": f"{first} {second}",
            "looks": [(" ".join(row[i]), means[i]) for row, means in zip(LOOKS, _MEANS, strict=True)],
        }
        for i, (first, second, name) in enumerate(COMPLAINTS)
    ]
    return {"columns": columns, "stays": STAYS}
