"""Calculators of lifting: the mass one person may lift, and the car on the lift with its gearbox out."""

from bitepoint.mechanics.lifting import (
    COUPLINGS,
    LOAD_CONSTANT_KG,
    asymmetry_multiplier,
    coupling_multiplier,
    distance_multiplier,
    frequency_multiplier,
    horizontal_multiplier,
    lifting_index,
    recommended_weight_limit_kg,
    vertical_multiplier,
)
from bitepoint.mechanics.loads import (
    axle_loads_without_kg,
    centre_of_gravity_mm,
    centre_of_gravity_shift_mm,
    rating_used_percent,
)
from bitepoint.page.calculators.fields import Field
from bitepoint.page.calculators.registry import Calculation, Choices, Values, calculator
from bitepoint.questions.question import Picture
from bitepoint.workshop.tools import workshop
from bitepoint.workshop.vehicles import vehicle

_MASSES = vehicle("A").masses
ADULT, YOUNG = "18 or over", "under 18"
STANDING = "standing, both hands, firm floor"
REFUSED = {
    "overhead, under the car": "The equation does not cover it:\nuse the gearbox jack.",
    "kneeling, seated or on a creeper": "The equation does not cover it:\nchange the job or use an aid.",
    "with one hand, or an unsteady load": "The equation does not cover it:\nuse an aid or a second person.",
}
YOUNG_RULE = "Under 18 the employer's\nyoung-person rules come first: ask."


@calculator(
    "lifting-limit",
    title="Mass one person may lift like this",
    about=(
        "By the revised NIOSH lifting equation, for adults who stand and lift with both hands. First "
        "figures: the bare "
        "gearbox of training vehicle A from the floor to the bench. Work out start and end of the "
        "lift; the smaller counts."
    ),
    vehicle="A",
    source="niosh-94-110",
    first=("age", "load", "h"),
    fields=(
        Field(key="age", label="Who lifts", default=ADULT, options=(ADULT, YOUNG)),
        Field(key="way", label="How", default=STANDING, options=(STANDING, *REFUSED)),
        Field(
            key="load",
            label="Mass of the load",
            unit="kg",
            default=_MASSES.gearbox_kg,
            low=0.5,
            high=150,
            step=0.5,
        ),
        Field(key="h", label="Hands in front of the ankles", unit="cm", default=45, low=15, high=80),
        Field(key="v", label="Hands above the floor", unit="cm", default=15, low=0, high=200),
        Field(key="d", label="Way up or down", unit="cm", default=75, low=0, high=180),
        Field(key="a", label="Twist to the side", unit="°", default=30, low=0, high=180, step=5),
        Field(key="rate", label="Lifts a minute", default=0.2, low=0.1, high=20, step=0.1),
        Field(key="grip", label="Grip", default="poor", options=COUPLINGS),
    ),
)
def lifting_limit(values: Values, choices: Choices) -> Calculation:
    """Recommended weight limit and lifting index, or why there is none."""
    if choices["age"] == YOUNG:
        return _refuse(values["load"], YOUNG_RULE, "No mass is worked out for anyone under 18.")
    if choices["way"] != STANDING:
        return _refuse(
            values["load"],
            REFUSED[choices["way"]],
            f"The equation holds for lifting {STANDING}, up to 8 hours.",
        )
    h, v, d, a, rate, load = (values[key] for key in ("h", "v", "d", "a", "rate", "load"))
    factors = (
        ("reach", "HM", horizontal_multiplier(h)), ("height", "VM", vertical_multiplier(v)), ("way up", "DM", distance_multiplier(d)),
        ("twist", "AM", asymmetry_multiplier(a)), ("how often", "FM", frequency_multiplier(rate, duration_h=1, vertical_cm=v)),
        ("grip", "CM", coupling_multiplier(choices["grip"], vertical_cm=v)),
    )  # fmt: skip
    limit = recommended_weight_limit_kg(
        h, vertical_cm=v, distance_cm=d, asymmetry_deg=a, lifts_per_minute=rate, coupling=choices["grip"]
    )
    masses = [LOAD_CONSTANT_KG]
    for _, _, factor in factors:
        masses.append(masses[-1] * factor)
    index = f"{lifting_index(load, limit_kg=limit):.2f}" if limit > 1e-6 else "none: not to be lifted like this at all"
    return Calculation(
        results=(
            ("Mass allowed for this lift", f"{limit:.1f} kg"),
            ("Load", f"{load:g} kg"),
            ("Lifting index, aim at 1 or less", index),
        ),
        working=(
            "Limit = 23 kg × HM × VM × DM × AM × FM × CM, lifting for up to 1 hour",
            *(
                f"{code} ({name}) = {factor:.3f}, leaves {mass:.1f} kg"
                for (name, code, factor), mass in zip(factors, masses[1:], strict=True)
            ),
            f"Index = load ÷ limit = {load:g} ÷ {limit:.1f}: {index}",
        ),
        warnings=_lift_warnings(load, limit),
        picture=Picture("lifting-limit", {"masses": masses, "load_kg": load}),
    )


def _refuse(load: float, words: str, why: str) -> Calculation:
    plain = words.replace("\n", " ")
    return Calculation(
        results=(("Mass allowed for this lift", "no figure"),),
        working=(why,),
        warnings=(plain,),
        picture=Picture("lifting-limit", {"load_kg": load, "refused": words}),
    )


