"""A form set beside the three is kept, found, listed as due and issued by any log."""

from domain.gate.issued_paper import IssuedPaper
from domain.log.due_list import due_in
from domain.log.job_log import Query, State
from tests.another_form_set import complete_isolation, isolation_listed
from tests.builders import AT, complete_minor_works
from tests.storage.issuing import WHO, issued_in


def test_it_is_found_by_its_name_and_issued_once_complete(log):
    with isolation_listed() as form_set:
        log.create(complete_minor_works(), who=WHO, at=AT)
        number = log.create(complete_isolation(form_set), who=WHO, at=AT).number
        assert log.line(number).state is State.READY
        assert [line.number for line in log.find(Query(words="form:iso"))] == [number]
        assert {line.number for line in due_in(log)} <= {number}
        issued = issued_in(log, complete_isolation(form_set))
        assert isinstance(issued, IssuedPaper)
        assert log.load(issued.number).form_set is form_set
        assert log.issued(issued.number) == issued
