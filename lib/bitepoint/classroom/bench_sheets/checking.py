"""The figures of the final check and the road test of one training vehicle."""

from collections.abc import Callable
from functools import partial

from bitepoint.missing import LOOK_UP, is_missing, told
from bitepoint.workshop.figures import road_speed_kmh
from bitepoint.workshop.vehicles import Bolts, Vehicle


def final_figures(v: Vehicle) -> tuple[tuple[str, str], ...]:
    """Return what stands on the sheet for the final check: what, and the figure with its unit."""
    found: list[tuple[str, Callable[[], str]]] = [
        ("Pedal: full travel", lambda: f"{v.release.pedal_travel_mm:g} mm"),
        ("Pedal: free play", lambda: _free_play(v)),
        ("Idle speed", lambda: f"{v.engine.idle_rpm:g} rpm"),
        ("Rev test: never above", lambda: f"{v.engine.static_test_max_rpm:g} rpm, oil warm"),
        ("Reverse, for the drag test", lambda: REVERSE[bool(v.gearbox.reverse_synchronised)]),
        ("Gearbox oil", lambda: f"{v.gearbox.oil_litre:g} litre, to the level plug"),
        *_housing_bolts(v),
        ("Wheel bolts, on the ground", lambda: _set(v.wheels)),
    ]
    if slave_bolts := v.release.slave_bolts:
        found.append(("Slave cylinder bolts", lambda: _set(slave_bolts)))
    if v.release.fluid:
        found.append(("Fluid", lambda: v.release.fluid))
    if v.wheels.hub_nut is not None:
        found.append(("Hub nut", lambda: HUB_NUT[v.wheels.hub_nut or ""]))
    return tuple((what, told(figure)) for what, figure in found)


def _free_play(v: Vehicle) -> str:
    low, high = v.release.free_play_mm
    return f"{low:g} to {high:g} mm, set to {v.release.free_play_set_mm:g} mm"


def _housing_bolts(v: Vehicle) -> list[tuple[str, Callable[[], str]]]:
    """Return one line a kind of bolt; where the sheet has none, one line that says so."""
    if is_missing(v.gearbox.bell_bolts):
        return [("Housing bolts", lambda: LOOK_UP)]
    return [("Housing bolts", partial(_set, bolts)) for bolts in v.gearbox.bell_bolts]


REVERSE = {
    False: "no synchroniser: oil warm, pedal down, silent after 5 s at most",
    True: "synchroniser, so silence shows nothing: first gear, foot on the brake, it must not push",
}
"""What shows that the plate frees, by the kind of reverse. Source: common-practice."""

HUB_NUT = {
    "on the ground": "on the ground; the car is not moved while it is loose",
    "raised just clear": "wheel raised just clear, a second person on the foot brake; tight before the wheel carries the car",
}
"""How the hub nut is handled, in the words of the sheet."""


def slip_test(v: Vehicle) -> dict[str, str]:
    """Return gear, engine speed of greatest torque and the road speed that belongs to them, for the road-test plan."""
    gear, rpm = v.gearbox.slip_test_gear, v.engine.max_torque_rpm
    return {
        "gear": told(lambda: f"{gear:g}"),
        "rpm": told(lambda: f"{rpm:g}"),
        "kmh": told(lambda: f"{road_speed_kmh(v, gear=gear, rpm=rpm):.0f}"),
    }


def _set(bolts: Bolts) -> str:
    return f"{bolts.n} × {bolts.thread}, {bolts.torque_nm:g} N·m"
