"""A job on a car under supervision: a record that grows from complaint to hand-over, on the car's own sheet."""
