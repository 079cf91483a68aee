"""What shows in a notebook: the verbs ask, show, calculator, summary (and who, for the first lesson)."""

from bitepoint.page.ask import ask
from bitepoint.page.calculate import calculator
from bitepoint.page.show import show
from bitepoint.page.summary import summary
from bitepoint.page.who import who

__all__ = ["ask", "calculator", "show", "summary", "who"]
