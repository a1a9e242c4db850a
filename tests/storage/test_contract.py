"""What every job log must do with jobs and edits, whatever keeps it."""

import pytest

from domain.editing.commands import AddCircuit, Declined, Enter, Fill, LayAside, RemoveBoard, RemoveCircuit, TakeUp
from domain.editing.content_hash import content_hash
from domain.editing.usual_commands import FillCircuit
from domain.forms.form_set import FormSet
from domain.gate.assessment import Refusal
from domain.gate.issued_paper import IssuedPaper
from domain.gate.outcome import Outcome
from domain.job.job import IssueStamp
from domain.log.due_days import DueAsked
from domain.log.job_log import JobLogError, Query, State
from domain.place import Place
from tests.builders import (
    AT,
    INSPECTOR,
    complete_certificate,
    complete_minor_works,
    enter,
    fresh,
    snagged,
)
from tests.storage.issuing import LATER, WHO, bind, sign


def test_numbers_are_given_in_turn_without_gaps(log):
    assert [log.create(fresh(FormSet.EIC), who=WHO, at=AT).number for _ in range(3)] == ["A-0001", "A-0002", "A-0003"]


def test_a_created_job_is_loaded_as_it_was(log):
    job = complete_minor_works()
    kept = log.create(job, who=WHO, at=AT)
    assert log.load(kept.number) == kept == job.model_copy(update={"number": kept.number})


def test_a_job_that_claims_to_be_issued_is_kept_as_a_draft(log):
    claimed = complete_minor_works().model_copy(update={"issued": IssueStamp(at=AT, by="nobody"), "number": "A-0099"})
    kept = log.create(claimed, who=WHO, at=AT)
    assert (kept.number, kept.issued, kept.signatures) == ("A-0001", None, ())
    assert log.line(kept.number).state is State.DRAFT


def test_a_number_never_given_has_no_job_no_line_no_paper_and_no_trail(log):
    assert (log.load("A-0009"), log.line("A-0009"), log.issued("A-0009"), log.trail("A-0009")) == (None, None, None, ())


@pytest.mark.parametrize("number", ["A-0009", "", "a'; DROP TABLE job; --", "Ω\x00"])
def test_what_needs_a_job_says_so_when_there_is_none(log, number):
    for call in (
        lambda: log.edit(number, enter("client", "name", "X"), who=WHO, at=AT),
        lambda: log.issue(number, by=WHO, at=AT, bind=bind),
        lambda: log.replace(number, because="a reading was misread", who=WHO, at=AT),
        lambda: log.save_position(number, "client", who=WHO),
    ):
        with pytest.raises(JobLogError, match="no job"):
            call()


def test_an_edit_is_there_when_the_call_returns(log):
    number = log.create(fresh(FormSet.EICR), who=WHO, at=AT).number
    after = log.edit(number, enter("client", "name", "Zoë Fairweather"), who=WHO, at=LATER)
    assert after.client.name == "Zoë Fairweather"
    assert log.load(number) == after
    assert (log.line(number).client, log.line(number).updated) == ("Zoë Fairweather", LATER)


def test_edits_of_two_people_build_on_each_other(log):
    number = log.create(fresh(FormSet.EICR), who=WHO, at=AT).number
    log.edit(number, enter("client", "name", "Zoë Fairweather"), who="one", at=AT)
    log.edit(number, enter("premises", "postcode", "WQ7 1AB"), who="two", at=AT)
    assert (log.load(number).client.name, log.load(number).premises.postcode) == ("Zoë Fairweather", "WQ7 1AB")


def test_a_declined_edit_changes_nothing_and_leaves_no_trace(log):
    number = log.create(complete_minor_works(), who=WHO, at=AT).number
    before = log.load(number), log.trail(number), log.line(number)
    assert isinstance(log.edit(number, AddCircuit(board="b1"), who=WHO, at=LATER), Declined)
    assert (log.load(number), log.trail(number), log.line(number)) == before


