"""What the places of the workshop scenes mean; kept apart from the pictures, which never tell it."""

Meaning = tuple[bool, str, bool]
HAZARDS: dict[str, dict[str, Meaning]] = {
    "bay-lifting": {
        "front-pad": (
            True,
            "The pad stands beside the lifting point, on the thin sill: it bends, and the car slips off.",
            True,
        ),
        "rear-pad": (False, "The pad stands on its marked point.", False),
        "arm-lock": (True, "The lock is not between the teeth: the arm can swing out under a side pull.", True),
        "person-below": (True, "Nobody stands under a car that is moving up.", True),
        "operator": (False, "The operator stands outside, watches the car and can let go at once.", False),
        "tag": (True, "The examination of the lift is overdue: not used until it has been examined.", True),
        "boot": (True, "A heavy tool box in the open boot shifts the balance, and can fall out.", False),
        "bin": (False, "A closed waste bin against the wall is in nobody's way.", False),
    },
    "bay-strip-down": {
        "gearbox-jack": (True, "The gearbox lies on its jack without a strap: it rolls off when it moves.", True),
        "engine-support": (False, "A rated beam carries the engine while the mount is off.", False),
        "air-line": (
            True,
            "Blowing out the bell housing sends clutch dust into the lungs: wet, or a vacuum made for fine dust.",
            True,
        ),
        "dust-bag": (False, "Wipes with dust lie in a closed, marked bag.", False),
        "drive-shaft": (True, "The drive shaft hangs by its joint: tie it up, or the joint is pulled apart.", False),
        "oil": (True, "Oil on the floor: somebody slips, with a gearbox on the move beside it.", True),
        "flywheel": (False, "The flywheel lies flat on the bench; it cannot roll or fall.", False),
        "lamp": (False, "A lamp on its stand, lead along the wall.", False),
    },
    "bay-engine-running": {
        "tail-pipe": (
            True,
            "No extraction on the tail pipe: carbon monoxide has no smell and kills. An open door is not enough.",
            True,
        ),
        "line-of-clutch": (
            True,
            "This person stands beside the bell housing, in the line in which a part would fly.",
            True,
        ),
        "front-wheel": (False, "Chocks before and behind the wheel.", False),
        "rear-wheel": (False, "Chocked on both sides too.", False),
        "gear-lever": (True, "The lever stands in a gear: the car jumps when the pedal is let go.", True),
        "lamp-lead": (True, "The lead of the lamp hangs into the belt drive.", True),
        "driver": (False, "The driver sits inside, foot on the brake, and wears ear protection.", False),
        "extinguisher": (False, "The extinguisher hangs on the wall, nothing in front of it.", False),
    },
}
"""Scene: place: is it a hazard, what and why, would it be critical to leave it (source: common-practice)."""
