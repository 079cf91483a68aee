"""Lesson 4, the right kit: reading the codes and looking at the car, then the kit list against the car."""

from bitepoint.bank.forms import form_of, forms_of
from bitepoint.bank.kit.common import IDENTIFIES, MATCHES, against_table, built, kit_table, option_read
from bitepoint.bank.registry import exercise
from bitepoint.missing import MissingFigure
from bitepoint.questions.choice import Choice
from bitepoint.questions.draw import Draw
from bitepoint.questions.enquiry import Enquiry, Observation, Suspect
from bitepoint.workshop.datafiles import once_a_set
from bitepoint.workshop.kit_list import Kit, kits_for
from bitepoint.workshop.kits import Found, fitting, kit_verdict, kit_verdicts
from bitepoint.workshop.vehicle_kits import kinds_for, number_of, variants_found
from bitepoint.workshop.vehicles import vehicle

_SPANS = {
    "changed-elsewhere": (2, 6),
    "label-found": (40, 95),
    "two-releases": (1, 1),
}
"""From what to what the figure of each form is drawn: years, thousand kilometres."""


@exercise("kit.unreadable-code", title="Read the codes of a car", lesson="kit", outcome=IDENTIFIES, minutes=2)
def unreadable_code(draw: Draw) -> Choice:
    car, form = draw.vehicle(), form_of(draw)
    if "build.build_date" in car.missing:
        raise MissingFigure(car.id, "build.build_date")
    code, year = car.engine.code, int(car.build.build_date[:4])
    return form.choice(
        draw,
        vehicle=car.id,
        car=car.name,
        code=code,
        hidden=f"{code[:-1]}?",
        registered=f"{year + 1}-0{draw.integer(1, 6)}",
    )


@exercise("kit.flywheel-now", title="Find out what is fitted now", lesson="kit", outcome=IDENTIFIES, minutes=2)
def flywheel_now(draw: Draw) -> Choice:
    car, form = draw.vehicle(), form_of(draw)
    figure = draw.integer(*_SPANS[form.key])
    return form.choice(
        draw,
        vehicle=car.id,
        car=car.name,
        factory_type=car.flywheel.factory_type,
        release=car.release.kind,
        years=figure,
        km=figure,
    )


_LABELS = {
    "number": "Identification number",
    "engine": "Engine code",
    "build": "Build month",
    "gearbox": "Gearbox code",
    "option": "Option code",
    "plate": "Plate diameter",
    "splines": "Number of splines",
    "flywheel": "Flywheel agreed with the customer",
    "release": "Release type",
}


@exercise(
    "kit.find-kit",
    title="Find the kit and confirm it",
    lesson="kit",
    outcome=MATCHES,
    minutes=4,
    needs=("kit in the list",),
)
def find_kit(draw: Draw) -> Enquiry:
    letter = draw.vehicle().id
    return _find_kit(letter, draw.form(len(variants_found(letter))))


@once_a_set
def _find_kit(letter: str, form: int) -> Enquiry:
    found, kits = variants_found(letter)[form], kits_for(letter)
    number = f"{number_of(letter, form)}, the same on body, windscreen plate and papers"
    right = fitting(found, kits)[0]
    observations = tuple(Observation(k, _LABELS[k], v) for k, v in _car_shows(found, number).items())
    return Enquiry(
        ask=f"A car of the model of {vehicle(letter).name} comes in. "
        f"Agreed is a {found.flywheel_wanted} flywheel. Look up one fact after the other and cross out rows of the list. "
        "One column that disagrees rules a kit out; before you order one, every column must agree. Name the kit.",
        table=kit_table(kits),
        observations=observations,
        suspects=tuple(_suspect(found, kit, number) for kit in kits),
        free=("flywheel",),
        heads=("Fact", "What the car shows"),
        cause="kit",
        whole=True,
        why=f"{right} agrees with the car in every column. Every other kit fails in at least one.",
        step=f"First the identification number, then the engine code: {found.engine_code}. Cross out every kit with another code.",
        solution="\n".join(_against(found, kits)) + "\nEvery fact was looked up, so the kit that is left is confirmed.",
        source="invented",
        vehicle=letter,
    )


def _against(found: Found, kits: tuple[Kit, ...]) -> list[str]:
    verdicts = kit_verdicts(found, kits)
    return [f"{v.kit}: fits." if v.fits else f"{v.kit}: no, by the {v.check}." for v in verdicts]


def _car_shows(found: Found, number: str) -> dict[str, str]:
    return {
        "number": number,
        "engine": found.engine_code,
        "build": found.build,
        "gearbox": found.gearbox_code,
        "option": option_read(found),
        "plate": f"{found.plate_od_mm:g} mm",
        "splines": str(found.splines),
        "flywheel": found.flywheel_wanted,
        "release": found.release,
    }


def _kit_shows(found: Found, kit: Kit, number: str) -> dict[str, str]:
    """What each look-up would show on a car that this kit is for; what does not matter shows as on the car."""
    car = _car_shows(found, number)
    in_time = (not kit.build_from or kit.build_from <= found.build) and (
        not kit.build_to or found.build <= kit.build_to
    )
    return {
        "number": number,
        "engine": kit.engine_code,
        "build": car["build"] if in_time else built(kit),
        "gearbox": kit.gearbox_code or car["gearbox"],
        "option": kit.option or car["option"],
        "plate": f"{kit.plate_od_mm:g} mm",
        "splines": str(kit.splines),
        "flywheel": kit.flywheel,
        "release": kit.release,
    }


def _suspect(found: Found, kit: Kit, number: str) -> Suspect:
    verdict = kit_verdict(found, kit)
    says = f"{kit.kit} speaks against itself in the {verdict.check}. It would be paid for and sent back."
    return Suspect(
        kit.kit.casefold(),
        kit.kit,
        _kit_shows(found, kit, number),
        verdict.fits,
        "" if verdict.fits else f"picks {kit.kit}",
        "" if verdict.fits else says,
    )


_FIRST = ("engine code", "build date", "option code", "flywheel")


@exercise(
    "kit.first-reason",
    title="The first column that disagrees",
    lesson="kit",
    outcome=MATCHES,
    minutes=3,
    needs=("kit in the list",),
)
def first_reason(draw: Draw) -> Choice:
    car = draw.vehicle()
    by_check = _firsts(car.id)
    checks = tuple(by_check)
    check = checks[draw.form(len(checks))]
    found, kit = draw.pick(*by_check[check])
    return forms_of(draw)[check.replace(" ", "-")].choice(
        draw,
        table=against_table(found, kit),
        vehicle=car.id,
        car=car.name,
        kit=kit.kit,
        reason=kit_verdict(found, kit).reason,
        engine_code=found.engine_code,
    )


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


@exercise(
    "kit.conditions",
    title="A kit with a condition",
    lesson="kit",
    outcome=MATCHES,
    minutes=2,
    others=(("kit with a condition",),),
)
def conditions(draw: Draw) -> Choice:
    form = form_of(draw)
    car = draw.cars(*form.needs)[0]
    kits = kinds_for(car.id)
    return form.choice(
        draw,
        vehicle=car.id,
        car=car.name,
        opening=car.opening,
        dual=kits.get("dual-mass", ""),
        rigid=kits.get("rigid", ""),
        needed=car.flywheel.rigid_option,
        start_stop=car.flywheel.start_stop_option,
    )
