"""`python -m bitepoint`: the same as the command `bitepoint`."""

import sys

from bitepoint.cli import main

if __name__ == "__main__":
    sys.exit(main())
