"""Lesson 1, how a clutch carries torque: what damper and flywheel do."""

from bitepoint.bank.carry.common import DAMPS, table_of
from bitepoint.bank.registry import exercise
from bitepoint.questions.choice import Choice
from bitepoint.questions.draw import Draw
from bitepoint.questions.number import Number, percent
from bitepoint.questions.question import Mistake


@exercise("carry.damper-stop", lesson="carry", outcome=DAMPS, minutes=3)
def damper_stop(draw: Draw) -> Number:
    car = draw.vehicle()
    damper, engine = car.clutch.damper, car.engine.max_torque_nm
    rate = round(damper.stiffness_nm_per_deg * draw.value(0.9, 1.05, 0.05), 1)
    stop = rate * damper.travel_deg
    turned = draw.form(2) == 1
    right = engine / rate if turned else stop / engine
    asked = (
        "How many degrees does the damper turn at the greatest engine torque?"
        if turned
        else "How many times the greatest engine torque does it carry before it meets its stop?"
    )
    return Number(
        ask=f"The damper of a plate for {car.name} is one spring in this exercise. {asked}",
        table=table_of(
            ("Stiffness of the damper", f"{rate:g} N·m for each degree"),
            ("Travel to its stop", f"{damper.travel_deg:g}°"),
            ("Greatest engine torque", f"{engine:g} N·m"),
        ),
        answer=right,
        unit="°" if turned else "",
        within=percent(2),
        decimals=1 if turned else 2,
        mistakes=_turn_mistakes(rate, damper.travel_deg, engine) if turned else _stop_mistakes(rate, stop, engine),
        why=(
            f"The stop comes at {stop:.0f} N·m. Above it the springs are solid and the beats go "
            "straight into the gearbox."
        ),
        step=f"Torque is stiffness times angle: {rate:g} N·m for each degree.",
        solution=f"{engine:g} ÷ {rate:g} = {right:.1f}°."
        if turned
        else f"{rate:g} × {damper.travel_deg:g} = {stop:.0f} N·m; {stop:.0f} ÷ {engine:g} = {right:.2f}.",
        source="invented",
        vehicle=car.id,
    )


def _turn_mistakes(rate: float, travel_deg: float, engine_nm: float) -> tuple[Mistake, ...]:
    return (
        Mistake(
            travel_deg,
            "answers with the whole travel",
            "That is where the stop is. If the engine reached it every time, the damper would hammer and break.",
        ),
        Mistake(
            engine_nm / travel_deg,
            "divides by the travel",
            (
                "You divided by the way to the stop, not by the stiffness. So a damper that hits "
                "its stop seems to have room."
            ),
        ),
    )


def _stop_mistakes(rate: float, stop_nm: float, engine_nm: float) -> tuple[Mistake, ...]:
    return (
        Mistake(
            rate / engine_nm,
            "forgets the travel",
            "Stiffness is the torque for one degree only. Multiply first, or every damper seems far too weak.",
        ),
        Mistake(
            engine_nm / stop_nm,
            "divides upside down",
            "You divided engine by damper. Read so, a good damper looks too weak and the wrong plate is ordered.",
        ),
    )


@exercise("carry.pulses", lesson="carry", outcome=DAMPS, minutes=2, beyond=True)
def pulses(draw: Draw) -> Number:
    car = draw.vehicle()
    cylinders = car.engine.cylinders
    rpm = draw.pick(*range(900, 2101, 60))
    hertz = rpm * cylinders / 120
    back = draw.form(2) == 1
    engine = f"The four-stroke engine of {car.name} has {_word(cylinders)} cylinders. "
    asked = (
        f"The gearbox is shaken {hertz:g} times a second by the firing strokes. At which engine speed?"
        if back
        else f"It runs at {rpm} rpm. How many firing strokes a second shake the gearbox?"
    )
    once = 60 * hertz if back else rpm / 60
    every = once / cylinders if back else once * cylinders
    return Number(
        ask=engine + asked,
        answer=rpm if back else hertz,
        unit="rpm" if back else "Hz",
        within=percent(2),
        decimals=0 if back else 1,
        mistakes=(
            Mistake(
                once,
                "counts one stroke a turn",
                "One beat a turn is what a bent part gives. Mixed up, you hunt for a bent part that is not there.",
            ),
            Mistake(
                every,
                "counts every cylinder in every turn",
                "In a four-stroke each cylinder fires only every second turn. The beat comes out at the wrong speed.",
            ),
        ),
        why=f"{_word(cylinders).capitalize()} cylinders fire {cylinders / 2:g} times a turn: "
        f"{hertz:g} times a second at {rpm} rpm.",
        step=f"In one turn of the crankshaft {cylinders / 2:g} cylinders fire. Then change minutes into seconds.",
        solution=f"{hertz:g} × 60 ÷ {cylinders / 2:g} = {rpm} rpm."
        if back
        else f"{rpm} ÷ 60 × {cylinders / 2:g} = {hertz:g} a second.",
        source="engine-orders",
        vehicle=car.id,
    )


