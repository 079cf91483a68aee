"""Plots of road-test logs: channels over time, engine speed against wheel speed with the gear lines, shake by frequency.

Every plot says what the log holds and not what is wrong. Its alt text reads the plot at moments, so that the question
beside it can be answered without seeing it.
"""

from collections.abc import Sequence
from itertools import groupby
from math import ceil, floor

from bitepoint.errors import OutOfRange
from bitepoint.mechanics.limits import one_of, within
from bitepoint.pictures.axes import Axes, figure, label, round_up, step_between, ticks
from bitepoint.pictures.canvas import BLUE, INK, SHADE, VERMILLION, Canvas, Point
from bitepoint.pictures.registry import Drawing, picture
from bitepoint.workshop.figures import road_speed_kmh
from bitepoint.workshop.roadtests import road_test
from bitepoint.workshop.simulator import Sample
from bitepoint.workshop.vehicles import FRAME, vehicle

CHANNELS = {
    "engine_rpm": ("engine speed", "rpm"),
    "speed_km_h": ("speed of the wheels not driven", "km/h"),
    "driven_wheel_km_h": ("speed of the driven wheels", "km/h"),
    "pedal_pct": ("clutch pedal", "%, 100 is down"),
    "throttle_pct": ("throttle", "%"),
    "gear": ("gear", "0 is neutral"),
    "vibration_g": ("shake", "g"),
}
"""Name in words and unit of each channel of a log."""
_LEFT, _RIGHT = 84, 694
_TITLE, _FOOT = 36, 100
_MOMENTS = 8


@picture("road-test")
def road_test_plot(
    *,
    name: str = "b-5",
    from_s: float = 0,
    to_s: float = 120,
    channels: Sequence[str] = ("engine_rpm", "speed_km_h", "throttle_pct"),
    marks: Sequence[float] = (),
) -> Drawing:
    """Channels of a road-test log over time, one above the other.

    Parameters
    ----------
    name : str
        Name of the log.
    from_s, to_s : float
        Part of the log, 0 to 600 s; what lies after its end is left out.
    channels : sequence of str
        1 to 5 of CHANNELS, without repeating one.
    marks : sequence of float
        Up to 4 moments inside the part, drawn as upright lines P, Q, R, S.
    """
    log = road_test(name)
    for channel in channels:
        one_of("channel", channel, tuple(CHANNELS), "Name a column of the log.")
    if not 1 <= len(set(channels)) == len(channels) <= 5:
        raise OutOfRange("channels", "1 to 5 different columns", ", ".join(channels) or "none", "Plot fewer at a time.")
    part = _between(log.samples, from_s, to_s)
    if len(marks) > 4:
        raise OutOfRange("marks", "at most 4 moments", f"{len(marks)}", "Mark fewer.")
    marked = [(letter, _at(part, moment)) for letter, moment in zip("PQRS", marks, strict=False)]
    high = 140 if len(channels) <= 3 else 106
    top, told = 34 if marked else 12, []
    canvas = Canvas(top + len(channels) * (high + _TITLE) + _FOOT)
    for i, channel in enumerate(channels, start=1):
        panel = _panel(canvas, part, channel, (top + _TITLE, top + _TITLE + high), last=i == len(channels))
        for letter, sample in marked:
            panel.upright(sample.t_s, VERMILLION, dash="9 6")
            if i == 1:
                label(canvas, (panel.at(sample.t_s, 0)[0], top + 8), letter, 21)
        values = [float(getattr(s, channel)) for s in part]
        words, unit = CHANNELS[channel]
        told.append(f"{words} ({unit}) from {min(values):g} to {max(values):g}")
        top += high + _TITLE
    canvas.frame(FRAME)
    return canvas.drawing(
        alt=(
            f"Road test {name} of training vehicle {log.vehicle}, {part[0].t_s:g} to {part[-1].t_s:g} s, one graph under the other "
            f"against time: {'; '.join(told)}. {_story(part, channels)}{_read_marks(marked, channels)}"
        ),
        caption=f"Road test {name}, training vehicle {log.vehicle}, {part[0].t_s:g} to {part[-1].t_s:g} s.",
    )


