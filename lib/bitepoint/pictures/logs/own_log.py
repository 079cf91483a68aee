"""Pictures of a road-test log of one's own: its course with the stretches that were judged, the slip, the shake."""

from bitepoint.pictures.axes import label
from bitepoint.pictures.canvas import BLUE, VERMILLION, Canvas
from bitepoint.pictures.framing import frame_words
from bitepoint.pictures.logs.channels import draw_panel
from bitepoint.pictures.logs.graphs import slip_interval
from bitepoint.pictures.logs.shake import drawn_apart
from bitepoint.pictures.registry import Drawing
from bitepoint.workshop.own_log import OwnLog, OwnLogResult
from bitepoint.workshop.simulator import Sample

_WORDS = {
    "engine_rpm": "engine speed, rpm",
    "speed_km_h": "road speed, km/h",
    "throttle_pct": "throttle, %",
    "vibration_g": "acceleration of the shake, g (largest between two points)",
}
_MOST_POINTS, _MOMENTS = 500, 8
_HIGH, _TITLE, _FOOT = 140, 36, 100


def own_log_pictures(log: OwnLog, result: OwnLogResult) -> tuple[Drawing, ...]:
    """Return the pictures of a judged log: its course, the slip where a pull was found, the shake where it was worked out."""
    found = [own_log_course(log, result)]
    slip = own_log_slip(result)
    shake = own_log_shake(result)
    return (*found, *(drawing for drawing in (slip, shake) if drawing))


def own_log_course(log: OwnLog, result: OwnLogResult) -> Drawing:
    """Engine speed, road speed and what else the log has over time; the stretches that were judged between upright lines."""
    part = _thinned(log)
    channels = ["engine_rpm", "speed_km_h", *(c for c in ("throttle_pct", "vibration_g") if getattr(log, c))]
    top, told = 34.0, []
    canvas = Canvas(top + len(channels) * (_HIGH + _TITLE) + _FOOT)
    for i, channel in enumerate(channels, start=1):
        edges = (top + _TITLE, top + _TITLE + _HIGH)
        panel = draw_panel(canvas, part, channel, edges, last=i == len(channels), words=_WORDS[channel])
        for letter, colour, start, end in _marks(result):
            for moment in (start, end):
                panel.upright(moment, colour, dash="9 6")
            if i == 1:
                label(canvas, (panel.at((start + end) / 2, 0)[0], top + 8), letter, 21)
        values = [float(getattr(s, channel)) for s in part]
        told.append(f"{_WORDS[channel]}, from {min(values):.4g} to {max(values):.4g}")
        top += _HIGH + _TITLE
    canvas.frame(frame_words())
    marked = "; ".join(
        f"{letter} from {start:.1f} to {end:.1f} s is {_MEANS[letter]}" for letter, _, start, end in _marks(result)
    )
    return canvas.drawing(
        alt=(
            f"Log {log.name} of vehicle {result.vehicle}, {part[-1].t_s:.1f} s, one graph under the other against time: "
            f"{'; '.join(told)}. {_story(part)} {marked or 'No stretch was judged'}."
        ),
        caption=f"Log {log.name}, gear {result.gear}. {marked or 'No stretch was judged'}.",
    )


_MEANS = {"P": "the pull", "L": "the light foot"}


def _marks(result: OwnLogResult) -> list[tuple[str, str, float, float]]:
    stretches = (("P", VERMILLION, result.slip.pull), ("L", BLUE, result.slip.light))
    return [(letter, colour, s.start_s, s.end_s) for letter, colour, s in stretches if s]


def _thinned(log: OwnLog) -> list[Sample]:
    """Return so many rows at most; of the shake the largest of those between."""
    each = -(-len(log) // _MOST_POINTS)
    found = []
    for i in range(0, len(log), each):
        shake = max(map(abs, log.vibration_g[i : i + each]), default=0.0)
        throttle = log.throttle_pct[i] if log.throttle_pct else 0.0
        speed = log.speed_km_h[i]
        found.append(Sample(log.t_s[i], log.engine_rpm[i], speed, speed, 0, throttle, 0, shake))
    return found


def _story(part: list[Sample]) -> str:
    last = _MOMENTS - 1
    moments = [part[round(i * (len(part) - 1) / last)] for i in range(_MOMENTS)]
    read = "; ".join(f"{s.t_s:.1f} s: {s.engine_rpm:.0f} rpm, {s.speed_km_h:.1f} km/h" for s in moments)
    return f"Read at {_MOMENTS} moments, {read}."


def own_log_slip(result: OwnLogResult) -> Drawing | None:
    """Engine against gearbox input in the pull, and the slip that decides, with its uncertainty."""
    pull = result.slip.pull
    if pull is None:
        return None
    slip, expanded = pull.slip_percent, pull.uncertainty_percent
    if result.slip.rise_percent is not None and result.slip.rise_uncertainty_percent is not None:
        slip, expanded = result.slip.rise_percent, result.slip.rise_uncertainty_percent
    drawn = slip_interval(
        engine_rpm=pull.engine_rpm,
        input_rpm=pull.engine_rpm * (1 - slip / 100),
        slip_pct=slip,
        expanded_pct=expanded,
    )
    against = "against the light foot in the same gear" if result.slip.light else "from the sheet's ratio and tyre"
    words = f"Slip in the pull, gear {result.gear}, {against}: {result.slip.outcome}."
    return Drawing(drawn.content, f"{words} {drawn.alt}", words, drawn.regions, drawn.width_px)


def own_log_shake(result: OwnLogResult) -> Drawing | None:
    """How high the shake of moving off is at each frequency and at each order of the slip; None where it was not worked out."""
    shake = result.shake
    if shake is None or not shake.frequencies:
        return None
    return drawn_apart(
        {"time": shake.frequencies, "slip": shake.orders},
        opening=(
            f"Shake of vehicle {result.vehicle} while moving off, {shake.start_s:.1f} to {shake.end_s:.1f} s of log {result.name}, "
            f"taken apart. The whole shake is {shake.level_g:.3f} g r.m.s."
        ),
        caption=f"How strongly the car shakes while it moves off: {shake.outcome}.",
    )
