"""What a pack can be checked by: its record inside, hashes on one page, its seal, and that every value stands in its place."""

import hashlib
import json
from collections.abc import Callable

import pymupdf
import pytest
from hypothesis import given
from hypothesis import strategies as st

from domain.forms.form_set import FormSet
from domain.gate.assessment import Pack, issue
from domain.job.job import Job, canonical
from storage import pdf
from storage.paper import schedule_data
from storage.paper.paper_error import PaperError
from storage.paper.seal import SealCheck, holds, seal_of, sealed
from storage.pdf import bind, bind_draft
from tests.builders import AT, INSPECTOR, complete_certificate, complete_minor_works, complete_report, entered, signed
from tests.examples import examples
from tests.storage.paper.pages import Paper, issued

BUILDS = {FormSet.EIC: complete_certificate, FormSet.MEIWC: complete_minor_works, FormSet.EICR: complete_report}
MINOR_WORKS = issued(complete_minor_works()).pdf


def _passed(job: Job) -> Pack:
    pack = issue(job, by=INSPECTOR, at=AT, people=(), head="5e" * 32)
    assert isinstance(pack, Pack), pack
    return pack


@pytest.mark.parametrize("form_set", FormSet)
def test_a_pack_holds_its_record_and_tells_hash_seal_and_head_on_one_page(form_set: FormSet):
    pack = _passed(BUILDS[form_set]())
    paper = Paper(bind(pack))
    record = canonical(pack.job)
    assert paper.document.embfile_count() == 1
    assert paper.document.embfile_get(0) == record
    assert Job.model_validate_json(record) == pack.job
    (proof,) = [page for page in paper.pages if "Key this document is signed with" in page or "Who issued it" in page]
    for line in (hashlib.sha256(record).hexdigest(), "5e" * 32, seal_of(paper.bound.pdf)):
        assert line in proof
    assert holds(paper.bound.pdf) is SealCheck.YES


def test_a_draft_holds_no_record_and_bears_no_seal():
    draft = bind_draft(complete_certificate())
    assert Paper(draft).document.embfile_count() == 0
    assert holds(draft.pdf) is SealCheck.ABSENT


def test_the_seal_is_the_hash_of_the_file_with_the_seal_as_zeros():
    seal = seal_of(MINOR_WORKS)
    start = MINOR_WORKS.index(b"% Ohmfolio seal")
    end = MINOR_WORKS.index(b"]TJ\n", start) + len(b"]TJ\n")
    said, drawn, checksum = (
        MINOR_WORKS.index(seal.encode(), start),
        MINOR_WORKS.rindex(b"<", start, end) + 1,
        end,
    )
    zeroed = bytearray(MINOR_WORKS)
    for at, length in ((said, 64), (drawn, 256), (checksum, 4)):
        zeroed[at : at + length] = b"0" * length
    assert hashlib.sha256(zeroed).hexdigest() == seal


@given(at=st.integers(0, len(MINOR_WORKS) - 1), bit=st.integers(0, 7))
@examples(1)
def test_one_bit_changed_anywhere_breaks_the_seal(at: int, bit: int):
    changed = bytearray(MINOR_WORKS)
    changed[at] ^= 1 << bit
    assert holds(bytes(changed)) is not SealCheck.YES


@given(end=st.integers(0, len(MINOR_WORKS) - 1), more=st.binary(min_size=1, max_size=40))
@examples(0.6)
def test_bytes_taken_away_or_added_break_the_seal(end: int, more: bytes):
    assert holds(MINOR_WORKS[:end]) is not SealCheck.YES
    assert holds(MINOR_WORKS + more) is not SealCheck.YES
    assert holds(more + MINOR_WORKS) is not SealCheck.YES


def test_the_file_opens_without_repair_and_its_stored_seal_reads_as_a_page():
    document = pymupdf.open(stream=MINOR_WORKS, filetype="pdf")
    assert not document.is_repaired
    assert seal_of(MINOR_WORKS) in document[-1].get_text()


def test_a_file_without_a_place_for_the_seal_is_not_sealed():
    with pytest.raises(PaperError, match="cannot be sealed"):
        sealed(b"%PDF-1.7 nothing here")


def test_other_heads_of_the_log_make_other_bytes_and_the_same_head_the_same():
    job = complete_minor_works()
    first, again = bind(_passed(job)), bind(_passed(job))
    other = issue(job, by=INSPECTOR, at=AT, people=())
    assert isinstance(other, Pack)
    assert first.pdf == again.pdf
    assert bind(other).pdf != first.pdf


class TestNotIssuedUnlessEveryValueStandsInItsPlace:
    """The pages are spoilt on their way to the file, as a fault of ours would."""

    def _is_refused(self, job: Job, named: str) -> None:
        with pytest.raises(PaperError, match=named):
            bind(_passed(job))

    @staticmethod
    def _spoil(monkeypatch, spoilt: Callable[[str], str]) -> None:
        """Every text of the data changed on its way to the templates, while what is expected of the pages stays."""
        make = pdf.pack_data

        def spoiling(sheets, imprint):
            data, expected = make(sheets, imprint)
            return json.loads(json.dumps(data), object_hook=changed), expected

        def changed(value):
            return {key: each(part) if key in {"value", "text", "cells"} else part for key, part in value.items()}

        def each(part):
            return (
                [each(item) for item in part]
                if isinstance(part, list)
                else spoilt(part)
                if isinstance(part, str)
                else part
            )

        monkeypatch.setattr(pdf, "pack_data", spoiling)

    def _with_zs(self) -> Job:
        return signed(entered(complete_certificate(sign=False), {"zs": "0.31"}, board="b1", circuit="c2"))

    def test_a_value_left_out_of_a_schedule(self, monkeypatch):
        issued(self._with_zs())
        self._spoil(monkeypatch, lambda text: "" if text == "0.31" else text)
        self._is_refused(self._with_zs(), "0.31.*Zs")

    def test_two_values_that_changed_places(self, monkeypatch):
        swap = {"0.31": "0.24", "0.24": "0.31"}
        self._spoil(monkeypatch, lambda text: swap.get(text, text))
        self._is_refused(self._with_zs(), "0.31|0.24")

    def test_a_value_set_one_column_further(self, monkeypatch):
        make = schedule_data.edges
        monkeypatch.setattr(
            schedule_data, "edges", lambda widths, left: [(x0 + 30, x1 + 30) for x0, x1 in make(widths, left)]
        )
        self._is_refused(self._with_zs(), "cannot be printed as typed")

    def test_a_name_that_markup_swallowed(self, monkeypatch):
        self._spoil(monkeypatch, lambda text: text.replace("&", ""))
        job = signed(entered(complete_minor_works(sign=False), {"name": "Crake & Crake"}, section="client"))
        self._is_refused(job, "Crake")

    def test_a_letter_changed_for_another(self, monkeypatch):
        self._spoil(monkeypatch, lambda text: text.replace("Kitchen", "Kitchem"))
        job = entered(complete_certificate(sign=False), {"description": "Kitchen ring"}, board="b1", circuit="c2")
        self._is_refused(signed(job), "Kitchen")


def test_the_record_inside_is_json_with_sorted_keys_and_no_blanks():
    record = Paper(issued(complete_minor_works())).document.embfile_get(0)
    assert record == json.dumps(json.loads(record), ensure_ascii=False, sort_keys=True, separators=(",", ":")).encode()
