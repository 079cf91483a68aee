"""The whole job: its three parts as a path, and a job card as it should look when it is handed over."""

from bitepoint.pictures.canvas import BLUE, INK, PALE, SKY, WHITE, Canvas
from bitepoint.pictures.framing import frame_words
from bitepoint.pictures.registry import Drawing, picture
from bitepoint.workshop.vehicles import Vehicle
from bitepoint.workshop.vehicles import vehicle as sheet_of

_SITTINGS = (
    ("First part", ("words", "road log", "decision", "kit, agreed", "order of work")),
    ("Second part", ("the bench", "decide each", "call: yes or no", "flywheel tight", "run-out")),
    ("Third part", ("cover, fingers", "gearbox in", "standing checks", "road test", "label, record")),
)


@picture("job-path")
def job_path() -> Drawing:
    """Draw the three parts of the whole job with their steps, one under the other."""
    canvas = Canvas(400)
    for column, (title, steps) in enumerate(_SITTINGS):
        x = 20.0 + 232 * column
        canvas.rect(x, 20, 216, 44, PALE, round=8)
        canvas.text(x + 108, 50, title, 22, bold=True)
        for row, step in enumerate(steps):
            y = 80.0 + 62 * row
            canvas.rect(x + 14, y, 188, 44, PALE, round=8)
            canvas.text(x + 108, y + 29, step, 19)
            if row:
                canvas.arrow((x + 108, y - 18), (x + 108, y), INK, 2)
        if column:
            canvas.arrow((x - 15, 42), (x - 1, 42), BLUE, 3)
    told = " ".join(f"{title}: {', '.join(steps)}." for title, steps in _SITTINGS)
    return canvas.drawing(
        alt=f"Three columns of boxes, joined by arrows from left to right. {told}",
        caption="One car from the first words to the signed record. Each step rests on the one before.",
    )


def card_rows(car: Vehicle) -> tuple[tuple[str, str, str], ...]:
    """Return the rows of a filled job card: what, value, what the sheet allows or says.

    Values are an example within the sheet's limits (source: invented).
    """
    sheet, cover = car.flywheel.tightening, car.clutch.cover
    angle = f" + {sheet.angle_deg:g}°" if sheet.angle_deg is not None else ""
    low, high = car.release.free_play_mm
    return (
        ("Crankshaft end float", f"{0.5 * car.engine.crank_end_float_limit_mm:.2f} mm",
         f"at most {car.engine.crank_end_float_limit_mm:.2f} mm"),
        ("Flywheel bolts, new", f"{car.flywheel.bolt_count} of {car.flywheel.bolt_count}",
         f"{sheet.final_nm:g} N·m{angle}"),
        ("Run-out, before the plate", f"{0.6 * car.flywheel.face_runout_limit_mm:.2f} mm",
         f"at most {car.flywheel.face_runout_limit_mm:.2f} mm"),
        ("Cover bolts", f"{cover.n} of {cover.n}", f"{cover.torque_nm:g} N·m"),
        ("Finger level", f"{0.5 * car.clutch.finger_coplanarity_limit_mm:.2f} mm",
         f"at most {car.clutch.finger_coplanarity_limit_mm:.2f} mm"),
        ("Flywheel lock", "out, counted", "before gearbox"),
        ("Pedal free play", f"{car.release.free_play_set_mm:g} mm", f"{low:g} to {high:g} mm"),
        ("Wheel bolts", f"{car.wheels.torque_nm:g} N·m", f"{car.wheels.torque_nm:g} N·m"),
    )  # fmt: skip


@picture("job-record")
def job_record(*, vehicle: str = "A") -> Drawing:
    """Draw a filled job card with value and limit side by side, and blanks for observation and signature.

    Raises
    ------
    BadData
        There is no such training vehicle.
    """
    car = sheet_of(vehicle)
    canvas = Canvas(590)
    canvas.rect(20, 16, 680, 522, WHITE, round=8)
    canvas.text(40, 50, f"Job record · {car.name} · {car.job_date}", 24, anchor="start", bold=True)
    for x, head in ((40, "what"), (326, "value"), (496, "sheet")):
        canvas.text(x, 88, head, 19, anchor="start", bold=True)
    for row, cells in enumerate(card_rows(car)):
        y = 98.0 + 38 * row
        canvas.rect(30, y, 660, 38, PALE if row % 2 == 0 else WHITE, line=1)
        for x, cell in zip((40, 326, 496), cells, strict=True):
            canvas.text(x, y + 26, cell, 19, anchor="start")
    for x, words in ((30, "Watched by, what was seen:"), (365, "Signed, after the road test:")):
        canvas.rect(x, 418, 325, 106, WHITE, line=2)
        canvas.rect(x, 418, 325, 32, SKY, line=2)
        canvas.text(x + 10, 440, words, 19, anchor="start", bold=True)
        canvas.line((x + 16, 502), (x + 309, 502), INK, 1, dash="4 4")
    canvas.frame(frame_words())
    rows = " ".join(f"{what}: {value}, sheet {sheet}." for what, value, sheet in card_rows(car))
    return canvas.drawing(
        alt=f"Filled job card of {car.name}. {rows} Two empty boxes: who watched and what was seen, "
        "and the signature after the road test.",
        caption="Value and limit stand side by side. What must be watched and signed is left for people.",
    )
