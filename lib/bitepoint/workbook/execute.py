"""Run a notebook from a fresh kernel of this very Python and keep its outputs."""

import os
import subprocess
import sys
from pathlib import Path
from typing import Any

from bitepoint.workbook.kernel import NAME, kernel_spec, without_own_folder
from bitepoint.workbook.notebooks import Notebook
from bitepoint.workbook.save_hook import without_live_views

CELL_SECONDS = 120


def executed(notebook: Notebook, folder: Path) -> Notebook:
    """Return the notebook with the outputs of a fresh run in `folder`; the given one is not changed.

    A cell that raises does not stop the run: its error is an output. Live views are left out.

    Raises
    ------
    nbclient.exceptions.CellTimeoutError, nbclient.exceptions.DeadKernelError
        A cell took longer than 120 s, or the kernel died.
    """
    import nbformat
    from nbclient import NotebookClient

    environment = without_own_folder(os.environ)
    environment.pop("JPY_SESSION_NAME", None)
    node = nbformat.from_dict(_joined_lines(notebook))
    client = NotebookClient(
        node,
        km=_own_kernel(),
        resources={"metadata": {"path": str(folder)}},
        allow_errors=True,
        coalesce_streams=True,
        record_timing=False,
        store_widget_state=False,
        timeout=CELL_SECONDS,
    )
    # A kernel greets with a warning about TCP on its own stderr; what a cell prints goes another way.
    # A kernel given from outside is left running unless told otherwise.
    client.execute(cleanup_kc=True, env=environment, stderr=subprocess.DEVNULL)
    done: Notebook = nbformat.v4.rwbase.split_lines(node)
    without_live_views(done)
    return done


def _own_kernel() -> Any:
    """Return the manager of a kernel by our own specification, whatever is installed under its name."""
    from jupyter_client.kernelspec import KernelSpec, KernelSpecManager
    from jupyter_client.manager import AsyncKernelManager

    class Own(KernelSpecManager):  # type: ignore[misc]
        def get_kernel_spec(self, kernel_name: str) -> KernelSpec:
            return KernelSpec(**kernel_spec())

    return AsyncKernelManager(kernel_name=NAME, kernel_spec_manager=Own())


def use_selector_loop() -> None:
    """Choose the event loop that the kernels' sockets need on Windows."""
    if sys.platform == "win32":
        import asyncio

        asyncio.set_event_loop_policy(asyncio.WindowsSelectorEventLoopPolicy())


def _joined_lines(notebook: Notebook) -> Notebook:
    from copy import deepcopy

    import nbformat

    joined: Notebook = nbformat.v4.rwbase.rejoin_lines(nbformat.from_dict(deepcopy(notebook)))
    return joined
