"""The steps of docs/hosting/Containerfile, one after the other, where there is no container program: by hand, as root.

    unshare --mount --net --pid --fork --mount-proc python tests/bench/container_steps.py ROOT BUNDLE

ROOT is a folder with a small system in place of the base image, as `debootstrap --variant=minbase --include=python3 bookworm ROOT`
makes it; it is changed. The image has its Python in /usr/local: a copy of the one that runs this is put there, without what is
installed in it. The network of its own leads nowhere. In the end the course is started as the image starts it, and its page and its first lesson are asked for.
"""

import json
import re
import shutil
import subprocess
import sys
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1] / "classroom"))
from without_routes import asked, outside, raise_loopback

FILE = Path(__file__).parents[2] / "docs" / "hosting" / "Containerfile"
WORLD = {"PATH": "/usr/local/bin:/usr/sbin:/usr/bin:/sbin:/bin", "LANG": "C.UTF-8"}


def steps(text: str) -> list[tuple[str, str]]:
    """Return instruction and rest of each line."""
    return re.findall(r"^([A-Z]+) (.+)$", text, re.M)


def main(root: Path, bundle: Path) -> None:
    """Take each step and say how long it took; stop at an instruction that is not known."""
    raise_loopback()
    print("outside:", outside())
    inside = ["chroot", str(root)]
    bare = shutil.ignore_patterns("test", "__pycache__", "site-packages")
    shutil.copytree(sys.base_prefix, root / "usr" / "local", symlinks=True, dirs_exist_ok=True, ignore=bare)
    subprocess.run([*inside, "ldconfig"], env=WORLD, check=True)
    subprocess.run([*inside, "python", "-m", "ensurepip"], env=WORLD, check=True, capture_output=True)
    # The system's own folders of devices and processes.
    for name in ("dev", "proc"):
        subprocess.run(["mount", "--rbind", f"/{name}", root / name], check=True)
    user, folder, entry = "root", "/", []
    for name, rest in steps(FILE.read_text(encoding="utf-8")):
        begun = time.monotonic()
        match name:
            case "ARG" | "FROM" | "VOLUME":
                continue
            case "COPY":
                source, target = rest.split()
                shutil.copytree(bundle / source, root / target.lstrip("/"), dirs_exist_ok=True)
            case "RUN":
                subprocess.run([*inside, "sh", "-c", rest], env=WORLD, check=True)
            case "USER":
                user = rest
            case "WORKDIR":
                folder = rest
            case "ENTRYPOINT" | "CMD":
                entry += json.loads(rest)
            case _:
                raise SystemExit(f"{name} is not known here")
        print(f"{name} {rest}: {time.monotonic() - begun:.0f} s")
    home = {**WORLD, "HOME": folder}
    line = ["chroot", f"--userspec={user}", str(root), "sh", "-c", f'cd {folder} && exec "$@"', "sh", *entry]
    begun, said = time.monotonic(), ""
    with subprocess.Popen(line, env=home, stdout=subprocess.PIPE, text=True, encoding="utf-8") as course:
        assert course.stdout
        for told in course.stdout:
            said += told
            if told.startswith("Leave this window open."):
                break
        found = asked(said)
        course.terminate()
    assert "jupyter-config-data" in str(found["page"])
    print(f"{' '.join(entry)}: page and a lesson of {found['cells']} cells, {time.monotonic() - begun:.0f} s")


if __name__ == "__main__":
    main(*map(Path, sys.argv[1:]))
