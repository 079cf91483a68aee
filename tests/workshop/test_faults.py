"""From complaint to cause: evidence adds up whatever its order."""

from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bitepoint import places
from bitepoint.errors import BadData
from bitepoint.workshop import faults
from bitepoint.workshop.faults import causes_of, checks_for, rank
from bitepoint.workshop.vehicles import vehicle

SYMPTOMS = [symptom.id for symptom in faults.faults().symptoms]


def drawn_evidence(data: st.DataObject, symptom: str) -> list[tuple[str, str]]:
    chosen = data.draw(st.lists(st.sampled_from(checks_for(symptom)), unique=True))
    return [(check.id, data.draw(st.sampled_from(check.findings)).id) for check in chosen]


@given(st.sampled_from(SYMPTOMS), st.data())
@settings(deadline=None)
def test_order_of_evidence_does_not_matter(symptom: str, data: st.DataObject) -> None:
    """The same findings give the same ranking, whichever was noted first."""
    evidence = drawn_evidence(data, symptom)
    other = data.draw(st.permutations(evidence))

    assert rank(symptom, dict(evidence)) == rank(symptom, dict(other))


@given(st.sampled_from(SYMPTOMS), st.data())
@settings(deadline=None)
def test_ruled_out_stays_ruled_out(symptom: str, data: st.DataObject) -> None:
    """More evidence never brings back a cause that was ruled out, and it stands behind all others."""
    evidence = drawn_evidence(data, symptom)
    fewer = dict(evidence[: len(evidence) // 2])
    out = {r.cause.id for r in rank(symptom, fewer) if r.ruled_out}
    after = rank(symptom, dict(evidence))

    assert out <= {r.cause.id for r in after if r.ruled_out}
    assert [r.ruled_out for r in after] == sorted(r.ruled_out for r in after)


@pytest.mark.parametrize("cause", faults.faults().causes, ids=lambda cause: cause.id)
def test_every_cause_can_come_out_on_top(cause: faults.Cause) -> None:
    """For each cause there are findings that put it alone in front: nothing in the table can never be found."""
    evidence: dict[str, str] = {}
    for check in checks_for(cause.symptom) * 2:
        gains = {f.id: _lead(cause, {**evidence, check.id: f.id}) for f in check.findings}
        best = max(gains, key=lambda name: gains[name])
        if gains[best] > _lead(cause, evidence):
            evidence[check.id] = best

    assert cause.id == rank(cause.symptom, evidence)[0].cause.id
    assert _lead(cause, evidence) > 0


def _lead(cause: faults.Cause, evidence: dict[str, str]) -> int:
    """Score of a cause over the sum of all others' that still stand."""
    ranked = rank(cause.symptom, evidence)
    own = next(r for r in ranked if r.cause == cause)
    if own.ruled_out:
        return -99
    return own.score - max((r.score for r in ranked if r.cause != cause and not r.ruled_out), default=-9)


@pytest.mark.parametrize(
    ("symptom", "evidence", "first"),
    [
        ("slip", {"slip-ratio": "ahead", "slip-traces": "oily", "slip-age": "new"}, "slip-oil"),
        ("slip", {"slip-ratio": "ahead", "slip-age": "old", "slip-traces": "dry"}, "slip-worn"),
        ("slip", {"slip-ratio": "equal"}, "slip-power"),
        ("drag", {"drag-pump": "better", "drag-since": "work", "drag-travel": "short"}, "drag-air"),
        ("drag", {"drag-gears": "one"}, "drag-synchro"),
        ("drag", {"drag-push": "stands"}, "drag-synchro"),
        (
            "slip",
            {"slip-ratio": "ahead", "slip-freeplay": "none", "slip-traces": "dry", "slip-age": "new"},
            "slip-play",
        ),
        ("slip", {"slip-ratio": "ahead", "slip-warm": "warm"}, "slip-stick"),
        ("judder", {"judder-open": "hangs"}, "judder-splines"),
        ("judder", {"judder-when": "pulling", "judder-memory": "misfire"}, "judder-misfire"),
        ("judder", {"judder-bar": "torn"}, "judder-mount"),
        ("soft", {"soft-hold": "sinks", "soft-level": "keeps"}, "soft-master"),
        ("vibration", {"vib-coast": "there", "vib-standing": "not"}, "vib-tyre"),
    ],
)
def test_known_cases(symptom: str, evidence: dict[str, str], first: str) -> None:
    """Cases as a fitter knows them come out as they should."""
    assert first == rank(symptom, evidence)[0].cause.id


def test_reasons_are_given_for_and_against() -> None:
    """A ranked cause carries its reasons on both sides."""
    ranked = {r.cause.id: r for r in rank("slip", {"slip-ratio": "ahead", "slip-traces": "dry"})}

    assert len(ranked["slip-oil"].reasons_for) == 1
    assert ranked["slip-oil"].reasons_against == ("oil on a facing leaves tracks in the housing",)
    assert ranked["slip-power"].ruled_out


def test_what_is_quick_and_outside_stands_before_what_is_opened_or_recorded() -> None:
    """Mounts, fault memory, oil traces and pedal are tried before a recording is taken apart or the gearbox comes out."""
    asked = [check.id for check in checks_for("judder")]

    assert max(map(asked.index, ("judder-memory", "judder-bar", "judder-traces", "judder-pedal"))) < asked.index(
        "judder-beat"
    )
    assert asked[-1] == "judder-open"


def test_without_evidence_nothing_leads() -> None:
    """Before anything was found every cause stands equal, in the order of the table."""
    assert {0} == {r.score for r in rank("drag", {})}
    assert [c.id for c in causes_of("drag")] == [r.cause.id for r in rank("drag", {})]


@pytest.mark.parametrize(
    ("letter", "missing"),
    [("A", "drag-air"), ("A", "drag-leak"), ("A", "drag-pilot"), ("B", "drag-pilot"), ("D", "drag-adjuster")],
)
def test_no_cause_the_car_has_no_part_for(letter: str, missing: str) -> None:
    """A car with a cable has no air in it, and only vehicle D has a pilot bearing."""
    assert missing not in {r.cause.id for r in rank("drag", {}, vehicle(letter))}


def test_the_cable_belongs_to_vehicle_a() -> None:
    """Only the car with a cable can have a stiff cable, and only there is it pulled by hand."""
    having = [v for v in "ABCD" if "heavy-cable" in {c.id for c in causes_of("heavy", vehicle(v))}]
    asked = [v for v in "ABCD" if "heavy-unhooked" in {c.id for c in checks_for("heavy", vehicle(v))}]

    assert ["A"] == having == asked


def test_unknown_names() -> None:
    """A symptom, test or finding that is not there is named with those that are."""
    with pytest.raises(BadData, match=r"There is no symptom 'smell'\. Choose one of slip, drag"):
        rank("smell", {})
    with pytest.raises(BadData, match=r"There is no check 'drag-pump' for 'slip'\. Choose one of slip-ratio"):
        rank("slip", {"drag-pump": "better"})
    with pytest.raises(BadData, match=r"'maybe' is no finding of 'slip-ratio'\. Choose one of ahead, always, equal"):
        rank("slip", {"slip-ratio": "maybe"})


@pytest.mark.parametrize(
    ("old", "new", "message"),
    [
        (
            '{ id = "drag-air", symptom = "drag"',
            '{ id = "drag-air", symptom = "smell"',
            r"drag-air symptom: 'smell' is no",
        ),
        (
            'finding = "ahead", cause = "slip-worn"',
            'finding = "a", cause = "slip-worn"',
            r"'a' is no finding of this check",
        ),
        ('cause = "slip-worn", weight = 2', 'cause = "drag-air", weight = 2', r"belong to different symptoms"),
        ('cause = "slip-worn", weight = 2', 'cause = "slip-rust", weight = 2', r"'slip-rust' is no cause"),
        ('cause = "slip-worn", weight = 2', 'cause = "slip-worn", weight = 0', r"a weight of 0 says nothing"),
        ('cause = "slip-worn", weight = 2', 'cause = "slip-worn", weight = 3', r"Expected `int` <= 2"),
        (
            'cause = "slip-worn", weight = 2',
            'cause = "slip-oil", weight = 2',
            r"signs: 'slip-ratio ahead slip-oil' stands",
        ),
        ('check = "slip-ratio", finding = "ahead"', 'check = "ratio", finding = "ahead"', r"'ratio' is no check"),
        (
            '{ id = "equal", text',
            '{ id = "even", text = "even" }, { id = "equal", text',
            r"slip-ratio even: says nothing",
        ),
        ('source = "navy-clutch-slipping"', 'source = "rumour"', r"'rumour' is not in the list of sources"),
    ],
)
def test_a_bad_table_names_file_key_and_rule(tmp_path: Path, old: str, new: str, message: str) -> None:
    """An evidence table that breaks a rule says in one line which file, which key, which rule."""
    text = (places.assets() / "faults.toml").read_text(encoding="utf-8")
    assert old in text
    path = tmp_path / "faults.toml"
    path.write_text(text.replace(old, new, 1), encoding="utf-8")

    with pytest.raises(BadData, match=message) as caught:
        faults.read_faults(path)

    assert str(caught.value).startswith("faults.toml: ")
