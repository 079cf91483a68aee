"""What the capstone says about training vehicle A, made afresh from its data sheet and the calculators, cell by cell."""

from bitepoint.mechanics.wrench import wrench_setting_nm
from bitepoint.workshop.figures import road_speed_kmh
from bitepoint.workshop.tools import torque_wrench
from bitepoint.workshop.vehicles import vehicle


def job() -> dict[str, tuple[str, ...]]:
    """Lesson 12."""
    a = vehicle("A")
    rpm, per_1000 = a.engine.max_torque_rpm, round(road_speed_kmh(a, gear=a.gearbox.slip_test_gear, rpm=1000), 2)
    arrives = 63 / per_1000 * 1000
    final, bolt = a.flywheel.tightening.final_nm, a.gearbox.bell_bolts[0].torque_nm
    lever = torque_wrench("TW2").lever_mm
    setting = wrench_setting_nm(bolt, lever_mm=lever, offset_mm=60)
    return {
        "log": (
            f"{per_1000:.2f} km/h belong to 1000 rpm. Her log said 63 km/h at {rpm:g} rpm.",
            f"63 km/h ÷ {per_1000:.2f} km/h × 1000 rpm = {arrives:.0f} rpm",
            f"Lost: {rpm:g} rpm − {arrives:.0f} rpm = {rpm - round(arrives):.0f} rpm",
            f"÷ {rpm:g} rpm × 100 = {100 * (1 - arrives / rpm):.1f} %",
            "Tyres and dials leave up to 3 %",
        ),
        "flywheel": (f"sheet says {final:g} N·m, so the wrench is set to {final:g} N·m",),
        "run-out": (f"Training vehicle A allows {a.flywheel.face_runout_limit_mm:.2f} mm",),
        "crow-foot": (
            f"Arm: {lever:g} mm + 60 mm = {lever + 60:g} mm",
            f"Setting: {bolt:g} N·m × {lever:g} mm ÷ {lever + 60:g} mm = {setting:.1f} N·m",
        ),
    }
