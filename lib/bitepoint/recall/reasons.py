"""After which right decisions of a round a learner is asked to say why, in their own words."""

from collections.abc import Sequence

EVERY = 3


def reasons_asked(answers: Sequence[tuple[bool, bool]]) -> list[bool]:
    """Return for each answer of a round, in the order given, whether a reason is asked for.

    Each answer is (whether it was a right decision, whether a mistake in that exercise could hurt someone). Asked for after
    every third right decision; after the second already where a mistake could hurt someone. Then the count begins again. It hangs on the
    answers alone, so a round that goes on elsewhere asks for the same.

    Examples
    --------
    >>> reasons_asked([(True, False), (False, True), (True, False), (True, False)])
    [False, False, False, True]
    >>> reasons_asked([(True, False), (True, True), (True, True), (True, True)])
    [False, True, False, True]
    """
    found, count = [], 0
    for right, critical in answers:
        count += right
        asked = right and (count >= EVERY or (critical and count == EVERY - 1))
        count = 0 if asked else count
        found.append(asked)
    return found
