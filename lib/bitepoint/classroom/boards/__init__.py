"""The board: where a class stands and where it is stuck."""
