"""Commands at random on two logs at once: whatever is done, both say the same, and nothing is issued that may not be."""

from hypothesis import strategies as st

from domain.editing.commands import Declined, Sign
from domain.gate.assessment import Refusal
from domain.job.job import Job
from domain.job.signature import roles_for
from domain.log.job_log import JobLog, Query, State
from tests.builders import AT, INSPECTOR
from tests.domain.gate.test_gate_holds import assert_fit_to_be_issued
from tests.random_commands import commands_for
from tests.storage.issuing import WHO, bind


def played(data: st.DataObject, start: Job, log: JobLog, other: JobLog) -> int:
    """Play a sequence on a log and on another that serves as its measure; how many papers came of it."""
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
    papers = 0
    for number in numbers:
        assert _without_head(log.load(number)) == _without_head(other.load(number))
        assert log.trail(number) == other.trail(number)
        issued = log.issued(number)
        assert (issued is not None) is (log.line(number).state in {State.ISSUED, State.REPLACED})
        if issued:
            papers += 1
            assert_fit_to_be_issued(issued.pack)
    assert log.find(Query()) == other.find(Query())
    return papers


def _without_head(job: Job) -> Job:
    """A job but for what its log alone gives when it is issued: the head, counted by each in its own way, its key, and digests."""
    own = {"head": "", "sealed_with": None, "page_sha256": "", "table_sha256": ""}
    return job.model_copy(update={"issued": job.issued and job.issued.model_copy(update=own)})
