"""The log is no way round the gate, and keeps every job so that it can be read again."""

from hypothesis import given
from hypothesis import strategies as st

from domain.editing.commands import Declined, Sign
from domain.editing.reducer import apply
from domain.gate.assessment import Refusal, assess
from domain.gate.outcome import Outcome
from domain.job.signature import roles_for
from domain.log.job_log import Query, State
from domain.log.log_line import line_of
from storage.sqlite_job_log import SqliteJobLog
from tests.builders import AT, INSPECTOR
from tests.domain.gate.test_gate_holds import STARTS, assert_fit_to_be_issued
from tests.examples import examples
from tests.random_commands import commands_for
from tests.storage.issuing import bind
from tests.storage.memory_log import MemoryJobLog

WHO = "tamsin"


def without_head(job):
    """A job but for what its log alone gives when it is issued: the head, counted by each in its own way, its key, and digests."""
    own = {"head": "", "sealed_with": None, "page_sha256": "", "table_sha256": ""}
    return job.model_copy(update={"issued": job.issued and job.issued.model_copy(update=own)})


@given(data=st.data(), start=st.sampled_from(STARTS))
@examples(0.15)
def test_no_certificate_in_the_log_was_issued_with_an_open_snag(tmp_path_factory, data, start):
    log, other = SqliteJobLog.open(tmp_path_factory.mktemp("log")), MemoryJobLog()
    numbers = [each.create(start, who=WHO, at=AT).number for each in (log, other)][:1]
    for _ in range(data.draw(st.integers(0, 10))):
        number = data.draw(st.sampled_from(numbers))
        job = log.load(number)
        commands = [data.draw(commands_for(job))]
        if data.draw(st.booleans()):
            commands += [Sign(role=role, name=INSPECTOR, at=AT) for role in roles_for(job.form_set)]
        for command in commands:
            answers = [each.edit(number, command, who=WHO, at=AT) for each in (log, other)]
            assert answers[0] == answers[1]
        if data.draw(st.integers(0, 2)) == 0:
            papers = [each.issue(number, by=INSPECTOR, at=AT, bind=bind) for each in (log, other)]
            assert isinstance(papers[0], Refusal) is isinstance(papers[1], Refusal)
        if data.draw(st.integers(0, 3)) == 0:
            begun = [each.replace(number, because="a reading was misread", who=WHO, at=AT) for each in (log, other)]
            assert begun[0] == begun[1]
            numbers += [] if isinstance(begun[0], Declined) else [begun[0].number]
    for number in numbers:
        assert without_head(log.load(number)) == without_head(other.load(number))
        assert log.trail(number) == other.trail(number)
        issued = log.issued(number)
        assert (issued is not None) is (log.line(number).state in {State.ISSUED, State.REPLACED})
        if issued:
            assert_fit_to_be_issued(issued.pack)
    assert log.find(Query()) == other.find(Query())
    log.close()


@given(data=st.data(), job=st.sampled_from(STARTS))
@examples(0.3)
def test_the_short_way_to_a_line_says_the_same_as_the_gate(data, job):
    for _ in range(data.draw(st.integers(0, 4))):
        after = apply(job, data.draw(commands_for(job)))
        job = job if isinstance(after, Declined) else after
    line, stands = line_of(job, updated=AT), assess(job)
    assert (line.state is State.READY) == stands.may_issue
    if stands.may_issue or stands.outcome is Outcome.UNSATISFACTORY:
        assert line.outcome is stands.outcome
    else:
        assert line.outcome is None, "no draft is called satisfactory while something is left open"
