"""What a job prints: cards to work by, its record, the customer's page, the label, and the list of what belongs together."""

from bitepoint.job.pages.pages import pages_of, write_pages

__all__ = ["pages_of", "write_pages"]
