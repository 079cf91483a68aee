"""A table that makes what it is asked for, once."""

from bitepoint.marking.made_once import MadeOnce


def test_each_name_is_made_once() -> None:
    """A name that is asked for again is not made again."""
    asked = []

    def make(name: str) -> str:
        asked.append(name)
        return name.casefold()

    table = MadeOnce(make)

    assert [table["Oak"], table["L01-X"], table["Oak"]] == ["oak", "l01-x", "oak"]
    assert asked == ["Oak", "L01-X"]
