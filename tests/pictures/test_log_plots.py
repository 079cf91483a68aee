"""Plots of road-test logs: what is drawn, what the alt text tells, the same bytes twice."""

import struct
from typing import Any

import pytest

from bitepoint.errors import BadData, OutOfRange
from bitepoint.pictures import draw, log_plots
from bitepoint.workshop.figures import road_speed_kmh
from bitepoint.workshop.roadtests import RECIPES, road_test
from bitepoint.workshop.vehicles import FRAME, vehicle

KEYS = ("road-test", "slip-plot", "order-spectrum")


@pytest.fixture
def kept(monkeypatch: pytest.MonkeyPatch) -> list[Any]:
    """Figures as they go out, so that what is in them can be looked at."""
    figures: list[Any] = []
    saved = log_plots._png

    def keep(figure: Any) -> bytes:
        figures.append(figure)
        return saved(figure)

    monkeypatch.setattr(log_plots, "_png", keep)
    return figures


def lines(figure: Any) -> dict[str, Any]:
    """Lines of a figure by their names."""
    return {line.get_gid(): line for axes in figure.axes for line in axes.get_lines()}


@pytest.mark.parametrize("key", KEYS)
def test_a_plot_is_the_same_bytes_twice_and_720_dots_wide(key: str) -> None:
    """Deterministic, of fixed width, with the training vehicle's frame in the caption."""
    drawing = draw(key)
    assert isinstance(drawing.content, bytes)
    assert drawing == draw(key)
    assert struct.unpack(">I", drawing.content[16:20]) == (720,)
    assert FRAME in drawing.caption


@pytest.mark.parametrize("key", KEYS)
def test_words_are_large_and_axes_name_their_unit(key: str, kept: list[Any]) -> None:
    """At least 12 pt and 16 dots; every axis with words says in what it is counted."""
    draw(key)
    (figure,) = kept
    assert figure.get_suptitle() == FRAME
    for axes in figure.axes:
        told = [axes.xaxis.label, axes.yaxis.label, *axes.get_yticklabels(), *axes.texts]
        assert min(text.get_fontsize() for text in told) * figure.dpi / 72 >= 16
        for words in (axes.get_xlabel(), axes.get_ylabel()):
            assert not words or any(unit in words for unit in (", ", ",\n", "order of"))


def test_the_log_itself_is_drawn(kept: list[Any]) -> None:
    """Each channel's line holds the samples of the part asked for, told apart by colour and dash."""
    channels = ("engine_rpm", "speed_km_h", "driven_wheel_km_h", "pedal_pct", "gear")
    drawing = draw("road-test", name="b-2", from_s=14, to_s=28, channels=channels)
    part = [s for s in road_test("b-2").samples if 14 <= s.t_s <= 28]
    drawn = lines(kept[0])
    for channel in channels:
        assert list(drawn[channel].get_ydata()) == [getattr(s, channel) for s in part]
    assert len({(drawn[c].get_color(), drawn[c].get_linestyle()) for c in channels}) == len(channels)
    highest = max(s.engine_rpm for s in part)
    assert f"to {highest:g}; road speed (km/h)" in drawing.alt
    assert "14 to 28 s" in drawing.alt


@pytest.mark.parametrize("name", ["a-3", "b-5", "c-2", "d-4"])
def test_the_gear_lines_are_those_of_the_sheet(name: str, kept: list[Any]) -> None:
    """A straight line through 0 for every gear, at the sheet's road speed."""
    draw("slip-plot", name=name)
    v, drawn = vehicle(name[0].upper()), lines(kept[0])
    for gear in range(1, len(v.gearbox.ratios) + 1):
        (_, rpm), (_, kmh) = drawn[f"gear {gear}"].get_data()
        assert kmh == pytest.approx(road_speed_kmh(v, gear=gear, rpm=rpm))
    points = sum(len(drawn[g].get_xdata()) for g in ("full throttle", "less throttle"))
    assert points == len([s for s in road_test(name).samples if s.gear and s.pedal_pct < 5])


def test_the_spectrum_peaks_where_the_judder_is(kept: list[Any]) -> None:
    """Judder once a turn of slip stands at order 1, and the alt text lets it be read."""
    drawing = draw("order-spectrum", name="b-1", reference="slip")
    order, height = lines(kept[0])["spectrum"].get_data()
    peak = max(range(len(height)), key=lambda i: height[i])
    assert order[peak] == pytest.approx(1.0, abs=0.05)
    assert f"1: {height[peak]:.3f}" in drawing.alt


@pytest.mark.parametrize("key", KEYS)
@pytest.mark.parametrize("name", ["a-1", "b-1", "b-2", "b-3"])
def test_no_plot_says_what_is_wrong(key: str, name: str) -> None:
    """Alt text and caption read the plot; the fault is for the learner to find."""
    drawing = draw(key, name=name)
    assert RECIPES[name][1] not in f"{drawing.alt} {drawing.caption}".replace("does not slip", "").replace(
        "of the slip", ""
    )
    assert "judder" not in drawing.alt


@pytest.mark.parametrize(
    ("key", "parameters", "told"),
    [
        ("road-test", {"channels": ["colour"]}, "channel must be one of engine_rpm, speed_km_h"),
        ("road-test", {"channels": []}, "channels must be 1 to 5 different columns, but you gave none"),
        ("road-test", {"channels": ["gear", "gear"]}, "1 to 5 different columns, but you gave gear, gear"),
        ("road-test", {"from_s": 20, "to_s": 20}, "to_s must be at least 1 s after from_s"),
        ("road-test", {"from_s": -1}, "from_s must be between 0 and 600 s"),
        ("slip-plot", {"from_s": 0, "to_s": 5}, "where the car is driven with the pedal up"),
        ("order-spectrum", {"reference": "wheel"}, "reference must be one of time, slip, engine, input"),
    ],
)
def test_what_cannot_be_plotted_is_refused_in_one_line(key: str, parameters: dict[str, Any], told: str) -> None:
    """The message names the parameter and the rule."""
    with pytest.raises(OutOfRange, match=told):
        draw(key, **parameters)


def test_an_unknown_log_is_named() -> None:
    """The names there are stand in the message."""
    with pytest.raises(BadData, match="There is no road test 'z-1'"):
        draw("road-test", name="z-1")
