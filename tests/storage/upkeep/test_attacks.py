"""An attacker at a log with real papers: whatever is done to it is named, by `tend`, and by whatever else shows it."""

import re
import shutil
from pathlib import Path

import pytest

from domain.gate.proof import ProofVerdict
from domain.log.job_log import JobLogError, Query
from storage.child_process import named
from storage.sqlite_job_log import SqliteJobLog
from storage.upkeep import paper_records
from storage.verifying import proof_of
from tests.storage.upkeep.attacks import ATTACKS, slipped_in
from tests.storage.upkeep.forgeries import FORGERIES
from tests.storage.upkeep.forging import Forgery, forge
from tests.storage.upkeep.test_tending import tended


@pytest.fixture
def home(real_log: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    # The papers are this test's own and no stranger's, so they are read without a process for each look.
    monkeypatch.setattr(paper_records, "asked", lambda function, request, _: named(function)(request))
    return shutil.copytree(real_log, tmp_path / "log")


def test_the_log_that_is_attacked_is_well_before(home):
    condition = tended(home)
    assert (condition.well, condition.unproven) == (True, ())
    assert condition.proof.issued == 4


def test_there_are_more_than_thirty_nine_kinds_and_none_is_a_forgery_tried_elsewhere():
    assert len({each.what for each in ATTACKS} - {each.what for each in FORGERIES}) == len(ATTACKS) > 39


ALONE = [(attack,) for attack in ATTACKS if not attack.together]
TOGETHER = [
    tuple(attack for attack in ATTACKS if attack.together == word)
    for word in dict.fromkeys(attack.together for attack in ATTACKS if attack.together)
]


@pytest.mark.parametrize("attacks", [*ALONE, *TOGETHER], ids=lambda attacks: attacks[0].what)
def test_an_attack_is_named(home, attacks: tuple[Forgery, ...]):
    for attack in attacks:
        forge(home, attack)
    says = [fault.says for fault in tended(home).faults]
    assert [each.what for each in attacks if not any(re.search(each.told, said) for said in says)] == [], says


def test_a_record_slipped_in_with_a_real_paper_is_named_by_verify_the_lists_and_the_job(home):
    forge(home, Forgery("slipped in", slipped_in, ""))
    pdf = (home / "issued" / "A-0005.pdf").read_bytes()
    log = SqliteJobLog.open(home)
    assert {line.number for line in log.find(Query()) if not line.vouched} == {"A-0005"}
    for act in (log.load, log.issued, log.paper):
        with pytest.raises(JobLogError, match="A-0005 stands in the log as issued, but not as this program issued it"):
            act("A-0005")
    proof = proof_of(pdf, log, lambda function, request, _: named(function)(request))
    assert (proof.verdict, "not as this program issued it" in proof.says) == (ProofVerdict.ALTERED, True)
    log.close()
