"""Files are packed by the PDF library; what is done beside it changes their size and nothing else."""

import io

import pikepdf
import pymupdf
import pytest

from domain.sheets import sheets_of
from storage.paper.imprint import Imprint
from storage.paper.pack_data import pack_data
from storage.paper.packing import packed, with_short_table
from storage.paper.paper_error import PaperError
from storage.paper.typesetting import set_pages
from tests.builders import complete_minor_works


@pytest.fixture(scope="module")
def as_set() -> bytes:
    """A file as the engine made it."""
    data, _ = pack_data(sheets_of(complete_minor_works()), Imprint("certificate", "T-0001", "", "", None))
    return set_pages(data, "").pdf


def _objects(pdf: bytes) -> list[bytes]:
    with pikepdf.open(io.BytesIO(pdf)) as document:
        return [each.unparse(resolved=True) for each in document.objects]


def _by_the_library(pdf: bytes) -> bytes:
    with pymupdf.open(stream=pdf, filetype="pdf") as document:
        return document.tobytes(deflate=True, use_objstms=1, no_new_id=True)


def test_the_table_of_objects_is_shorter_and_leads_to_the_same_objects(as_set: bytes):
    plain = _by_the_library(as_set)
    short = with_short_table(plain)
    assert len(short) < len(plain)
    assert _objects(short)[:-1] == _objects(plain)[:-1]
    with pymupdf.open(stream=short, filetype="pdf") as document:
        assert not document.is_repaired


def test_a_table_written_otherwise_is_left_to_the_library(as_set: bytes):
    other = as_set.replace(b"/W[1 4 1]", b"/W[1 4 2]")
    assert with_short_table(other) == other
    with pymupdf.open(stream=as_set, filetype="pdf") as document:
        plainly = document.tobytes(use_objstms=0)
    assert with_short_table(plainly) == plainly


def test_an_engine_that_writes_its_cells_otherwise_makes_a_larger_file_that_is_as_good(as_set: bytes):
    otherwise = as_set.replace(b"<</Type/StructElem/S/T", b"<< /Type/StructElem/S/T")
    with pymupdf.open(stream=as_set, filetype="pdf") as document:
        respaced = document.tobytes()
    for strange in (otherwise, respaced):
        pdf, pages = packed(strange, sealing=False, signing=False)
        assert pages == 2
        with pymupdf.open(stream=pdf, filetype="pdf") as made, pymupdf.open(stream=as_set, filetype="pdf") as was:
            assert [page.get_text() for page in made] == [page.get_text() for page in was]
            assert made.metadata["creator"] == "Ohmfolio"


def test_a_file_that_says_nothing_of_itself_is_no_paper():
    with pymupdf.open() as document:
        document.new_page()
        strange = document.tobytes()
    with pytest.raises(PaperError, match="names no"):
        packed(strange, sealing=False, signing=False)
