"""Who works in a folder that is opened: as asked for, else as the folder says itself, else a learner on their own."""

from pathlib import Path

import msgspec

from bitepoint.bank.version import bank_digest
from bitepoint.errors import BadInput
from bitepoint.logbook import Identity
from bitepoint.logbook.identity import (
    SELF_STUDY,
    check_feedback,
    checked_learner,
    checked_name,
    practice_learner,
    same_name,
)
from bitepoint.questions.draw import STANDARD
from bitepoint.workbook.class_file import ClassFile, read_class_file
from bitepoint.workbook.create import owner, readable_owner


def identity_in(
    folder: Path, *, learner: str | None = None, class_word: str | None = None, class_file: Path | None = None
) -> Identity:
    """Return who works in a folder.

    Raises
    ------
    BadInput
        Class word and class file are both given, nobody says who the learner is, or something cannot be used.
    """
    if class_word and class_file:
        raise BadInput("Give --class-word or --class-file, not both: the class word is in the class file.")
    if class_file:
        # The own sheets that a start file carries may be gone from this computer, and then the folder cannot be read.
        read_class_file(class_file)
    # Whoever says all of it can put right a workbook.toml that cannot be read any more.
    now = readable_owner(folder) if class_file or (learner and class_word) else owner(folder)
    if now and not (learner or class_word or class_file):
        return now
    group = read_class_file(class_file) if class_file else _group(class_word, now)
    who = _learner(learner, group, class_file)
    if now and who and not class_file and not same_name(who, now.learner):
        # The car recorded in a folder is its learner's alone.
        group = msgspec.structs.replace(group, vehicle="")
    if (class_word or class_file) and not who and not now:
        raise BadInput("Say who you are in this class: add --learner and the id on your card, as in --learner L07-K")
    if group.vehicles != STANDARD and not group.vehicle:
        raise BadInput(
            f"This class works on the cars {', '.join(group.vehicles)}, and which one is yours stands in your own start "
            "file. Open the course with it: --class-file start/L07-K.toml"
        )
    return Identity(
        learner=checked_learner(who or (now.learner if now else SELF_STUDY), group.class_word),
        class_word=group.class_word,
        title=group.title,
        feedback=group.feedback,
        sitting=group.sitting,
        vehicle=group.vehicle,
        vehicles=group.vehicles,
        bank=group.bank,
        own=group.own,
    )


def check_bank(identity: Identity) -> None:
    """Refuse to open a sitting with another bank than the one it is bound to, or one that would show feedback at once.

    Raises
    ------
    BadInput
        The digests differ, or feedback does not wait for the hand-in.
    """
    check_feedback(identity.sitting, identity.feedback)
    if identity.sitting and identity.bank and identity.bank != bank_digest():
        raise BadInput(
            f"The sitting {identity.sitting} is bound to the bank {identity.bank}, but this installation has "
            f"{bank_digest()}. Sit it with the release it was set up with; ask whoever supervises it."
        )


def practice_in(folder: Path, *, somebody: bool = False) -> Identity:
    """Return the practice learner, whose answers may be on the wall; no folder of anyone else is shown there.

    Raises
    ------
    BadInput
        A learner was named too, or the folder is somebody's.
    """
    if somebody:
        raise BadInput(
            "--projector and --staff show the practice learner. Leave out --learner, --class-word and --class-file."
        )
    now, practice = owner(folder), practice_learner()
    if now and (now.learner, now.class_word) != (practice.learner, practice.class_word):
        raise BadInput(f"{folder} is the course folder of {now.learner}. Name another: bitepoint open wall --projector")
    return practice


def _group(class_word: str | None, now: Identity | None) -> ClassFile:
    if class_word or not now:
        return ClassFile(class_word=checked_name(class_word or SELF_STUDY, "The class word"))
    return ClassFile(
        class_word=now.class_word,
        title=now.title,
        feedback=now.feedback,
        sitting=now.sitting,
        vehicle=now.vehicle,
        vehicles=now.vehicles,
        bank=now.bank,
        own=now.own,
    )


def _learner(asked: str | None, group: ClassFile, class_file: Path | None) -> str:
    """Return the learner asked for or named in a start file; a start file is one learner's alone."""
    if asked and class_file and group.learner and not same_name(asked, group.learner):
        raise BadInput(f"{class_file.name} is the start file of {group.learner}. Leave --learner out, or use your own.")
    return asked or group.learner
