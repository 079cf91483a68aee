"""Every question of every release is still drawn as it was released."""

from bitepoint.releases.__main__ import changes


def test_everything_released_is_drawn_as_it_was() -> None:
    """Each line says what to do: a new revision, a recorded look, or, before the first release, samples made anew."""
    found = changes()
    assert not found, "\n" + "\n".join(change.said for change in found)
