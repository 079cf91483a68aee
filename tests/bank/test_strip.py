"""Lesson strip: orders keep the job's rules, decisions are those of the criteria, figures follow from the words."""

from bitepoint.bank import exercises, exercises_of
from bitepoint.workshop.criteria import criteria, judge_seen
from bitepoint.workshop.damage import damage
from bitepoint.workshop.operations import first_broken, job, operation, rules_among
from bitepoint.workshop.vehicles import vehicles

BANK = exercises()
LEARNERS = [f"learner-{n}" for n in range(60)]
ID_OF = {o.short: o.id for o in job().operations}
NEVER = {n.text for n in job().never}


def drawn(id, turns=(1, 2, 3)):
    """Yield the exercise's questions for sixty learners and some turns."""
    for learner in LEARNERS:
        for turn in turns:
            yield BANK[id].draw(class_word="amber", learner=learner, turn=turn)


def right_options(q):
    """Texts of the right options."""
    return {o.text for o in q.options if o.right}


def test_every_outcome_is_shown_twice():
    """Four outcomes, each with two exercises or more."""
    shown = [e.outcome for e in exercises_of("strip")]
    assert len(set(shown)) == 4
    assert min(shown.count(o) for o in set(shown)) >= 2


def test_the_example_orders_keep_every_rule_of_the_job():
    """The worked order breaks no rule, not even one of economy, on any vehicle."""
    cars = set()
    for id in ("strip.gearbox-out", "strip.clutch-off"):
        for q in drawn(id, turns=(1, 2)):
            cars.add(q.vehicle)
            ids = [ID_OF[text] for text in q.example]
            assert first_broken(ids, among=ids, advice=True) is None
    assert cars == set(vehicles())


def test_breaking_a_safety_rule_of_the_job_is_critical():
    """Mount before engine support, and last bolts before the jack, are critical; the words give the reason."""
    for q in drawn("strip.gearbox-out", turns=(1,)):
        letter = {card.text: k for card, k in zip(q.cards, "abcdefghijklmnopqrstuvwxyz", strict=False)}
        steps = list(q.example)
        for early, late in (("R13", "R10"), ("R14", "R11")):
            moved, anchor = operation(early).short, operation(late).short
            order = [s for s in steps if s != moved]
            order.insert(order.index(anchor), moved)
            verdict = q.mark([letter[s] for s in order])
            assert verdict.critical
            assert "because" in verdict.feedback


def test_the_drills_hold_the_rules_between_their_cards():
    """No rule of the job between two cards is lost."""
    for id in ("strip.gearbox-out", "strip.clutch-off"):
        for q in drawn(id, turns=(1,)):
            ids = [ID_OF[text] for text in q.example]
            wanted = {(r.before, r.after) for r in rules_among(ids) if r.kind != "never"}
            assert wanted == {(ID_OF[r.first], ID_OF[r.then]) for r in q.rules}


def test_two_cards_do_not_belong():
    """One card is never done and critical, one belongs to a later part and is not."""
    for id in ("strip.gearbox-out", "strip.clutch-off"):
        for q in drawn(id, turns=(1,)):
            strangers = [c for c in q.cards if not c.belongs]
            assert sorted(c.never for c in strangers) == [False, True]
            assert {c.text for c in strangers if c.never} <= NEVER


def test_the_hub_nut_goes_by_the_sheet():
    """The form asked and the right answer agree with the sheet of the vehicle; both methods are in the pool."""
    methods = set()
    for q in drawn("strip.hub-nut"):
        said = vehicles()[q.vehicle].wheels.hub_nut
        (best,) = right_options(q)
        if "sheet says" in q.ask:
            assert f"“{said}”" in q.ask
            assert ("foot brake" in best) == (said == "raised just clear")
            methods.add(said)
    assert methods == {"on the ground", "raised just clear"}


def test_a_dual_mass_flywheel_is_measured_with_its_ring_held():
    """The ring gear is locked and the secondary mass turned; rock is read near the rim; a blue ring ends it, never re-faced."""
    wanted = {"free angle. What": "Ring gear locked", "rock. Where": "near the rim", "blue ring": "Replace it"}
    met = set()
    for q in drawn("strip.dual-mass"):
        sign = next(s for s in wanted if s in q.ask)
        (best,) = right_options(q)
        assert wanted[sign] in best
        assert vehicles()[q.vehicle].flywheel.fitted_now == "dual-mass"
        met.add(sign)
    assert met == set(wanted)


