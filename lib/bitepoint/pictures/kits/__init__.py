"""The kit and its codes."""
