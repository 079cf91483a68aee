"""The live controls: a tightening drill, a bench of work cards, a form for an answer or a calculator, a moving picture, the
button to hand in, what follows a question of recall.

A control only carries what a learner sees and does. Nothing about a right answer is ever in a trait: the kernel
marks, then sets `said` (and `told`, where a learner is told step by step). What a learner sends arrives as a custom message (`{"do": "answer", …}`), so give a
control's `on_msg` a function `(widget, content, buffers)`. Two traps, both measured in JupyterLab 4.6: that function
runs in another thread than the cells, and nothing it prints or raises is shown to anyone.
"""

from .bolts import BoltCircle
from .calculator import CalculatorForm
from .form import AnswerForm
from .hand_in import HandInControl
from .round_steps import RoundSteps
from .slide import SlidingPicture, slide_spec
from .sweep import SweepForm
from .work import WorkBench

__all__ = [
    "AnswerForm",
    "BoltCircle",
    "CalculatorForm",
    "HandInControl",
    "RoundSteps",
    "SlidingPicture",
    "SweepForm",
    "WorkBench",
    "slide_spec",
]
