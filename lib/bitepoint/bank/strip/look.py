"""Lesson 5, strip-down and inspection: what bare parts show, leaks, patterns of wear."""

from bitepoint.bank.cases import Case, choice_from
from bitepoint.bank.registry import exercise
from bitepoint.bank.strip.common import READS
from bitepoint.questions.choice import Choice, Several, needed, wrong
from bitepoint.questions.draw import Draw
from bitepoint.questions.question import Mistake, Picture

_PEDAL = wrong(
    "Press the pedal once and watch the fork",
    "presses the pedal with the gearbox out",
    "Nothing holds the slave or the bearing now. It is pushed apart, or jumps off the fork onto your hand.",
    critical=True,
)
_ENGINE_SIDE = (
    needed("Rear crankshaft seal: dry?", "leaves out the rear seal",
           "Something is missing. What leaks here oils the new facing, and everything comes out again."),
    needed("Flange: bare, flat, no burr?", "leaves out the flange",
           "Something is missing. Dirt or a burr tilts the flywheel; it judders and its bolts work loose."),
    needed("Dowels: straight, tight, not oval?", "leaves out the dowels",
           "Something is missing. Bolts have play in their holes; only the dowels bring things into line."),
    needed("Mounts: not torn, not soft?", "leaves out the mounts",
           "Something is missing. A torn mount judders with the best of clutches."),
    _PEDAL,
    wrong("Old flywheel bolts: still straight?", "looks for good old bolts",
          "What stretched cannot be seen. Used again, they let the flywheel come loose.", critical=True),
)  # fmt: skip
_GEARBOX_SIDE = (
    needed("Input-shaft seal: dry?", "leaves out the input-shaft seal",
           "Something is missing. Gear oil on the facing makes it slip and judder."),
    needed("Splines: no burr, new plate slides?", "leaves out the splines",
           "Something is missing. A plate that hangs on a burr drags, and the gears grate."),
    needed("Guide tube: no step to be felt?", "leaves out the guide tube",
           "Something is missing. On a step the bearing tilts, and the pedal jerks."),
    needed("Fork and pivot: straight, no flat?", "leaves out fork and pivot",
           "Something is missing. A flat costs travel, and a cracked fork breaks under the foot."),
    _PEDAL,
    wrong("Wash the release bearing, then listen to it", "washes the release bearing",
          "Solvent takes its grease for good. And it is not asked: in this job it is always new."),
)  # fmt: skip


@exercise("strip.look-where", lesson="strip", outcome=READS, minutes=2, title="What to look at while it is bare")
def look_where(draw: Draw) -> Several:
    car, form, minutes = draw.vehicle(), draw.form(2), draw.integer(10, 40)
    options = (_ENGINE_SIDE, _GEARBOX_SIDE)[form]
    side = ("on the engine side", "on the gearbox and its release parts")[form]
    return Several.of(
        draw,
        options=options,
        ask=f"Gearbox and clutch of {car.name} are out, the dust is caught, {minutes} minutes are planned for looking. "
        f"What do you look at {side}? Pick all.",
        why="Each of these is hidden again tomorrow. Looking costs minutes now, and the whole job later.",
        step="Ask of each line: does it find a fault that ruins the new clutch? And can anything jump out?",
        solution="\n".join(o.text for o in options if o.right),
        source="common-practice",
        vehicle=car.id,
    )


_WIPE = Mistake(
    "Wipe it off: the new plate cures it",
    "treats the trace and not the leak",
    "The leak goes on. In a few weeks the new facing is oiled, and everything comes out again.",
)
_REAR, _INPUT = "Rear crankshaft seal of the engine", "Seal of the gearbox input shaft"
_SLAVE = "Clutch slave cylinder or its pipe"


