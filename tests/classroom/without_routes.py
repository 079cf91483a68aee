"""Run in a network of its own that leads nowhere: open a bundle by its start file and say as JSON what answered.

Arguments: the start file, the home folder, the folder of the Python to find.
"""

import fcntl
import json
import os
import re
import signal
import socket
import struct
import subprocess
import sys
import time
import urllib.request

_SET_FLAGS, _UP_AND_RUNNING = 0x8914, 0x41
_MOST_SECONDS = 300


def raise_loopback() -> None:
    """Switch on the computer's own loop; a new network has it switched off."""
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as any_socket:
        fcntl.ioctl(any_socket, _SET_FLAGS, struct.pack("16sh", b"lo", _UP_AND_RUNNING))


def outside() -> str:
    """Return what a connection to the outside meets. The address is kept for examples in writing."""
    try:
        socket.create_connection(("192.0.2.1", 80), timeout=5).close()
    except OSError as error:
        return error.strerror or str(error)
    return "connected"


def opened(start: str, home: str, pythons: str) -> dict[str, object]:
    """Open the course as a double click does and ask for its page and its first lesson."""
    begun = time.monotonic()
    world = {"HOME": home, "PATH": f"{pythons}:/usr/bin:/bin", "LANG": "C.UTF-8"}
    process = subprocess.Popen(
        ["sh", start, "--no-browser"],
        env=world,
        cwd="/",
        stdin=subprocess.DEVNULL,
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        text=True,
        encoding="utf-8",
        start_new_session=True,
    )
    signal.signal(signal.SIGALRM, lambda *_: os.killpg(process.pid, signal.SIGKILL))
    signal.alarm(_MOST_SECONDS)
    said = ""
    assert process.stdout is not None
    with process:
        try:
            for line in process.stdout:
                said += line
                if line.startswith("Leave this window open."):
                    break
            answered = asked(said)
        finally:
            os.killpg(process.pid, signal.SIGTERM)
    return {"said": said, "seconds": time.monotonic() - begun, "outside": outside(), **answered}


def asked(said: str) -> dict[str, object]:
    """Return the page at the address that was printed, and how many cells the first lesson has."""
    found = re.search(r"(http://127\.0\.0\.1:\d+)/\S*token=(\w+)", said)
    if not found:
        return {}
    with urllib.request.urlopen(found[0], timeout=60) as answer:
        page = answer.read().decode("utf-8")
    address = f"{found[1]}/api/contents/00-start-here.ipynb?token={found[2]}"
    with urllib.request.urlopen(address, timeout=60) as answer:
        return {"page": page, "cells": len(json.load(answer)["content"]["cells"])}


if __name__ == "__main__":
    raise_loopback()
    json.dump(opened(*sys.argv[1:]), sys.stdout)
