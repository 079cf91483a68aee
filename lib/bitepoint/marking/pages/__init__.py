"""Pages for people: the report, a page a learner, worked solutions, PDF."""
