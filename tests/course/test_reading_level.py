"""The lessons read easily: short sentences by textstat's own measure."""

import re
from pathlib import Path

import pytest
import textstat

from .lessons import NOTEBOOKS, notebook, source


def running_text(path: Path) -> str:
    """Return the running text of a lesson: headings, tables and list marks aside, each list item a sentence."""
    blocks = []
    for cell in notebook(path)["cells"]:
        if cell["cell_type"] == "markdown":
            for line in re.split(r"\n\s*\n|\n(?=[-*|])", source(cell)):
                text = re.sub(r"[*`#>_]|^- ", "", line.strip())
                if text and not line.lstrip().startswith(("#", "|")):
                    blocks.append(text if text.endswith((".", "!", "?", ":")) else f"{text}.")
    return " ".join(blocks)


@pytest.mark.parametrize("path", NOTEBOOKS, ids=lambda p: p.stem)
def test_sentences_are_short_on_average(path: Path) -> None:
    """Under 18 words a sentence."""
    assert textstat.words_per_sentence(running_text(path)) < 18
