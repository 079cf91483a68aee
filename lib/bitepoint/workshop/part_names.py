"""Parts of a clutch and of a conversion kit: name, job, and how to tell one from the other without its name.

Source: common-practice.
"""

from msgspec import Struct


class PartName(Struct, frozen=True):
    """A part: its key in the drawings, its name, its job as the end of "It …" or "They …", and how it is found by eye."""

    key: str
    name: str
    job: str
    seen: str

    @property
    def told(self) -> str:
        """What it is and does, in two sentences."""
        if self.name in ("facings", "flywheel bolts", "cover bolts"):
            return f"These are the {self.name}. They {self.job}."
        return f"This is the {self.name}. It {self.job}."


SECTION = (
    PartName("crankshaft", "crankshaft flange", "carries the flywheel and is turned by the pistons", "thick stub at the far left, on the axis"),
    PartName("flywheel", "flywheel", "is the engine's friction face and carries the cover", "tall thick disc bolted to the stub at the left"),
    PartName("ring-gear", "ring gear", "is what the starter turns", "small block on the outer edge of the tall disc"),
    PartName("flywheel-bolt", "flywheel bolt", "holds the flywheel on the crankshaft", "long orange bolt near the axis"),
    PartName("cover-bolt", "cover bolt", "holds the cover on the flywheel", "short orange bolt near the outer edge"),
    PartName("facings", "facings", "rub on two faces and take the drive to the plate", "two thin upright layers between two thick blocks"),
    PartName("damper", "torsion damper", "softens the beats of the engine", "round coil in a cage, half-way to the axis"),
    PartName("hub", "splined hub", "takes the drive to the shaft and slides on it", "low block that sits on the shaft"),
    PartName("pressure-plate", "pressure plate", "presses the plate against the flywheel", "thick block right of the two thin layers"),
    PartName("cover", "cover", "holds diaphragm spring and pressure plate on the flywheel", "bent sheet that reaches over the block from outside"),
    PartName("strap", "strap", "draws the pressure plate back and turns it with the cover", "short slanting strip at the top of the block"),
    PartName("diaphragm", "diaphragm spring", "makes the clamp load", "long thin leaning strip, blue"),
    PartName("release-bearing", "release bearing", "pushes the turning fingers when the pedal goes down", "cage with a ball at the end of the blue strip"),
    PartName("fork", "release fork", "moves the bearing along its tube", "upright lever right of the cage with the ball"),
    PartName("guide-tube", "guide tube", "is what the bearing slides on", "thin tube round the shaft, at the right"),
    PartName("concentric-slave", "concentric slave cylinder", "turns pressure into push, round the shaft", "body round the shaft, at the far right"),
    PartName("piston", "ring piston", "is pushed out by the fluid", "thin bar between cage and body at the right"),
    PartName("input-shaft", "gearbox input shaft", "takes the drive into the gearbox", "long bar along the axis"),
    PartName("pilot-bearing", "pilot bearing", "carries the front end of the input shaft", "small crossed box inside the stub at the left"),
)  # fmt: skip
"""The parts of the section that a learner is asked for."""

KIT = (
    PartName("flywheel", "rigid flywheel", "carries plate and cover, and the starter's teeth", "large disc with teeth on its edge, far left"),
    PartName("plate", "clutch plate", "takes the drive to the input shaft", "disc with a rough ring and a small toothed hole, second from the left"),
    PartName("cover", "cover", "clamps the plate", "domed part with fingers round a hole, third from the left"),
    PartName("release", "release part", "is moved by the pedal and pushes the fingers", "smallest of the four round parts, far right"),
    PartName("flywheel-bolts", "flywheel bolts", "hold the flywheel on the crankshaft", "three longer bolts, lower left"),
    PartName("cover-bolts", "cover bolts", "hold the cover on the flywheel", "three shorter bolts beside the longer ones"),
    PartName("grease", "spline grease", "lets the hub slide on the shaft", "tube with a black cap"),
    PartName("label", "label", "tells the next fitter what was changed", "white sign with words"),
    PartName("sheet", "fitting sheet", "lists the contents and how to fit them", "sheet of paper with boxes to tick"),
)  # fmt: skip
"""The parts of a kit in the order in which they are drawn."""


_IN_SECTION, _IN_KIT = ({part.key: part for part in parts} for parts in (SECTION, KIT))


def section_part(key: str) -> PartName:
    """Return a part of the section by its key."""
    return _IN_SECTION[key]


def kit_part(key: str) -> PartName:
    """Return a part of the kit by its key."""
    return _IN_KIT[key]
