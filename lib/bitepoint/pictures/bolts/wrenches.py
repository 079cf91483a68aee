"""The torque wrench: where to hold it, a crow-foot that moves the drive, a straight bar that does not."""

from math import cos, radians, sin

from bitepoint.mechanics.wrench import straight_bar_setting_nm, wrench_setting_nm
from bitepoint.pictures.canvas import (
    BLUE,
    INK,
    METAL,
    ORANGE,
    PALE,
    SHADE,
    SKY,
    VERMILLION,
    WHITE,
    Canvas,
    Point,
    on_circle,
)
from bitepoint.pictures.registry import Drawing, Shape, picture


@picture("crow-foot")
def crow_foot(*, lever_mm: float = 400, offset_mm: float = 60, angle_deg: float = 0) -> Drawing:
    """A torque wrench with a crow-foot from above, to scale: lever L, offset E, angle a."""
    wrench_setting_nm(1, lever_mm=lever_mm, offset_mm=offset_mm, angle_deg=angle_deg)  # refuses what cannot be
    side = offset_mm * sin(radians(angle_deg))
    ahead = offset_mm * cos(radians(angle_deg))
    scale = min(560 / (lever_mm + max(0.0, ahead) + 0.12 * lever_mm), 190 / max(side, 1.0))
    level = 130 + side * scale
    canvas = Canvas(level + 250)
    drive = (60 + 0.12 * lever_mm * scale + lever_mm * scale, level)
    grip = (drive[0] - lever_mm * scale, level)
    bolt = (drive[0] + ahead * scale, level - side * scale)
    _wrench_from_above(canvas, drive, grip)
    _crow_foot_body(canvas, drive, bolt, angle_deg)
    canvas.arrow((grip[0], level + 110), (grip[0], level + 34), VERMILLION, 5)
    canvas.text(grip[0] + 14, level + 100, "pull here, square to the handle", 18, anchor="start")
    _mark_lengths(canvas, drive, grip, bolt, lever_mm, offset_mm, angle_deg)
    lever = "L + E" if angle_deg == 0 else "L + E × cos a"
    canvas.text(360, level + 220, f"setting = torque × L ÷ ({lever})", 22, bold=True)
    return canvas.drawing(
        alt=(
            f"Torque wrench from above with a crow-foot. Lever L, from the grip mark to the centre of the square drive, "
            f"{lever_mm:g} mm. Offset E, from the square drive to the centre of the bolt, {offset_mm:g} mm, "
            f"at {angle_deg:g} degrees to the handle. An arrow shows the pull at the grip mark."
        ),
        caption=_what_it_does(offset_mm, angle_deg),
    )


def _what_it_does(offset_mm: float, angle_deg: float) -> str:
    """Return what a crow-foot at this angle does to the lever, and so to the setting."""
    if offset_mm == 0:
        return "The bolt lies right under the drive: the setting stays the torque of the sheet."
    if angle_deg == 90:
        return (
            "Square to the handle the crow-foot leaves the lever as it is: the setting stays the torque of the sheet."
        )
    if angle_deg < 90:
        return "The crow-foot points away from the hand and lengthens the lever: set less than the torque of the sheet."
    return "The crow-foot points back to the hand and shortens the lever: set more than the torque of the sheet."


def _wrench_from_above(canvas: Canvas, drive: Point, grip: Point) -> None:
    y = drive[1]
    canvas.rect(grip[0] - 42, y - 17, 96, 34, SHADE, round=10)
    canvas.rect(grip[0] + 54, y - 9, drive[0] - grip[0] - 54, 18, METAL)
    canvas.line((grip[0], y - 26), (grip[0], y + 26), VERMILLION, 4)
    canvas.circle(drive, 30, METAL)


def _crow_foot_body(canvas: Canvas, drive: Point, bolt: Point, angle_deg: float) -> None:
    across = (sin(radians(angle_deg)) * 15, cos(radians(angle_deg)) * 15)
    corners = [(drive[0] - across[0], drive[1] - across[1]), (bolt[0] - across[0], bolt[1] - across[1])]
    corners += [(bolt[0] + across[0], bolt[1] + across[1]), (drive[0] + across[0], drive[1] + across[1])]
    if drive != bolt:
        canvas.polygon(corners, SKY)
        canvas.bolt(bolt, 26, fill=ORANGE)
        canvas.circle(bolt, 4, INK)
    canvas.rect(drive[0] - 11, drive[1] - 11, 22, 22, WHITE)
    canvas.circle(drive, 4, INK)


