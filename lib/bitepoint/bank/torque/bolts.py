"""Lesson 7, torque and the torque wrench: oiled bolts, used bolts, the angle turned twice."""

from bitepoint.bank.cases import Case, choice_from
from bitepoint.bank.registry import exercise
from bitepoint.bank.torque.common import DECIDES, joint_of
from bitepoint.mechanics.bolts import preload_from_torque_n, share_of_proof_pct
from bitepoint.mechanics.joints import preload_after_angle_n, preload_after_angle_twice_n
from bitepoint.questions.choice import Choice
from bitepoint.questions.draw import Draw
from bitepoint.questions.question import Mistake
from bitepoint.workshop.vehicles import vehicle

OILED_K = 0.12
"""Nut factor of an oiled bolt in these exercises (source: invented)."""


@exercise("torque.oiled-bolts", lesson="torque", outcome=DECIDES, minutes=2, title="Oiled bolts")
def oiled_bolts(draw: Draw) -> Choice:
    car, form = vehicle(draw.pick("A", "D")), draw.form(3)
    joint = joint_of(car, 0)

    def share(k: float) -> float:
        newtons = preload_from_torque_n(joint.torque_nm, d_mm=joint.d_mm, nut_factor=k)
        return share_of_proof_pct(newtons, d_mm=joint.d_mm, pitch_mm=joint.pitch_mm, prop_class=joint.prop_class)

    told = (
        f"On {car.name} the flywheel bolts go in dry: {joint.torque_nm:g} N·m uses {share(joint.nut_factor):.0f} % of "
        f"their proof load. Oiled, the same torque would use {share(OILED_K):.0f} %. "
    )
    less = Mistake(
        "Keep them and take less torque off the sheet",
        "makes up a torque",
        "Nobody knows the friction of that oil. With a guessed torque the flywheel can work loose and come off.",
        True,
    )
    same = Mistake(
        "Go on: torque is torque",
        "thinks that the torque decides alone",
        "Less friction turns the same torque into more pull. The bolt can stretch for good and let go later.",
        True,
    )
    wipe = Mistake(
        "Wipe them with a cloth and go on",
        "wipes the oil off",
        "Oil stays in the thread and in the locking means. It still clamps wrongly and does not lock.",
        True,
    )
    asks = (
        "Somebody has just oiled the new bolts; none is in yet. What do you do?",
        "All bolts are in and tight when you hear that they were oiled. What do you do?",
        "A colleague wants to oil them: “Then they go in evenly.” What do you answer?",
    )
    right = (
        "Lay them aside and take new, dry ones",
        "Slacken all, clean the threads, start again with new dry bolts",
        "“They stay dry, as the sheet says”",
    )[form]
    why = (
        "The sheet's torque holds for the friction it was found with. "
        "With the scatter on top a bolt may pass 100 %, and then nobody guarantees that it stays straight."
    )
    wrong = (less, same, wipe)
    if form == 2:
        wrong = (
            Mistake("“Good idea, with the same torque”", same.name, same.says, True),
            Mistake("“Good idea, with a little less torque”", less.name, less.says, True),
            Mistake(
                "“Only a drop under each head”",
                "oils only the head",
                "Under the head sits about half of all friction. One drop there stretches the bolt just the same.",
                True,
            ),
        )
    return choice_from(
        draw,
        Case(
            told + asks[form],
            right,
            wrong,
            why,
            "Compare the two shares of the proof load. Which friction was the torque meant for?",
        ),
        source="mech-eng-design-9",
        vehicle=car.id,
    )


