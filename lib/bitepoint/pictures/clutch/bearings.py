"""The release bearing of the section: on a sleeve with a fork, or on a concentric slave cylinder."""

from bitepoint.pictures.clutch.sizes import SectionPart, Sizes
from bitepoint.pictures.strokes import SPRING, STEEL, arc, box


def _tip(s: Sizes) -> float:
    return s.thick + 16.5 + 6 + 1.3 - s.travel + s.clear


def sleeve(s: Sizes) -> list[SectionPart]:
    x, r = _tip(s), s.shaft + 6
    wall = s.thick + 72
    tube = [
        (s.thick + 34, s.shaft + 3),
        (s.thick + 34, r),
        (wall, r),
        (wall, r + 12),
        (wall + 7, r + 12),
        (wall + 7, s.shaft + 3),
    ]
    inner = [(x, r + 3), (x, r + 9), (x + 4, r + 10.5), (x + 13, r + 10.5), (x + 13, r + 3)]
    carrier = [
        (x + 2, r + 20.5),
        (x + 15, r + 20.5),
        (x + 15, r + 0.8),
        (x + 34, r + 0.8),
        (x + 34, r + 3.2),
        (x + 18.5, r + 3.2),
        (x + 18.5, r + 23),
        (x + 2, r + 23),
    ]
    outer = [(x + 3, r + 15.5), (x + 3, r + 20.5), (x + 14, r + 20.5), (x + 14, r + 15.5)]
    ball = arc((x + 8.5, r + 13), 3.6, 0, 360)
    fork = [
        (x + 19, r + 2),
        (x + 19, r + 15),
        (x + 22, r + 20),
        (x + 24, r + 46),
        (x + 28, r + 46),
        (x + 27, r + 18),
        (x + 25, r + 2),
    ]
    return [
        SectionPart("guide-tube", "guide tube", (tuple(tube),), STEEL, 45, 8),
        SectionPart(
            "release-bearing", "release bearing", (tuple(carrier), tuple(inner), tuple(outer), tuple(ball)), STEEL, None
        ),
        SectionPart("fork", "release fork", (tuple(fork),), STEEL, 135, 7),
    ]


def concentric(s: Sizes) -> list[SectionPart]:
    x, r = _tip(s), s.shaft + 3
    wall = s.thick + 78
    inner = [(x, r + 5), (x, r + 11), (x + 4, r + 12.5), (x + 12, r + 12.5), (x + 12, r + 5)]
    carrier = [
        (x + 2, r + 22),
        (x + 15, r + 22),
        (x + 15, r + 3),
        (x + 20, r + 3),
        (x + 20, r + 7),
        (x + 18, r + 7),
        (x + 18, r + 24.5),
        (x + 2, r + 24.5),
    ]
    outer = [(x + 3, r + 17.5), (x + 3, r + 22), (x + 14, r + 22), (x + 14, r + 17.5)]
    piston = box(x + 20, r + 2.4, 14, 4.6)
    body = [
        (wall - 34, r),
        (wall - 34, r + 2.2),
        (wall - 4, r + 2.2),
        (wall - 4, r + 7.2),
        (wall - 34, r + 7.2),
        (wall - 34, r + 11),
        (wall - 10, r + 11),
        (wall - 8, r + 17),
        (wall, r + 17),
        (wall, r),
    ]
    return [
        SectionPart(
            "release-bearing",
            "release bearing",
            (tuple(carrier), tuple(inner), tuple(outer), tuple(arc((x + 8, r + 15), 3.4, 0, 360))),
            STEEL,
            None,
        ),
        SectionPart("concentric-slave", "concentric slave cylinder", (tuple(body),), STEEL, 45, 7),
        SectionPart("piston", "ring piston", (tuple(piston),), SPRING, 135, 6),
    ]