def _word(count: int) -> str:
    return {3: "three", 4: "four", 5: "five", 6: "six", 8: "eight"}[count]


_LESS_POWER = Mistake(
    "The engine loses some of its power",
    "mixes up flywheel and power",
    "The flywheel stores turning, it makes no power. Told so, the customer refuses for the wrong reason.",
)
_NOTHING = Mistake(
    "Nothing at all will feel different",
    "thinks that the plate does the whole job",
    "The plate's damper is stiffer. A customer who was promised silence comes back with the rattle.",
)
_SLIPS_SOONER = Mistake(
    "The clutch will slip sooner",
    "mixes up damper and friction",
    "Clamp load, friction and radius decide slip, not the flywheel. So the wrong part gets the blame.",
)

_CHANGE: tuple[tuple[str, str, tuple[Mistake, ...], str, str], ...] = (
    (
        (
            "The customer of training vehicle B ({km} thousand km) asks what a rigid flywheel "
            "with a long-travel plate will change. What do you say?"
        ),
        "It may rattle and shake more below about 1800 rpm; it pulls as before",
        (_NOTHING, _LESS_POWER, _SLIPS_SOONER),
        "Part of the soft spring is gone. So the resonance moves up from below idle into the low driving range.",
        "Which part was soft, and is it still there?",
    ),
    (
        (
            "What keeps the beats of the engine from the gearbox in a dual-mass flywheel, at {km} "
            "thousand km as on day one?"
        ),
        "Two masses with long soft springs between them",
        (
            Mistake(
                "Its weight alone",
                "thinks that weight filters",
                (
                    "A heavy rigid flywheel still beats on the gears. Who looks only at weight "
                    "fits the wrong plate to it."
                ),
            ),
            Mistake(
                "A clutch inside that slips a little",
                "thinks that the flywheel slips",
                "The torque goes through springs, nothing slips for good. Slip there would burn the grease out.",
            ),
            Mistake(
                "The springs of the clutch plate",
                "looks for springs in the plate",
                (
                    "Behind such a flywheel the plate is mostly rigid. Who orders a sprung plate "
                    "sets spring against spring."
                ),
            ),
        ),
        "Soft springs between two masses put the resonance below idle. It is crossed only at start and stop.",
        "Think of the name: what is there twice, and what joins the two?",
    ),
    (
        (
            "A rigid flywheel replaces a dual-mass one after {km} thousand km. Which part takes "
            "over the work against the beats?"
        ),
        "The long-travel damper in the clutch plate",
        (
            Mistake(
                "The heavier rigid flywheel",
                "thinks that weight filters",
                (
                    "Weight smooths the engine but passes the beats on. With a rigid hub behind "
                    "it the splines get hammered."
                ),
            ),
            Mistake(
                "The diaphragm spring of the cover",
                "mixes up clamp and damper",
                (
                    "That spring presses along the shaft, not round it. Trusted as a damper, it "
                    "leaves the gears rattling."
                ),
            ),
            Mistake(
                "Nothing has to take it over",
                "thinks that no damper is needed",
                "Without any damper every beat hits the splines. They wear, and the drive fails on the road.",
            ),
        ),
        (
            "The plate's damper turns further than a usual one, so it can be softer. It is still "
            "stiffer than arc springs."
        ),
        "The beats act round the shaft. Which part can still give way in that direction?",
    ),
)


@exercise("carry.flywheel-change", lesson="carry", outcome=DAMPS, minutes=2)
def flywheel_change(draw: Draw) -> Choice:
    form = draw.form(3)
    ask, best, others, why, step = _CHANGE[form]
    return Choice.of(
        draw,
        ask=ask.format(km=draw.pick(140, 155, 170, 185, 210)),
        right=best,
        wrong=others,
        why=why,
        step=step,
        solution=f"{best}.",
        source="two-inertia-model",
        vehicle="B" if form == 0 else "",
    )
