"""Lesson 9, assembly: its outcomes."""

FLYWHEEL = "Fits the flywheel in its one position with bolts that fit"
GREASE = "Keeps faces clean and puts grease in the right places only"
CLUTCH = "Fits plate and cover the right way"
ORDERS = "Keeps a safe order of assembly"
JUDGES = "Judges a half-built clutch and says what to do"
