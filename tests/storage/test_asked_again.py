"""Whoever does not know whether something was kept asks again under the same name; nothing is done twice."""

from contextlib import contextmanager

import pytest

from domain.editing.commands import RaiseSnag
from domain.forms.form_set import FormSet
from domain.gate.issued_paper import IssuedPaper
from domain.log.job_log import JobLog, JobLogError, Query, UnknownIfKeptError
from domain.log.stored_log import StoredLog
from tests.builders import AT, INSPECTOR, ON, complete_minor_works, enter, fresh
from tests.storage.issuing import LATER, WHO, bind, issued_in
from tests.storage.memory_log import MemoryStore

SNAG = RaiseSnag(what="Lid missing", by=WHO, on=ON)


def everything(log: JobLog) -> list:
    lines = log.find(Query())
    return [(line, log.load(line.number), log.trail(line.number), log.issued(line.number)) for line in lines]


def asked_twice(log: JobLog, ask) -> None:
    """Asked again, the answer is the same and the log too; under another name it is done once more."""
    first = ask("laptop 4: 1")
    assert first
    kept = everything(log)
    assert ask("laptop 4: 1") == first
    assert everything(log) == kept


def test_a_job_begun_twice_under_one_name_is_begun_once(log):
    asked_twice(log, lambda op: log.create(fresh(FormSet.EIC), who=WHO, at=AT, op=op))
    assert log.create(fresh(FormSet.EIC), who=WHO, at=AT, op="laptop 4: 2").number == "A-0002"


def test_several_jobs_begun_twice_under_one_name_are_begun_once(log):
    jobs = [fresh(FormSet.EIC), fresh(FormSet.EICR), complete_minor_works()]
    asked_twice(log, lambda op: log.create_all(iter(jobs), who=WHO, at=AT, op=op))
    assert len(log.find(Query())) == 3


def test_an_edit_made_twice_under_one_name_is_made_once(log):
    number = log.create(fresh(FormSet.EIC), who=WHO, at=AT).number
    asked_twice(log, lambda op: log.edit(number, SNAG, who=WHO, at=AT, op=op))
    log.edit(number, SNAG, who=WHO, at=AT, op="laptop 4: 2")
    assert len(log.load(number).snags) == 2


def test_a_step_back_and_a_step_forward_are_each_taken_once_under_one_name(log):
    number = log.create(fresh(FormSet.EIC), who=WHO, at=AT).number
    for name in ("Zoë Fairweather", "Bertram Quill"):
        log.edit(number, enter("client", "name", name), who=WHO, at=AT)
    asked_twice(log, lambda op: log.undo(number, who=WHO, at=AT, op=op))
    assert log.load(number).client.name == "Zoë Fairweather"
    log.undo(number, who=WHO, at=AT, op="laptop 4: 2")
    first = log.redo(number, who=WHO, at=AT, op="laptop 4: 3")
    assert log.redo(number, who=WHO, at=AT, op="laptop 4: 3") == first
    assert log.load(number).client.name == "Zoë Fairweather"


def test_a_paper_issued_twice_under_one_name_is_issued_once_and_bound_once(log):
    number, bound = log.create(complete_minor_works(), who=WHO, at=AT).number, []

    def ask(op: str):
        return log.issue(
            number, by=INSPECTOR, at=LATER, bind=lambda pack: bound.append(pack) or bind(pack), op=op, seen=""
        )

    asked_twice(log, ask)
    assert isinstance(log.issued(number), IssuedPaper)
    assert len(bound) == 1


def test_who_asks_again_while_the_first_is_still_under_way_is_given_the_same_paper(log):
    number, first = log.create(complete_minor_works(), who=WHO, at=AT).number, []

    def bind_while_the_first_overtakes(pack):
        first.append(log.issue(number, by=INSPECTOR, at=LATER, bind=bind, op="laptop 4: 1"))
        return bind(pack)

    again = log.issue(number, by=INSPECTOR, at=LATER, bind=bind_while_the_first_overtakes, op="laptop 4: 1")
    assert [again] == first
    assert isinstance(again, IssuedPaper)


def test_a_correction_begun_twice_under_one_name_is_begun_once(log):
    number = issued_in(log).number
    asked_twice(log, lambda op: log.replace(number, because="a reading was misread", who=WHO, at=LATER, op=op))


def test_the_name_of_what_was_done_to_one_job_does_nothing_to_another(log):
    first, second = (log.create(complete_minor_works(), who=WHO, at=AT).number for _ in range(2))
    log.edit(first, SNAG, who=WHO, at=AT, op="laptop 4: 1")
    kept = everything(log)
    for ask in (
        lambda: log.edit(second, SNAG, who=WHO, at=AT, op="laptop 4: 1"),
        lambda: log.undo(second, who=WHO, at=AT, op="laptop 4: 1"),
        lambda: log.issue(second, by=WHO, at=AT, bind=bind, op="laptop 4: 1"),
    ):
        with pytest.raises(JobLogError, match=f"kept already, in {first}"):
            ask()
    assert everything(log) == kept


class LosesAnswers(MemoryStore):
    """A store whose answer is lost after all was kept, or before anything was, as the cut falls."""

    kept_before_the_cut: bool | None = None

    @contextmanager
    def transaction(self, *numbers):
        cut, self.kept_before_the_cut = self.kept_before_the_cut, None
        with super().transaction(*numbers):
            yield
            if cut is False:
                raise UnknownIfKeptError("The log did not answer; it is not known whether that was kept.")
        if cut:
            raise UnknownIfKeptError("The log did not answer; it is not known whether that was kept.")


@pytest.mark.parametrize("kept", [True, False], ids=["it was kept", "it was not kept"])
def test_a_lost_answer_says_that_it_is_not_known_and_asking_again_leaves_it_done_once(kept):
    store = LosesAnswers()
    log = StoredLog(store)
    number = log.create(complete_minor_works(), who=WHO, at=AT).number
    asks = [
        lambda: log.create(complete_minor_works(), who=WHO, at=AT, op="1"),
        lambda: log.edit(number, enter("client", "name", "Bertram Quill"), who=WHO, at=AT, op="2"),
        lambda: log.undo(number, who=WHO, at=AT, op="3"),
        lambda: log.issue("A-0002", by=INSPECTOR, at=LATER, bind=bind, op="4"),
        lambda: log.replace("A-0002", because="a reading was misread", who=WHO, at=LATER, op="5"),
    ]
    for ask in asks:
        edits = sum(map(len, store.trails.values()))
        store.kept_before_the_cut = kept
        with pytest.raises(UnknownIfKeptError, match="not known"):
            ask()
        assert sum(map(len, store.trails.values())) - edits == kept
        again = ask()
        assert sum(map(len, store.trails.values())) - edits == 1
        assert ask() == again
    assert {line.number for line in log.find(Query())} == {"A-0001", "A-0002", "A-0003"}
