"""The developers' command `python -m bitepoint.bank.guessing [LESSON]`: how much of the bank can be guessed."""

import sys

from bitepoint.bank.guessing.table import report
from bitepoint.bank.lessons import lesson
from bitepoint.errors import BadInput


def run(arguments: list[str]) -> int:
    """Print the tables of the whole bank, or of the one lesson named by its key."""
    try:
        if len(arguments) > 1:
            raise BadInput(f"One lesson can be named, but you gave {len(arguments)}. Give its key, or nothing.")
        print(report(*(lesson(key).key for key in arguments)))
    except BadInput as error:
        print(error, file=sys.stderr)
        return 2
    return 0


if __name__ == "__main__":
    sys.exit(run(sys.argv[1:]))
