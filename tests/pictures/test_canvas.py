"""The line style every drawing shares."""

from bitepoint.pictures.canvas import Canvas, number, on_circle


def test_coordinates_have_at_most_two_decimals_and_no_negative_zero() -> None:
    """The same drawing is the same text on every machine."""
    assert [number(v) for v in (1.0, 2.345678, -0.001, 10.10)] == ["1", "2.35", "0", "10.1"]


def test_angles_run_clockwise_from_the_top() -> None:
    """Bolt 1 sits at 12 o'clock and bolt 2 to the right of it."""
    assert [tuple(round(v, 6) for v in on_circle(0, 0, 10, a)) for a in (0, 90, 180)] == [(0, -10), (10, 0), (0, 10)]


def test_words_cannot_become_marks() -> None:
    """A label with angle brackets stays a label."""
    canvas = Canvas(100)
    canvas.text(10, 20, "<b>A & B</b>")
    assert "&lt;b&gt;A &amp; B&lt;/b&gt;" in canvas.drawing(alt="", caption="").content


def test_the_ground_comes_first_and_is_white() -> None:
    """A drawing reads in dark mode because its ground is opaque."""
    canvas = Canvas(100)
    canvas.circle((10, 10), 5)
    content = str(canvas.drawing(alt="", caption="").content)
    assert content.splitlines()[1] == '<rect width="720" height="100" fill="#FFFFFF"/>'


def test_a_hatch_stays_inside_its_rectangle() -> None:
    """Hatching marks one bar and no other."""
    canvas = Canvas(100)
    canvas.hatch(10, 20, 30, 40)
    lines = [mark for mark in str(canvas.drawing(alt="", caption="").content).splitlines() if mark.startswith("<line")]
    ends = [dict(part.split("=") for part in line[6:-2].split() if "=" in part) for line in lines]
    xs = [float(end[key].strip('"')) for end in ends for key in ("x1", "x2")]
    ys = [float(end[key].strip('"')) for end in ends for key in ("y1", "y2")]
    assert (min(xs) >= 10, max(xs) <= 40, min(ys) >= 20, max(ys) <= 60, len(lines) > 2) == (True,) * 5
