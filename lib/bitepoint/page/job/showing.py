"""The verb of the notebook: a job's card and, where a page can show them, its forms."""

from bitepoint.errors import BitepointError
from bitepoint.page import output
from bitepoint.page.job.job_panel import JobPanel


def job_forms(folder: str = "") -> None:
    """Show the job in a folder, with its forms; without a folder, where to write it."""
    try:
        panel = JobPanel(folder)
        redraw = output.show_static(panel.card())
        if output.page_watches():
            from bitepoint.page.job.job_widgets import JobWidgets

            JobWidgets(panel, redraw).show()
    except BitepointError as error:
        output.say(error)
