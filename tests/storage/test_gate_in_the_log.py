"""The log is no way round the gate, and keeps every job so that it can be read again."""

from hypothesis import given
from hypothesis import strategies as st

from domain.editing.commands import Declined
from domain.editing.reducer import apply
from domain.gate.assessment import assess
from domain.gate.outcome import Outcome
from domain.log.job_log import State
from domain.log.log_line import line_of
from storage.sqlite_job_log import SqliteJobLog
from tests.builders import AT
from tests.domain.gate.test_gate_holds import STARTS
from tests.examples import examples
from tests.random_commands import commands_for
from tests.storage.memory_log import MemoryJobLog
from tests.storage.played import played


@given(data=st.data(), start=st.sampled_from(STARTS))
@examples(0.15)
def test_no_certificate_in_the_log_was_issued_with_an_open_snag(tmp_path_factory, data, start):
    log = SqliteJobLog.open(tmp_path_factory.mktemp("log"))
    played(data, start, log, MemoryJobLog())
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
