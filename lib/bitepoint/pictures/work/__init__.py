"""The work on the car: steps, gearbox, faces and dowels, papers."""
