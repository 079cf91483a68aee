"""What the course serves: elements of public competence lists by lesson, and what only a workshop can show."""

from functools import cache

import msgspec
from msgspec import Struct

from bitepoint import places
from bitepoint.errors import BadData
from bitepoint.sources import Seen


class Element(Struct, frozen=True, forbid_unknown_fields=True):
    """One element of a public competence list: its reference there, the list, and what it asks in our words."""

    key: str
    list: str
    says: str
    seen: Seen


class Served(Struct, frozen=True, forbid_unknown_fields=True):
    """What one lesson serves, and what about it only observation in a workshop shows."""

    serves: tuple[str, ...]
    observed: str


class Point(Struct, frozen=True, forbid_unknown_fields=True):
    """One point of the job with the exercises that test it."""

    says: str
    exercises: tuple[str, ...]


class CourseMap(Struct, frozen=True, forbid_unknown_fields=True):
    """The whole map."""

    elements: tuple[Element, ...]
    lessons: dict[str, Served]
    points: tuple[Point, ...] = ()


@cache
def course_map() -> CourseMap:
    """Return the map.

    Raises
    ------
    BadData
        Names the file, the key and the rule.
    """
    path = places.assets() / "course-map.toml"
    try:
        found = msgspec.toml.decode(path.read_bytes(), type=CourseMap)
    except (OSError, msgspec.MsgspecError, UnicodeDecodeError) as error:
        raise BadData(f"{path.name}: {error}. Correct that key.") from None
    known = {element.key for element in found.elements}
    for lesson, served in found.lessons.items():
        for key in served.serves:
            if key not in known:
                raise BadData(f"{path.name}: lessons.{lesson}.serves: {key!r} is no element. Add it or correct it.")
    return found
