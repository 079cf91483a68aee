"""A learner's own course folder: made, brought up to date and served to the browser."""
