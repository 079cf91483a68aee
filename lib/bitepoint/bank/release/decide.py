"""Lesson 10, the release system: what a pedal tells, and whether the work is finished."""

from bitepoint.bank.cases import Case, choice_from
from bitepoint.bank.registry import exercise
from bitepoint.bank.release.common import DECIDES, FINDS, hydraulic_car
from bitepoint.questions.choice import Choice
from bitepoint.questions.draw import Draw
from bitepoint.questions.question import Mistake
from bitepoint.workshop.figures import foot_force_n
from bitepoint.workshop.vehicles import vehicle

_AIR = "Air in the line"
_SHORT = "Too much play, a pedal stop or a wrong cylinder"
_LEAK = "A leak, outside or past a seal inside"


@exercise("release.firm-or-soft", lesson="release", outcome=FINDS, minutes=2, title="Firm, soft or sinking")
def firm_or_soft(draw: Draw) -> Choice:
    form, got, want = draw.form(3), draw.integer(7, 10), draw.integer(13, 15)
    shows = (
        "The pedal is firm from the first push, and the pressure is there at once.",
        "The pedal is springy, and the second push in a row brings more travel.",
        f"The pedal is firm, but held down for {draw.integer(20, 50)} seconds it sinks to the floor.",
    )[form]
    says = {
        _AIR: (
            "puts everything down to air",
            "Air makes a pedal springy, and pumping helps a little. This one is different. You bleed for hours in vain.",
        ),
        _SHORT: (
            "looks at the levers only",
            "A wrong length leaves the pedal firm and steady. You set the rod, and the real fault stays in.",
        ),
        _LEAK: (
            "suspects a leak",
            "A leak shows itself while the pedal is held. You change good seals, and the clutch still drags.",
        ),
        "A bent fork": (
            "looks for a bent part",
            "A bent fork neither springs like air nor sinks. The gearbox comes out for nothing.",
        ),
    }
    right = (_SHORT, _AIR, _LEAK)[form]
    wrong = tuple(
        Mistake(k, n, s) for k, (n, s) in says.items() if k != right and not (form == 0 and k == "A bent fork")
    )
    return choice_from(
        draw,
        Case(
            f"With the pedal down the slave moves {got} mm; it should move {want} mm. {shows} What do you look for?",
            right,
            wrong,
            "Firm and short: geometry. Springy: air. Sinking while held: fluid goes somewhere.",
            "Ask what each cause does to the feel of the pedal: can it spring, can it sink, or does it stay?",
        ),
    )


@exercise("release.heavy-pedal", lesson="release", outcome=FINDS, minutes=2, title="Heavier than it should be")
def heavy_pedal(draw: Draw) -> Choice:
    car, form = draw.vehicle(), draw.form(3)
    expected = foot_force_n(car)
    factor = (draw.value(1.5, 1.8, 0.05), draw.value(0.95, 1.08, 0.01), draw.value(0.5, 0.65, 0.05))[form]
    measured = round(expected * factor / 5) * 5
    cable = not car.release.master_bore_mm
    rub = "Cable, fork pivot and guide tube: what rubs?" if cable else "Pedal pivot, push-rods and guide: what rubs?"
    none = "Nothing: it fits the sheet"
    away = "Where the force or the travel gets lost on the way"
    on = Mistake(
        "Nothing: new clutches are heavy and wear in",
        "waits until it wears in",
        "Friction does not wear in. The part that sticks wears through, and one day the clutch stays open.",
    )
    bleed = Mistake(
        "The bleed nipple: a heavy pedal means air",
        "takes heavy for air",
        "Air makes a pedal soft and light, never heavy. You bleed in vain while something rubs on.",
    )
    cover = Mistake(
        "The clutch cover: change it for a lighter one",
        "buys a weaker spring",
        "A weaker spring clamps less. The clutch slips at the first hill, and all comes out again.",
    )
    sticks = Mistake(
        "What rubs: it is far from the sheet",
        "sees friction in every figure",
        "Friction makes a pedal heavy. Here nothing speaks for it. You take good parts out.",
    )
    good = Mistake(
        none,
        "takes light for good",
        "Far too light is no gift. If the force is missing, so is the release, and the gears grate.",
    )
    right, wrong, why = (
        (
            rub,
            (on, bleed, cover),
            "Far more force for the same load is lost to friction. Find the place, do not grease blindly.",
        ),
        (
            none,
            (sticks, bleed, cover),
            "A few per cent either way is how people and gauges differ. Note the figure, go on.",
        ),
        (
            away,
            (good, sticks, cover),
            "If the spring is not pushed, the foot feels little: air, a leak, a loose lever.",
        ),
    )[form]
    return choice_from(
        draw,
        Case(
            f"By its sheet the pedal of {car.name} needs about {expected:.0f} N. You measure {measured} N after the refit. "
            "What do you look at?",
            right,
            wrong,
            why,
            f"Put the two in relation: {measured} ÷ {expected:.0f} = {measured / expected:.2f}. What takes force, what saves it?",
        ),
        vehicle=car.id,
    )


