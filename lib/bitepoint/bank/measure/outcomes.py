"""Lesson 6, measuring and deciding: what its exercises show."""

READS = "Reads vernier, micrometer and dial gauge"
RUNS_OUT = "Measures run-out and end float and keeps them apart"
WORKS_OUT = "Works out the figure that is held against the limit"
IS_SURE = "Says how sure a figure is, and keeps a guard band where one is due"
DECIDES = "Decides: reuse, replace, or stop and ask"
