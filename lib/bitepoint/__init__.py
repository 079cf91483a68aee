"""bitepoint: a training course with self-checking exercises for replacing a dry clutch.

A notebook needs four verbs and finds them here: `ask`, `show`, `calculator`, `summary`. That of recall has one of its own: `keep_it`.
They are loaded on first use, so that `import bitepoint` stays quick on the command line.
"""

from typing import TYPE_CHECKING, Any

__version__ = "0.2.0"
__all__ = ["ask", "calculator", "keep_it", "show", "summary"]

if TYPE_CHECKING:
    from bitepoint.page import ask, calculator, keep_it, show, summary


def __getattr__(name: str) -> Any:
    if name in __all__:
        from bitepoint import page

        return getattr(page, name)
    raise AttributeError(f"bitepoint has no {name!r}. It has: {', '.join(__all__)}.")
