"""The one way of making HTML: Jinja templates, every text escaped by construction, a name that is missing refused.

Jinja is loaded with the first page or card, so that the command line starts without it.
"""

from collections.abc import Callable, Mapping
from functools import lru_cache
from pathlib import Path
from typing import TYPE_CHECKING, Any

from bitepoint.printable import on_page

if TYPE_CHECKING:
    from jinja2 import Environment

_SHORT, _MOST_KEPT = 80, 4096
"""Letters of a text that is kept as it is shown, and how many are kept: ids, titles and figures stand on page after page."""


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

    made = _environment_class()(
        loader=FileSystemLoader(folders, encoding="utf-8"),
        autoescape=True,
        undefined=StrictUndefined,
        finalize=(lambda value: on_page(finalize(value))) if finalize else on_page,
        auto_reload=False,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    made.filters.update(filters or {})
    return made


@lru_cache(maxsize=1)
def _environment_class() -> type["Environment"]:
    """Return an environment whose templates finalize and escape a value in one call, and short texts once.

    The code that Jinja makes of `{{ value }}` calls `escape(finalize(value))`; what it calls here gives the same. A Jinja
    that does not know this hook makes its own code.
    """
    from jinja2 import Environment
    from jinja2.compiler import CodeGenerator
    from markupsafe import Markup, escape

    class Generator(CodeGenerator):
        def _output_child_pre(self, node: Any, frame: Any, finalize: Any) -> None:
            if frame.eval_ctx.volatile or not frame.eval_ctx.autoescape or finalize.src != "environment.finalize(":
                super()._output_child_pre(node, frame, finalize)
            else:
                self.write("environment.shown((")

    class Escaping(Environment):
        code_generator_class = Generator

        def __init__(self, *args: Any, **options: Any) -> None:
            super().__init__(*args, **options)
            finalize: Callable[[Any], Any] = self.finalize or on_page

            @lru_cache(maxsize=_MOST_KEPT)
            def kept(value: str | int) -> Markup:
                return escape(finalize(value))

            def shown(value: Any) -> Markup:
                kind = type(value)
                if kind is Markup:
                    return value  # type: ignore[no-any-return]
                # Only these two kinds are kept, because True and 1.0 equal 1 and are written otherwise.
                if kind is int or (kind is str and len(value) <= _SHORT):
                    return kept(value)
                return escape(finalize(value))

            self.shown = shown

    return Escaping
