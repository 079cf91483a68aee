"""What a learner copies is right: the key as it is printed, and a figure of the worked solution."""

import re

import pytest

from bitepoint.bank import exercises

NUMBER = re.compile(r"-?\d+(?:\.\d+)?")
NUMBERS = {
    id: exercise
    for id, exercise in exercises().items()
    if exercise.draw(class_word="amber", learner="ada").kind == "number"
}


@pytest.mark.parametrize("id", NUMBERS)
def test_the_printed_key_and_the_solution_are_right(id):
    """Rounded as printed the answer still is right, and so is a figure that stands in the solution."""
    for number in range(25):
        for turn in (1, 2, 3):
            question = NUMBERS[id].draw(class_word="amber", learner=f"learner-{number}", turn=turn)
            shown = question.answer if question.decimals is None else f"{question.answer:.{question.decimals}f}"
            assert question.mark(shown).score == 1, shown
            figures = NUMBER.findall(question.solution.replace("−", "-").replace("\N{NO-BREAK SPACE}", ""))
            assert any(question.mark(figure).score == 1 for figure in figures), question.solution
