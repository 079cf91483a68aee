"""The figures of the final check and the road test of one training vehicle."""

from bitepoint.workshop.figures import road_speed_kmh
from bitepoint.workshop.vehicles import Bolts, Vehicle


def final_figures(v: Vehicle) -> tuple[tuple[str, str], ...]:
    """Return what stands on the sheet for the final check: what, and the figure with its unit."""
    low, high = v.release.free_play_mm
    found = [
        ("Pedal: full travel", f"{v.release.pedal_travel_mm:g} mm"),
        ("Pedal: free play", f"{low:g} to {high:g} mm, set to {v.release.free_play_set_mm:g} mm"),
        ("Idle speed", f"{v.engine.idle_rpm:g} rpm"),
        ("Rev test: never above", f"{v.engine.static_test_max_rpm:g} rpm, oil warm"),
        *DRAG,
        ("Gearbox oil", f"{v.gearbox.oil_litre:g} litre, to the level plug"),
        *(("Housing bolts", f"{_set(bolts)}") for bolts in v.gearbox.bell_bolts),
        ("Wheel bolts, on the ground", _set(v.wheels)),
    ]
    if v.release.slave_bolts:
        found.append(("Slave cylinder bolts", _set(v.release.slave_bolts)))
    if v.release.fluid:
        found.append(("Fluid", v.release.fluid))
    if v.wheels.hub_nut:
        found.append(("Hub nut", HUB_NUT[v.wheels.hub_nut]))
    return tuple(found)


DRAG = (("Drag test, on the ground", "reverse silent after 5 s at most; with a synchroniser: first gear, no push"),)
"""By the repair data: where reverse has a synchroniser, a silent reverse shows nothing."""

HUB_NUT = {
    "on the ground": "on the ground; the car is not moved while it is loose",
    "raised just clear": "wheel raised just clear, a second person on the foot brake; tight before the wheel carries the car",
}
"""How the hub nut is handled, in the words of the sheet."""


def slip_test(v: Vehicle) -> dict[str, str]:
    """Return gear, engine speed of greatest torque and the road speed that belongs to them, for the road-test plan."""
    gear, rpm = v.gearbox.slip_test_gear, v.engine.max_torque_rpm
    return {
        "gear": str(gear),
        "rpm": f"{rpm:g}",
        "kmh": f"{road_speed_kmh(v, gear=gear, rpm=rpm):.0f}",
    }


def _set(bolts: Bolts) -> str:
    return f"{bolts.n} × {bolts.thread}, {bolts.torque_nm:g} N·m"
