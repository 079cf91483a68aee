"""What is put into a job's record from the command line, one command a kind of entry."""

import sys
from collections.abc import Callable
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, TypeVar

import click

from bitepoint.cli.terminal import DONE, LOOK, PATH, Examples, say
from bitepoint.errors import BadInput, ReasonNeeded

if TYPE_CHECKING:
    from bitepoint.job.state import JobEntry

T = TypeVar("T")
FOLDER = click.argument("folder", metavar="FOLDER", type=PATH)
BY = click.option("--by", metavar="NAME", default="", help="Who did it; who began the job when left out.")
REASON = click.option("--reason", metavar="TEXT", default="", help="Why, where something is warned of. It is kept.")


def with_reason(do: Callable[[str], T], reason: str) -> T:
    """Do something; where it is warned of and somebody sits at the terminal, ask for the reason."""
    try:
        return do(reason)
    except ReasonNeeded as error:
        if not sys.stdin.isatty():
            raise ReasonNeeded(error.warned, f'{error.advice} Add: --reason "…"') from None
        for warned in error.warned:
            click.echo(f"Warning: {warned}", err=True)
        return do(click.prompt("Reason, after asking your supervisor", err=True))


def _told(entry: "JobEntry") -> int:
    from bitepoint.job.telling import line

    say(line(entry))
    return DONE


def _day(_: click.Context, __: click.Parameter, typed: str | None) -> date | None:
    if typed is None:
        return None
    try:
        return date.fromisoformat(typed)
    except ValueError:
        raise BadInput(f"A day is written like 2026-01-31, but you gave {typed[:30]!r}.") from None


@click.command(cls=Examples, examples="bitepoint job stage job-1 remove begun\nbitepoint job stage job-1 remove done")
@FOLDER
@click.argument("stage", metavar="STAGE")
@click.argument("what", type=click.Choice(["begun", "done", "cautions-read"]))
@REASON
@BY
def stage(folder: Path, stage: str, what: str, reason: str, by: str) -> int:
    """Say that a stage is begun or done, or that its cautions were read."""
    from bitepoint.job.stages import begin_stage, cautions_read, end_stage

    if what == "cautions-read":
        return _told(cautions_read(folder, stage, by=by))
    do = begin_stage if what == "begun" else end_stage
    return _told(with_reason(lambda why: do(folder, stage, reason=why, by=by), reason))


@click.command(cls=Examples, examples="bitepoint job step job-1 D1 D2")
@FOLDER
@click.argument("steps", metavar="STEP…", nargs=-1, required=True)
@REASON
@BY
def step(folder: Path, steps: tuple[str, ...], reason: str, by: str) -> int:
    """Tick operations as done, in this order; their ids stand in “bitepoint job open”.

    Out of a safe order it is warned of, with the reason of the rule; then say why it was done all the same.
    """
    from bitepoint.job.stages import do_steps
    from bitepoint.job.telling import line

    # Ids such as D5b and A13b end in a small letter.
    wanted = [name[:1].upper() + name[1:].lower() for name in steps]
    for entry in with_reason(lambda why: do_steps(folder, wanted, reason=why, by=by), reason):
        say(line(entry))
    return DONE


@click.command(
    cls=Examples,
    examples='bitepoint job measure job-1 flywheel-runout "0,05 mm" --instrument "dial gauge" --uncertainty 0.006\n'
    'bitepoint job measure job-1 "pedal free play" "6 mm" --instrument rule',
)
@FOLDER
@click.argument("what", metavar="WHAT")
@click.argument("value", metavar="VALUE")
@click.option("--instrument", metavar="TEXT", required=True, help="What it was measured with.")
@click.option("--uncertainty", metavar="X", type=float, help="Standard uncertainty, in the unit of the value.")
@BY
def measure(folder: Path, what: str, value: str, instrument: str, uncertainty: float | None, by: str) -> int:
    """Record a reading. WHAT is the id of a criterion, judged by the sheet's limit, or says what was measured.

    Where the sheet has no limit nothing is decided: look it up.
    """
    from bitepoint.job.findings import measure as keep
    from bitepoint.job.findings import reading

    number, unit = reading(value)
    return _told(keep(folder, what, number, unit=unit, instrument=instrument, uncertainty=uncertainty, by=by))


