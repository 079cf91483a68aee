"""Lesson 3, finding the fault: outcomes and words its exercises share."""

ASKS = "Takes the complaint down and decides whether the car may be driven"
CHECKS = "Checks without dismantling, in a safe order"
TESTS = "Plans the slip test and the drag test safely"
LOGS = "Works out slip from a road-test log and says how sure it is"
DECIDES = "Names the cause by evidence: clutch, not the clutch, or stop and ask"

ORDINALS = ("first", "second", "third", "fourth", "fifth", "sixth")


def gear_word(gear: int) -> str:
    """Return the gear as a fitter says it: 3 is "third gear"."""
    return f"{ORDINALS[gear - 1]} gear"
