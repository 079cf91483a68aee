"""Jinja's environment, with a value finalized and escaped in one call, and a short text once."""

from collections.abc import Callable
from functools import lru_cache
from typing import Any

from jinja2 import Environment, nodes
from jinja2.compiler import CodeGenerator
from markupsafe import Markup, escape

_SHORT, _MOST_KEPT = 80, 4096
"""Letters of a text that is kept as it is shown, and how many are kept: ids, titles and figures stand on page after page."""


class _Generator(CodeGenerator):
    """Makes `environment.shown(value)` of `{{ value }}`, where Jinja's own makes `escape(environment.finalize(value))`.

    Both give the same. A Jinja that does not know these hooks makes its own code.
    """

    def _output_child_pre(self, node: Any, frame: Any, finalize: Any) -> None:
        if frame.eval_ctx.volatile or not frame.eval_ctx.autoescape or finalize.src != "environment.finalize(":
            super()._output_child_pre(node, frame, finalize)
        else:
            self.write("environment.shown((")

    def _output_child_to_const(self, node: Any, frame: Any, finalize: Any) -> str:
        if not isinstance(node, nodes.TemplateData):
            raise nodes.Impossible
        return super()._output_child_to_const(node, frame, finalize)


class Escaping(Environment):
    """The environment of every template; `shown` returns a value as it stands on a page."""

    code_generator_class = _Generator

    def __init__(self, *args: Any, **options: Any) -> None:
        super().__init__(*args, **options)
        self.shown = _shown_by(self.finalize or (lambda value: value))


def _shown_by(finalize: Callable[..., Any]) -> Callable[[Any], Markup]:
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

    return shown
