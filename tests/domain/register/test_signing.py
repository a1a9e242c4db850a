"""Who may sign what, by the register of people."""

import pytest

from domain.register.entries import Person
from domain.register.signing import Verdict, may_sign
from domain.signature import Role

PEOPLE = (
    Person(name="Tamsin Orchard", signs=(Role.INSPECTED, Role.INSPECTION)),
    Person(name="Bryony Sedge", signs=(Role.DESIGN, Role.CONSTRUCTION, Role.INSPECTION)),
    Person(name="Ned Farthing", position="Trainee"),
)


@pytest.mark.parametrize(
    ("name", "role", "verdict"),
    [
        ("Tamsin Orchard", Role.INSPECTED, Verdict.MAY),
        ("tamsin  ORCHARD", Role.INSPECTION, Verdict.MAY),
        ("Tamsin Orchard", Role.AUTHORISED, Verdict.NO),
        ("Bryony Sedge", Role.MINOR_WORKS, Verdict.MAY),
        ("Bryony Sedge", Role.SHARED_DESIGN, Verdict.MAY),
        ("Tamsin Orchard", Role.MINOR_WORKS, Verdict.NO),
        ("Ned Farthing", Role.INSPECTED, Verdict.NO),
        ("Agnes Quill", Role.INSPECTED, Verdict.ASK),
    ],
)
def test_people_sign_what_the_register_lets_them(name: str, role: Role, verdict: Verdict) -> None:
    answer = may_sign(PEOPLE, name, role)
    assert answer.verdict is verdict
    assert bool(answer.says) is (verdict is not Verdict.MAY)


def test_somebody_in_training_is_told_so() -> None:
    assert "in training" in may_sign(PEOPLE, "Ned Farthing", Role.DESIGN).says


def test_an_office_without_a_register_of_people_is_asked_nothing() -> None:
    assert may_sign((), "Anybody At All", Role.DESIGN).verdict is Verdict.MAY
