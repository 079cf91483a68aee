"""Lesson 9, assembly: run-out, level fingers, the half-built clutch, what went wrong."""

from bitepoint.bank.assembly.common import JUDGES
from bitepoint.bank.cases import Case, choice_from
from bitepoint.bank.registry import exercise
from bitepoint.questions.choice import Choice, Several, needed, wrong
from bitepoint.questions.draw import Draw
from bitepoint.questions.question import Mistake


def _readings(draw: Draw, count: int, spread: float) -> list[float]:
    """Return readings in hundredths whose highest and lowest differ by exactly `spread`, in a drawn order."""
    low = draw.integer(-6, 2)
    top = low + round(spread * 100)
    middle = [draw.integer(low, top) for _ in range(count - 2)]
    return [n / 100 for n in draw.shuffle([low, top, *middle])]


@exercise("assembly.run-out", lesson="assembly", outcome=JUDGES, minutes=2.5)
def run_out(draw: Draw) -> Choice:
    car, form = draw.vehicle(), draw.form(3)
    limit = car.flywheel.face_runout_limit_mm
    spread = round(limit * (0.6, 1.5, 1.0)[form], 2)
    readings = _readings(draw, 8, spread)
    over = spread > limit
    accept = "Accept it and write all eight figures down"
    off = "Flywheel off, look for dirt and burrs, refit with new bolts"
    halve = Mistake(
        "Halve the swing first, then compare",
        "halves the swing",
        "The limit is meant for the whole swing of the hand. Halved, a crooked flywheel passes and judders.",
    )
    wrong_way = Mistake(
        accept if over else off,
        "passes what is over the limit" if over else "turns down what is within the limit",
        "Take the highest reading and the lowest one, signs counted. Then compare the difference with the limit.",
    )
    pull = Mistake(
        "Tighten the bolts on the high side a little more",
        "presses a flywheel straight by its bolts",
        "Bolts cannot press steel straight. Past their torque they stretch, and the flywheel can come loose.",
        True,
    )
    why = f"The swing is {spread:.2f} mm from lowest to highest. The limit is {limit:g} mm, and the limit itself still counts."
    return choice_from(
        draw,
        Case(
            ask=f"You measured the face of {car.name} at eight places, the crankshaft held to one side. "
            f"The limit is {limit:g} mm. What do you do?",
            right=off if over else accept,
            wrong=(wrong_way, halve, pull),
            why=why,
            step=f"The highest reading is {max(readings):+.2f} mm, the lowest {min(readings):+.2f} mm. How far apart are they?",
        ),
        table=(
            ("Place", *(str(i) for i in range(1, 9))),
            ("mm", *(f"{r:+.2f}" for r in readings)),
        ),
        source="tm-9-2815-202-34",
        vehicle=car.id,
    )


@exercise("assembly.finger-level", lesson="assembly", outcome=JUDGES, beyond=True, minutes=2, title="Level fingers")
def finger_level(draw: Draw) -> Choice:
    car, form = draw.vehicle(), draw.form(2)
    limit = car.clutch.finger_coplanarity_limit_mm
    spread = round(limit * (0.5, 1.6)[form], 1)
    base = draw.value(38.0, 46.0, 0.1)
    heights = [round(base + n, 1) for n in draw.shuffle([0.0, spread, *(draw.pick(0.1, 0.2) for _ in range(4))])]
    accept = "Level enough: go on, lock out"
    slack = "Slacken in star order, look for dirt at ears and dowels, tighten again"
    bend = Mistake(
        "Bend the high finger down",
        "bends fingers",
        "A bent finger is weakened and breaks off. Its pieces tear the clutch apart.",
        True,
    )
    mean = Mistake(
        "Work out the mean height first",
        "takes the mean",
        "A mean hides the one finger that stands out. The bearing then wobbles, and the pedal pulses.",
    )
    wrong_way = Mistake(
        slack if form == 0 else accept,
        "turns down what is within the limit" if form == 0 else "passes what is over the limit",
        "Highest minus lowest is what counts against the limit. Misread, you do the work twice or hand over a pulsing pedal.",
    )
    return choice_from(
        draw,
        Case(
            ask=f"The cover of {car.name} is tight. You measured the fingers from one straight edge. "
            f"The limit between highest and lowest is {limit:g} mm. What do you do?",
            right=accept if form == 0 else slack,
            wrong=(wrong_way, bend, mean),
            why=f"Highest and lowest lie {max(heights) - min(heights):.1f} mm apart, the limit is {limit:g} mm.",
            step=f"The highest is {max(heights):.1f} mm, the lowest {min(heights):.1f} mm.",
        ),
        table=(("Finger", *(str(i) for i in range(1, 7))), ("mm", *(f"{h:.1f}" for h in heights))),
        source="invented",
        vehicle=car.id,
    )