_READY = "Ready: write it down and go on"
_LOOK = "Not ready: find where fluid or pressure gets away"
_BELOW = "Not ready: drive the air out from below"
_ROD = "Not ready: give the push-rod its play"


@exercise("release.bleed-log", lesson="release", outcome=DECIDES, minutes=2, title="Read the bleeding log")
def bleed_log(draw: Draw) -> Choice:
    car, form = hydraulic_car(draw), draw.form(4)
    start, after, hour, last = (
        (15, draw.integer(60, 66), 0, "none from stroke 9 on"),
        (15, draw.integer(58, 66), draw.integer(12, 18), "none from stroke 12 on"),
        (18, draw.integer(36, 42), 0, "1, none, 1, none"),
        (30, draw.integer(92, 98), 0, "none from stroke 6 on"),
    )[form]
    late = after - hour - (1 if form == 0 else 0)
    free = "none" if form == 3 else f"{car.release.free_play_set_mm:g} mm"
    says = {
        _READY: (
            "goes by one line only",
            "One good line is not enough. All lines together tell, and one of them says no. Gears will grate or worse.",
            form == 1,
        ),
        _LOOK: (
            "sees a leak where nothing sinks",
            "A leak lets the point sink while the car stands. Here it does not. You change parts that are good.",
            False,
        ),
        _BELOW: (
            "puts everything down to air",
            "Trapped air keeps bubbling and keeps the point low. Look again. You bleed on and find nothing.",
            False,
        ),
        _ROD: (
            "sets a rod that is right",
            "The play is there. Take it away, and the refill hole stays closed, pressure stays and the clutch slips.",
            False,
        ),
    }
    right = (_READY, _LOOK, _BELOW, _ROD)[form]
    return choice_from(
        draw,
        Case(
            f"You have bled {car.name}. The biting point should lie 55 to 70 mm above the floor. What does the log say?",
            right,
            tuple(Mistake(k, *v) for k, v in says.items() if k != right),
            (
                "No bubbles, free play there, the point in its range and still there after an hour.",
                "No bubbles at the end, and yet the point sinks while the car stands: something gets away.",
                "Bubbles come again and again and the point stays low: air sits in a high spot.",
                "Without play the piston does not clear the refill hole. Pressure stays, and the clutch slips.",
            )[form],
            "Read four things: bubbles at the end, height of the point, what an hour did to it, the free play.",
        ),
        table=(
            ("Line of the log", "Seen"),
            ("Bubbles at the end, of 20 strokes", last),
            ("Biting point before bleeding", f"{start} mm"),
            ("Biting point after bleeding", f"{after} mm"),
            ("Biting point after one hour", f"{late} mm"),
            ("Free play at the pedal", free),
        ),
        vehicle=car.id,
    )


