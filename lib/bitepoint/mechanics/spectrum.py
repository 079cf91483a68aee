"""Finding the strongest shake in a sampled signal, as a frequency and as an order.

numpy does the transform and is imported only when called.
"""

from typing import TYPE_CHECKING, Any

from bitepoint.errors import OutOfRange
from bitepoint.mechanics.limits import within
from bitepoint.mechanics.vibration import order_of

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray


def strongest_frequency_hz(
    signal: "ArrayLike", *, sample_rate_hz: float, low_hz: float = 2.0, high_hz: float = 100.0
) -> float:
    r"""Frequency of the strongest tone in a sampled signal.

    Mean removed, Hann window, Fourier transform, the peak refined by a parabola through three lines.

    Parameters
    ----------
    signal : array_like, shape (n,)
        Acceleration, speed or sound at even intervals, 16 to 10 million samples, each below 1e6 in size.
    sample_rate_hz : float
        Samples a second, 1 to 200 000.
    low_hz, high_hz : float
        Where to look; high at most half the sample rate, and the band at least two lines of the spectrum
        wide.

    Validity
    --------
    Steady speed while the samples were taken; two tones are told apart when 2/T or more lie between them.

    Raises
    ------
    OutOfRange
        Too few samples, a band that holds no line, or a signal that does not move there.

    Source
    ------
    derived

    Examples
    --------
    >>> from math import sin, tau
    >>> tone = [3 + sin(tau * 10 * i / 200) for i in range(400)]
    >>> strongest_frequency_hz(tone, sample_rate_hz=200)
    10.00
    """
    import numpy as np

    samples = _signal(signal)
    rate = within("sample_rate_hz", sample_rate_hz, 1, 200_000, "Hz", "Give samples a second.")
    within("high_hz", high_hz, 0, rate / 2, "Hz", "A sampled signal says nothing above half its sample rate.")
    within("low_hz", low_hz, 0, high_hz, "Hz", "The lower end of the band.")
    spectrum = np.abs(np.fft.rfft((samples - samples.mean()) * np.hanning(samples.size)))
    step = rate / samples.size
    lines = np.arange(spectrum.size)
    # The first and last line have no neighbour on one side; a neighbour is needed for the parabola.
    band = (lines >= 1) & (lines < spectrum.size - 1) & (lines * step >= low_hz) & (lines * step <= high_hz)
    if np.count_nonzero(band) < 2:
        raise OutOfRange(
            "high_hz",
            "a band at least two lines wide",
            f"{high_hz:.10g} Hz",
            "Record longer, or widen the band.",
        )
    peak = int(np.argmax(np.where(band, spectrum, -1.0)))
    left, middle, right = (float(spectrum[peak + i]) for i in (-1, 0, 1))
    if middle <= 1e-9 * max(1e-9, float(np.abs(samples).max())):
        raise OutOfRange(
            "signal", "one that moves in this band", "a steady one", "Check the sensor, or widen the band."
        )
    bend = left - 2 * middle + right
    shift = 0.5 * (left - right) / bend if bend < 0 else 0.0
    return float((peak + shift) * step)


def strongest_order(
    signal: "ArrayLike",
    *,
    sample_rate_hz: float,
    speed_rpm: float,
    low_hz: float = 2.0,
    high_hz: float = 100.0,
) -> float:
    """Order of the strongest tone: counted in turns of the engine, of the gearbox input, or of the slip.

    Parameters
    ----------
    signal, sample_rate_hz, low_hz, high_hz
        As for `strongest_frequency_hz`.
    speed_rpm : float
        Speed whose turns count: engine, input, or engine less input for the slip order [rpm], 1 to 30 000.

    Source
    ------
    derived
    No published figure: a ratio of checked frequencies.

    Examples
    --------
    Engine 1500, input 900 rpm, a judder of 10 Hz: one shake for each turn of slip.

    >>> from math import sin, tau
    >>> judder = [sin(tau * 10 * i / 200) for i in range(400)]
    >>> strongest_order(judder, sample_rate_hz=200, speed_rpm=1500 - 900)
    1.00
    >>> strongest_order(judder, sample_rate_hz=200, speed_rpm=1500)
    0.40
    """
    frequency = strongest_frequency_hz(signal, sample_rate_hz=sample_rate_hz, low_hz=low_hz, high_hz=high_hz)
    return order_of(frequency, speed_rpm=speed_rpm)


def _signal(signal: "ArrayLike") -> "NDArray[Any]":
    import numpy as np

    try:
        samples = np.asarray(signal, dtype=np.float64)
    except (TypeError, ValueError, OverflowError):
        raise OutOfRange(
            "signal", "a list of numbers", repr(signal)[:60], "Read the column of the log again."
        ) from None
    if samples.ndim != 1 or not 16 <= samples.size <= 10_000_000:
        raise OutOfRange("signal", "one row of 16 to 10 million samples", f"shape {samples.shape}", "Give one column.")
    bad = ~(np.abs(samples) < 1e6)
    if bad.any():
        first = int(bad.argmax())
        within(
            f"signal (sample {first + 1})",
            float(samples[first]),
            -1e6,
            1e6,
            "",
            "Cut this part of the log out.",
        )
    return samples
