"""One learner's JupyterLab on a hub: their workbook made or brought up to date, then the hub's own server in its place.

The hub runs it in the learner's account, `python -P -m bitepoint.workbook.hub START WORK`: START has the start files of the
class and WORK the folders of the learners, each named by the account. The administrator's account writes in neither.
"""

import os
import sys
from pathlib import Path
from typing import NoReturn

from bitepoint.errors import BadInput, BitepointError
from bitepoint.logbook.bookmark import lesson_stopped_in
from bitepoint.logbook.locking import locked
from bitepoint.workbook.create import check_owner
from bitepoint.workbook.opening import first_notebook, made_ready
from bitepoint.workbook.owner import identity_in
from bitepoint.workbook.runtime_folder import environment, runtime_folder_of, write_settings
from bitepoint.workbook.serve import START_SECONDS
from bitepoint.workshop.datafiles import data_files

# What a learner makes may be read by the group of its folder, the staff, and by nobody else.
UMASK = 0o027
WRONG = 2


def server(account: str, start: Path, work: Path) -> tuple[list[str], dict[str, str]]:
    """Make the workbook of an account or bring it up to date; return command line and environment of its server.

    Raises
    ------
    BadInput
        The account has no start file or no folder, or the folder is another learner's.
    CannotRun
        The installation has no lessons.
    """
    class_file, folder = start / f"{account}.toml", (work / account).resolve()
    if not class_file.is_file():
        raise BadInput(
            f"{class_file} is not there: {account} is in no class. Run add_learners.sh with the class folder."
        )
    if not folder.is_dir():
        raise BadInput(f"{folder} is not there. Run add_learners.sh with the class folder.")
    identity = identity_in(folder, class_file=class_file)
    check_owner(folder, identity)
    runtime = runtime_folder_of(folder)
    runtime.mkdir(parents=True, exist_ok=True)
    with locked(runtime / "open.lock", timeout=START_SECONDS):
        for sentence in made_ready(folder, identity):
            print(sentence, flush=True)
        write_settings(runtime, files=data_files())
    # Ports on the computer's own loop are open to every account of it: other learners could listen to a kernel.
    line = ["-P", "-m", "jupyterhub.singleuser", f"--ServerApp.root_dir={folder}"]
    line += ["--KernelManager.transport_encryption=required"]
    first = f"/lab/tree/{first_notebook(lesson_stopped_in(folder))}"
    return line, {**environment(runtime), "JUPYTERHUB_DEFAULT_URL": first}


def main(arguments: list[str]) -> NoReturn:
    """Become the server of the account that runs this; what is wrong is one line in the hub's log."""
    import pwd

    os.umask(UMASK)
    start, work = map(Path, arguments)
    try:
        line, world = server(pwd.getpwuid(os.getuid()).pw_name, start, work)
    except BitepointError as error:
        print(f"Error: {error}", file=sys.stderr)
        sys.exit(WRONG)
    os.execve(sys.executable, [sys.executable, *line], world)


if __name__ == "__main__":
    main(sys.argv[1:])
