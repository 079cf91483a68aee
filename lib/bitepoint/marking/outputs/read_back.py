"""Reading results back for what goes on to other systems: the tables of one marking, not mixed and not changed."""

import csv
import json
from pathlib import Path
from typing import Any

from msgspec import Struct

from bitepoint.errors import BadInput
from bitepoint.marking.outputs.manifest import MANIFEST, Manifest, broken, read_manifest
from bitepoint.marking.outputs.moving import Tell
from bitepoint.marking.outputs.results import complete

Rows = list[dict[str, str]]
_NEEDED = ("marks.csv", "learners.csv", "marks.jsonl")


class Results(Struct, frozen=True, kw_only=True):
    """What a marking wrote: marks, learners, the trail of each line, and the manifest."""

    marks: Rows
    learners: Rows
    trail: list[dict[str, Any]]
    manifest: Manifest


def read_results(results: Path, tell: Tell) -> Results:
    """Return what lies in a results folder; what was begun to be moved in is completed first.

    Raises
    ------
    BadInput
        The folder holds no results, or a table is not as it was marked.
    """
    try:
        manifest = _check_whole(results, tell)
        tables = []
        for name in ("marks.csv", "learners.csv"):
            with open(results / name, encoding="utf-8-sig", newline="") as file:
                tables.append(list(csv.DictReader(file)))
        with open(results / "marks.jsonl", encoding="utf-8") as file:
            trail = [json.loads(line) for line in file]
    except (OSError, ValueError, csv.Error) as error:
        if isinstance(error, BadInput):
            raise
        raise BadInput(
            f"{results}: holds no results that can be read. Name the folder that “bitepoint mark” wrote."
        ) from None
    return Results(marks=tables[0], learners=tables[1], trail=trail, manifest=manifest)


def _check_whole(results: Path, tell: Tell) -> Manifest:
    complete(results, tell)
    manifest = read_manifest(results / MANIFEST)
    if manifest is None:
        raise FileNotFoundError(MANIFEST)
    spoilt = [name for name in broken(manifest, results) if name in _NEEDED]
    if spoilt:
        raise BadInput(
            f"{results}: {spoilt[0]} is not as it was marked. Mark again, then export; a mark that a person changes "
            "is an override in the register."
        )
    return manifest
