"""What marking a folder of classes costs as it grows: `PYTHONPATH=lib python tests/bench/growth_of_a_college.py FOLDER`.

FOLDER is made by college.py. Of each size the first classes are marked in a fresh process: by the clock, processor time of all
processes, memory of the largest, and beside it the floor, which is reading and decoding the same lines and nothing else.
"""

import argparse
import os
import shutil
import tempfile
from pathlib import Path

from measuring import Run, run

_ENDED = "import resource, sys; sys.stderr.write(str(max(resource.getrusage(w).ru_maxrss for w in (0, -1))))"
_MARK = f"""
import sys
from pathlib import Path
from bitepoint.marking.college.run import mark_classes
if __name__ == "__main__":
    folder, out, workers = sys.argv[1:]
    found = mark_classes(Path(folder), out=Path(out), workers=int(workers))
    assert not found.refused, found.refused
    {_ENDED}
"""
_FLOOR = f"""
import sys, zipfile
from pathlib import Path
import msgspec
if __name__ == "__main__":
    count = 0
    for path in sorted(Path(sys.argv[1]).glob("*/hand-ins/*.zip")):
        with zipfile.ZipFile(path) as packed:
            for name in packed.namelist():
                raw = packed.read(name)
                if name.endswith(".jsonl"):
                    for line in raw.splitlines():
                        msgspec.json.decode(line)
                        count += 1
    Path(sys.argv[2]).write_text(str(count), encoding="utf-8")
    {_ENDED}
"""


def said(what: str, records: int, found: Run, load: float) -> str:
    """Return one row: what, records, time, processor time a record, memory, load before."""
    return (
        f"| {records:,} | {what} | {found.clock_s:.1f} | {records / found.clock_s:,.0f} | {found.processor_s:.1f} | "
        f"{1e6 * found.processor_s / records:.1f} | {found.memory_mb:.0f} | {load:.1f} |"
    )


def main() -> None:
    """Measure each size and print a table."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("folder", type=Path)
    parser.add_argument("--classes", type=int, nargs="+", default=[4, 40, 400])
    parser.add_argument("--workers", type=int, nargs="+", default=[1, 2])
    given = parser.parse_args()
    print("| records | what | s | records/s | processor s | µs a record | MB of the largest process | load before |")
    print("| ---: | --- | ---: | ---: | ---: | ---: | ---: | ---: |", flush=True)
    with tempfile.TemporaryDirectory(dir=given.folder.parent) as scratch:
        mark, floor, counted = (Path(scratch, name) for name in ("mark.py", "floor.py", "count"))
        mark.write_text(_MARK, encoding="utf-8")
        floor.write_text(_FLOOR, encoding="utf-8")
        for count in given.classes:
            place = Path(scratch, "college")
            for folder in sorted(given.folder.iterdir())[:count]:
                shutil.copytree(folder, place / folder.name)
            load = os.getloadavg()[0]
            found = run(floor, str(place), str(counted))
            records = int(counted.read_text(encoding="utf-8"))
            print(said("floor", records, found, load), flush=True)
            for workers in given.workers:
                out, load = Path(scratch, "marks"), os.getloadavg()[0]
                found = run(mark, str(place), str(out), str(workers))
                print(said(f"{workers} worker{'s' if workers > 1 else ''}", records, found, load), flush=True)
                shutil.rmtree(out)
            shutil.rmtree(place)


if __name__ == "__main__":
    main()
