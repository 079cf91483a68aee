"""What the notebook of a job under supervision imports: its forms, over the same record as the command line."""

from bitepoint.page.job.showing import job_forms

__all__ = ["job_forms"]
