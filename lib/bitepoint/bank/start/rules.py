"""Lesson 0, start here: two orders of the workshop with the reason for each of their rules."""

from msgspec import Struct

from bitepoint.questions.order import Before


class Steps(Struct, frozen=True):
    """An order question before it is drawn: words, one right order, and the rules it keeps."""

    ask: str
    example: tuple[str, ...]
    rules: tuple[Before, ...]
    why: str


_LEVEL, _CHOCK = "Stand the car on firm, level ground, brake on", "Chock the wheels that stay down"
_LIFT, _STANDS = "Raise the car at its jacking point", "Set stands under the points the maker names"
_LOWER, _PUSH = "Lower the car onto the stands", "Push the car to see that it stands firm"
_UNDER = "Go under the car"

RAISE = Steps(
    ask="You raise one end of a car with a trolley jack to work underneath. Put the steps in order.",
    example=(_LEVEL, _CHOCK, _LIFT, _STANDS, _LOWER, _PUSH, _UNDER),
    rules=(
        Before(_LEVEL, _CHOCK, "the chocks hold only where the car will stay.", "physical"),
        Before(_LEVEL, _LIFT, "on soft or sloping ground the jack tips and the car falls.", "safety", True),
        Before(_CHOCK, _LIFT, "a raised car rolls off the jack when its other wheels are free.", "safety", True),
        Before(_LIFT, _STANDS, "the stands fit underneath only when the car is up.", "physical"),
        Before(_STANDS, _LOWER, "there must be something to lower it onto.", "physical"),
        Before(_LOWER, _PUSH, "the test is of the stands, not of the jack.", "safety", True),
        Before(_PUSH, _UNDER, "a car that would fall must fall while nobody is under it.", "safety", True),
        Before(_LOWER, _UNDER, "a jack can sink at any moment and is no support.", "safety", True),
    ),
    why="The car stands before anyone goes under it, and it is tested first. A jack lifts, stands carry.",
)

_NOTE, _OFF = "Note settings and fault memory", "Switch the ignition off and keep the key away"
_WAIT, _MINUS = "Wait until the control units sleep", "Take the negative clamp off"
_COVER, _STARTER = "Cover the clamp so that it cannot touch", "Undo the cable at the starter motor"

BATTERY = Steps(
    ask="You have to undo the starter motor of a parked car. Put the steps in order.",
    example=(_NOTE, _OFF, _WAIT, _MINUS, _COVER, _STARTER),
    rules=(
        Before(_NOTE, _OFF, "the fault memory is read with the ignition on.", "quality"),
        Before(_NOTE, _MINUS, "without current they are gone.", "quality"),
        Before(_OFF, _WAIT, "the control units go to sleep only with the ignition off.", "physical"),
        Before(_WAIT, _MINUS, "cut off while it writes, a control unit can lose its data.", "quality"),
        Before(_MINUS, _COVER, "only a free clamp can be covered.", "physical"),
        Before(
            _COVER,
            _STARTER,
            "a clamp that springs back makes the starter cable live: spark and burn.",
            "safety",
            True,
        ),
        Before(
            _MINUS,
            _STARTER,
            "the starter cable has no fuse: a spanner against metal burns and sprays.",
            "safety",
            True,
        ),
    ),
    why=("First what is lost without current, then the current off for certain, then the cable without a fuse."),
)
