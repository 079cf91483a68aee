"""Slip time, energy and temperature rise against printed examples, and against scipy's integration."""

from math import pi

import pytest
from scipy.integrate import solve_ivp

from bitepoint.mechanics import heat


def test_theory_of_machines_example_3_12():
    """theory-of-machines, ex. 3.12 (memory): 150 N·m, 60 kg at 140 mm, 20 kg at 80 mm, 750 rpm against rest."""
    sides = {"engine_inertia_kg_m2": 60 * 0.14**2, "driven_inertia_kg_m2": 20 * 0.08**2}
    end = heat.common_speed_rpm(750, input_rpm=0, **sides) * pi / 30
    assert pytest.approx(70.8, abs=0.05) == end
    assert pytest.approx(0.06, abs=5e-4) == heat.slip_time_s(750, clutch_torque_nm=150, **sides)
    assert pytest.approx(356, abs=0.5) == heat.slip_energy_j(750, clutch_torque_nm=150, **sides)


def test_machine_elements_example_11_14():
    """machine-elements-design, ex. 11.14 (memory): 10 kW at 2000 rpm, 20 kg at 75 mm, 35 kg at 125 mm."""
    sides = {"engine_inertia_kg_m2": 20 * 0.075**2, "driven_inertia_kg_m2": 35 * 0.125**2}
    torque = 10_000 / (2000 * pi / 30)
    assert pytest.approx(47.746, abs=5e-4) == torque
    assert pytest.approx(0.409285, abs=5e-7) == heat.slip_time_s(2000, clutch_torque_nm=torque, **sides)
    assert pytest.approx(2046.42, abs=5e-3) == heat.slip_energy_j(2000, clutch_torque_nm=torque, **sides)


def test_motor_held_at_constant_speed():
    """machine-design-clutches, ex. 22-1 (memory): 44.33 N·m bring 7.2 kg·m² to 300 rpm in 5.10 s, heat 3553.06 J."""
    sides = {"engine_inertia_kg_m2": 1e12, "driven_inertia_kg_m2": 7.2}
    assert pytest.approx(5.10, abs=5e-3) == heat.slip_time_s(300, clutch_torque_nm=44.33, **sides)
    assert pytest.approx(3553.06, rel=1e-5) == heat.slip_energy_j(300, clutch_torque_nm=44.33, **sides)


def test_three_quarters_of_the_energy_are_lost():
    """university-physics-clutch (quoted): I_A = I_B / 3, 2300 J of heat allow 3066.67 J in plate A before."""
    sides = {"engine_inertia_kg_m2": 1.0, "driven_inertia_kg_m2": 3.0}
    lost = heat.slip_energy_j(100, clutch_torque_nm=10, **sides)
    kinetic = 0.5 * 1.0 * (100 * pi / 30) ** 2
    assert pytest.approx(3066.67, abs=5e-3) == 2300 * kinetic / lost


def test_small_plates():
    """physics-question-pages (quoted): 0.218 and 0.01 kg·m², 10 rad/s: 9.56 rad/s, 0.48 J."""
    sides = {"engine_inertia_kg_m2": 0.218, "driven_inertia_kg_m2": 0.01}
    rpm = 10 * 30 / pi
    assert pytest.approx(9.56, rel=1e-2) == heat.common_speed_rpm(rpm, input_rpm=0, **sides) * pi / 30
    assert pytest.approx(0.48, rel=1e-2) == heat.slip_energy_j(rpm, clutch_torque_nm=1, **sides)


def test_cone_clutch_time_and_energy():
    """theory-of-machines, ex. 10.34 (memory): 7.8 N·m, 13.5 kg at 150 mm, 1000 rpm: 4.1 s, 1674 J (rounded inputs)."""
    sides = {"engine_inertia_kg_m2": 1e12, "driven_inertia_kg_m2": 13.5 * 0.15**2}
    assert pytest.approx(4.1, rel=1e-2) == heat.slip_time_s(1000, clutch_torque_nm=7.8, **sides)
    assert pytest.approx(1674, rel=1e-2) == heat.slip_energy_j(1000, clutch_torque_nm=7.8, **sides)


def test_temperature_rise_of_a_brake():
    """machine-design-imperial, ex. 16.5 (memory): 3500 lb at 73 ft/s into 40 lb of 93 ft·lbf/lb·°F: 77.85 °F."""
    pound, foot, gravity = 0.45359237, 0.3048, 32.2
    energy_ftlbf = 3500 * 73**2 / (2 * gravity)
    assert pytest.approx(289_619.57, rel=1e-6) == energy_ftlbf
    joule = energy_ftlbf * pound * 9.80665 * foot
    # 93 ft·lbf/(lb·°F) = 93 · 0.3048 · 9.80665 · 1.8 J/(kg·K)
    specific = 93 * foot * 9.80665 * 1.8
    rise = heat.temperature_rise_k(joule, mass_kg=40 * pound, specific_heat_j_per_kg_k=specific)
    assert pytest.approx(77.85, rel=1e-4) == rise * 1.8


def test_temperature_rise_of_a_lorry_brake():
    """college-physics, ex. 14.2 (memory): 10 000 kg down 75 m, 100 kg of 800 J/(kg·K): 92 °C."""
    energy = 10_000 * 9.80 * 75
    assert pytest.approx(92, abs=0.5) == heat.temperature_rise_k(energy, mass_kg=100, specific_heat_j_per_kg_k=800)


def test_take_up_with_engine_and_load_agrees_with_scipy():
    """scipy.integrate.solve_ivp, stopped where both speeds meet, gives the same time and heat."""
    engine, driven, torque, drive, load = 0.16, 0.31, 140.0, 60.0, 25.0

    def rates(_, state):
        return [(drive - torque) / engine, (torque - load) / driven, torque * (state[0] - state[1])]

    def met(_, state):
        return state[0] - state[1]

    met.terminal = True
    run = solve_ivp(rates, (0, 10), [2000 * pi / 30, 0, 0], events=met, rtol=1e-10, atol=1e-10)
    case = {
        "clutch_torque_nm": torque,
        "engine_inertia_kg_m2": engine,
        "driven_inertia_kg_m2": driven,
        "engine_torque_nm": drive,
        "load_torque_nm": load,
    }
    assert pytest.approx(run.t[-1], rel=1e-8) == heat.slip_time_s(2000, **case)
    assert pytest.approx(run.y[2][-1], rel=1e-8) == heat.slip_energy_j(2000, **case)


def test_down_shift_with_engine_drag_agrees_with_scipy():
    """The gearbox side 900 rpm ahead, the engine resisting with 35 N·m: solve_ivp gives the same time and heat."""
    engine, driven, torque, drag, load = 0.16, 2.4, 140.0, -35.0, 25.0

    def rates(_, state):
        return [(drag + torque) / engine, (-torque - load) / driven, torque * (state[1] - state[0])]

    def met(_, state):
        return state[1] - state[0]

    met.terminal = True
    run = solve_ivp(rates, (0, 10), [2100 * pi / 30, 3000 * pi / 30, 0], events=met, rtol=1e-10, atol=1e-10)
    case = {
        "clutch_torque_nm": torque,
        "engine_inertia_kg_m2": engine,
        "driven_inertia_kg_m2": driven,
        "engine_torque_nm": drag,
        "load_torque_nm": load,
    }
    assert pytest.approx(run.t[-1], rel=1e-8) == heat.slip_time_s(-900, **case)
    assert pytest.approx(run.y[2][-1], rel=1e-8) == heat.slip_energy_j(-900, **case)
