"""Lesson 2, working safely: what its learners show that they can do."""

SECURES = "Secures the car before anyone touches it"
LIFTS = "Lifts car and parts so that nothing falls"
CLEAN = "Keeps dust and fluids away from people"
RUNS = "Makes a running engine and a road test safe"
STOPS = "Stops and asks where the rules end"
