"""What a person should look at: in answers, in a learner's history, in hand-ins as a whole."""
