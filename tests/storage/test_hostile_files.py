"""Files made to do harm are read within limits, and answered in one sentence."""

import resource
import zlib

import pytest

from domain.gate.proof import ProofVerdict, TooMuchInItError
from storage import verifying
from storage.child_process import ProcessLimits
from storage.verifying import proof_of
from tests.storage.hostile_files import (
    boxes_in_boxes,
    great_table,
    page_of_great_size,
    pages_without_end,
    pdf_with,
    swollen,
)

SEALED_ONCE = b"\n% Ohmfolio seal"
HOSTILE = {
    "swells to gigabytes": lambda: pdf_with([("/FlateDecode/FlateDecode", swollen(3 * 1024**3))]),
    "thousands of attachments": lambda: pdf_with([("/FlateDecode", zlib.compress(b"{}" + b" " * 900_000))] * 5000),
    "pages without end": pages_without_end,
    "page of kilometres": page_of_great_size,
    "lists in lists": boxes_in_boxes,
    "great table": great_table,
}


@pytest.mark.parametrize("file", HOSTILE)
def test_a_file_made_to_do_harm_takes_little_and_is_never_called_unaltered(file: str) -> None:
    before = sum(resource.getrusage(resource.RUSAGE_CHILDREN)[:2])
    try:
        verdict = proof_of(HOSTILE[file]() + SEALED_ONCE, None).verdict
    except TooMuchInItError:
        verdict = ProofVerdict.UNKNOWN
    assert verdict in {ProofVerdict.UNKNOWN, ProofVerdict.ALTERED}
    assert sum(resource.getrusage(resource.RUSAGE_CHILDREN)[:2]) - before < 21
    assert resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss < 1.1 * 1024**2, "kilobytes"


def test_a_file_that_takes_more_than_a_pack_is_refused_in_one_sentence(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(verifying, "_TO_EXAMINE", ProcessLimits(memory=48, seconds=5, written=1))
    with pytest.raises(TooMuchInItError, match="more memory or time"):
        proof_of(great_table(), None)
