"""What goes wrong on a machine although the user did nothing wrong."""

from bitepoint.errors import BitepointError


class CannotRun(BitepointError):
    """The machine could not do it: a server that does not start, lessons missing from the installation."""
