"""What a heading over a column says: which channel, in which unit."""

import re

from bitepoint.workshop.own_logs.log_map import CLOCK

_WORDS = {
    "time": r"time|zeit|temps|t|seconds?|elapsed|timestamp|uhrzeit",
    "engine": r"rpm|engine|motor|\w*drehzahl|revs?|n|regime|crankshaft|engine ?speed",
    "speed": r"speed|velocity|v|kmh|geschwindigkeit|vitesse|gps ?speed|wheel ?speed",
    "throttle": r"throttle|pedal ?position|accelerator|tps|gaspedal",
    "gear": r"gear|gang|rapport",
    "vibration": r"acc|accel|acceleration|vibration|shake|vib|beschleunigung|seat",
}
_UNITS = {
    "time": {"s": r"s|sec|secs|seconds?", "ms": r"ms|msec|milliseconds?", "min": r"min|minutes?", CLOCK: r"h+:m+:s+(\.?[fs0]+)?"},
    "engine": {"rpm": r"rpm|1/min|min-1|min⁻¹|u/min|r/min", "rad/s": r"rad/s", "1/s": r"1/s|s-1|rev/s", "Hz": r"hz"},
    "speed": {"km/h": r"km/?h|kph", "mph": r"mph|mi/h", "m/s": r"m/s"},
    "throttle": {"%": r"%|pct|percent"},
    "vibration": {"g": r"g", "m/s²": r"m/s²|m/s2|m/s\^2|ms-2"},
}  # fmt: skip
_LONGEST = 200
_NOT = {
    "speed": r"engine|motor|crankshaft|input",
    "engine": r"wheel|vehicle|road|input|oil|coolant|brake|light|load|torque|temp\w*|pressure|fuel",
}
"""A heading with such a word is of something else: “engine speed” is no road speed."""


def name_and_unit(cell: str) -> tuple[str, str]:
    """Return name and unit of a heading such as "Speed (mph)", "Speed [mph]", "speed in mph", "speed_mph"."""
    # Of a line of spaces the expression below would try every way to share them out.
    text = " ".join(cell[:_LONGEST].casefold().split())
    found = re.fullmatch(r"(.*?) ?(?:[(\[] ?([^)\]]*?) ?[)\]]|\bin (\S+)|[_/] ?([a-z0-9%/²]+))", text)
    if not found:
        return text, ""
    return found[1], next((unit for unit in found.groups()[1:] if unit is not None), "")


def channels_of(cell: str) -> list[str]:
    name = name_and_unit(cell)[0].replace("_", " ")
    return [
        c
        for c, words in _WORDS.items()
        if re.search(rf"(?<![^\W_])(?:{words})(?![^\W_])", name) and not _is_other(c, name)
    ]


def _is_other(channel: str, name: str) -> bool:
    return channel in _NOT and re.search(_NOT[channel], name) is not None


def unit_of(channel: str, *texts: str) -> str:
    for text in texts:
        for unit, pattern in _UNITS.get(channel, {}).items():
            if re.fullmatch(pattern, text[:_LONGEST].strip().casefold().strip("[]()")):
                return unit
    return ""
