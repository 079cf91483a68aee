"""What shows in a notebook: the verbs ask, show, calculator, summary, keep_it (and who, for the first lesson)."""

from bitepoint.page.asking import ask
from bitepoint.page.calculating import calculator
from bitepoint.page.identifying import who
from bitepoint.page.recall import keep_it
from bitepoint.page.showing import show
from bitepoint.page.summing_up import summary

__all__ = ["ask", "calculator", "keep_it", "show", "summary", "who"]
