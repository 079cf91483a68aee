"""From a complaint to its cause by evidence: what was found speaks for one cause and against another, with reasons.

Weights are a teaching measure by common practice: +2 strong sign, +1 sign, -1 and -2 against, -3 rules out.
"""

from collections.abc import Iterable, Mapping
from pathlib import Path
from typing import Annotated

from msgspec import Meta

from bitepoint.errors import BadData
from bitepoint.workshop.datafiles import data_files, once_a_set
from bitepoint.workshop.fitted import Only, applies
from bitepoint.workshop.reading import StrictStruct, WholeFile, broken, check_sources, check_unique, read_toml
from bitepoint.workshop.vehicles import Vehicle

RULES_OUT = -3


class Symptom(StrictStruct, frozen=True, kw_only=True):
    """A complaint."""

    id: str
    title: str


class _OfSymptom(StrictStruct, frozen=True, kw_only=True):
    """What belongs to one complaint."""

    id: str
    symptom: str


class Cause(_OfSymptom, frozen=True, kw_only=True):
    """What may be behind a complaint; `clutch` is false for what only looks like the clutch."""

    text: str
    clutch: bool = True
    only: Only = ""


class Finding(StrictStruct, frozen=True, kw_only=True):
    """One of the things that a check may show."""

    id: str
    text: str


class Check(_OfSymptom, frozen=True, kw_only=True):
    """A test or question; effort 1 a look, 2 a tool or a drive, 3 parts come off."""

    ask: str
    effort: Annotated[int, Meta(ge=1, le=3)]
    findings: tuple[Finding, ...]
    only: Only = ""


class Sign(StrictStruct, frozen=True, kw_only=True):
    """What a finding says about a cause, and why."""

    check: str
    finding: str
    cause: str
    weight: Annotated[int, Meta(ge=-3, le=2)]
    because: str
    source: str = "common-practice"


class Faults(WholeFile, frozen=True, kw_only=True):
    """The whole evidence table."""

    symptoms: tuple[Symptom, ...]
    causes: tuple[Cause, ...]
    checks: tuple[Check, ...]
    signs: tuple[Sign, ...]


class Ranked(StrictStruct, frozen=True, kw_only=True):
    """A cause with the sum of its weights, the reasons for and against it, and whether it is ruled out."""

    cause: Cause
    score: int
    ruled_out: bool
    reasons_for: tuple[str, ...]
    reasons_against: tuple[str, ...]


def read_faults(path: Path) -> Faults:
    """Read the evidence table.

    Raises
    ------
    BadData
        Names the file, the key and the rule.
    """
    read = read_toml(path, Faults, what="evidence table")
    symptoms = [item.id for item in read.symptoms]
    check_unique(path, "symptoms id", symptoms)
    check_unique(path, "causes id", [item.id for item in read.causes])
    check_unique(path, "checks id", [item.id for item in read.checks])
    check_unique(path, "signs", [f"{sign.check} {sign.finding} {sign.cause}" for sign in read.signs])
    check_sources(path, [(f"sign {sign.check} {sign.cause} source", sign.source) for sign in read.signs])
    for item in (*read.causes, *read.checks):
        if item.symptom not in symptoms:
            raise broken(path, f"{item.id} symptom", f"{item.symptom!r} is no symptom")
    causes = {cause.id: cause for cause in read.causes}
    checks = {check.id: check for check in read.checks}
    for sign in read.signs:
        _check_sign(path, sign, causes, checks)
    said = {(sign.check, sign.finding) for sign in read.signs}
    for check in read.checks:
        for finding in check.findings:
            if (check.id, finding.id) not in said:
                raise broken(path, f"{check.id} {finding.id}", "says nothing about any cause")
    return read


def _check_sign(path: Path, sign: Sign, causes: Mapping[str, Cause], checks: Mapping[str, Check]) -> None:
    place = f"sign {sign.check} {sign.finding} {sign.cause}"
    if sign.check not in checks:
        raise broken(path, place, f"{sign.check!r} is no check")
    if sign.cause not in causes:
        raise broken(path, place, f"{sign.cause!r} is no cause")
    if sign.finding not in [finding.id for finding in checks[sign.check].findings]:
        raise broken(path, place, f"{sign.finding!r} is no finding of this check")
    if causes[sign.cause].symptom != checks[sign.check].symptom:
        raise broken(path, place, "check and cause belong to different symptoms")
    if sign.weight == 0:
        raise broken(path, place, "a weight of 0 says nothing")


@once_a_set
def faults() -> Faults:
    """Return the whole evidence table."""
    return read_faults(data_files().path("faults.toml"))


def causes_of(symptom: str, v: Vehicle | None = None) -> tuple[Cause, ...]:
    """Causes behind a complaint, on one vehicle only those it has the part for."""
    _symptom(symptom)
    return tuple(c for c in faults().causes if c.symptom == symptom and (v is None or applies(c.only, v)))


def checks_for(symptom: str, v: Vehicle | None = None) -> tuple[Check, ...]:
    """Tests for a complaint, on one vehicle only those it has the part for."""
    _symptom(symptom)
    return tuple(t for t in faults().checks if t.symptom == symptom and (v is None or applies(t.only, v)))


def rank(symptom: str, evidence: Mapping[str, str], v: Vehicle | None = None) -> tuple[Ranked, ...]:
    """Causes of a complaint, the likeliest first, those ruled out last; the order of the evidence does not matter.

    Parameters
    ----------
    symptom : str
        Id of the complaint, such as "slip".
    evidence : mapping of str to str
        Test id to finding id, such as {"slip-ratio": "ahead"}.
    v : Vehicle or None
        Leave out causes for which this vehicle has no part.

    Raises
    ------
    BadData
        No such symptom, check or finding.
    """
    signs = [sign for check in sorted(evidence) for sign in _signs(symptom, check, evidence[check])]
    ranked = [_ranked(cause, [sign for sign in signs if sign.cause == cause.id]) for cause in causes_of(symptom, v)]
    return tuple(sorted(ranked, key=lambda r: (r.ruled_out, -r.score)))


def _ranked(cause: Cause, signs: Iterable[Sign]) -> Ranked:
    found = list(signs)
    return Ranked(
        cause=cause,
        score=sum(sign.weight for sign in found),
        ruled_out=any(sign.weight == RULES_OUT for sign in found),
        reasons_for=tuple(sign.because for sign in found if sign.weight > 0),
        reasons_against=tuple(sign.because for sign in found if sign.weight < 0),
    )


def _signs(symptom: str, check: str, finding: str) -> list[Sign]:
    known = {item.id: item for item in checks_for(symptom)}
    if check not in known:
        raise BadData(f"There is no check {check!r} for {symptom!r}. Choose one of {', '.join(known)}.")
    findings = [item.id for item in known[check].findings]
    if finding not in findings:
        raise BadData(f"{finding!r} is no finding of {check!r}. Choose one of {', '.join(findings)}.")
    return [sign for sign in faults().signs if (sign.check, sign.finding) == (check, finding)]


def _symptom(name: str) -> Symptom:
    for symptom in faults().symptoms:
        if symptom.id == name:
            return symptom
    raise BadData(f"There is no symptom {name!r}. Choose one of {', '.join(s.id for s in faults().symptoms)}.")
