"""The forms in which a job is filled in on a page, as data: the same entries as from the command line."""

from bitepoint.job.forms.due import begin_form, forms_due
from bitepoint.job.forms.entry_form import EntryForm, FormField

__all__ = ["EntryForm", "FormField", "begin_form", "forms_due"]