def _panel(canvas: Canvas, part: Sequence[Sample], channel: str, edges: tuple[float, float], *, last: bool) -> Axes:
    """Draw one channel with its own scale; the seconds stand under the last one."""
    values = [float(getattr(s, channel)) for s in part]
    top, base = edges
    axes = Axes(canvas, (_LEFT, top, _RIGHT, base), x=(part[0].t_s, part[-1].t_s), y=_span(channel, values))
    step = 1.0 if channel == "gear" else step_between(0, 0.94 * (axes.y[1] - axes.y[0]), 5 if base - top > 120 else 4)
    for half in range(ceil(2 * axes.y[0] / step - 1e-9), floor(2 * axes.y[1] / step + 1e-9) + 1):
        value = half * step / 2
        if channel == "gear" and half % 2:
            continue
        canvas.line(axes.at(axes.x[0], value), axes.at(axes.x[1], value), SHADE, 1)
        if half % 2:
            continue
        canvas.text(_LEFT - 8, axes.at(axes.x[0], value)[1] + 6, figure(value, 4), 18, anchor="end")
    for second in ticks(*axes.x, most=10):
        x = axes.at(second, axes.y[0])[0]
        canvas.line((x, top), (x, base), SHADE, 1)
        if last:
            canvas.line((x, base), (x, base + 7))
            canvas.text(x, base + 26, figure(second, 4), 18)
    canvas.rect(_LEFT, top, _RIGHT - _LEFT, base - top, "none", INK, 1.5)
    canvas.text(_LEFT, top - 8, ", ".join(CHANNELS[channel]), 19, anchor="start", bold=True)
    if last:
        canvas.text(_RIGHT, base + 50, "time, s", 19, anchor="end")
    canvas.polyline((axes.at(s.t_s, value) for s, value in zip(part, values, strict=True)), BLUE, 3)
    return axes


def _span(channel: str, values: Sequence[float]) -> tuple[float, float]:
    """Return the scale of a channel: its whole range where that is fixed, else round figures about what is plotted."""
    if channel in ("pedal_pct", "throttle_pct"):
        return -6.0, 106.0
    if channel == "gear":
        return -0.1, max(values) + 0.5
    if channel == "vibration_g":
        return 0.0, round_up(max(0.1, *values), 5)
    least = 200.0 if channel == "engine_rpm" else 4.0
    low, high = min(values), max(min(values) + least, *values)
    step = step_between(low, high, 5)
    base, top = step * int(low / step), step * (int(high / step) + 1)
    # A line that runs along the frame would not be seen.
    return (base - 0.05 * (top - base) if low < base + 0.03 * (top - base) else base), top


def _between(samples: Sequence[Sample], from_s: float, to_s: float) -> list[Sample]:
    within("from_s", from_s, 0, 600, "s", "Seconds since the log began.")
    within("to_s", to_s, 0, 600, "s", "Seconds since the log began.")
    part = [s for s in samples if from_s - 1e-6 <= s.t_s <= to_s + 1e-6]
    if len(part) < 10:
        rule = f"at least 1 s after from_s ({from_s:g} s), within the log's {samples[-1].t_s:g} s"
        raise OutOfRange("to_s", rule, f"{to_s:g} s", "Take a longer part.")
    return part


def _at(part: Sequence[Sample], moment: float) -> Sample:
    within("mark", moment, part[0].t_s, part[-1].t_s, "s", "A mark lies inside the part that is plotted.")
    return min(part, key=lambda s: abs(s.t_s - moment))


def _read(sample: Sample, channels: Sequence[str]) -> str:
    return f"{sample.t_s:g} s: " + ", ".join(f"{CHANNELS[c][0]} {getattr(sample, c):g}" for c in channels)


def _story(part: Sequence[Sample], channels: Sequence[str]) -> str:
    """Read the channels at a few moments, so that the course of each can be followed without seeing it."""
    last = _MOMENTS - 1
    moments = [part[round(i * (len(part) - 1) / last)] for i in range(_MOMENTS)]
    return f"Read at {_MOMENTS} moments, {'; '.join(_read(s, channels) for s in moments)}."


def _read_marks(marked: Sequence[tuple[str, Sample]], channels: Sequence[str]) -> str:
    return (
        f" Marked moments, {'; '.join(f'{letter} at {_read(s, channels)}' for letter, s in marked)}." if marked else ""
    )


