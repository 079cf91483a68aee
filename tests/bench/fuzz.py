"""Damage files at random and read them, each parser by itself: `python tests/bench/fuzz.py --seconds 240 --parser zip`.

A finding is whatever is neither a result nor one clear line, a case that takes more than two seconds of processor time, and one
that makes the process grow by more than 200 MB. The tests try the first cases of one seed, so that they always try the same; by
hand the seed is new each time unless it is given.
"""

import argparse
import json
import os
import resource
import secrets
import sys
import tempfile
import traceback
import warnings
from collections.abc import Iterable
from itertools import count
from pathlib import Path
from random import Random
from time import process_time
from typing import NamedTuple

from attacks import Attack
from attacks_on_folders import ON_FOLDERS
from attacks_on_marking import ON_MARKING

ATTACKS: dict[str, tuple[Attack, int]] = {**ON_MARKING, **ON_FOLDERS}
SEED = "the tests' own"
# Each case writes files over: on a disk that keeps them at once that would be all of the time.
_IN_MEMORY = "/dev/shm" if os.path.isdir("/dev/shm") else None
SLOWEST_S, MOST_GROWTH_MB = 2.0, 200.0


class Run(NamedTuple):
    """What came of damaging files for one parser; each finding is the number of its case and what happened."""

    parser: str
    seed: str
    cases: int
    findings: list[tuple[int, str]]
    longest_s: float
    grown_mb: float


def fuzzed(
    parser: str, numbers: Iterable[int], *, seed: str = SEED, seconds: float = float("inf"), most: int = 20
) -> Run:
    """Try cases of one parser until their numbers, the seconds of processor time or the patience with findings end."""
    attack, _ = ATTACKS[parser]
    findings: list[tuple[int, str]] = []
    cases, longest, began = 0, 0.0, process_time()
    with tempfile.TemporaryDirectory(dir=_IN_MEMORY) as folder, warnings.catch_warnings():
        # A warning would stand in red under a learner's cell.
        warnings.simplefilter("error")
        _tried(attack, Path(folder), Random(f"{seed} {parser} to begin with"))
        grown = before = _memory_mb()
        for number in numbers:
            at = process_time()
            what = _tried(attack, Path(folder), Random(f"{seed} {parser} {number}"))
            spent, now = process_time() - at, _memory_mb()
            cases, longest, grown = cases + 1, max(longest, spent), max(grown, now)
            if spent > SLOWEST_S:
                what = what or f"took {spent:.1f} s"
            if now - before > MOST_GROWTH_MB:
                what, before = what or f"grew to {now:.0f} MB", now
            if what:
                findings.append((number, what))
            if process_time() - began > seconds or len(findings) >= most:
                break
    return Run(parser, seed, cases, findings, longest, grown - before if grown > before else 0.0)


def _tried(attack: Attack, folder: Path, random: Random) -> str:
    try:
        attack(folder, random)
    # Whatever gets here would have been a traceback for a person.
    except Exception:
        return traceback.format_exc(limit=-4)
    return ""


def _memory_mb() -> float:
    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024


def main() -> int:
    """Run from the command line; the status is 1 when something was found."""
    arguments = argparse.ArgumentParser(description=__doc__)
    arguments.add_argument("--seconds", type=float, default=20.0, help="processor time over all parsers that are named")
    arguments.add_argument("--parser", nargs="+", choices=list(ATTACKS), default=list(ATTACKS), metavar="NAME")
    arguments.add_argument("--seed", default="", help="the seed of a run to repeat")
    arguments.add_argument("--case", type=int, help="one case of that run alone")
    arguments.add_argument("--json", action="store_true", help="one JSON object a parser")
    given = arguments.parse_args()
    os.environ.setdefault("BITEPOINT_STATE", tempfile.mkdtemp(prefix="bitepoint-fuzz-"))
    seed, found = given.seed or secrets.token_hex(4), 0
    for parser in given.parser:
        numbers = [given.case] if given.case is not None else count()
        run = fuzzed(parser, numbers, seed=seed, seconds=given.seconds / len(given.parser))
        found += len(run.findings)
        if given.json:
            print(json.dumps(run._asdict()), flush=True)
            continue
        print(
            f"{parser}: {run.cases:,} cases, {len(run.findings)} findings, longest {run.longest_s:.2f} s, seed {seed}",
            flush=True,
        )
        for number, what in run.findings:
            print(f"--- case {number}\n{what}", file=sys.stderr, flush=True)
    return 1 if found else 0


if __name__ == "__main__":
    sys.exit(main())