@click.command(
    cls=Examples,
    examples='bitepoint job decide job-1 flywheel replace --because "crack at hole 3" --finding flywheel-crack',
)
@FOLDER
@click.argument("part", metavar="PART")
@click.argument("decision", metavar="DECISION")
@click.option("--because", metavar="TEXT", required=True, help="The reason.")
@click.option("--finding", metavar="ID", default="", help="A known finding, whose own decision then stands beside.")
@REASON
@BY
def decide(folder: Path, part: str, decision: str, because: str, finding: str, reason: str, by: str) -> int:
    """Record what is decided about a part: reuse, replace, or "stop and ask"."""
    from bitepoint.job.findings import decide as keep

    return _told(
        with_reason(
            lambda why: keep(folder, part, decision, because=because, finding=finding, reason=why, by=by), reason
        )
    )


@click.command(cls=Examples, examples='bitepoint job part job-1 "clutch kit" K-225-21 --lot L2207')
@FOLDER
@click.argument("name", metavar="NAME")
@click.argument("number", metavar="NUMBER")
@click.option("--lot", metavar="MARK", default="", help="Lot or batch mark.")
@click.option("--used", is_flag=True, help="Not new; then with a reason.")
@REASON
@BY
def part(folder: Path, name: str, number: str, lot: str, used: bool, reason: str, by: str) -> int:
    """Record a part that is fitted."""
    from bitepoint.job.findings import fit_part

    return _told(with_reason(lambda why: fit_part(folder, name, number, lot=lot, used=used, reason=why, by=by), reason))


@click.command(
    cls=Examples,
    examples='bitepoint job tighten job-1 wheels --wrench "wrench 3" --calibrated 2026-01-12 --set 110\n'
    'bitepoint job tighten job-1 flywheel.bolt --wrench "wrench 2" --calibrated 2026-01-12 --set 31.5 '
    '--adaptor "crow-foot 16" --lever 410 --offset 45 --second-round "paint marks looked at"',
)
@FOLDER
@click.argument("joint", metavar="JOINT")
@click.option("--wrench", metavar="NAME", required=True, help="Which wrench.")
@click.option("--calibrated", metavar="DAY", required=True, callback=_day, help="Day on its label, such as 2026-01-12.")
@click.option(
    "--due", metavar="DAY", callback=_day, help="Day by which it is calibrated again; a year later when left out."
)
@click.option("--set", "setting", metavar="N·m", type=float, required=True, help="What it was set to.")
@click.option("--adaptor", metavar="TEXT", default="", help="Crow-foot or offset adaptor, or straight extension.")
@click.option("--lever", metavar="MM", type=float, help="Middle of the square drive to the grip mark.")
@click.option("--offset", metavar="MM", type=float, help="Middle of the drive to the middle of the bolt.")
@click.option("--lowest", metavar="N·m", type=float, help="First mark of the wrench's scale.")
@click.option("--highest", metavar="N·m", type=float, help="End of the wrench's scale.")
@click.option("--second-round", metavar="TEXT", default="", help="What was done in the second round.")
@REASON
@BY
def tighten(
    folder: Path,
    joint: str,
    wrench: str,
    calibrated: date,
    due: date | None,
    setting: float,
    adaptor: str,
    lever: float | None,
    offset: float | None,
    lowest: float | None,
    highest: float | None,
    second_round: str,
    reason: str,
    by: str,
) -> int:
    """Record a joint as tightened. JOINT is one of this car's, such as flywheel.bolt, clutch.cover, wheels.

    A wrench out of date or range, or another setting than the sheet asks for with this adaptor, is warned of.
    """
    from bitepoint.job.tightening import Wrench
    from bitepoint.job.tightening import tighten as keep

    held = Wrench(
        name=wrench,
        calibrated=calibrated,
        due=due,
        lowest_nm=lowest,
        highest_nm=highest,
        adaptor=adaptor,
        lever_mm=lever,
        offset_mm=offset,
    )
    return _told(
        with_reason(
            lambda why: keep(folder, joint, held, setting_nm=setting, second_round=second_round, reason=why, by=by),
            reason,
        )
    )


@click.command(
    cls=Examples, examples='bitepoint job deviation job-1 "bolts M8×22 for M8×20" --why "…" --agreed-by "A. Head"'
)
@FOLDER
@click.argument("what", metavar="WHAT")
@click.option("--why", metavar="TEXT", required=True, help="Why.")
@click.option("--agreed-by", metavar="NAME", required=True, help="Who agreed to it.")
@BY
def deviation(folder: Path, what: str, why: str, agreed_by: str, by: str) -> int:
    """Record what was done other than the repair data or the order say."""
    from bitepoint.job.recording import deviation as keep

    return _told(keep(folder, what, why=why, agreed_by=agreed_by, by=by))


