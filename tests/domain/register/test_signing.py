"""Who may sign what, by the register of people."""

import pytest

from domain.gate.assessment import Pack, Refusal, assess, issue
from domain.gate.reason import ReasonKind
from domain.job.signature import Role
from domain.place import Place
from domain.register.entries import Person
from domain.register.signing import SigningVerdict, may_sign
from tests.builders import AT, INSPECTOR, complete_certificate, complete_report, done, enter, signed

PEOPLE = (
    Person(name="Tamsin Orchard", signs=(Role.INSPECTED, Role.INSPECTION)),
    Person(name="Bryony Sedge", signs=(Role.DESIGN, Role.CONSTRUCTION, Role.INSPECTION)),
    Person(name="Ned Farthing", position="Trainee"),
)


@pytest.mark.parametrize(
    ("name", "role", "verdict"),
    [
        ("Tamsin Orchard", Role.INSPECTED, SigningVerdict.MAY),
        ("tamsin  ORCHARD", Role.INSPECTION, SigningVerdict.MAY),
        ("Tamsin Orchard", Role.AUTHORISED, SigningVerdict.NO),
        ("Bryony Sedge", Role.MINOR_WORKS, SigningVerdict.MAY),
        ("Bryony Sedge", Role.SHARED_DESIGN, SigningVerdict.MAY),
        ("Tamsin Orchard", Role.MINOR_WORKS, SigningVerdict.NO),
        ("Ned Farthing", Role.INSPECTED, SigningVerdict.NO),
        ("Agnes Quill", Role.INSPECTED, SigningVerdict.ASK),
    ],
)
def test_people_sign_what_the_register_lets_them(name: str, role: Role, verdict: SigningVerdict) -> None:
    answer = may_sign(PEOPLE, name, role)
    assert answer.verdict is verdict
    assert bool(answer.says) is (verdict is not SigningVerdict.MAY)


def test_somebody_in_training_is_told_so() -> None:
    assert "in training" in may_sign(PEOPLE, "Ned Farthing", Role.DESIGN).says


def test_an_office_without_a_register_of_people_is_asked_nothing() -> None:
    assert may_sign((), "Anybody At All", Role.DESIGN).verdict is SigningVerdict.MAY


def test_the_gate_holds_each_part_signed_by_somebody_who_may_not_sign_it() -> None:
    job = complete_certificate()
    people = (Person(name="Tamsin Orchard", signs=(Role.DESIGN, Role.INSPECTION)),)
    refusal = issue(job, by=INSPECTOR, at=AT, people=people)
    assert isinstance(refusal, Refusal)
    (reason,) = refusal.reasons
    assert (reason.kind, reason.place) == (ReasonKind.SIGNER, Place(section="signatures", box=Role.CONSTRUCTION))
    assert reason.says == f"Signed for construction, but {may_sign(people, INSPECTOR, Role.CONSTRUCTION).says}"
    assert assess(job, people).reasons == refusal.reasons


@pytest.mark.parametrize("people", [(), PEOPLE[1:], (Person(name=INSPECTOR, signs=(*Role,)),)])
def test_strangers_to_the_register_and_whoever_it_lets_sign_pass_the_gate(people: tuple[Person, ...]) -> None:
    assert isinstance(issue(complete_report(), by=INSPECTOR, at=AT, people=people), Pack)


def test_a_signature_that_no_longer_stands_is_asked_for_again_and_not_judged() -> None:
    job = signed(complete_report(sign=False), name="Ned Farthing")
    changed = done(job, enter("client", "name", "Bertram Quill")).model_copy(update={"signatures": job.signatures})
    assert {reason.kind for reason in assess(changed, PEOPLE).reasons} == {ReasonKind.SIGNATURE}
