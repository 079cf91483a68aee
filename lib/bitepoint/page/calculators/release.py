"""The calculator of the release system: from the pad to the plate."""

from bitepoint.mechanics.hydraulics import bore_area_mm2, ring_area_mm2
from bitepoint.mechanics.release import bearing_travel_mm, overall_ratio, pedal_effort_n, plate_lift_mm
from bitepoint.page.calculators.fields import Field
from bitepoint.page.calculators.registry import Calculation, Choices, Values, calculator
from bitepoint.questions.question import Picture
from bitepoint.workshop.pedal_motion import LOST_MM
from bitepoint.workshop.vehicles import vehicle

_CABLE, _RING = vehicle("A"), vehicle("B")
_FORK = vehicle("C")
CABLE, FORK, RING = "cable and levers", "slave cylinder and fork", "concentric slave cylinder"


@calculator(
    "pedal-and-release",
    title="Plate lift and pedal effort from the pedal's travel",
    about=(
        "What the pad's travel becomes at the release bearing and at the pressure plate. What the "
        "ratio gains in force it "
        "costs in travel. More free play, a worn pivot, a wrong cylinder: change one figure at a time."
    ),
    vehicle="A",
    source="derived",
    blames={"inner_mm": "inner", "bearing_travel_mm": "Travel of the release bearing", "ratio": "Overall ratio"},
    first=("way", "pedal", "free"),
    fields=(
        Field(key="way", label="Release by", default=CABLE, options=(CABLE, FORK, RING)),
        Field(
            key="pedal",
            label="Travel of the pedal pad",
            unit="mm",
            default=_CABLE.release.pedal_travel_mm,
            low=60,
            high=250,
        ),
        Field(
            key="free",
            label="Free play at the pad",
            unit="mm",
            default=_CABLE.release.free_play_set_mm,
            low=0,
            high=60,
        ),
        Field(key="ratio", label="Pedal ratio", default=_CABLE.release.pedal_ratio, low=2, high=10, step=0.1),
        Field(
            key="fork",
            only_for=("way", CABLE, FORK),
            label="Fork or levers, ratio",
            default=_CABLE.release.outer_lever_ratio or 1.0,
            low=0.5,
            high=6,
            step=0.05,
        ),
        Field(
            key="master",
            only_for=("way", FORK, RING),
            label="Master cylinder, bore",
            unit="mm",
            default=_FORK.release.master_bore_mm or 1.0,
            low=10,
            high=40,
            step=0.1,
        ),
        Field(
            key="slave",
            only_for=("way", FORK),
            label="Slave cylinder, bore",
            unit="mm",
            default=_FORK.release.slave_bore_mm or 1.0,
            low=12,
            high=80,
            step=0.1,
        ),
        Field(
            key="outer",
            only_for=("way", RING),
            label="Ring piston, outer diameter",
            unit="mm",
            default=_RING.release.slave_outer_mm or 1.0,
            low=12,
            high=80,
            step=0.1,
        ),
        Field(
            key="inner",
            only_for=("way", RING),
            label="Ring piston, inner diameter",
            unit="mm",
            default=_RING.release.slave_inner_mm or 1.0,
            low=11,
            high=70,
            step=0.5,
        ),
        Field(
            key="travel_share",
            label="Travel that arrives",
            unit="%",
            default=100 * _CABLE.release.efficiency_travel,
            low=40,
            high=100,
        ),
        Field(
            key="force_share",
            label="Force that arrives",
            unit="%",
            default=100 * _CABLE.release.efficiency_force,
            low=30,
            high=100,
        ),
        Field(
            key="finger",
            label="Finger ratio of the cover",
            default=_CABLE.clutch.lever_ratio,
            low=2,
            high=6,
            step=0.1,
        ),
        Field(
            key="lost",
            label="Lost in bending, at the bearing",
            unit="mm",
            default=LOST_MM,
            low=0,
            high=3,
            step=0.1,
        ),
        Field(
            key="load",
            label="Release load at the fingers",
            unit="N",
            default=_CABLE.clutch.release_load_max_n,
            low=200,
            high=6000,
            step=50,
        ),
        Field(
            key="needed",
            label="Bearing travel needed",
            unit="mm",
            default=_CABLE.release.bearing_travel_required_mm,
            low=2,
            high=20,
            step=0.1,
        ),
        Field(
            key="most",
            label="Bearing travel, at most",
            unit="mm",
            default=_CABLE.release.bearing_travel_max_mm,
            low=3,
            high=30,
            step=0.1,
        ),
        Field(
            key="lift",
            label="Plate lift needed",
            unit="mm",
            default=_CABLE.clutch.plate_lift_required_mm,
            low=0.5,
            high=4,
            step=0.1,
        ),
    ),
)
def pedal_and_release(values: Values, choices: Choices) -> Calculation:
    """Bearing travel, plate lift and pedal effort for the way of release chosen."""
    way = choices["way"]
    ratio, worked = _ratio(values, way)
    travel = bearing_travel_mm(
        values["pedal"], free_play_mm=values["free"], ratio=ratio, efficiency=values["travel_share"] / 100
    )
    effort = pedal_effort_n(values["load"], ratio=ratio, efficiency=values["force_share"] / 100)
    lost = min(values["lost"], travel)
    lift = plate_lift_mm(travel, finger_ratio=values["finger"], lost_mm=lost)
    return Calculation(
        results=(
            ("Travel of the release bearing", f"{travel:.2f} mm"),
            ("Lift of the pressure plate", f"{lift:.2f} mm"),
            ("Effort at the pad", f"{effort:.0f} N"),
            ("Overall ratio", f"{ratio:.2f}"),
        ),
        working=(
            worked,
            f"Bearing travel = (travel − free play) × share ÷ ratio = ({values['pedal']:g} − "
            f"{values['free']:g}) × "
            f"{values['travel_share'] / 100:g} ÷ {ratio:.2f} = {travel:.2f} mm",
            f"Plate lift = (bearing travel − lost) ÷ finger ratio = ({travel:.2f} − {lost:.2g}) ÷ "
            f"{values['finger']:g} = {lift:.2f} mm",
            f"Effort = release load ÷ (ratio × share) = {values['load']:g} ÷ ({ratio:.2f} × "
            f"{values['force_share'] / 100:g}) = {effort:.0f} N",
            "Car pedals ask for about 80 to 150 N.",
        ),
        warnings=_release_warnings(values, travel, lift),
        picture=Picture("pedal-to-plate", {
            "pedal_mm": values["pedal"], "free_mm": values["free"], "ratio": ratio, "bearing_mm": travel, "needed_mm": values["needed"],
            "most_mm": values["most"], "lift_mm": lift, "lift_needed_mm": values["lift"], "effort_n": effort,
        }),
    )  # fmt: skip


