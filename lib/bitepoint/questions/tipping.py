"""Where an order of bolts draws a part down on one side, told in bolts: after which, to which, and where to instead."""

from collections.abc import Sequence

from bitepoint.mechanics.tightening import out_of_balance


def wrong_step(angles_deg: Sequence[float], order: Sequence[int], allowed: float) -> tuple[int, int, int]:
    """Return (the bolt before, the bolt taken after it, the bolt to cross over to) where an order leaves the star.

    It is the first step after which the tight bolts pull more than `allowed` (in bolts) to one side; where nothing better
    was left to take by then, the last step before it that was not the best.

    Parameters
    ----------
    angles_deg : sequence of float, shape (n,)
        Position of each bolt on its circle [degrees].
    order : sequence of int, shape (n,)
        The order taken, each bolt once.
    allowed : float
        Largest sum of pulls that a star has [bolts].
    """
    fallback = (order[0], order[1], _best(angles_deg, order[:1]))
    for place in range(1, len(order)):
        better = _best(angles_deg, order[:place])
        after = out_of_balance(angles_deg, order[: place + 1])
        if after > out_of_balance(angles_deg, [*order[:place], better]) + 1e-9:
            fallback = (order[place - 1], order[place], better)
        if after > allowed:
            return fallback
    return fallback


def _best(angles_deg: Sequence[float], tight: Sequence[int]) -> int:
    """Return the bolt not yet tight that leaves the smallest pull; of equals the one furthest from the last."""
    left = [bolt for bolt in range(1, len(angles_deg) + 1) if bolt not in tight]
    return min(
        left, key=lambda b: (round(out_of_balance(angles_deg, [*tight, b]), 6), -_apart(angles_deg, b, tight[-1]))
    )


def _apart(angles_deg: Sequence[float], one: int, other: int) -> float:
    turn = abs(angles_deg[one - 1] - angles_deg[other - 1]) % 360
    return min(turn, 360 - turn)


def are_neighbours(one: int, other: int, bolts: int) -> bool:
    """Whether two bolts stand side by side on a circle of `bolts`."""
    return (one - other) % bolts in (1, bolts - 1)
