"""A learner's own course folder: made, brought up to date, run ahead of time and served to the browser."""
