"""Lesson 11, refit and final checks: its outcomes."""

JOINS = "Brings the gearbox home without force and in a safe order"
FILLS = "Fills the gearbox and tightens wheels and hub nut as the sheet says"
STANDS = "Checks the standing car in a safe order"
DRIVES = "Judges the road test and its log"
HANDS = "Hands over car, label, evidence and waste"
