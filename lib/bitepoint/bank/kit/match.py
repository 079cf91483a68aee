"""Lesson 4, the right kit: the kit list against the car."""

from bitepoint.bank.kit.codes import Form, choice_from
from bitepoint.bank.kit.common import MATCHES, against_table, built, kit_table, option_read
from bitepoint.bank.registry import exercise
from bitepoint.questions.choice import Choice
from bitepoint.questions.draw import Draw
from bitepoint.questions.enquiry import Enquiry, Observation, Suspect
from bitepoint.questions.question import Mistake
from bitepoint.workshop.datafiles import once_a_set
from bitepoint.workshop.kit_list import Kit, all_kits, kits_for
from bitepoint.workshop.kits import Found, fitting, kit_verdict, kit_verdicts, variants_found
from bitepoint.workshop.vehicles import Vehicle, vehicle

_LABELS = {
    "engine": "Engine code",
    "build": "Build month",
    "gearbox": "Gearbox code",
    "option": "Option code",
    "plate": "Plate diameter",
    "splines": "Number of splines",
    "flywheel": "Flywheel agreed with the customer",
    "release": "Release type",
}


@exercise("kit.find-kit", lesson="kit", outcome=MATCHES, minutes=4, needs=("kit in the list",))
def find_kit(draw: Draw) -> Enquiry:
    letter = draw.vehicle().id
    return _find_kit(letter, draw.form(len(variants_found(letter))))


@once_a_set
def _find_kit(letter: str, form: int) -> Enquiry:
    found, kits = variants_found(letter)[form], kits_for(letter)
    right = fitting(found, kits)[0]
    observations = tuple(Observation(k, _LABELS[k], v) for k, v in _car_shows(found).items())
    return Enquiry(
        ask=f"A car of the model of {vehicle(letter).name} comes in. "
        f"Agreed is a {found.flywheel_wanted} flywheel. "
        "Look up one fact at a time, until one kit of the list is left. Then name it.",
        table=kit_table(kits),
        observations=observations,
        suspects=tuple(_suspect(found, kit) for kit in kits),
        free=("flywheel",),
        heads=("Fact", "What the car shows"),
        cause="kit",
        why=f"{right} agrees with the car in every column. Every other kit fails in at least one.",
        step=f"Begin with the engine code: {found.engine_code}. Cross out every kit with another code.",
        solution="\n".join(_against(found, kits)),
        source="invented",
        vehicle=letter,
    )


def _against(found: Found, kits: tuple[Kit, ...]) -> list[str]:
    verdicts = kit_verdicts(found, kits)
    return [f"{v.kit}: fits." if v.fits else f"{v.kit}: no, by the {v.check}." for v in verdicts]


def _car_shows(found: Found) -> dict[str, str]:
    return {
        "engine": found.engine_code,
        "build": found.build,
        "gearbox": found.gearbox_code,
        "option": option_read(found),
        "plate": f"{found.plate_od_mm:g} mm",
        "splines": str(found.splines),
        "flywheel": found.flywheel_wanted,
        "release": found.release,
    }


def _kit_shows(found: Found, kit: Kit) -> dict[str, str]:
    """What each look-up would show on a car that this kit is for; what does not matter shows as on the car."""
    car = _car_shows(found)
    in_time = (not kit.build_from or kit.build_from <= found.build) and (
        not kit.build_to or found.build <= kit.build_to
    )
    return {
        "engine": kit.engine_code,
        "build": car["build"] if in_time else built(kit),
        "gearbox": kit.gearbox_code or car["gearbox"],
        "option": kit.option or car["option"],
        "plate": f"{kit.plate_od_mm:g} mm",
        "splines": str(kit.splines),
        "flywheel": kit.flywheel,
        "release": kit.release,
    }


def _suspect(found: Found, kit: Kit) -> Suspect:
    verdict = kit_verdict(found, kit)
    says = f"{kit.kit} speaks against itself in the {verdict.check}. It would be paid for and sent back."
    return Suspect(
        kit.kit.casefold(),
        kit.kit,
        _kit_shows(found, kit),
        verdict.fits,
        "" if verdict.fits else f"picks {kit.kit}",
        "" if verdict.fits else says,
    )


_FIRST = ("engine code", "build date", "option code", "flywheel")


@exercise("kit.first-reason", lesson="kit", outcome=MATCHES, minutes=3)
def first_reason(draw: Draw) -> Choice:
    car = draw.vehicle()
    by_check = _firsts(car.id)
    checks = tuple(by_check)
    check = checks[draw.form(len(checks))]
    found, kit = draw.pick(*by_check[check])
    verdict = kit_verdict(found, kit)
    return Choice.of(
        draw,
        ask=f"The kit {kit.kit} does not fit this car of the model of {car.name}. "
        "Go through the columns in order. Which is the first that speaks against it?",
        table=against_table(found, kit),
        right=f"The {check}",
        wrong=[_not_first(c, check) for c in _FIRST if c != check],
        why=f"{verdict.reason} One column is enough: the kit is out, and nobody need look further.",
        step=f"Start at the top: the car has engine code {found.engine_code}. Only if it agrees, go on.",
        solution=f"{verdict.reason}",
        source="invented",
        vehicle=car.id,
    )


