"""What somebody may not sign by the register of people is neither signed nor issued, by any way into the log."""

import pytest

from domain.editing.commands import Declined, Sign
from domain.gate.assessment import Refusal
from domain.gate.issued_paper import IssuedPaper
from domain.gate.reason import ReasonKind
from domain.job.signature import Role
from domain.log.job_log import BoundPaper, Query, State
from domain.place import Place
from domain.register.entries import Person
from domain.register.signing import may_sign
from tests.builders import AT, INSPECTOR, complete_certificate, complete_minor_works, complete_report, signed
from tests.storage.issuing import LATER, WHO, bind

TRAINEE = Person(name="Ned Farthing", position="Trainee")
DESIGNER = Person(name="Agnes Quill", signs=(Role.DESIGN,))


def held_for(answer) -> set[tuple[ReasonKind, str]]:
    assert isinstance(answer, Refusal)
    return {(reason.kind, reason.place.box) for reason in answer.reasons}


@pytest.mark.parametrize(("person", "role"), [(TRAINEE, Role.DESIGN), (DESIGNER, Role.INSPECTION)])
def test_nobody_signs_what_the_register_does_not_let_them_and_is_told_why(log, person, role):
    number = log.create(complete_certificate(sign=False), who=WHO, at=AT).number
    log.register(person, who=WHO, at=AT)
    before = log.load(number), log.trail(number)
    said = log.edit(number, Sign(role=role, name=person.name.upper(), at=AT), who=WHO, at=AT)
    assert said == Declined(says=may_sign((person,), person.name, role).says)
    assert (log.load(number), log.trail(number)) == before
    allowed = Sign(role=Role.DESIGN, name=DESIGNER.name, at=AT)
    assert not isinstance(log.edit(number, allowed, who=WHO, at=AT), Declined), "a designer, or a stranger, may"


def test_a_job_signed_elsewhere_by_a_trainee_of_this_register_is_not_issued(log):
    log.register(TRAINEE, who=WHO, at=AT)
    number = log.create(signed(complete_report(), name="ned  farthing"), who=WHO, at=AT).number
    bound = []
    refusal = log.issue(number, by=WHO, at=LATER, bind=lambda pack: bound.append(pack) or bind(pack))
    assert held_for(refusal) == {(ReasonKind.SIGNER, Role.INSPECTED), (ReasonKind.SIGNER, Role.AUTHORISED)}
    assert refusal.reasons[0].place == Place(section="signatures", box=Role.INSPECTED)
    assert refusal.reasons[0].says.startswith("Signed for inspected and tested, but Ned Farthing is in training")
    assert (bound, log.issued(number)) == ([], None)


def test_what_was_signed_before_the_register_said_no_waits_until_it_says_yes(log):
    number = log.create(complete_minor_works(), who=WHO, at=AT).number
    kept = log.register(Person(name=INSPECTOR), who=WHO, at=AT)
    assert held_for(log.issue(number, by=WHO, at=LATER, bind=bind)) == {(ReasonKind.SIGNER, Role.MINOR_WORKS)}
    log.register(Person(name=INSPECTOR, signs=(Role.MINOR_WORKS,)), entry_id=kept.id, who=WHO, at=AT)
    assert isinstance(log.issue(number, by=WHO, at=LATER, bind=bind), IssuedPaper)


def test_a_draft_is_ready_no_longer_once_its_signer_is_in_training_and_again_once_he_is_not(log):
    number = log.create(complete_minor_works(), who=WHO, at=AT).number
    ready = Query(state=State.READY)
    assert [line.number for line in log.find(ready)] == [number]
    kept = log.register(Person(name=INSPECTOR), who=WHO, at=AT)
    assert log.find(ready) == ()
    assert "Ready no longer" in log.trail(number)[-1].what
    log.register(Person(name=INSPECTOR, signs=(Role.MINOR_WORKS,)), entry_id=kept.id, who=WHO, at=AT)
    assert [line.number for line in log.find(ready)] == [number]
    log.register(TRAINEE, who=WHO, at=AT)
    other = log.create(signed(complete_minor_works(sign=False), name=TRAINEE.name), who=WHO, at=AT).number
    assert other not in [line.number for line in log.find(ready)]


def test_somebody_in_training_issues_nothing(log):
    number = log.create(complete_minor_works(), who=WHO, at=AT).number
    log.register(TRAINEE, who=WHO, at=AT)
    refusal = log.issue(number, by=TRAINEE.name.upper(), at=LATER, bind=bind)
    assert [reason.id for reason in refusal.reasons] == ["may-not-issue"]
    assert "Ned Farthing is in training and issues nothing yet" in refusal.reasons[0].says
    assert isinstance(log.issue(number, by="Somebody unknown", at=LATER, bind=bind), IssuedPaper)


def test_a_register_changed_while_the_paper_is_made_keeps_it_from_being_issued(log):
    number = log.create(complete_minor_works(), who=WHO, at=AT).number

    def bind_slowly(pack) -> BoundPaper:
        log.register(Person(name=INSPECTOR), who="robin", at=LATER)
        return bind(pack)

    assert held_for(log.issue(number, by=WHO, at=LATER, bind=bind_slowly)) == {(ReasonKind.SIGNER, Role.MINOR_WORKS)}
    assert (log.issued(number), log.load(number).issued) == (None, None)
    assert log.line(number).state is not State.ISSUED


def test_people_are_named_as_the_register_has_them_now(log):
    kept = log.register(TRAINEE, who=WHO, at=AT)
    log.register(DESIGNER, who=WHO, at=AT)
    assert log.people_named(("NED farthing", "Agnes Quill", "Nobody Known", "")) == (TRAINEE, DESIGNER)
    log.register(TRAINEE, entry_id=kept.id, who=WHO, at=AT, retired=True)
    assert log.people_named((TRAINEE.name,)) == (TRAINEE,), "leaving makes nobody qualified"
    log.register(DESIGNER, entry_id="2", who=WHO, at=AT, retired=True)
    assert log.people_named((DESIGNER.name,)) == ()
    assert log.people_named(()) == ()