def test_a_self_adjusting_cover_that_goes_back_is_let_down_with_its_tool():
    """Plain half-turns are right for a conventional cover alone; that of the other kind is held by its tool."""
    kinds = set()
    for learner in LEARNERS:
        for turn in (1, 2, 3, 4):
            q = BANK["strip.half-turns"].draw(class_word="amber", learner=learner, turn=turn)
            kind = vehicles()[q.vehicle].clutch.cover.kind
            (best,) = right_options(q)
            if "self-adjusting" in q.ask:
                assert (kind, "tool" in best) == ("self-adjusting", True)
                kinds.add(kind)
            elif "presses with about" in q.ask:
                assert (kind, "half a turn each" in best) == ("conventional", True)
                kinds.add(kind)
    assert kinds == {"conventional", "self-adjusting"}


def test_what_is_missing_is_named():
    """Whoever leaves a right line out hears which one, not that something is missing."""
    for id in ("strip.decide-each", "strip.look-where", "strip.always-new"):
        for q in drawn(id, turns=(1,)):
            for option in q.options:
                if option.right:
                    assert option.says.startswith("You left out")


def test_decisions_are_those_of_the_criteria():
    """A finding is right exactly when the criteria decide so; calling a dangerous part good is critical."""
    by_text = {f"{c.part[0].upper()}{c.part[1:]}: {c.finding}": c for c in criteria().seen}
    for q in drawn("strip.decide-each"):
        asked = next(d for d in ("stop and ask", "replaced", "may stay") if d in q.ask)
        decision = {"replaced": "replace", "may stay": "reuse"}.get(asked, asked)
        for option in q.options:
            verdict = judge_seen(by_text[option.text].id)
            assert option.right == (verdict.decision == decision)
            dangerous = decision == "reuse" and verdict.decision != "reuse" and verdict.weight == 3
            assert option.critical == dangerous


def test_a_crack_ends_a_flywheel_and_colour_alone_is_asked():
    """Cracked: not used again. Blue only: stop and ask. Loose bolt: all new, from the first stage."""
    seen = set()
    for q in drawn("strip.flywheel"):
        (best,) = right_options(q)
        key = "crack" if "a fine crack" in q.ask else "blue" if "blue patches" in q.ask else "bolt"
        wanted = {
            "crack": "Replace it",
            "blue": "Stop and ask",
            "bolt": "All bolts new, threads clean, every stage from the first",
        }
        assert best.startswith(wanted[key])
        if key == "crack":
            assert {o.key for o in q.options if o.critical} == {"within-limit", "no-nail"}
        seen.add(key)
    assert seen == {"crack", "blue", "bolt"}


def test_the_release_bearing_is_always_new_and_the_fork_is_not():
    """The bearing that runs smoothly is replaced; a sound fork of low mileage is reused."""
    for q in drawn("strip.release-parts"):
        (best,) = right_options(q)
        if "release bearing" in q.ask:
            assert best.startswith("Replace it")
        if "no flat" in q.ask:
            assert best.startswith("Reuse it")


def test_damage_is_found_among_sound_parts():
    """Four to six parts, two or more damaged and two or more sound; only an overlooked crack is critical."""
    sizes, shown = set(), set()
    for q in drawn("strip.find-damage"):
        parts, damaged = q.picture.parameters["parts"], q.picture.parameters["damaged"]
        right = q.right_answer()
        assert right == [letter for letter, id in zip("abcdef", parts, strict=False) if id in damaged]
        assert (len(right) >= 2, len(parts) - len(right) >= 2) == (True, True)
        assert len({"hot-spots", "heat-cracks"} & set(parts)) <= 1
        for letter, id in zip("abcdef", parts, strict=False):
            if letter in right:
                verdict = q.mark([key for key in right if key != letter])
                assert (verdict.critical, verdict.mistake) == (id == "heat-cracks", damage()[id].overlooks)
            else:
                assert not q.mark([*right, letter]).critical
        sizes.add(len(parts))
        shown |= set(damaged)
    assert sizes == {4, 5, 6}
    assert shown == set(damage())


def test_what_damage_means_is_asked_of_four_parts():
    """Stop and ask is right where the gearbox would have to be opened; the picture is the part asked about."""
    seen = {}
    for q in drawn("strip.damage-means"):
        (best,) = right_options(q)
        seen[q.picture.parameters["what"]] = "stop and ask" in best
    assert seen == {"worn-splines": True, "oil-on-facing": False, "bent-fingers": False, "torn-mount": False}


def test_stopping_to_ask_is_never_critical():
    """Whoever picks stop and ask where the sheet decides is not called dangerous."""
    for e in exercises_of("strip"):
        for q in drawn(e.id, turns=(1,)):
            for option in getattr(q, "options", ()):
                assert not ("stop and ask" in option.text.lower() and option.critical)