def _mark_lengths(
    canvas: Canvas, drive: Point, grip: Point, bolt: Point, lever_mm: float, offset_mm: float, angle_deg: float
) -> None:
    below = drive[1] + 150
    canvas.line((grip[0], drive[1] + 112), (grip[0], below), SHADE, 2)
    canvas.line((drive[0], drive[1] + 34), (drive[0], below), SHADE, 2)
    canvas.dimension((grip[0], below), (drive[0], below), "", above=False)
    middle = max((grip[0] + drive[0]) / 2, 230.0)
    canvas.text(middle, below + 26, f"L = {lever_mm:g} mm, drive centre to grip mark", 20, bold=True)
    words = f"E = {offset_mm:g} mm" + (f", a = {angle_deg:g}°" if angle_deg else "")
    if not angle_deg:
        top = drive[1] - 56
        canvas.line((drive[0], top), (drive[0], drive[1] - 34), SHADE, 2)
        canvas.line((bolt[0], top), (bolt[0], bolt[1] - 28), SHADE, 2)
        canvas.line((drive[0], top), (bolt[0], top), INK, 2)
        for x in (drive[0], bolt[0]):
            canvas.line((x, top - 9), (x, top + 9))
        canvas.text((drive[0] + bolt[0]) / 2, top - 14, words, 20, bold=True)
    else:
        canvas.line(drive, bolt, INK, 2, dash="7 5")
        canvas.line(drive, (drive[0] + 74, drive[1]), INK, 2, dash="7 5")
        arc = [on_circle(*drive, 58, 90 - angle_deg * k / 12) for k in range(13)]
        canvas.polyline(arc, INK, 2)
        canvas.text(min(bolt[0], 560), min(bolt[1] - 40, drive[1] - 72), words, 20, bold=True)
    end = drive[0] > 570
    canvas.text(drive[0] + (-38 if end else 38), drive[1] + 54, "crow-foot", 18, anchor="end" if end else "start")


@picture("straight-bar")
def straight_bar(*, lever_mm: float = 400, bar_mm: float = 75) -> Drawing:
    """A torque wrench from the side with a straight bar between wrench and socket."""
    straight_bar_setting_nm(1, bar_mm=bar_mm)
    axis, top = 560.0, 116.0
    length = min(max(bar_mm * 420 / lever_mm, 70.0), 200.0)  # to scale, but never too short to see
    canvas = Canvas(top + length + 160)
    grip = axis - 420
    canvas.rect(grip - 42, top - 16, 96, 32, SHADE, round=10)
    canvas.rect(grip + 54, top - 8, 420 - 54 - 28, 16, METAL)
    canvas.rect(axis - 30, top - 22, 60, 44, METAL, round=6)
    canvas.line((grip, top - 25), (grip, top + 25), VERMILLION, 4)
    canvas.rect(axis - 11, top + 22, 22, length, SKY)
    canvas.rect(axis - 24, top + 22 + length, 48, 44, METAL)
    foot = top + 66 + length
    canvas.polygon([(axis - 20, foot), (axis + 20, foot), (axis + 26, foot + 26), (axis - 26, foot + 26)], ORANGE)
    canvas.rect(axis - 120, foot + 26, 240, 40, PALE)
    canvas.line((axis, top - 40), (axis, foot + 78), BLUE, 2, dash="14 5 3 5")
    canvas.text(axis - 36, top + 26 + length / 2, f"straight bar, {bar_mm:g} mm", 18, anchor="end", bold=True)
    canvas.text(axis - 36, top + 52 + length, "socket", 18, anchor="end")
    canvas.text(axis - 36, foot + 18, "bolt", 18, anchor="end")
    canvas.dimension((grip, top - 54), (axis, top - 54), f"L = {lever_mm:g} mm: the same with and without the bar")
    canvas.lines(
        40,
        top + 90,
        ("Bar in line with the bolt:", "the lever stays the same,", "the setting stays the same."),
        22,
        anchor="start",
    )
    return canvas.drawing(
        alt=(
            f"Torque wrench from the side. A straight bar of {bar_mm:g} mm stands between the wrench and the socket, in line "
            f"with the bolt. The lever L from the bolt's axis to the grip mark is {lever_mm:g} mm with and without the bar."
        ),
        caption="A straight bar between wrench and socket changes nothing: set the torque of the sheet.",
    )


@picture("wrench-grip")
def wrench_grip() -> Drawing:
    """A torque wrench with three named places: grip, shaft, head."""
    canvas = Canvas(265)
    y = 120.0
    canvas.rect(216, y - 13, 330, 26, METAL)
    canvas.rect(232, y - 9, 60, 18, WHITE)
    canvas.text(262, y + 6, "N·m", 16)
    canvas.rect(40, y - 24, 176, 48, SHADE, round=14)
    for rib in range(62, 206, 16):
        if abs(rib - 128) > 14:
            canvas.line((rib, y - 20), (rib, y + 20), INK, 2)
    canvas.line((128, y - 36), (128, y + 36), VERMILLION, 5)
    canvas.text(128, y - 46, "grip mark", 18, bold=True)
    canvas.circle((600, y), 54, METAL)
    canvas.rect(584, y - 16, 32, 32, WHITE)
    canvas.text(600, y - 66, "square drive", 18, bold=True)
    shapes = (
        Shape("grip", "the grip, at its mark", "rect", (36, y - 40, 184, 80)),
        Shape("shaft", "the shaft, between grip and head", "rect", (224, y - 40, 316, 80)),
        Shape("head", "the head, over the drive", "rect", (542, y - 58, 116, 116)),
    )
    for shape in shapes:
        x, top, width, height = shape.points
        canvas.line((x + 4, y + 76), (x + width - 4, y + 76), BLUE, 3)
        canvas.line((x + width / 2, y + 76), (x + width / 2, y + 92), BLUE, 3)
        canvas.text(x + width / 2, y + 118, shape.key, 26, bold=True)
    return canvas.drawing(
        alt=(
            "Click torque wrench lying flat. From left to right, three named places: the grip with a mark across its middle, "
            "the shaft with the scale, and the head with the square drive."
        ),
        caption="The three places of a torque wrench.",
        regions=shapes,
    )
