"""Jobs and tables that anybody may have written are read in a process of its own, and come out as they would here."""

import pytest

from domain.editing.reading_table import Columns, ReadingTableError, rows_in
from domain.forms.choice.answers import Answers
from domain.forms.choice.answers_document import AnswersError
from domain.job.exchange import ExchangeError, job_to_json
from storage import given_documents
from storage.child_process import ProcessLimits
from storage.given_documents import answers_given, job_given, jobs_given, rows_given
from tests.builders import complete_certificate, complete_minor_works

pytestmark = pytest.mark.usefixtures("processes_part")

COLUMNS = Columns(headings={"number": "Way", "zs": "Zs"})
TABLE = b'Way;Zs\n1;0,31\n2;"0.5"\n'
LITTLE = ProcessLimits(memory=48, seconds=5, written=1)


def test_what_is_read_apart_is_what_would_be_read_here() -> None:
    one, other = complete_certificate(), complete_minor_works()
    assert job_given(job_to_json(one).encode()) == one
    assert jobs_given(f"[{job_to_json(one)},{job_to_json(other)}]".encode()) == (one, other)
    assert rows_given(TABLE, COLUMNS) == rows_in(TABLE, COLUMNS)
    told = Answers.model_validate({"done": "board", "own_work": True, "circuits": 3})
    assert answers_given(told.model_dump_json().encode()) == told


def test_what_takes_more_than_any_job_or_table_is_refused_in_one_sentence(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(given_documents, "_ONE_JOB", LITTLE)
    monkeypatch.setattr(given_documents, "_ONE_TABLE", LITTLE)
    with pytest.raises(ExchangeError, match="more memory, time or room to read than any job"):
        job_given(b" " * 3_900_000 + job_to_json(complete_certificate()).encode())
    with pytest.raises(AnswersError, match="more memory, time or room to read than any set of answers"):
        answers_given(b'{"done": "board", "nation": "' + b"x" * 3_900_000 + b'"}')
    with pytest.raises(ReadingTableError, match="more memory, time or room to read than any table"):
        rows_given(b"Way;Zs\n" + b"".join(b"%d;0.5\n" % at for at in range(90_000)), COLUMNS)


def test_a_table_of_more_lines_than_any_job_has_circuits_is_not_gone_through() -> None:
    with pytest.raises(ReadingTableError, match="more than 100,000 lines"):
        rows_given(b"\n" * 3_900_000, COLUMNS)
