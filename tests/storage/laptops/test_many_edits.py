"""A bundle of many edits: each is in the trail as it was made, and the log is written to job by job."""

import json

from domain.editing.content_hash import content_hash
from domain.editing.reducer import apply
from domain.laptops.operation import Act, Operation
from domain.log.job_log import Query
from domain.log.use_cases.heard_jobs import HeardJobs
from tests.builders import AT, complete_minor_works, enter
from tests.storage.issuing import WHO
from tests.storage.laptops.firms import SmallFirm
from tests.storage.memory_log import MemoryStore


class CountedPuts(MemoryStore):
    def __init__(self) -> None:
        super().__init__()
        self.puts = 0

    def put(self, stored, line, *entries) -> None:
        self.puts += 1
        super().put(stored, line, *entries)


def test_edits_of_two_jobs_made_by_turns_come_back_each_in_its_trail_and_both_logs_are_whole(firm: SmallFirm) -> None:
    laptop = firm.buy("HE")
    numbers = [laptop.create(complete_minor_works(), who=WHO, at=AT).number for _ in range(2)]
    for turn in range(12):
        for number in numbers:
            laptop.edit(number, enter("client", "name", f"Quill {number} {turn}"), who=WHO, at=AT)
    laptop.undo(numbers[0], who=WHO, at=AT)

    taken = firm.hand(laptop, firm.office)

    assert (taken.new, taken.aside) == (2 * 13 + 1, 0)
    for number in numbers:
        assert firm.office.load(number) == laptop.load(number)
        assert firm.office.version(number) == laptop.version(number)
        theirs, ours = laptop.trail(number), firm.office.trail(number)
        assert [(line.version, line.what, line.who) for line in ours] == [
            (line.version, line.what, line.who) for line in theirs
        ]
    assert [each.number for each in firm.office.find(Query(words=f"Quill {numbers[1]} 11"))] == [numbers[1]]
    assert firm.tended("A") == []


def test_however_many_edits_of_a_job_come_it_is_written_down_once() -> None:
    store, job = CountedPuts(), complete_minor_works().model_copy(update={"number": "HE-0001"})
    told = {"who": WHO, "what": "Begun", "job": job.model_dump(mode="json"), "replaces": ""}
    heard = HeardJobs(store, lambda _: b"", AT)
    heard.perform(_done(1, Act.BEGIN, told))
    for counter in range(2, 32):
        command = enter("client", "name", f"Quill {counter}")
        job = apply(job, command)
        told = {"who": WHO, "what": command.text, "changes": "", "undoes": 0, "redoes": 0, "hash": content_hash(job)}
        heard.perform(_done(counter, Act.EDIT, told | {"command": command.model_dump(mode="json")}))

    heard.write_down()

    assert store.puts == 2
    assert store.get("HE-0001").job.client.name == "Quill 31"
    assert [entry.what for entry in store.trails["HE-0001"]] == ["Begun", *(f"Quill {at}" for at in range(2, 32))]
    assert store.get("HE-0001").version == 31


def _done(counter: int, act: Act, told: dict) -> Operation:
    return Operation("he00", counter, "", act, "HE-0001", at=AT.isoformat(), body=json.dumps(told))
