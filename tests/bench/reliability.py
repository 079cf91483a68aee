"""Break things, count what is lost, and write the figures into docs/reliability.md: `PYTHONPATH=lib python tests/bench/reliability.py`."""

import argparse
import json
import os
import subprocess
import sys
import tempfile
from datetime import date
from pathlib import Path
from typing import Any

from breaking import Killed, full_under_a_marking, full_under_an_answer, killed
from fuzz import ATTACKS
from performance import ROOT, machine
from spoiling import BLOCK, cut_logbooks, half_copied, spoilt_files

PAGE = ROOT / "docs" / "reliability.md"
MEASURED = "## Measured\n"


def arguments() -> argparse.ArgumentParser:
    """Return what can be said on the command line."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--rounds", type=int, default=25, help="rounds of two writers killed")
    parser.add_argument("--seconds", type=float, default=20, help="processor time of the fuzzing for each parser")
    parser.add_argument("--out", type=Path, default=PAGE)
    return parser


def killed_row(what: str, found: Killed) -> str:
    """Return one row of the table of kills."""
    return f"| {what} | {found.rounds} | {found.acknowledged:,} | {found.lost} | {found.breaks} |"


def broken_said(scratch: Path, rounds: int) -> str:
    """Return what was lost by killing, cutting and full disks."""
    kills = [
        killed_row("a disk with locks", killed(scratch / "locks", rounds, locks=True)),
        killed_row("a share without locks", killed(scratch / "no-locks", rounds, locks=False)),
    ]
    cut, zip_, answer = (
        cut_logbooks(scratch / "cut"),
        half_copied(scratch / "half"),
        full_under_an_answer(scratch / "full"),
    )
    marking, files = full_under_a_marking(scratch / "marking"), spoilt_files(scratch / "files")
    rows = "\n".join(f"| `{name}` | {places} | {kept} | {told} |" for name, (places, kept, told) in files.items())
    kills_said = "\n".join(kills)
    return f"""### Two programs writing one logbook, both killed without warning

| where | rounds | answers acknowledged | of them lost | breaks of the chain |
| --- | ---: | ---: | ---: | ---: |
{kills_said}

### Files cut off, and files that end in zeros

Power cut: a logbook's last block of {BLOCK:,} bytes cut off, or as zeros, from every place in it on, then one more answer: {cut.places:,} tries,
{cut.lost} whole lines before the place lost, {cut.breaks} chains broken.

Half copied: a hand-in cut at every sixteenth, with and without zeros to its full length, beside a whole one: {zip_.places} tries, {zip_.lost} answers
of the whole one lost, {zip_.breaks} times something else than one line about the half one.

Small files, each cut at 256 places, with and without zeros behind: a file is read with what is left, or refused in one clear line. In no try
was it anything else, or this page would not have been written.

| file | tries | read with what was left | one clear line |
| --- | ---: | ---: | ---: |
{rows}

### A full disk

The disk takes a part of a line and no more, once for each length that the part can have: {answer.places} answers refused, {answer.lost} times another
logbook than before, {answer.breaks} breaks of the chain afterwards. Full at each file of a marking in turn: {marking.places} markings of
other hand-ins, {marking.lost} times no whole set under its manifest, {marking.places - marking.breaks} times the old set byte for byte; else the new one, where it was the
folder's names alone that could not be synced.
"""


def fuzzed_said(seconds: float) -> str:
    """Return what the fuzzing of each parser found."""
    rows, cases, longest, grown, findings = [], 0, 0.0, 0.0, 0
    for parser in ATTACKS:
        found = _fuzzed(parser, seconds)
        rows.append(
            f"| {parser} | {found['cases']:,} | {len(found['findings'])} | {1000 * found['longest_s']:.0f} | {found['grown_mb']:.0f} |"
        )
        cases, findings = cases + found["cases"], findings + len(found["findings"])
        longest, grown = max(longest, found["longest_s"]), max(grown, found["grown_mb"])
    table = "\n".join(rows)
    return f"""### Files damaged at random

{seconds:g} s of processor time for each parser, with a new seed: {cases:,} cases, {findings} findings, the longest {1000 * longest:.0f} ms, the most that a process
grew {grown:.0f} MB.

| parser | cases | findings | longest, ms | grown, MB |
| --- | ---: | ---: | ---: | ---: |
{table}
"""


def _fuzzed(parser: str, seconds: float) -> dict[str, Any]:
    command = [
        sys.executable,
        Path(__file__).with_name("fuzz.py"),
        "--json",
        "--seconds",
        str(seconds),
        "--parser",
        parser,
    ]
    done = subprocess.run(command, capture_output=True, encoding="utf-8", check=False)
    if done.stderr:
        raise SystemExit(done.stderr)
    found: dict[str, Any] = json.loads(done.stdout)
    for number, what in found["findings"]:
        print(f"{parser}, seed {found['seed']}, case {number}:\n{what}", file=sys.stderr)
    return found


def main() -> None:
    """Measure and write the figures."""
    given = arguments().parse_args()
    head = machine()
    with tempfile.TemporaryDirectory() as scratch:
        os.environ.setdefault("BITEPOINT_STATE", str(Path(scratch) / "state"))
        broken = broken_said(Path(scratch), given.rounds)
    text = given.out.read_text(encoding="utf-8").partition(MEASURED)[0]
    said = (
        f"{MEASURED}\nOn {date.today()} in one run: {head}\n\nOnce more, over this part of the page: "
        f"`PYTHONPATH=lib python tests/bench/reliability.py --rounds {given.rounds} --seconds {given.seconds:g}`.\n"
    )
    given.out.write_text("\n".join([text + said, broken, fuzzed_said(given.seconds)]), encoding="utf-8", newline="\n")


if __name__ == "__main__":
    main()
