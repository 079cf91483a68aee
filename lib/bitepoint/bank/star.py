"""Lesson 8, star tightening."""

from bitepoint.bank.registry import exercise
from bitepoint.mechanics.tightening import even_circle_deg
from bitepoint.questions.draw import Draw
from bitepoint.questions.pulls import Stage
from bitepoint.questions.tightening import Tightening


@exercise("star.six-bolts", lesson="star", outcome="Tightens a ring of bolts in a star order", minutes=3)
def six_bolts(draw: Draw) -> Tightening:
    return Tightening(
        ask="A flywheel has six bolts, evenly spaced and numbered clockwise. In which order do you tighten one stage?",
        angles_deg=even_circle_deg(6),
        stages=(Stage("order", "One stage", "order"),),
        why="Each bolt once, always across: the pull is never more than one bolt out of balance, so the part stays flat.",
        step="Start at any bolt. The next one is on the far side. Which bolt is opposite bolt 1?",
        solution="1, 4, 2, 5, 3, 6: a bolt, then the one opposite, then on.",
        source="mil-hdbk-60",
    )
