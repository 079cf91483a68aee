"""Plots by matplotlib: what is in them, large words with units, the same bytes twice."""

import struct
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

from bitepoint.pictures import draw, plotting
from bitepoint.workshop.figures import road_speed_kmh
from bitepoint.workshop.roadtests import road_test
from bitepoint.workshop.vehicles import FRAME, vehicle

PLOTS = {"slip-plot": {"name": "b-2"}, "order-spectrum": {"name": "b-1", "references": ["time", "slip"]}}
KEYS = pytest.mark.parametrize("key", sorted(PLOTS))


@pytest.fixture
def kept(monkeypatch: pytest.MonkeyPatch) -> list[Any]:
    """Figures as they go out, so that what is in them can be looked at."""
    figures: list[Any] = []
    saved = plotting.png

    def keep(figure: Any) -> bytes:
        figures.append(figure)
        return saved(figure)

    monkeypatch.setattr(plotting, "png", keep)
    return figures


def lines(figure: Any) -> dict[str, Any]:
    """Lines of a figure by their names."""
    return {line.get_gid(): line for axes in figure.axes for line in axes.get_lines()}


@KEYS
def test_a_plot_is_the_same_bytes_twice_and_720_dots_wide(key: str) -> None:
    """Deterministic, PNG of fixed width."""
    drawing = draw(key, **PLOTS[key])
    assert isinstance(drawing.content, bytes)
    assert drawing == draw(key, **PLOTS[key])
    assert struct.unpack(">I", drawing.content[16:20]) == (720,)


def test_a_settings_file_in_the_folder_changes_nothing(tmp_path: Path) -> None:
    """The library reads one from the folder it is started in; what it says would reach pictures and start programs."""
    (tmp_path / "matplotlibrc").write_text("text.usetex: True\nlines.linewidth: 9\nfont.size: 40\n", encoding="utf-8")
    code = "import sys; from bitepoint.pictures import draw; sys.stdout.buffer.write(draw('slip-plot', name='b-2').content)"
    done = subprocess.run([sys.executable, "-P", "-c", code], cwd=tmp_path, capture_output=True, check=True)
    assert done.stdout == draw("slip-plot", name="b-2").content


@KEYS
def test_words_are_large_and_axes_name_their_unit(key: str, kept: list[Any]) -> None:
    """At least 16 dots; the frame stands in the picture; every axis says in what it is counted."""
    draw(key, **PLOTS[key])
    (figure,) = kept
    assert [text.get_text() for text in figure.texts] == [FRAME]
    for axes in figure.axes:
        told = [axes.xaxis.label, axes.yaxis.label, *axes.get_xticklabels(), *axes.get_yticklabels(), *axes.texts]
        assert min(text.get_fontsize() for text in told) * figure.dpi / 72 >= 16
        assert ", " in axes.get_xlabel()
    assert ", " in figure.axes[0].get_ylabel()
    assert len({axes.get_ylim() for axes in figure.axes}) == 1


@KEYS
def test_nothing_is_cut_off_and_no_words_touch(key: str, kept: list[Any]) -> None:
    """Words lie inside the picture and clear of each other, whatever the vehicle."""
    for name in ("a-1", "b-5", "c-4", "d-2"):
        draw(key, **PLOTS[key] | {"name": name})
        figure = kept.pop()
        texts = [*figure.texts, *(t for legend in figure.legends for t in legend.get_texts())]
        for axes in figure.axes:
            texts += [axes.xaxis.label, axes.yaxis.label, *axes.texts]
        boxes = [(t.get_text(), t.get_window_extent()) for t in texts]
        for i, (one, box) in enumerate(boxes):
            assert (box.x0 >= 0, box.x1 <= 720, box.y0 >= 0, box.y1 <= figure.bbox.y1) == (True,) * 4, (name, one)
            assert [other for other, b in boxes[i + 1 :] if box.overlaps(b)] == [], (name, one)


@pytest.mark.parametrize("name", ["a-3", "b-5", "c-2", "d-4"])
def test_the_gear_lines_are_those_of_the_sheet(name: str, kept: list[Any]) -> None:
    """A straight line through nought for every gear, at the sheet's road speed; its figure in the alt text."""
    drawing, v = draw("slip-plot", name=name), vehicle(name[0].upper())
    drawn = lines(kept[0])
    for gear in range(1, len(v.gearbox.ratios) + 1):
        (_, rpm), (_, kmh) = drawn[f"gear {gear}"].get_data()
        assert kmh == pytest.approx(road_speed_kmh(v, gear=gear, rpm=rpm))
        assert f"{gear}: {road_speed_kmh(v, gear=gear, rpm=1000):.1f}" in drawing.alt


def test_every_point_at_full_throttle_is_a_line_of_the_log(kept: list[Any]) -> None:
    """Each second line of the log with the pedal up, engine speed against the driven wheels."""
    draw("slip-plot", name="b-5")
    part = [s for s in road_test("b-5").samples if s.gear and s.pedal_pct < 5]
    wanted = [(s.engine_rpm, s.driven_wheel_km_h) for s in part[::2] if s.throttle_pct >= 90]
    rpm, kmh = lines(kept[0])["driven wheels, full throttle"].get_data()
    assert list(zip(rpm, kmh, strict=True)) == wanted


def test_the_spectrum_peaks_where_the_judder_is(kept: list[Any]) -> None:
    """Judder once a turn of slip stands at order 1 and higher than anything by the second; the alt text lets it be read."""
    drawing = draw("order-spectrum", name="b-1", references=["time", "slip"])
    drawn = lines(kept[0])
    order, height = drawn["slip"].get_data()
    peak = max(range(len(height)), key=lambda i: height[i])
    assert order[peak] == pytest.approx(1.0, abs=0.05)
    assert height[peak] > max(drawn["time"].get_ydata())
    assert f"1: {height[peak]:.3f}" in drawing.alt
