"""What marking may cost, as ratios: they hold on any machine, where seconds would not.

Measured beside each other in one process, each as the least of several runs, so that other work on the machine counts little.
"""

BUDGET = {
    "mark a hand-in / read and decode its lines": 70,
    "results and three pages / mark the hand-in": 1.2,
    "costliest exercise / middle exercise": 25,
    "a record of four learners / a record of one": 1.8,
}
"""About twice what was measured when each was written down: a page that draws every question again breaks it, a busy machine does not."""