@exercise("release.no-play", lesson="release", outcome=DECIDES, minutes=1.5, title="Too little or too much play")
def no_play(draw: Draw) -> Choice:
    form = draw.form(3)
    car = vehicle("A" if form == 0 else "D")
    low, high = car.release.free_play_mm
    part = "cable" if form == 0 else "push-rod"
    play = draw.integer(0, 2) if form < 2 else draw.integer(int(high) + 8, int(high) + 16)
    leave = Mistake(
        "Leave it: play is only lost travel" if form < 2 else "Leave it: more play is safer",
        "takes play for waste" if form < 2 else "thinks that more play is safer",
        "As the facing wears the fingers come back and need room. Without it the clutch slips and burns."
        if form < 2
        else "All that play is missing at the bearing. The clutch drags, and first gear pulls with the pedal down.",
    )
    waits = Mistake(
        "Wait: it sets itself on the first kilometres",
        "thinks that every system sets itself",
        "This one is set by hand. Nobody does it for you, and the customer comes back with a new clutch ruined.",
    )
    pumps = Mistake(
        "Bleed again: play comes from air",
        "mixes play up with air",
        "Air changes the feel, not the play at the rod. You bleed for an hour, and the play is as before.",
    )
    return choice_from(
        draw,
        Case(
            f"After the refit the pedal of {car.name} has {play} mm of free play. The sheet wants {low:g} to {high:g} mm, "
            f"set at the {part}. What do you do?",
            f"Set the {part} now, then measure again at the pad",
            (leave, waits, pumps),
            "Play lets bearing and piston come fully home. Too little slips, too much drags.",
            f"Compare {play} mm with the range. Then ask what the {part} has to do with it.",
        ),
        vehicle=car.id,
    )


@exercise("release.always-new", lesson="release", outcome=DECIDES, minutes=1.5, title="New, or by finding")
def always_new(draw: Draw) -> Choice:
    km, form = draw.integer(40, 95), draw.form(3)
    spin = Mistake(
        "Keep it: it spins quietly by hand",
        "tests a bearing by hand",
        "A hand neither loads nor heats it. When it fails, the gearbox comes out again, at your cost.",
    )
    wash = Mistake(
        "Wash it in solvent, grease it, fit it",
        "washes a sealed part",
        "Solvent washes out the grease that was sealed in. It runs dry and howls after a few weeks.",
    )
    seal = Mistake(
        "Fit a new seal ring only",
        "mends a part that is renewed whole",
        "Bore and guide are worn as well. It leaks onto the facing, and the new clutch slips.",
    )
    fork_new = Mistake(
        "Change nothing: forks do not wear",
        "thinks that a fork lasts for ever",
        "A worn pivot tilts the bearing and takes travel. The clutch drags, or the fork breaks.",
    )
    film = Mistake(
        "Fill the hollow with grease",
        "fills wear with grease",
        "Grease is pressed out at the first push. The fork tilts again, and grease lands on the facing.",
    )
    cases = (
        Case(
            f"The clutch is changed at {km} 000 km. The release bearing is quiet. What do you do with it?",
            "Fit a new one, as in every clutch job",
            (spin, wash, fork_new),
            "The part costs little, the way to it costs hours. It is always new in a clutch job.",
            "How many hours of work lie between you and this part, when it fails next month?",
        ),
        Case(
            f"The concentric slave has done {km} 000 km and is dry outside. The clutch is changed. What do you do with it?",
            "Fit a new one, as in every clutch job",
            (spin, seal, wash),
            "It sits inside the housing. A leak there ruins the new clutch, so it is always new.",
            "What would fluid from this part drip onto, and how would you get there?",
        ),
        Case(
            f"The fork has a hollow at its pivot that the nail feels, at {km} 000 km. What do you do?",
            "Renew fork and pivot together",
            (fork_new, film, seal),
            "Fork, pivot, guide tube and external slave go by what you find. In doubt they are renewed.",
            "What you feel with the nail: does it move the bearing straight, or does it tilt it?",
        ),
    )
    return choice_from(draw, cases[form])