@exercise("strip.leak", lesson="strip", outcome=READS, minutes=1.5, title="Whose oil is it?")
def leak(draw: Draw) -> Choice:
    form, long = draw.form(3), draw.integer(6, 18)
    step = "Follow the streak to its highest and most central point. Then smell, colour, feel."
    other = {
        _REAR: Mistake(_REAR, "blames the engine for every leak",
                       "Engine oil starts behind the flywheel and runs outward. The true leak stays."),
        _INPUT: Mistake(_INPUT, "blames the gearbox for every leak",
                        "Gear oil starts at the input shaft and smells of sulphur. The true leak stays."),
        _SLAVE: Mistake(_SLAVE, "takes oil for brake fluid",
                        "Brake fluid is thin and clear, and swells paint. The true leak stays."),
    }  # fmt: skip
    found = (
        (f"A honey-brown streak, {long} cm long, runs from the middle of the crankshaft outward. It has no sharp smell.", _REAR),
        (f"A streak, {long} cm long, begins at the input shaft. It smells sharp, of sulphur.", _INPUT),
        (f"A clear, thin track, {long} cm long, begins low at the release parts. The paint beside it is swollen.", _SLAVE),
    )[form]  # fmt: skip
    rest = [other[name] for name in other if name != found[1]]
    case = Case(
        f"In the bell housing you see this. {found[0]} Which part leaks?",
        found[1],
        (*rest, _WIPE),
        "Where it begins, how it smells and what it does to paint name the part. It is renewed now.",
        step,
    )
    return choice_from(draw, case, picture=Picture("leak-traces", {"trace": ("rear", "input", "slave")[form]}))


_NORMAL = Mistake(
    "Normal wear: fit the kit",
    "takes every wear for normal",
    "A pattern has a cause. Left in, it wears the new kit the same way, and the customer is back.",
)
_MAKER = Mistake(
    "Bad material: send it back",
    "blames the maker first",
    "It happens, but rarely. First rule out what you can measure, or the next kit dies the same way.",
)


@exercise("strip.pattern", lesson="strip", outcome=READS, minutes=1.5, title="A pattern tells its cause")
def pattern(draw: Draw) -> Choice:
    form, miles = draw.form(4), draw.integer(30, 90)
    cases = (
        Case(
            f"After {miles} thousand miles the hub splines of the plate are worn to a cone. The shaft is good. "
            "One housing dowel was missing. What do you do before the new plate goes in?",
            "Fit both dowels, look at housing faces and pilot bearing",
            (_NORMAL, Mistake(
                "More grease on the splines this time",
                "thinks that grease cures misalignment",
                "Grease does not centre a gearbox. It flies onto the facing, and the cone comes back.",
            ), _MAKER),
            "The gearbox was not in line. Dowels bring it into line; bolts never do.",
            "What should have held the gearbox in line, and was not there?",
        ),
        Case(
            f"After {miles} thousand miles the finger tips of the cover are worn on one half of the circle only. Where do you look?",
            "Guide tube, fork and housing: the bearing runs off centre",
            (_NORMAL, _MAKER, Mistake(
                "Flywheel bolts: one was too tight",
                "looks on the wrong side of the clutch",
                "The fingers are worn by the bearing, not by the bolts. The crooked guide stays and wears the new ones.",
            )),
            "The bearing touches what its guide lets it touch. Off centre, it rubs one half.",
            "Which part touches the finger tips, and what guides that part?",
        ),
        Case(
            f"After {miles} thousand miles one facing is down to its rivets, the other is hardly worn. Where do you look?",
            "Splines and release: the plate did not come free",
            (_NORMAL, _MAKER, Mistake(
                "The engine: it has too much torque",
                "blames the torque",
                "Too much torque wears both sides alike. The plate that hangs goes on hanging.",
            )),
            "A plate that slides freely wears alike on both sides. This one hung on one of them.",
            "What lets the plate move away from the flywheel when the pedal is down?",
        ),
        Case(
            f"After {miles} thousand miles a damper spring has broken out of its window. The friction faces are fine. What do you ask?",
            "Labouring at low revs, towing, and whether the plate was the right one",
            (_NORMAL, _MAKER, Mistake(
                "Whether the pedal was ridden",
                "blames a foot on the pedal",
                "A foot on the pedal wears bearing and facing, not springs. The cause goes on.",
            )),
            "Springs break under shaking and shocks. Whoever drives on like that breaks the next ones.",
            "What do the damper springs take up, and when is that most?",
        ),
    )  # fmt: skip
    return choice_from(draw, cases[form])