def test_typing_what_stands_there_already_leaves_no_trace(log):
    number = log.create(complete_minor_works(), who=WHO, at=AT).number
    log.edit(number, enter("client", "name", "Zoë Fairweather"), who=WHO, at=LATER)
    assert len(log.trail(number)) == 1
    assert log.line(number).state is State.READY


def test_the_trail_says_who_did_what_and_when(log):
    number = log.create(fresh(FormSet.EIC), who="one", at=AT).number
    log.edit(number, enter("client", "name", "Zoë"), who="two", at=LATER)
    log.edit(number, enter("client", "name", "Zoë Fairweather"), who="one", at=LATER)
    log.edit(number, RemoveCircuit(board="b1", circuit="c2"), who="two", at=LATER)
    assert [(line.who, line.at) for line in log.trail(number)] == [
        ("one", AT),
        ("two", LATER),
        ("one", LATER),
        ("two", LATER),
    ]
    assert [line.what for line in log.trail(number)] == [
        "Begun",
        "Client: Zoë",
        "Client: Zoë Fairweather (was Zoë)",
        "Removed: board not named yet, circuit without a number",
    ]


def test_a_line_of_the_trail_leads_to_the_box_the_first_of_several_or_the_circuit_that_was_filled(log):
    number = log.create(fresh(FormSet.EIC), who=WHO, at=AT).number
    circuit, name = Place(section="boards", board="b1", circuit="c2"), Place(section="client", box="name")
    rating, address = circuit.model_copy(update={"box": "rating"}), Place(section="client", box="address")
    for command in (
        Enter(place=name, text="Zoë"),
        FillCircuit(board="b1", circuit="c2", usual={"description": "Cooker", "rating": "32"}),
        Fill(entries=(Enter(place=rating, text="40"), Enter(place=address, text="Quay 1"))),
        AddCircuit(board="b1"),
    ):
        log.edit(number, command, who=WHO, at=AT)
    assert [line.place for line in log.trail(number)] == [None, name, circuit, rating, None]


def test_the_line_shows_a_draft_a_ready_job_and_an_issued_one(log):
    number = log.create(complete_minor_works(sign=False), who=WHO, at=AT).number
    assert (log.line(number).state, log.line(number).outcome) == (State.DRAFT, None)
    sign(log, number)
    assert (log.line(number).state, log.line(number).outcome) == (State.READY, Outcome.COMPLIES)
    log.issue(number, by=INSPECTOR, at=LATER, bind=bind)
    assert (log.line(number).state, log.line(number).outcome) == (State.ISSUED, Outcome.COMPLIES)


def test_the_line_shows_client_premises_form_set_and_open_snags(log):
    line = log.line(log.create(snagged(complete_minor_works()), who=WHO, at=AT).number)
    assert (line.client, line.premises) == ("Zoë Fairweather", "The Old Forge, 12 Tanner's Row, Wetherham, WQ7 1AB")
    assert (line.form_set, line.open_snags, line.state) == (FormSet.MEIWC, 1, State.DRAFT)


def test_a_job_opens_where_each_person_left_it(log):
    first, second = (log.create(fresh(FormSet.EIC), who=WHO, at=AT).number for _ in range(2))
    log.save_position(first, "supply.ze", who="one")
    log.save_position(second, "client.name", who="one")
    log.save_position(first, "boards", who="two")
    log.save_position(first, "supply.ipf", who="one")
    assert (log.position(first, who="one"), log.position(first, who="two")) == ("supply.ipf", "boards")
    assert (log.position(second, who="two"), log.last_opened(who="one")) == ("", first)
    assert log.last_opened(who="nobody") == ""


