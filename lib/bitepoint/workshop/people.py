"""Who is who where two people are needed: a sheet and whoever checks it, a mark and a second one, a job and its supervisor."""

from unicodedata import normalize


def same_person(one: str, other: str) -> bool:
    """Whether two names are one person's, however capitals, dots and spaces are set and a letter with dots over it is made.

    Examples
    --------
    >>> same_person("A. Assessor", "a assessor"), same_person("A. Assessor", "B. Assessor")
    (True, False)
    """
    return _letters(one) == _letters(other)


def _letters(name: str) -> str:
    # An ö may be one letter, or an o with dots behind it.
    return "".join(sign for sign in normalize("NFKC", name).casefold() if sign.isalnum())