def _ratio(values: Values, way: str) -> tuple[float, str]:
    """Return the overall ratio and its working."""
    if way == CABLE:
        ratio = overall_ratio(values["ratio"], fork_ratio=values["fork"])
        return (
            ratio,
            f"Ratio = pedal × levers = {values['ratio']:g} × {values['fork']:g} = {ratio:.2f} (cylinders do not count)",
        )
    master = bore_area_mm2(values["master"])
    slave = bore_area_mm2(values["slave"]) if way == FORK else ring_area_mm2(values["outer"], inner_mm=values["inner"])
    fork = values["fork"] if way == FORK else 1.0
    ratio = overall_ratio(values["ratio"], master_area_mm2=master, slave_area_mm2=slave, fork_ratio=fork)
    last = f" × fork {fork:g}" if way == FORK else ""
    return (
        ratio,
        f"Ratio = pedal {values['ratio']:g} × slave area {slave:.1f} ÷ master area {master:.1f}{last} = {ratio:.2f}",
    )


def _release_warnings(values: Values, travel: float, lift: float) -> tuple[str, ...]:
    told = []
    if travel < values["needed"] or lift < values["lift"]:
        told.append("Too little: the clutch drags, gears grate. Look for free play, air, a worn pivot or a wrong part.")
    if travel > values["most"]:
        told.append(
            "Too far: the bearing presses the fingers beyond their travel and can damage cover or slave cylinder."
        )
    if values["free"] == 0:
        told.append("No free play on a cable: the release bearing runs all the time and the clutch may slip.")
    return tuple(told)