def test_what_is_kept_of_a_person_comes_back_in_its_order_and_for_each_alone(log):
    log.add_note("practice", "first", who="one", at=LATER)
    log.add_note("practice", "second", who="two", at=AT)
    log.add_note("practice", "third", who="one", at=AT)
    log.add_note("coach", "on", who="one", at=AT)
    assert [(each.text, each.at) for each in log.notes("practice", who="one")] == [("first", LATER), ("third", AT)]
    assert [(each.who, each.text) for each in log.notes("practice")] == [
        ("one", "first"),
        ("two", "second"),
        ("one", "third"),
    ]
    assert log.notes("practice", who="nobody") == log.notes("weather") == ()


def test_a_circuit_or_board_that_changed_since_the_person_looked_is_not_removed(log):
    number = log.create(complete_certificate(), who=WHO, at=AT).number
    board = log.load(number).boards[0]
    zs = Place(section="boards", board="b1", circuit="c2", box="zs")
    log.edit(number, Enter(place=zs, text="0.52"), who="robin", at=AT)
    stale = (
        RemoveCircuit(board="b1", circuit="c2", seen=content_hash(board.circuits[0])),
        RemoveBoard(board="b1", seen=content_hash(board)),
    )
    for command in stale:
        assert "changed since you looked" in log.edit(number, command, who=WHO, at=AT).says
    now = log.load(number).boards[0]
    for command in (
        RemoveCircuit(board="b1", circuit="c2", seen=content_hash(now.circuits[0])),
        RemoveCircuit(board="b1", circuit=now.circuits[1].id),
    ):
        assert not isinstance(log.edit(number, command, who=WHO, at=AT), Declined)


def test_the_version_counts_the_edits_and_the_trail_is_read_on_from_there(log):
    assert log.version("A-0001") == 0
    number = log.create(fresh(FormSet.EICR), who=WHO, at=AT).number
    seen = log.version(number)
    log.edit(number, enter("client", "name", "Zoë"), who="robin", at=LATER)
    assert (seen, log.version(number)) == (1, 2)
    (line,) = log.trail(number, after=seen)
    assert (line.who, line.version, line.place) == ("robin", 2, Place(section="client", box="name"))
    assert log.trail(number, after=2) == ()


def test_several_jobs_are_kept_together_or_not_at_all(log):
    jobs = (complete_minor_works(), fresh(FormSet.EIC))
    assert [job.number for job in log.create_all(jobs, who=WHO, at=AT)] == ["A-0001", "A-0002"]

    def breaking_off():
        yield fresh(FormSet.EICR)
        raise JobLogError("The file ends here.")

    with pytest.raises(JobLogError):
        log.create_all(breaking_off(), who=WHO, at=AT)
    assert log.load("A-0003") is None
    assert log.create(fresh(FormSet.EIC), who=WHO, at=AT).number == "A-0003"


def owing(log) -> set[str]:
    """The jobs that something is due for, or that ask for an answer."""
    return {row.number for row in (*log.due(DueAsked()), *log.unanswered())}


def test_a_draft_laid_aside_is_in_one_list_alone_and_is_issued_only_once_taken_up(log):
    kept = log.create(complete_minor_works(), who=WHO, at=AT)
    other = log.create(fresh(FormSet.EICR), who=WHO, at=AT)
    sign(log, kept.number)
    assert kept.number in owing(log)
    log.edit(kept.number, LayAside(), who=WHO, at=LATER)
    aside = Query(laid_aside=True)
    listed = [[line.number for line in log.find(query)] for query in (Query(), aside, Query(state=State.READY))]
    assert listed == [[other.number], [kept.number], []]
    assert [job.line.number for job in log.search(Query(words=kept.number)).jobs] == []
    assert [job.line.number for job in log.search(aside.model_copy(update={"words": kept.number})).jobs] == [
        kept.number
    ]
    assert kept.number not in owing(log)
    assert isinstance(log.issue(kept.number, by=INSPECTOR, at=LATER, bind=bind), Refusal)
    assert log.edit(kept.number, TakeUp(), who=WHO, at=LATER).number == kept.number
    assert isinstance(log.issue(kept.number, by=INSPECTOR, at=LATER, bind=bind), IssuedPaper)
