"""Reading answers given as letters: "b", "a c", ["a", "c"]."""

import re
from collections.abc import Sequence

from bitepoint.errors import NotUnderstood

LETTERS = "abcdefghijklmnopqrstuvwxyz"
_MAX_LENGTH = 120
_WORDS = re.compile(r"[^\s,;:.)(>→-]+")


def letters_for(count: int) -> str:
    """Return the letters under which `count` things are offered."""
    return LETTERS[:count]


def read_letters(answer: object, count: int) -> list[str]:
    """Return the letters of an answer in the order given, each at most once.

    Takes "b", "a, c", "ac" or a list of letters.

    Raises
    ------
    NotUnderstood
        Something else was typed, a letter is not on offer, or one is there twice.
    """
    offered = letters_for(count)
    # What nearly every answer to a choice is.
    if type(answer) is str and len(answer) == 1 and answer in offered:
        return [answer]
    parts = _parts(answer, offered)
    for part in parts:
        if len(part) != 1 or part not in offered:
            raise NotUnderstood(f"{part[:20]!r} is not on offer. Answer with letters from a to {offered[-1]}.")
    if len(set(parts)) != len(parts):
        twice = next(part for part in parts if parts.count(part) > 1)
        raise NotUnderstood(f"The letter {twice} is there twice. Give each letter once.")
    return parts


def _parts(answer: object, offered: str) -> list[str]:
    if isinstance(answer, str):
        if len(answer) > _MAX_LENGTH:
            raise NotUnderstood(f"{answer[:20]!r}… is too long. Answer with letters from a to {offered[-1]}.")
        words: list[str] = _WORDS.findall(answer.casefold())
        return list(words[0]) if len(words) == 1 and set(words[0]) <= set(offered) else words
    if isinstance(answer, Sequence) and len(answer) <= len(offered):
        parts = [each.strip().casefold() for each in answer if isinstance(each, str)]
        if len(parts) == len(answer):
            return parts
    raise NotUnderstood(f"That is no letter. Answer with letters from a to {offered[-1]}.")
