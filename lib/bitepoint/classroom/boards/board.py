"""The board: a followed class shown as a page."""

from collections.abc import Mapping
from datetime import UTC, datetime
from pathlib import Path

from bitepoint.classroom.boards.following import FollowedClass
from bitepoint.classroom.boards.group import Group
from bitepoint.classroom.boards.page import View, fragment, whole_page


class Board(FollowedClass):
    """A followed class and its pages; any thread may ask for a page."""

    def __init__(self, folder: Path, group: Group | None = None, *, codes: Path | None = None) -> None:
        super().__init__(folder, group, codes=codes)
        self._pages: dict[View, tuple[str, str]] = {}

    def part(self, view: View, now: datetime | None = None) -> tuple[str, str]:
        """Return (version, fragment) of a view; the same version means the same fragment."""
        now = now or datetime.now(UTC)
        with self.lock:
            version = f"{self.board.changed}.{self.watch.waiting}.{now:%H%M}.{bool(self.trouble):d}"
            if self._pages.get(view, ("",))[0] != version:
                self._pages[view] = (version, fragment(self, view, now))
            return self._pages[view]

    def page(
        self, view: View, *, now: datetime | None = None, address: str = "", links: Mapping[str, str] | None = None
    ) -> str:
        """Return a whole page; with an address it refreshes itself from there."""
        version, inside = self.part(view, now)
        return whole_page(self, view, inside, version=version, address=address, links=links or {})
