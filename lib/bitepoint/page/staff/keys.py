"""A guard beside ordinary fields: JupyterLab's one-letter commands stay off while one of them has the focus."""

from typing import ClassVar

import anywidget


class KeysStayHere(anywidget.AnyWidget):  # type: ignore[misc]
    """Marks every field and button of the box it stands in, now and later, so that typing “dd” deletes no cell."""

    _esm: ClassVar[str] = """
    export default {
      render({ el }) {
        el.style.display = "none";
        const mark = (box) => {
          for (const one of box.querySelectorAll("input, select, textarea, button")) one.dataset.lmSuppressShortcuts = "true";
        };
        const wait = () => {
          const box = el.closest(".widget-vbox");
          if (!box) { requestAnimationFrame(wait); return; }
          mark(box);
          new MutationObserver(() => mark(box)).observe(box, { childList: true, subtree: true });
        };
        wait();
      },
    };
    """

    def __repr__(self) -> str:
        return "KeysStayHere()"