@picture("slip-plot")
def slip_plot(*, name: str = "b-5", from_s: float = 0, to_s: float = 120, dial: float = 1.0) -> Drawing:
    """Engine speed against wheel speed, a point each 0.2 s with the clutch pedal up, and the sheet's gear lines.

    Of less throttle the first 1.5 s after full throttle are left out: engine and gearbox are still settling.

    Parameters
    ----------
    name : str
        Name of the log.
    from_s, to_s : float
        Part of the log, 0 to 600 s.
    dial : float
        What the logger writes down for each km/h that the wheels really do, 0.8 to 1.2; not 1 when it was set for
        another size of tyre.
    """
    log = road_test(name)
    within("dial", dial, 0.8, 1.2, "", "1 is a logger set for the tyre of the sheet.")
    v = vehicle(log.vehicle)
    part = [s for s in _between(log.samples, from_s, to_s) if s.gear and s.pedal_pct < 5]
    if not part:
        raise OutOfRange("from_s", "where the car is driven with the pedal up", f"{from_s:g} s", "Take another part.")
    canvas = Canvas(596)
    rpm, kmh = max(s.engine_rpm for s in part), dial * max(max(s.driven_wheel_km_h, s.speed_km_h) for s in part)
    axes = Axes(canvas, (78, 78, 676, 478), x=(0, round_up(rpm * 1.02)), y=(0, round_up(kmh * 1.02)))
    for turns in ticks(*axes.x)[1:]:
        canvas.line(axes.at(turns, 0), axes.at(turns, axes.y[1]), SHADE)
    axes.grid("engine speed, rpm", "wheel speed, km/h")
    told = [_gear_line(axes, gear, road_speed_kmh(v, gear=gear, rpm=1000)) for gear in _gears(log.vehicle)]
    groups = (
        ("driven wheels, less throttle", [(s, s.driven_wheel_km_h) for s in _settled(part)[::2]]),
        ("driven wheels, full throttle", [(s, s.driven_wheel_km_h) for s in part[::2] if s.throttle_pct >= 90]),
        ("wheels not driven, full throttle", [(s, s.speed_km_h) for s in part[::2] if s.throttle_pct >= 90]),
    )
    for i, (_, points) in enumerate(groups):
        for s, wheel in points:
            _marker(canvas, axes.at(s.engine_rpm, dial * wheel), i)
    _key(canvas, [words for words, points in groups if points], [i for i, (_, p) in enumerate(groups) if p])
    canvas.frame(FRAME)
    read = " ".join(
        _told_points(words, [(s, dial * wheel) for s, wheel in points]) for words, points in groups if points
    )
    return canvas.drawing(
        alt=(
            f"Road test {name}, training vehicle {v.id}: wheel speed against engine speed, clutch pedal up. One dashed line "
            f"a gear, in km/h at 1000 rpm {', '.join(told)}. {read}"
        ),
        caption="Dashed: what belongs together in each gear if nothing slips.",
    )


def _settled(part: Sequence[Sample]) -> list[Sample]:
    """Return the lines at less throttle that do not follow full throttle within 1.5 s."""
    full = [s.t_s for s in part if s.throttle_pct >= 90]
    return [s for s in part if s.throttle_pct < 90 and not any(0 < s.t_s - t < 1.5 for t in full)]


def _gears(letter: str) -> range:
    return range(1, len(vehicle(letter).gearbox.ratios) + 1)


def _gear_line(axes: Axes, gear: int, per_1000: float) -> str:
    """Draw the line of a gear with its number at the end; return what it says."""
    end = min(axes.x[1], 1000 * axes.y[1] / per_1000)
    tip = axes.at(end, end * per_1000 / 1000)
    axes.canvas.line(axes.at(0, 0), tip, INK, 1.5, dash="10 6")
    right = end > 0.99 * axes.x[1]
    axes.canvas.text(tip[0] + (14 if right else 0), tip[1] + (7 if right else -3), str(gear), 19, bold=True)
    return f"{gear}: {per_1000:.1f}"


def _marker(canvas: Canvas, place: Point, group: int) -> None:
    """Draw a point: a hollow ring, a filled square, or a cross."""
    x, y = place
    if group == 0:
        canvas.circle(place, 4, "#FFFFFF", BLUE, 2)
    elif group == 1:
        canvas.rect(x - 4, y - 4, 8, 8, VERMILLION, VERMILLION, 0)
    else:
        canvas.line((x - 5, y - 5), (x + 5, y + 5), INK, 2)
        canvas.line((x - 5, y + 5), (x + 5, y - 5), INK, 2)


def _key(canvas: Canvas, words: Sequence[str], groups: Sequence[int]) -> None:
    for place, (text, group) in enumerate(zip(words, groups, strict=True)):
        x, y = 78 + 310 * (place % 2), 18 + 28 * (place // 2)
        _marker(canvas, (x, y), group)
        canvas.text(x + 14, y + 6, text, 18, anchor="start")


def _told_points(words: str, points: Sequence[tuple[Sample, float]]) -> str:
    """Say where the points of each gear begin, are half-way and end."""
    ends = []
    for gear, group in groupby(sorted(points, key=lambda p: (p[0].gear, p[0].t_s)), key=lambda p: p[0].gear):
        own = list(group)
        reads = (f"{s.engine_rpm:g} rpm with {wheel:.1f} km/h" for s, wheel in (own[0], own[len(own) // 2], own[-1]))
        ends.append(f"in gear {gear} {', '.join(reads)}")
    return f"{words[0].upper()}{words[1:]}: {'; '.join(ends)}."
