"""Every kind of file somebody may craft: refused in a sentence, or taken for no more than it is; the files are tables of kinds beside the ladder."""

from collections.abc import Callable, Iterator
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import pytest

from domain.editing.reading_table import Columns, ReadingTableError
from domain.gate.proof import NotAPdfError, ProofVerdict, TooMuchInItError
from domain.job.exchange import ExchangeError
from domain.job.start import as_draft
from domain.log.job_log import JobLogError, Query, State
from domain.log.upkeep import Concern
from storage.given_documents import jobs_given, rows_given
from storage.sqlite_job_log import SqliteJobLog
from storage.upkeep.sqlite_upkeep import SqliteUpkeep
from storage.verifying import proof_of
from tests.builders import AT, complete_certificate
from tests.ladder.crafted_papers import CRAFTED_PAPERS
from tests.ladder.crafted_tables import CRAFTED_TABLES
from tests.ladder.crafted_values import CRAFTED_VALUES
from tests.storage.begun import begun_log
from tests.storage.issuing import WHO
from tests.storage.upkeep.conftest import begin_real_log

pytestmark = pytest.mark.usefixtures("processes_part")

TABLES = {
    "no bytes": b"",
    "a mark and nothing": b"\xef\xbb\xbf",
    "zeros": bytes(4000),
    "in UTF-16": "Way;Zs\n1;0.5\n".encode("utf-16"),
    "letters that are none": b"Way;Zs\n1;\xff\xfe\n",
    "half a letter": b"Way;Zs\n1;\xed\xa0\x80\n",
    "a quote without an end": b'Way;Zs\n1;"0.5\n' * 9_000,
    "quotes in quotes": b'Way;Zs\n1;"' + b'""' * 900_000 + b'"\n',
    "one line of four megabytes": b"Way;Zs\n1;" + b"9" * 3_900_000,
    "columns by the hundred thousand": b";" * 900_000 + b"\nWay;Zs\n",
    "headings by the thousand": b"Way;Zs\n" + b"Way;" * 100_000,
    "a heading twice": b"Way;Zs;Zs\n1;0.5;0.6\n",
    "no headings": b"1;0.5\n",
    "nothing but headings": b"Way;Zs\n",
    "returns alone": b"Way;Zs\r1;0.5\r",
    "lines of nothing": b"Way;Zs\n" + b"\n" * 3_000_000,
    "a line too short": b"Way;Zs\n1\n",
    "a line too long": b"Way;Zs\n1;0.5;;;;;7\n",
    "a paper": b"%PDF-1.7\n" + bytes(range(256)) * 99,
    "more than a table holds": b"Way;Zs\n" + b"1;0.5\n" * 900_000,
}
"""Tables of readings, by what is wrong with each."""


def taken(act: Callable[[], Any], *refusing: type[Exception]) -> Any:
    """What came of a file; None where it was refused, which is done in one sentence."""
    try:
        return act()
    except refusing as refused:
        says = str(refused)
    assert says.isprintable()
    assert 0 < len(says) < 600
    return None


@pytest.fixture(scope="module")
def real(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return begin_real_log(tmp_path_factory.mktemp("crafted") / "log")


@pytest.fixture(scope="module")
def copy(real: Path) -> bytes:
    return Path(SqliteUpkeep(real).back_up(str(real.with_name("copy.ohmfolio"))).path).read_bytes()


@pytest.fixture
def log(real: Path) -> Iterator[SqliteJobLog]:
    held = SqliteJobLog.open(real)
    yield held
    held.close()


@pytest.mark.parametrize("kind", CRAFTED_VALUES)
def test_a_job_that_cannot_be_is_refused_in_a_sentence_or_taken_as_a_draft_and_no_more(
    kind: str, tmp_path: Path
) -> None:
    file = tmp_path / "job.json"
    CRAFTED_VALUES[kind](file, complete_certificate().model_dump(mode="json"))
    given = taken(lambda: jobs_given(file.read_bytes()), ExchangeError)
    if given is None:
        return
    assert not isinstance(given, tuple)
    log = begun_log(tmp_path / "log")
    kept = log.create(as_draft(given), who=WHO, at=AT)
    (line,) = log.find(Query())
    log.close()
    assert (kept.number, kept.issued, kept.replaces, line.state in {State.DRAFT, State.READY}) == (
        "A-0001",
        None,
        "",
        True,
    )
    assert SqliteUpkeep(tmp_path / "log").tend(at=AT).faults == ()


@pytest.mark.parametrize("kind", TABLES)
def test_a_table_of_readings_that_is_none_is_refused_in_a_sentence_or_read_as_it_stands(kind: str) -> None:
    columns = Columns(headings={"number": "Way", "zs": "Zs"})
    rows = taken(lambda: rows_given(TABLES[kind], columns), ReadingTableError)
    assert all(set(row.cells) <= {"number", "zs"} for row in rows or ())


@pytest.mark.parametrize("kind", CRAFTED_PAPERS)
def test_a_paper_with_one_thing_changed_in_it_is_never_called_what_was_issued(
    kind: str, real: Path, log: SqliteJobLog, tmp_path: Path
) -> None:
    file = tmp_path / "paper.pdf"
    CRAFTED_PAPERS[kind](file, (real / "issued" / "A-0002.pdf").read_bytes())
    proof = taken(lambda: proof_of(file.read_bytes(), log), NotAPdfError, TooMuchInItError)
    assert proof is None or proof.verdict in {ProofVerdict.UNKNOWN, ProofVerdict.ALTERED}


@pytest.mark.parametrize("kind", CRAFTED_TABLES)
def test_a_copy_whose_tables_or_file_are_others_is_refused_or_comes_to_a_sound_log(
    kind: str, copy: bytes, tmp_path: Path
) -> None:
    file, home = tmp_path / "it.ohmfolio", tmp_path / "log"
    CRAFTED_TABLES[kind](file, copy)
    before = {path.name for path in tmp_path.iterdir()}
    if taken(lambda: SqliteUpkeep(home).restore(str(file), at=datetime.now(UTC)), JobLogError) is None:
        assert {path.name for path in tmp_path.iterdir()} == before
    else:
        # A paper that is not the one that was issued is not put back, and its restoring says of which there is none.
        assert {each.about for each in SqliteUpkeep(home).tend(at=AT).faults} <= {Concern.KEY, Concern.PAPERS}