@exercise("assembly.half-built", lesson="assembly", outcome=JUDGES, minutes=2, title="A half-built clutch")
def half_built(draw: Draw) -> Several:
    form, minutes = draw.form(3), draw.integer(4, 20)
    faults = [
        needed(
            "The flywheel lock still grips the ring gear",
            "overlooks the lock",
            "You left something in that the starter will meet. It breaks teeth, and pieces fly.",
            critical=True,
        ),
        needed(
            "One flywheel bolt is an old one with a worn patch",
            "overlooks an old bolt",
            "You accepted a bolt that is used up. It can let go, and the flywheel comes off.",
            critical=True,
        ),
        needed(
            "A shiny thumb print on the pressure plate",
            "overlooks a thumb print",
            "Something on a face is still there. It burns into the facing, and the clutch judders.",
        ),
        needed(
            "A ring of grease at the hub of the plate",
            "overlooks a ring of grease",
            "Something is about to be thrown onto the facings. The clutch then judders or slips.",
        ),
        needed(
            "One ear of the cover lies beside its dowel",
            "overlooks a cover beside its dowel",
            "The cover does not lie where it should. It runs out of true and works loose.",
            critical=True,
        ),
        needed(
            "One dowel of the housing is missing",
            "overlooks a missing dowel",
            "Something that centres the gearbox is not there. Off centre, it bends the plate.",
        ),
    ]
    harmless = (
        (
            "The bolts are black all over",
            "takes a coating for a fault",
            "Black is a usual coating. Good bolts changed for nothing cost time.",
        ),
        (
            "Each bolt carries a line of paint",
            "takes paint marks for dirt",
            "Those lines show that each bolt was turned. Wiped off, the proof is gone.",
        ),
        (
            "A pocket in the flywheel is not machined",
            "takes a cast pocket for damage",
            "A cast pocket is left rough on purpose. Sent back, the job waits for nothing.",
        ),
    )
    chosen = ((0, 2, 5), (1, 3, 0), (4, 2, 1))[form]
    return Several.of(
        draw,
        options=[*(faults[i] for i in chosen), *(wrong(*h) for h in harmless)],
        ask=f"A colleague was called away {minutes} minutes ago and left a half-built clutch. The gearbox is next. "
        "What must be put right before it goes on? Pick all.",
        why="Three things would hurt somebody or bring the car back. The others are as they should be.",
        step="Ask of each line: what does it do when the engine runs for the first time?",
        solution="\n".join(faults[i].text for i in chosen),
        source="common-practice",
    )


@exercise("assembly.what-went-wrong", lesson="assembly", outcome=JUDGES, beyond=True, minutes=2)
def what_went_wrong(draw: Draw) -> Choice:
    form, place = draw.form(4), draw.integer(1, 6)
    reverse = "The plate sits the wrong way round"
    air = Mistake(
        "Air in the line",
        "thinks of air first",
        "Air makes a soft pedal and leaves no bolt tight or loose. You bleed, and nothing changes.",
    )
    synchro = Mistake(
        "A worn synchroniser ring",
        "looks in the gearbox",
        "That shows in one gear while driving. Here you would open a gearbox that is sound.",
    )
    bolts = Mistake(
        "Cover bolts too loose",
        "blames the cover bolts",
        "The record has them ticked twice. You would open what was good and miss the cause.",
    )
    centre = Mistake(
        "The plate was off centre",
        "blames the centring",
        "Off centre, the gearbox would not have gone home at all. You would miss the cause and open it twice.",
    )
    cases = (
        Case(
            "After the job no gear goes in, the pedal is hard at its end, and metal rubs at idle with the pedal down. "
            "The line was bled well. The cover bolts are ticked twice. “Side of the plate” is empty.",
            reverse,
            (air, synchro, bolts),
            "Hub or springs touch the flywheel bolts, so it never runs free. The empty line shows where to look.",
            "Which line of the record is empty, and what would that fault touch?",
        ),
        Case(
            f"The flywheel of training vehicle C is on. The record says: bolt {place} started only with the ratchet, the "
            "other five by hand. Run-out is 0.16 mm, limit 0.11 mm.",
            f"The thread at bolt {place} is damaged: off, look, new bolts",
            (
                Mistake(
                    "The flywheel sits in a wrong position",
                    "blames the position",
                    "In a wrong position two bolts would not start at all. Turning it on leaves the damage in.",
                ),
                Mistake(
                    "The gauge stood wrongly: measure again and go on",
                    "doubts the gauge",
                    "A forced bolt and a high run-out tell the same story. Ignored, the flywheel can come off.",
                    True,
                ),
                Mistake(
                    f"Bolt {place} needs a little more torque",
                    "presses a flywheel straight by its bolts",
                    "A crossed bolt clamps nothing at any torque. Pulled harder it breaks or strips the crankshaft.",
                    True,
                ),
            ),
            "A bolt that needs a tool to start is crossed or dirty. It lifts the flywheel on its side.",
            "How many bolts start in a wrong position of this car, and how many started here?",
        ),
        Case(
            f"After 900 km it judders when hot. The record says: run-out good, splines “well greased”, ring not wiped, {place + 4} g used.",
            "Grease from the splines on the facings",
            (
                Mistake(
                    "The plate was too thick",
                    "blames the kit",
                    "The kit was checked against the old parts. A new plate gets the same grease and judders again.",
                ),
                centre,
                air,
            ),
            "About a match-head is enough. What is not wiped off flies outward when it gets warm.",
            "Which words of the record name an amount that no sheet names?",
        ),
        Case(
            f"The pedal pulses once a turn. The record says: cover {place + 3} mm off at the start, then drawn down bolt by bolt "
            "round the ring. Finger heights are not measured; the tool slid freely.",
            "The cover is bent: it was not drawn down in even steps",
            (
                centre,
                Mistake(
                    "The release bearing is dry",
                    "blames the bearing",
                    "A dry bearing howls, it does not pulse. You would change it and feel the same pulse.",
                ),
                synchro,
            ),
            "Drawn down on one side first, a cover bends for good. Its fingers then stand at different heights.",
            "What did the cover feel while one side was down and the other still up?",
        ),
    )
    letter = "C" if form == 1 else ""
    case = cases[form]
    return choice_from(draw, case._replace(ask=f"{case.ask} What is the most likely cause?"), vehicle=letter)
