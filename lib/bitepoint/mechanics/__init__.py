"""The trade's calculations: pure functions on plain floats, one small module a subject."""
