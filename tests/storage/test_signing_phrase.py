"""A signature is somebody's own act: where a signing phrase is set nobody signs as them without it, by any way into the log."""

from datetime import timedelta

import pytest

from domain.editing.commands import Declined, Sign
from domain.job.exchange import job_to_json
from domain.job.signature import Role
from domain.log.use_cases.phrases import set_phrase
from domain.register.entries import Person
from storage.signing_phrase import ScryptPhrases
from tests.builders import AT, INSPECTOR, complete_minor_works
from tests.storage.issuing import LATER, WHO, issued_in

PHRASE = "nine grey herons"
SIGN = Sign(role=Role.MINOR_WORKS, name=INSPECTOR, at=LATER)


@pytest.fixture
def number(log) -> str:
    """A job to be signed by somebody who has set a phrase."""
    log.register(Person(name=INSPECTOR, signs=(Role.MINOR_WORKS,)), who=WHO, at=AT)
    assert log.set_phrase(INSPECTOR, PHRASE, who=WHO, at=AT) == ""
    return log.create(complete_minor_works(sign=False), who=WHO, at=AT).number


def test_with_the_phrase_they_sign_and_without_it_nobody_does(log, number):
    before = log.load(number), log.trail(number)
    for phrase in ("", "nine grey hens"):
        said = log.edit(number, SIGN, who=WHO, at=LATER, phrase=phrase)
        assert isinstance(said, Declined)
        assert INSPECTOR in said.says
    assert (log.load(number), log.trail(number)) == before
    assert log.edit(number, SIGN, who=WHO, at=LATER, phrase=PHRASE).signatures
    assert log.phrase_asked(" tamsin ORCHARD")
    assert not log.phrase_asked("Agnes Quill")


def test_three_wrong_ones_ask_for_a_pause_that_grows_and_the_right_one_ends_it(log, number):
    at = LATER
    for pause in (30, 60, 120):
        while "Too many" not in (said := log.edit(number, SIGN, who=WHO, at=at, phrase="wrong one").says):
            assert "not the signing phrase" in said
        for soon in (timedelta(0), timedelta(seconds=pause - 1)):
            assert "Too many" in log.edit(number, SIGN, who="another login", at=at + soon, phrase=PHRASE).says
        at += timedelta(seconds=pause)
    assert log.edit(number, SIGN, who=WHO, at=at, phrase=PHRASE).signatures
    assert "not the signing phrase" in log.edit(number, SIGN, who=WHO, at=at, phrase="wrong one").says


def test_a_document_does_not_sign_for_them(log, number):
    brought = log.create(complete_minor_works(), who=WHO, at=AT).number
    assert log.load(brought).signatures == ()
    assert f"{INSPECTOR} (design, construction, inspection and testing)" in log.trail(brought)[0].what


def test_what_was_taken_back_is_not_signed_again_by_redo(log, number):
    log.edit(number, SIGN, who=WHO, at=LATER, phrase=PHRASE)
    log.undo(number, who=WHO, at=LATER)
    log.redo(number, who=WHO, at=LATER)
    assert log.load(number).signatures == ()


def test_a_firm_can_require_one_of_all(log, number):
    free = log.create(complete_minor_works(sign=False), who=WHO, at=AT).number
    stranger = SIGN.model_copy(update={"name": "Agnes Quill"})
    log.require_phrases(required=True, who=WHO, at=AT)
    assert "has no signing phrase yet" in log.edit(free, stranger, who=WHO, at=LATER).says
    log.require_phrases(required=False, who=WHO, at=AT)
    assert log.edit(free, stranger, who=WHO, at=LATER).signatures


def test_whoever_has_one_changes_it_with_it_and_only_people_of_the_register_have_one(log, number):
    assert "not the signing phrase" in log.set_phrase(INSPECTOR, "another phrase", before="a guess", who=WHO, at=AT)
    assert log.set_phrase(INSPECTOR, "another phrase", before=PHRASE, who=WHO, at=AT) == ""
    assert "letters or more" in log.set_phrase(INSPECTOR, "short", before="another phrase", who=WHO, at=AT)
    assert "not in the register" in log.set_phrase("Agnes Quill", PHRASE, who=WHO, at=AT)


def test_the_phrase_and_its_hash_are_in_no_document_trail_or_register(log, number):
    log.edit(number, SIGN, who=WHO, at=LATER, phrase=PHRASE)
    (person,) = log.people_named((INSPECTOR,))
    told = job_to_json(log.load(number)) + repr(log.trail(number)) + person.model_dump_json() + repr(log.line(number))
    assert PHRASE not in told
    assert "scrypt" not in told


def test_a_log_that_cannot_hash_lets_nobody_sign_who_has_a_phrase(store):
    assert set_phrase(store, None, INSPECTOR, PHRASE, before="", who=WHO, at=AT) == "This log keeps no signing phrases"


def test_a_paper_that_was_issued_comes_back_unsigned(log):
    issued = issued_in(log).pack.job
    again = log.load(log.create(issued, who=WHO, at=LATER).number)
    assert (again.signatures, again.issued) == ((), None)
    assert INSPECTOR in log.trail(again.number)[0].what


def test_a_phrase_is_kept_with_a_salt_of_its_own_and_what_cannot_be_read_fits_nothing():
    hashing = ScryptPhrases()
    kept, other = hashing.hashed(PHRASE), hashing.hashed(PHRASE)
    assert kept != other
    assert hashing.fits(PHRASE, kept)
    assert not hashing.fits("nine grey hens", kept)
    assert not any(
        hashing.fits(PHRASE, unreadable) for unreadable in ("", "scrypt", kept[:-2], kept.replace("scrypt", "md5"))
    )