def _not_first(check: str, right: str) -> Mistake:
    if _FIRST.index(check) < _FIRST.index(right):
        says = f"In the {check} this kit agrees with the car, or its column is open. Who stops there sends a good kit back."
    else:
        says = f"An earlier column already says no. Who begins with the {check} misses kits that differ before it."
    return Mistake(f"The {check}", f"names the {check}", says)


@once_a_set
def _firsts(letter: str) -> dict[str, tuple[tuple[Found, Kit], ...]]:
    """For each check that comes first against some kit: the cars and kits where it does."""
    met: dict[str, list[tuple[Found, Kit]]] = {}
    for found in variants_found(letter):
        for kit in kits_for(letter):
            check = kit_verdict(found, kit).check
            if check in _FIRST:
                met.setdefault(check, []).append((found, kit))
    return {check: tuple(met[check]) for check in _FIRST if check in met}


@exercise("kit.conditions", lesson="kit", outcome=MATCHES, minutes=2)
def conditions(draw: Draw) -> Choice:
    form = (_start_stop, _not_read, _target_ring)[draw.form(3)]
    car = vehicle("B" if form is _target_ring else "C")
    return choice_from(draw, form(draw, car), vehicle=car.id)


def _pair(car: Vehicle) -> tuple[str, str]:
    """Numbers of the dual-mass and of the rigid kit for an engine code."""
    mine = {k.flywheel: k.kit for k in all_kits() if k.engine_code == car.engine.code}
    return mine["dual-mass"], mine["rigid"]


def _start_stop(draw: Draw, car: Vehicle) -> Form:
    dual, rigid = _pair(car)
    return (
        f"Training vehicle {car.id} has option code S7, start-stop. It has done {draw.integer(110, 210)} thousand "
        "kilometres. Its sheet allows the rigid kit only with S0. Which kits may be fitted?",
        f"Only {dual}, with a dual-mass flywheel",
        (
            Mistake(
                f"{dual} or {rigid}, as the customer likes",
                "takes a condition for advice",
                "A condition of the sheet is not advice. The engine starts many times a day on this flywheel.",
            ),
            Mistake(
                f"Only {rigid}, because it costs less",
                "leaves out start-stop",
                "This car starts many times a day. The rigid flywheel lets each jolt through to the gearbox.",
            ),
            Mistake(
                f"{rigid}, with start-stop switched off",
                "changes the car to suit the kit",
                "You may not switch off a system of the car to make a kit fit. It can lose its approval.",
            ),
        ),
        "The sheet rules the rigid kit out with start-stop. Price and wish come after that.",
        "Read the option column of the rigid kit, then the option code of the car.",
    )


def _not_read(draw: Draw, car: Vehicle) -> Form:
    dual, rigid = _pair(car)
    return (
        f"The customer of {car.name} wants the rigid kit {rigid}. The sheet allows it only with option code S0. "
        f"Nobody has read the option codes, and the job starts in {draw.integer(2, 5)} days.",
        "Read the option codes on the car before ordering",
        (
            Mistake(
                f"Order {rigid}: the customer wants it",
                "lets the wish decide",
                "A wish does not make a kit fit. With start-stop this flywheel is not allowed.",
            ),
            Mistake(
                "Ask whether the engine stops at the lights",
                "takes an observation for the code",
                "A start-stop with a weak battery does not stop the engine. Only the code is sure.",
            ),
            Mistake(
                "Order by the engine code alone",
                "goes by the engine code alone",
                "The engine code is the same with and without start-stop. It cannot settle this.",
            ),
        ),
        f"What has not been read is not known. {dual} or {rigid}: the option code decides.",
        "The condition names one code. Where on the car is that code written?",
    )


def _target_ring(draw: Draw, car: Vehicle) -> Form:
    return (
        f"A rigid flywheel for {car.name} comes without the toothed target ring. The speed sensor reads there. "
        f"The delivery is {draw.integer(1, 3)} days late. What do you do?",
        "Send it back: it is the wrong part",
        (
            Mistake(
                "Fit it: the sensor belongs to the gearbox",
                "does not know the sensor",
                "It tells the engine its own speed. Without the ring the engine does not start.",
            ),
            Mistake(
                "Move the ring over from the old flywheel",
                "swaps the target ring",
                "Its place and its run-out are then a matter of luck. The sheet does not allow it.",
            ),
            Mistake(
                "Fit it and clear the fault memory",
                "clears the fault instead of curing it",
                "The sensor still sees nothing. The fault is back at the first start.",
            ),
        ),
        "No ring, no speed signal. The flywheel of the right kit carries the ring in the right place.",
        "What would the sensor see, once the bell housing is closed?",
    )
