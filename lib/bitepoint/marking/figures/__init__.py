"""The class in figures: how exercises behave, what to teach again, whom to mark twice."""