@exercise("torque.angle-twice", lesson="torque", outcome=DECIDES, minutes=2, title="The angle turned twice")
def angle_twice(draw: Draw) -> Choice:
    car, form = vehicle(draw.pick("B", "C")), draw.form(3)
    sheet, bolt, joint = car.flywheel.tightening, car.flywheel.bolt, joint_of(car, 0)
    snug = preload_from_torque_n(joint.torque_nm, d_mm=joint.d_mm, nut_factor=joint.nut_factor)
    angle, stiff = float(sheet.angle_deg or 0), float(sheet.joint_stiffness_kn_per_mm or 0)
    once, twice = (
        share_of_proof_pct(
            after(snug, angle_deg=angle, pitch_mm=bolt.pitch_mm, stiffness_kn_per_mm=stiff),
            d_mm=bolt.d_mm,
            pitch_mm=bolt.pitch_mm,
            prop_class=bolt.prop_class,
        )
        for after in (preload_after_angle_n, preload_after_angle_twice_n)
    )
    told = (
        f"On {car.name} each bolt is turned by {angle:g}° after the torque. That uses {once:.0f} % of its proof load. "
        f"Turned twice, the sum would say {twice:.0f} %. "
    )
    nothing = "The second turn adds as much as the first. The bolt stretches for good and can break on the road."
    cases = (
        Case(
            told + "All bolts are done. How do you check them?",
            "Look whether all paint marks have moved alike",
            (
                Mistake(f"Turn each by {angle:g}° again", "turns the angle twice", nothing, True),
                Mistake(
                    "Go round once with the torque wrench",
                    "puts a torque on angle bolts",
                    "The wrench clicks at once and tells nothing, or turns a bolt on. Then it is stretched.",
                    True,
                ),
                Mistake(
                    "Slacken one and see how tight it was",
                    "opens a good joint",
                    "A slackened bolt is a used one. You would need a new bolt and a new start.",
                ),
            ),
            "The mark tells how far a bolt was turned. A look does not load it.",
            "Which check loads the bolt once more, and which does not?",
        ),
        Case(
            told + "You were called away and turned one bolt a second time. What do you do?",
            "Say so, slacken all and start again with new bolts",
            (
                Mistake("Leave it: tighter is safer", "thinks that tighter is safer", nothing, True),
                Mistake(
                    f"Turn it back by {angle:g}°",
                    "turns a stretched bolt back",
                    "What is stretched for good does not come back. The bolt is now slack, long and weak.",
                    True,
                ),
                Mistake(
                    "Turn all the others a second time too",
                    "makes all bolts equal",
                    "Then every bolt is stretched, not one. Nothing is left that holds the flywheel for certain.",
                    True,
                ),
            ),
            "The bolt may be stretched, and an opened ring starts from the first stage. Saying so is good work.",
            "The sum is far above 100 %. Can such a bolt be trusted in any position?",
        ),
        Case(
            told + "A colleague says: “The sum is above 100 %, so it breaks at once.” What is true?",
            "It stretches for good, and nobody sees it",
            (
                Mistake(
                    "It springs back when the engine runs",
                    "thinks that a stretched bolt springs back",
                    "Beyond its yield a bolt stays long. It clamps less from then on and can work loose.",
                    True,
                ),
                Mistake(
                    "Nothing happens, the second turn adds nothing",
                    "thinks that the second turn adds nothing",
                    nothing,
                    True,
                ),
                Mistake(
                    "It is tighter and so better",
                    "thinks that tighter is safer",
                    "A stretched bolt has no reserve. The next jerk takes its pull away, and the flywheel moves.",
                    True,
                ),
            ),
            "Beyond yield the straight-line sum no longer holds. The bolt gives way, stays long and looks good.",
            "Think of a paper clip: it bends for good long before it breaks.",
        ),
    )
    return choice_from(draw, cases[form], source="derived", vehicle=car.id)


@exercise("torque.one-time", lesson="torque", outcome=DECIDES, minutes=2, title="One-time bolts")
def one_time(draw: Draw) -> Choice:
    km, form = draw.integer(3, 90), draw.form(3)
    looks = Mistake(
        "Nothing: they look like new",
        "judges a bolt by its looks",
        "Most stretched bolts look like new. Used again, one can break, and a flywheel that comes off kills.",
        True,
    )
    glue = Mistake(
        "Put thread-locker on them",
        "replaces the locking patch by glue",
        "Glue changes the friction and mends no stretch. The torque then gives another pull, and the joint lets go.",
        True,
    )
    brush = Mistake(
        "Clean the threads with a wire brush",
        "cleans a used bolt",
        "Brushing takes the rest of the coating off. It locks no more and clamps otherwise, so it works loose.",
        True,
    )
    law = Mistake(
        "Because the law forbids it",
        "knows a rule without its reason",
        "That is no reason a bolt cares about. Whoever knows only a rule breaks it when nobody looks.",
    )
    head = Mistake(
        "Because the head is worn",
        "looks only at the head",
        "Heads mostly look fine. Whoever judges by them puts stretched bolts back, and they let go.",
    )
    rust = Mistake(
        "Because old bolts rust",
        "blames rust",
        "A clean used bolt is as bad. Whoever looks for rust alone puts stretched bolts back in.",
    )
    cases = (
        Case(
            f"Flywheel bolts with a locking patch come out after {km} 000 km. They look good. What has to be done to them?",
            "They go in the scrap, new ones go in",
            (looks, glue, brush),
            "The patch has done its work and the bolt may be stretched. The same torque would clamp otherwise.",
            "Ask what the patch and the stretch were like before, and what is left of them.",
        ),
        Case(
            "Why are bolts tightened by torque and angle, or with a locking patch, used only once?",
            "They may be stretched, and the patch has done its work",
            (law, head, rust),
            "Stretch and friction have changed. The same torque gives another pull, and nothing locks any more.",
            "Think of what the first tightening does to the shaft of the bolt and to the patch.",
        ),
        Case(
            f"Run-out was too high, so the new flywheel bolts came out again after {km} minutes. The engine never ran. "
            "The sheet calls them one-time bolts. What now?",
            "Fit new ones once more",
            (
                Mistake(
                    "Use them: the engine never ran",
                    "counts the kilometres, not the tightening",
                    "It is tightening that uses up patch and bolt, not driving. Used again, they can let go.",
                    True,
                ),
                Mistake(
                    "Use them at the lower end of the torque",
                    "makes up a torque",
                    "A guessed torque clamps less, and the patch is used up. The flywheel can work loose.",
                    True,
                ),
                Mistake(
                    "Use them in other holes",
                    "thinks that another hole renews a bolt",
                    "The bolt is what was stretched, not the hole. In any hole it can let go.",
                    True,
                ),
            ),
            "Tightened once is used. That is why a fitter orders a second set before the run-out check.",
            "When is a one-time bolt used up: when it is tightened, or when the car drives?",
        ),
    )
    return choice_from(draw, cases[form], source="vdi-2230")
