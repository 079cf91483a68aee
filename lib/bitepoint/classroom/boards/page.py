"""The board's pages: a fragment that is fetched again and again, and the whole page around it."""

from base64 import b64encode
from collections.abc import Mapping
from datetime import datetime
from functools import cache
from hashlib import sha256
from pathlib import Path
from typing import Any, Literal

from msgspec import Struct

from bitepoint.bank.coverage import left_out
from bitepoint.classroom.boards import recall_tables, tables
from bitepoint.classroom.boards.following import FollowedClass
from bitepoint.classroom.render import render

FOLLOW, AGAIN, ALL = "follow", "again", "all"
PARTS = ("right at first", "right later", "not right yet", "stuck", "answered")
_HERE = Path(__file__).parent


class View(Struct, frozen=True):
    """What is asked for: the wall or the names, and of the wall one lesson, all, the one the class is in, or what it is forgetting."""

    kind: Literal["wall", "names", "both"]
    lesson: str = FOLLOW


@cache
def asset(name: str) -> str:
    """Return the text of board.css or board.js."""
    return (_HERE / name).read_text(encoding="utf-8")


@cache
def _hash(name: str) -> str:
    return "'sha256-" + b64encode(sha256(asset(name).encode("utf-8")).digest()).decode("ascii") + "'"


def policy(*, live: bool) -> str:
    """Return the Content-Security-Policy: our style, our script and nothing else; where it is live, fetching from here."""
    rules = ["default-src 'none'", f"style-src {_hash('board.css')}", "base-uri 'none'", "form-action 'none'"]
    return "; ".join([*rules, f"script-src {_hash('board.js')}", "connect-src 'self'"] if live else rules)


def _rendered(template: str, **values: Any) -> str:
    """Return a page that can be sent: a file name that is no text shows its bytes as numbers."""
    return render(template, **values).encode("utf-8", "backslashreplace").decode("utf-8")


def fragment(of: FollowedClass, view: View, now: datetime) -> str:
    """Return what stands inside the page's main part."""
    board, group = of.board, of.group
    gone = left_out(group.cars)
    names = None
    if view.kind != "wall":
        names = tables.names(board, now, shown=group.called, roster=group.roster, in_workbooks=of.workbook_learners())
    return _rendered(
        "board-part.html.jinja",
        walls=[] if view.kind == "names" else [tables.wall(board, key, left_out=gone) for key in _lessons(of, view)],
        now=tables.now_of(board, now, group.roster),
        names=names,
        recall=recall_tables.recall_wall(board) if view.kind != "names" and view.lesson in (AGAIN, ALL) else None,
        recall_troubles=recall_tables.recall_troubles(board, now, shown=group.called) if names else (),
        said=of.said()[: tables.MOST] if names else [],
        said_count=len(of.said()) if names else 0,
        waiting=of.watch.waiting,
        ready=of.ready,
        trouble=of.trouble,
        parts=PARTS,
        books=len(of.watch.books),
        clock=now.astimezone(),
    )


def _lessons(of: FollowedClass, view: View) -> list[str]:
    if view.lesson == AGAIN:
        return []
    if view.lesson == ALL:
        begun = {e.partition(".")[0] for cells in of.board.cells.values() for e in cells}
        return [key for key in of.lessons if key in begun] or of.lessons[:1]
    if view.lesson in of.lessons:
        return [view.lesson]
    return [tables.current_lesson(of.board, of.lessons)]


def whole_page(
    of: FollowedClass, view: View, inside: str, *, version: str, address: str, links: Mapping[str, str]
) -> str:
    """Return the page around a fragment.

    Parameters
    ----------
    of, view, inside
        The class, what is shown, and the fragment.
    version
        Of the fragment.
    address
        Where the fragment is fetched again; "" for a page that stays as it is.
    links
        Where other lessons are, by key; empty: no links.
    """
    return _rendered(
        "board.html.jinja",
        group=of.group,
        view=view,
        inside=inside,
        stamp=version,
        address=address,
        links=[(key, _called(key), links[key]) for key in (FOLLOW, *of.lessons, AGAIN, ALL) if key in links],
        policy=policy(live=bool(address)),
        style=asset("board.css"),
        script=asset("board.js"),
    )


def _called(key: str) -> str:
    return {FOLLOW: "Where the class is", AGAIN: "What fades", ALL: "All lessons"}.get(key) or tables.title_of(key)