@click.command(cls=Examples, examples='bitepoint job check job-1 "every flywheel bolt, marks" --checked-by "A. Head"')
@FOLDER
@click.argument("what", metavar="WHAT")
@click.option("--checked-by", metavar="NAME", required=True, help="The second person.")
@BY
def check(folder: Path, what: str, checked_by: str, by: str) -> int:
    """Record that a second person looked at something."""
    from bitepoint.job.recording import second_check

    return _told(second_check(folder, what, checked_by=checked_by, by=by))


@click.command(cls=Examples, examples='bitepoint job photo job-1 IMG_0412.jpg --shows "crack at bolt hole 3"')
@FOLDER
@click.argument("photo", metavar="FILE", type=PATH)
@click.option("--shows", metavar="TEXT", required=True, help="What it shows, without names or numbers of the car.")
@BY
def photo(folder: Path, photo: Path, shows: str, by: str) -> int:
    """Copy a photo (JPEG or PNG) into the job, without its position, time and camera."""
    from bitepoint.job.photos import add_photo

    return _told(add_photo(folder, photo, shows=shows, by=by))


@click.command(
    "road-test",
    cls=Examples,
    examples="bitepoint job road-test job-1 drive.csv\nbitepoint job road-test job-1 drive.csv --map drive.map.toml --gear 3",
)
@FOLDER
@click.argument("log", metavar="LOG.csv", type=PATH)
@click.option("--map", "column_map", metavar="FILE", type=PATH, help="Which column is what, compared by a person.")
@click.option("--gear", metavar="N", type=int, help="Gear of the test; the sheet's when left out.")
@click.option("--from", "begins", metavar="S", type=float, help="Seconds from the first row at which the test begins.")
@click.option("--to", "ends", metavar="S", type=float, help="Seconds at which it ends.")
@BY
def road_test(
    folder: Path,
    log: Path,
    column_map: Path | None,
    gear: int | None,
    begins: float | None,
    ends: float | None,
    by: str,
) -> int:
    """Judge a road-test log (CSV) for this car and record the result.

    Without --map a column map is proposed beside the log: compare it with the file, write confirmed = true, then give it.
    Only the columns of the map are kept, no position.
    """
    from bitepoint.job import road_tests

    if column_map is None:
        target, questions = road_tests.propose_for(log)
        for question in questions:
            say(f"? {question}")
        say(f"Proposed: {target}. Compare it with the log, write confirmed = true in it, then: --map {target}")
        return LOOK
    if (begins is None) != (ends is None):
        raise BadInput("--from and --to go together: the seconds between which the test was driven.")
    part = (begins, ends) if begins is not None and ends is not None else None
    return _told(road_tests.road_test(folder, log, column_map, gear=gear, part=part, by=by))


@click.command(cls=Examples, examples='bitepoint job note job-1 "magnet of the drain plug clean"')
@FOLDER
@click.argument("text", metavar="TEXT")
@click.option("--stage", metavar="STAGE", default="", help="To which stage it belongs.")
@BY
def note(folder: Path, text: str, stage: str, by: str) -> int:
    """Record something in words, without what is personal."""
    from bitepoint.job.recording import note as keep

    return _told(keep(folder, text, stage=stage, by=by))


@click.command(cls=Examples, examples='bitepoint job personal job-1 --customer "…" --registration "…"')
@FOLDER
@click.option("--customer", metavar="NAME")
@click.option("--telephone", metavar="NUMBER")
@click.option("--registration", metavar="PLATE")
@click.option("--vin", metavar="NUMBER", help="Identification number.")
def personal(folder: Path, **fields: str | None) -> int:
    """Put personal data into the side file, where they can be erased; the record gets salted hashes."""
    from bitepoint.job.opening import keep_personal

    said = {key: value for key, value in fields.items() if value}
    if not said:
        raise BadInput("Give at least one of --customer, --telephone, --registration, --vin.")
    keep_personal(folder, said)
    say("Kept apart from the record: " + ", ".join(said))
    return DONE


def add_to(group: click.Group) -> None:
    """Add these commands to the group of a job."""
    for command in (stage, step, measure, decide, part, tighten, deviation, check, photo, road_test, note, personal):
        group.add_command(command)
