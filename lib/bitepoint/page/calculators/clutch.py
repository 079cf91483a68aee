"""Calculators of the clutch: what it carries, and how far it may wear before it slips."""

from bitepoint.mechanics.clutch import (
    THEORIES,
    UNIFORM_PRESSURE,
    UNIFORM_WEAR,
    clamp_load_for_torque_n,
    friction_radius_mm,
    reserve_factor,
    torque_capacity_nm,
)
from bitepoint.mechanics.wear import (
    clamp_load_after_wear_n,
    wear_until_slip_coil_springs_mm,
    wear_until_slip_diaphragm_mm,
)
from bitepoint.page.calculators.fields import Field
from bitepoint.page.calculators.registry import Calculation, Choices, Values, calculator
from bitepoint.pictures.axes import figure
from bitepoint.questions.question import Picture
from bitepoint.workshop.vehicles import vehicle

_CAR = vehicle("A")
_CLUTCH = _CAR.clutch
_RING = (
    Field(key="outer", label="Facing, outer diameter", unit="mm", default=_CLUTCH.plate_od_mm, low=120, high=450),
    Field(key="inner", label="Facing, inner diameter", unit="mm", default=_CLUTCH.plate_id_mm, low=60, high=440),
    Field(key="mu", label="Friction of the facing", default=_CLUTCH.mu_design, low=0.05, high=0.6, step=0.01),
)
_LOAD = Field(
    key="load",
    label="Clamp load, new",
    unit="N",
    default=_CLUTCH.clamp_load_new_n,
    low=500,
    high=20_000,
    step=50,
)
_ENGINE = Field(
    key="engine",
    label="Greatest engine torque",
    unit="N·m",
    default=_CAR.engine.max_torque_nm,
    low=20,
    high=800,
    step=5,
)
PLAIN = {UNIFORM_WEAR: "run in (uniform wear)", UNIFORM_PRESSURE: "new (uniform pressure)"}


@calculator(
    "clutch-capacity",
    title="Torque the clutch carries, and its reserve",
    about=(
        "How much torque a dry clutch carries before it slips, and how much more that is than the "
        "engine gives. A single "
        "plate has two friction faces. Oil on the facing lowers the friction: try 0.15 and watch the "
        "reserve go."
    ),
    vehicle="A",
    source="machine-elements-design",
    blames={"inner_diameter_mm": "inner", "outer_diameter_mm": "outer"},
    first=("load", "mu", "engine"),
    fields=(
        _LOAD, *_RING,
        Field(key="faces", label="Friction faces", default="2", options=("1", "2", "4", "6")),
        Field(key="state", label="Facing is", default=PLAIN[UNIFORM_WEAR], options=tuple(PLAIN[t] for t in THEORIES)),
        _ENGINE,
    ),
)  # fmt: skip
def clutch_capacity(values: Values, choices: Choices) -> Calculation:
    """Torque capacity and reserve factor by the model chosen."""
    theory = next(t for t, words in PLAIN.items() if words == choices["state"])
    ring = {"outer_diameter_mm": values["outer"], "inner_diameter_mm": values["inner"]}
    faces, load, mu, engine = int(choices["faces"]), values["load"], values["mu"], values["engine"]
    radius = friction_radius_mm(values["outer"], inner_diameter_mm=values["inner"], theory=theory)
    torque = torque_capacity_nm(load, **ring, friction=mu, faces=faces, theory=theory)
    reserve = reserve_factor(torque, engine_torque_nm=engine)
    formula = "(outer + inner) ÷ 4" if theory == UNIFORM_WEAR else "2/3 × (ro³ − ri³) ÷ (ro² − ri²)"
    return Calculation(
        results=(
            ("Torque before it slips", f"{torque:.1f} N·m"),
            ("Reserve factor", f"{reserve:.2f}"),
            ("Clamp load at which it would slip", f"{_slip_load(values, theory, faces):.0f} N"),
        ),
        working=(
            f"Friction radius R = {formula} = {radius:.1f} mm",
            "Torque = friction × clamp load × faces × R",
            f"= {mu:g} × {load:g} N × {faces} × {radius / 1000:.4f} m = {torque:.1f} N·m",
            f"Reserve = {torque:.1f} ÷ {engine:g} = {reserve:.2f}; new car clutches lie about 1.2 to 1.5",
        ),
        warnings=_reserve_warnings(reserve, faces),
        picture=Picture("clutch-capacity", {
            "clamp_load_n": load, "outer_mm": values["outer"], "inner_mm": values["inner"], "friction": mu, "faces": faces,
            "engine_nm": engine,
        }),
    )  # fmt: skip


def _slip_load(values: Values, theory: str, faces: int) -> float:
    return clamp_load_for_torque_n(
        values["engine"], outer_diameter_mm=values["outer"], inner_diameter_mm=values["inner"], friction=values["mu"],
        faces=faces, theory=theory,
    )  # fmt: skip