def _lift_warnings(load: float, limit: float) -> tuple[str, ...]:
    if limit <= 1e-6:
        return ("Too far, too high, too twisted or too often: no mass may be lifted like this. Use a lifting aid.",)
    if load > 3 * limit:
        return (
            "More than three times the limit: most people would be hurt sooner or later. Use the "
            "gearbox jack or a hoist.",
        )
    if load > limit:
        return (
            "Above the limit: use a lifting aid or change the lift (closer, higher, no twist). Two "
            "persons is a rule of its own.",
        )
    return ()


@calculator(
    "axle-load-shift",
    title="Axle loads and balance on the lift with the gearbox out",
    about=(
        "A front-wheel-drive car gets lighter at the front when engine or gearbox leave: its centre of "
        "gravity moves to the "
        "rear. Place the supports so that it stays well between them before and after. Where the pads "
        "go is an example."
    ),
    vehicle="A",
    source="derived",
    blames={"part_kg": "part"},
    first=("part", "fore", "aft"),
    fields=(
        Field(
            key="front",
            label="Front axle load",
            unit="kg",
            default=_MASSES.front_axle_kg,
            low=200,
            high=2000,
            step=5,
        ),
        Field(
            key="rear",
            label="Rear axle load",
            unit="kg",
            default=_MASSES.rear_axle_kg,
            low=200,
            high=2000,
            step=5,
        ),
        Field(
            key="base",
            label="Wheelbase",
            unit="mm",
            default=_MASSES.wheelbase_mm,
            low=1800,
            high=4000,
            step=10,
        ),
        Field(key="part", label="Mass taken out", unit="kg", default=_MASSES.gearbox_kg, low=0, high=400),
        Field(
            key="place",
            label="Its place behind the front axle (minus: in front)",
            unit="mm",
            default=-_MASSES.gearbox_cg_ahead_of_front_axle_mm,
            low=-1000,
            high=4000,
            step=10,
        ),
        Field(
            key="fore",
            label="Front pads behind the front axle",
            unit="mm",
            default=350,
            low=-500,
            high=1500,
            step=10,
        ),
        Field(
            key="aft",
            label="Rear pads behind the front axle",
            unit="mm",
            default=1900,
            low=900,
            high=4000,
            step=10,
        ),
        Field(
            key="rated",
            label="Rating of the lift",
            unit="kg",
            default=workshop().lift.rated_kg,
            low=500,
            high=6000,
            step=50,
        ),
    ),
)
def axle_load_shift(values: Values, choices: Choices) -> Calculation:
    """Axle loads, centre of gravity and its shift, and how far it stays from the pads."""
    axles = {"front_axle_kg": values["front"], "rear_axle_kg": values["rear"], "wheelbase_mm": values["base"]}
    part = {"part_behind_front_axle_mm": values["place"], **axles}
    front, rear = axle_loads_without_kg(values["part"], **part)
    before = centre_of_gravity_mm(values["front"], rear_axle_kg=values["rear"], wheelbase_mm=values["base"])
    shift = centre_of_gravity_shift_mm(values["part"], **part)
    total = values["front"] + values["rear"]
    used = rating_used_percent(total, rated_kg=values["rated"])
    margins = [min(x - values["fore"], values["aft"] - x) for x in (before, before + shift)]
    return Calculation(
        results=(
            ("Axle loads with the part out", f"front {front:.0f} kg, rear {rear:.0f} kg"),
            ("Centre of gravity behind the front axle", f"{before:.0f} mm, then {before + shift:.0f} mm"),
            ("It moves to the rear by", f"{shift:.0f} mm"),
            ("Nearest pad", f"{margins[0]:.0f} mm away, then {margins[1]:.0f} mm"),
            ("Rating of the lift used", f"{used:.0f} %"),
        ),
        working=(
            f"Before = wheelbase × rear ÷ total = {values['base']:g} × {values['rear']:g} ÷ {total:g} = "
            f"{before:.0f} mm",
            f"Rear then = {values['rear']:g} − {values['part']:g} × ({values['place']:g}) ÷ "
            f"{values['base']:g} = {rear:.1f} kg",
            f"Front then = {total:g} − {values['part']:g} − {rear:.1f} = {front:.1f} kg",
            f"After = {values['base']:g} × {rear:.1f} ÷ {front + rear:.1f} = {before + shift:.0f} mm",
            "A kept rating alone makes no lift safe: marked lifting points, locks, and support for the "
            "engine come with it.",
        ),
        warnings=_balance_warnings(used, min(margins)),
        picture=Picture("axle-loads", {
            "front_kg": values["front"], "rear_kg": values["rear"], "wheelbase_mm": values["base"], "part_kg": values["part"],
            "part_mm": values["place"], "front_pad_mm": values["fore"], "rear_pad_mm": values["aft"],
        }),
    )  # fmt: skip


CLOSE_MM = 250.0
"""Nearer than this to a pad the calculator warns: our own figure, no published one."""


def _balance_warnings(used: float, margin: float) -> tuple[str, ...]:
    told = []
    if used > 100:
        told.append("Above the rating on the plate: do not lift the car with this lift.")
    if margin <= 0:
        told.append("The centre of gravity is not between the pads: the car tips. Do not lift it so.")
    elif margin < CLOSE_MM:
        told.append(
            "Close to tipping: set the pads anew, strap the car, or take the part out with the car "
            "supported at its end."
        )
    return tuple(told)
