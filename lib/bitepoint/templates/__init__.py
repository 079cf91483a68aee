"""The one way of making HTML: Jinja templates, every text escaped by construction, a name that is missing refused.

Jinja is loaded with the first page or card, so that the command line starts without it.
"""

from collections.abc import Callable, Mapping
from pathlib import Path
from typing import TYPE_CHECKING, Any

from bitepoint.printable import on_page

if TYPE_CHECKING:
    from jinja2 import Environment


def environment(
    *folders: Path,
    filters: Mapping[str, Callable[..., Any]] | None = None,
    finalize: Callable[[Any], Any] | None = None,
) -> "Environment":
    """Return the environment for the templates in these folders.

    Parameters
    ----------
    folders
        Where the templates lie, beside the modules that fill them.
    filters
        What they use beyond Jinja's own.
    finalize
        Takes each value that is not marked as safe before it is escaped; then each character that cannot be printed is
        written out.
    """
    from jinja2 import FileSystemLoader, StrictUndefined

    from bitepoint.templates.compiled import Compiled
    from bitepoint.templates.escaping import Escaping

    made = Escaping(
        loader=FileSystemLoader(folders, encoding="utf-8"),
        autoescape=True,
        undefined=StrictUndefined,
        finalize=(lambda value: on_page(finalize(value))) if finalize else on_page,
        auto_reload=False,
        bytecode_cache=Compiled(),
        # What is compiled must hang on nothing but the template, for it is kept: no filter is called while compiling.
        optimized=False,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    made.filters.update(filters or {})
    return made