def _reserve_warnings(reserve: float, faces: int) -> tuple[str, ...]:
    told = []
    if reserve < 1:
        told.append(
            "Below 1 the clutch slips at full load: the engine races, the facing burns. Oil on the facing does this."
        )
    elif reserve < 1.1:
        told.append("Hardly any reserve: a little wear or heat and it slips at full load.")
    if faces == 1:
        told.append("A single plate rubs on both sides: flywheel and pressure plate. That is 2 faces.")
    return tuple(told)


@calculator(
    "wear-until-slip",
    title="Wear until the clutch slips, diaphragm against coil springs",
    about=(
        "A diaphragm spring presses harder as the facing wears, then lets go fast. Coil springs lose "
        "from the first tenth. "
        "Shape of the spring and rate of the coil springs are examples; they stand on no data sheet."
    ),
    vehicle="A",
    source="machine-elements-design",
    blames={"inner_diameter_mm": "inner", "outer_diameter_mm": "outer", "wear_mm": "wear", "travel_ratio_new": "new"},
    first=("wear", "engine", "mu"),
    fields=(
        _LOAD, _ENGINE, *_RING,
        Field(key="wear", label="Wear now, both facings together", unit="mm", default=1, low=0, high=3.5, step=0.1),
        Field(
            key="allowed", label="Wear allowed by the sheet", unit="mm", low=0.2, high=4, step=0.1,
            default=round(_CLUTCH.plate_thickness_new_mm - _CLUTCH.plate_thickness_min_mm, 2),
        ),
        Field(key="shape", label="Diaphragm: cone height ÷ thickness", default=1.75, low=1, high=2.7, step=0.05),
        Field(key="cone", label="Diaphragm: travel from free to flat", unit="mm", default=3, low=1, high=8, step=0.1),
        Field(key="new", label="Diaphragm: place with a new plate (1 is flat)", default=1.2, low=0.7, high=1.5, step=0.05),
        Field(key="coil", label="Coil springs: rate of all together", unit="N/mm", default=600, low=50, high=5000, step=50),
    ),
)  # fmt: skip
def wear_until_slip(values: Values, choices: Choices) -> Calculation:
    """Wear at which the clamp load has fallen to the slip load, for both kinds of spring."""
    load, slip = values["load"], _slip_load(values, UNIFORM_WEAR, 2)
    cover = {
        "clamp_load_new_n": load, "height_ratio": values["shape"], "cone_height_mm": values["cone"], "travel_ratio_new": values["new"],
    }  # fmt: skip
    now = clamp_load_after_wear_n(values["wear"], **cover)
    # Six springs stand for all of them: only the rate of all together counts.
    coil_now = max(0.0, load - values["coil"] * values["wear"])
    diaphragm = coil = 0.0
    if slip <= load:
        diaphragm = wear_until_slip_diaphragm_mm(slip, **cover)
        coil = wear_until_slip_coil_springs_mm(
            load, slip_load_n=slip, springs=6, spring_rate_n_per_mm=values["coil"] / 6
        )
    return Calculation(
        results=(
            ("Slips below a clamp load of", f"{slip:.0f} N"),
            ("Diaphragm spring slips after", f"{diaphragm:.2f} mm of wear"),
            ("Coil springs slip after", f"{coil:.2f} mm of wear"),
            ("Clamp load now, diaphragm", f"{now:.0f} N"),
            ("Clamp load now, coil springs", f"{coil_now:.0f} N"),
        ),
        working=(
            "Slip load = engine torque ÷ (friction × 2 faces × R), R = (outer + inner) ÷ 4",
            f"= {values['engine']:g} ÷ ({values['mu']:g} × 2 × "
            f"{(values['outer'] + values['inner']) / 4000:.4f} m) = {slip:.0f} N",
            f"Coil springs: (load − slip load) ÷ rate = ({load:g} − {slip:.0f}) ÷ {values['coil']:g} = "
            f"{(load - slip) / values['coil']:.2f} mm",
            f"Diaphragm: read off its curve; it starts at {values['new']:g} of its way to flat and "
            "relaxes by the wear",
            f"The sheet allows {figure(values['allowed'])} mm: that comes first, for below it the "
            "rivets cut the flywheel.",
        ),
        warnings=_wear_warnings(slip > load, diaphragm, values),
        picture=Picture("clamp-load-and-wear", {
            "clamp_load_n": load, "slip_load_n": slip, "height_ratio": values["shape"], "cone_mm": values["cone"],
            "travel_new": values["new"], "coil_rate_n_per_mm": values["coil"], "wear_mm": values["wear"], "allowed_mm": values["allowed"],
        }),
    )  # fmt: skip


def _wear_warnings(slips_new: bool, diaphragm: float, values: Values) -> tuple[str, ...]:
    if slips_new:
        return (
            "This clutch slips from the start: too little clamp load for the engine. Check that the kit fits the car.",
        )
    told = []
    if values["wear"] > values["allowed"]:
        told.append("Worn beyond the sheet's limit: replace the plate, even if it does not slip yet.")
    if values["wear"] >= diaphragm:
        told.append("At this wear it slips at full load.")
    elif diaphragm < values["allowed"]:
        told.append("It would slip before the sheet's limit is reached. Check the figures.")
    return tuple(told)
