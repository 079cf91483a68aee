"""The car on the lift: pads, masses, balance."""
