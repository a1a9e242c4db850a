"""A paper names what set it, so that sheets reworded since make no old paper suspect."""

from datetime import UTC, datetime

import pytest

from domain.gate.assessment import Pack, issue
from domain.gate.judging import judge
from domain.gate.proof import Exhibit, Proof, ProofVerdict, Seal
from domain.job.exchange import job_from_json, job_to_json
from domain.job.job import Job
from tests.builders import complete_certificate

AT = datetime(2026, 3, 2, 16, 30, tzinfo=UTC)
THEN, NOW = "ohmfolio 1.0, sheets 0a", "ohmfolio 1.1, sheets 0b"


def issued(set_by: str) -> Job:
    pack = issue(complete_certificate(), by="Ada Fenn", at=AT, people=(), set_by=set_by)
    assert isinstance(pack, Pack)
    return pack.job


def told(set_by: str, *, remade: bool) -> Proof:
    exhibit = Exhibit(sha256="00", seal=Seal.HOLDS, is_ours=True, number="A-0001", record=issued(set_by))
    return judge(exhibit, None, has_log=False, remade=remade, seen=(), set_by=NOW)


@pytest.mark.parametrize(
    ("set_by", "remade", "says"),
    [
        (NOW, True, "are the same"),
        (THEN, True, "are the same"),
        (THEN, False, f"{THEN} set it; this is {NOW}"),
        (NOW, False, "somebody altered it and sealed it anew"),
        ("", False, "another version made it, or somebody altered it"),
    ],
)
def test_a_whole_paper_is_called_altered_only_by_the_version_that_set_it(set_by: str, remade: bool, says: str) -> None:
    proof = told(set_by, remade=remade)
    assert proof.verdict is ProofVerdict.UNKNOWN
    assert says in " ".join(proof.notes)
    assert ("altered" in " ".join(proof.notes)) is (not remade and set_by != THEN)


def test_what_set_it_stands_in_the_record_and_an_old_record_comes_back_without() -> None:
    assert job_from_json(job_to_json(issued(THEN))).issued == issued(THEN).issued
    assert '"set_by"' not in job_to_json(issued(""))
