"""The ways a paper is tampered with, by kind. None passes: not for the log, not for who has the firm's key, not alone.

Each way is a function from the paper as issued to what a stranger hands in.
"""

import hashlib
import io
from collections.abc import Callable, Iterator
from pathlib import Path

import pikepdf
import pymupdf
import pytest

from domain.gate.assessment import Pack
from domain.gate.issued_paper import IssuedPaper
from domain.gate.proof import NotAPdfError, Proof, ProofVerdict
from domain.job.job import Job, canonical
from domain.job.seal_key import EarlierKey, SealedWith, sealing_text, succession_text
from domain.log.certificates import CertificateFile
from storage.child_process import named
from storage.keys.ed25519 import public_key, signature
from storage.pades.signing import PadesSigning
from storage.paper.examining import attached_record
from storage.paper.seal import seal_of, sealed, signature_of, with_signature
from storage.pdf import bind
from storage.sqlite_job_log import SqliteJobLog
from storage.verifying import proof_of
from tests.builders import AT, INSPECTOR, complete_minor_works, entered, signed
from tests.storage.inside_the_file import EDITS, page_in_an_update

WHO = "tamsin"
FORGERS_SECRET = bytes(range(32))


class Case:
    """A log with a paper in it, and what a forger can get hold of."""

    def __init__(self, home: Path) -> None:
        self.log = SqliteJobLog.open(home)
        self.job, self.pdf = self._issued(complete_minor_works())
        other = signed(entered(complete_minor_works(sign=False), {"name": "Sorrel Wick"}, section="client"))
        _, self.other = self._issued(other)
        self.fingerprint = self.log.seal_keys()[0].fingerprint
        self.certificate, _ = PadesSigning().own_certificate("Somebody", "larch over granite", at=AT)

    def _issued(self, job: Job) -> tuple[Job, bytes]:
        number = self.log.create(job, who=WHO, at=AT).number
        issued = self.log.issue(number, by=INSPECTOR, at=AT, bind=bind)
        assert isinstance(issued, IssuedPaper)
        return issued.pack.job, Path(issued.kept).read_bytes()

    def signed_by_somebody(self, pdf: bytes) -> bytes:
        assert isinstance(self.certificate, CertificateFile)
        return PadesSigning().signed(pdf, self.certificate).pdf

    def with_reading_changed(self, **stamp: object) -> Job:
        """The record with one value changed, signed again by the names it had; the stamp as it was, but for what is given."""
        draft = self.job.model_copy(update={"issued": None, "signatures": ()})
        changed = signed(entered(draft, {"name": "Somebody Else"}, section="client"))
        return changed.model_copy(update={"issued": self.job.issued.model_copy(update=stamp)})

    def bound_again(self, job: Job) -> bytes:
        """By the program's own code, which anybody has."""
        from domain.gate.report_outcome import outcome_of

        return bind(Pack(job=job, outcome=outcome_of(job))).pdf


@pytest.fixture(scope="module")
def case(tmp_path_factory) -> Iterator[Case]:
    made = Case(tmp_path_factory.mktemp("log"))
    yield made
    made.log.close()


def _with_mupdf(edit: Callable[[pymupdf.Document], object], **save: object) -> Callable[[Case], bytes]:
    def way(case: Case) -> bytes:
        document = pymupdf.open(stream=case.pdf, filetype="pdf")
        edit(document)
        return document.tobytes(**save)

    return way


def _with_pikepdf(edit: Callable[[pikepdf.Pdf], object], **save: object) -> Callable[[Case], bytes]:
    def way(case: Case) -> bytes:
        out = io.BytesIO()
        with pikepdf.open(io.BytesIO(case.pdf)) as document:
            edit(document)
            document.save(out, **save)
        return out.getvalue()

    return way


def _behind(edit: Callable[[pymupdf.Document], object]) -> Callable[[Case, Path], bytes]:
    """Written behind the file, whose bytes stay as they are."""

    def way(case: Case, path: Path) -> bytes:
        path.write_bytes(case.pdf)
        document = pymupdf.open(path)
        edit(document)
        document.saveIncr()
        return path.read_bytes()

    return way


def _at(share: float, change: Callable[[bytes, int], bytes]) -> Callable[[Case], bytes]:
    return lambda case: change(case.pdf, int(share * len(case.pdf)))


def _flip(pdf: bytes, at: int) -> bytes:
    return pdf[:at] + bytes([pdf[at] ^ 1]) + pdf[at + 1 :]


def _swap_record(old: bytes, new: bytes) -> Callable[[pymupdf.Document], None]:
    def edit(document: pymupdf.Document) -> None:
        content = bytes(document.embfile_get(0))
        assert old in content
        document.embfile_del(0)
        document.embfile_add("record.json", content.replace(old, new, 1))

    return edit


def _set_info(pdf: pikepdf.Pdf) -> None:
    pdf.docinfo["/Author"] = "Somebody Else"


def _set_xmp(pdf: pikepdf.Pdf) -> None:
    with pdf.open_metadata() as metadata:
        metadata["dc:title"] = "Another paper"


def _forged_signature(case: Case) -> bytes:
    """The forger's signature in the room of the firm's, whose key the record goes on naming."""
    pdf = case.bound_again(case.with_reading_changed())
    return with_signature(pdf, signature(FORGERS_SECRET, b"anything"))


def _other_key(case: Case) -> bytes:
    pdf = case.bound_again(case.with_reading_changed(sealed_with=SealedWith(key=public_key(FORGERS_SECRET))))
    return with_signature(pdf, signature(FORGERS_SECRET, b"anything"))


def _resealed(case: Case) -> bytes:
    """A byte of a comment changed, and the seal worked out anew by the program's own code."""
    at = case.pdf.index(b"\n%") + 2
    return sealed(case.pdf[:at] + b"\x81" + case.pdf[at + 1 :])


def _signed_rightly(case: Case, *earlier: EarlierKey) -> bytes:
    """Bound again with a reading changed, and signed as papers are, by a forger's own key."""
    key = public_key(FORGERS_SECRET)
    pdf = case.bound_again(case.with_reading_changed(sealed_with=SealedWith(key=key, earlier=earlier)))
    record = hashlib.sha256(attached_record(pdf)).hexdigest()
    text = sealing_text(case.job.number, record, seal_of(pdf), case.job.issued.head, key)
    return with_signature(pdf, signature(FORGERS_SECRET, text))


def _following(case: Case) -> bytes:
    """As if the firm's key had vouched for the forger's."""
    statement = signature(FORGERS_SECRET, succession_text(public_key(FORGERS_SECRET)))
    return _signed_rightly(case, EarlierKey(key=case.job.issued.sealed_with.key, statement=statement))


WAYS: dict[str, Callable[..., bytes]] = {
    # bytes
    "one bit of the first byte": _at(0, _flip),
    "one bit near the beginning": _at(0.1, _flip),
    "one bit in the middle": _at(0.5, _flip),
    "one bit near the end": _at(0.97, _flip),
    "one bit of the seal": lambda case: _flip(case.pdf, case.pdf.index(b"% Ohmfolio seal") + 95),
    "one bit of the signature": lambda case: _flip(case.pdf, case.pdf.index(b"% signed ") + 40),
    "a byte put in": _at(0.4, lambda pdf, at: pdf[:at] + b" " + pdf[at:]),
    "a byte taken out": _at(0.4, lambda pdf, at: pdf[:at] + pdf[at + 1 :]),
    "the end cut off": _at(0.9, lambda pdf, at: pdf[:at]),
    "a line end put behind": lambda case: case.pdf + b"\n",
    "bytes put before": lambda case: b"\n" + case.pdf,
    "another paper put behind": lambda case: case.pdf + case.other,
    "the seal of another paper": lambda case: _swapped(case, b"% Ohmfolio seal", 96 + 64),
    "the signature of another paper": lambda case: with_signature(case.pdf, signature_of(case.other)),
    "the signature taken out": lambda case: with_signature(case.pdf, "0" * 128),
    # pages
    "a white patch over a value": _with_mupdf(lambda d: d[0].draw_rect((40, 120, 300, 200), fill=(1, 1, 1))),
    "a word drawn on a page": _with_mupdf(lambda d: d[0].insert_text((100, 700), "unsatisfactory")),
    "a value struck out for good": _with_mupdf(lambda d: (d[0].add_redact_annot((60, 150, 200, 170)), d[0].apply_redactions())),
    "a page taken out": _with_mupdf(lambda d: d.delete_page(1)),
    "a page put in": _with_mupdf(lambda d: d.new_page()),
    "pages in another order": _with_mupdf(lambda d: d.move_page(0, len(d) - 1)),
    "a page turned": _with_mupdf(lambda d: d[0].set_rotation(90)),
    "a page cut to a part of itself": _with_mupdf(lambda d: d[0].set_cropbox((0, 0, 400, 400))),
    "pages of another file": _with_mupdf(lambda d: d.insert_pdf(pymupdf.open(stream=d.tobytes()), to_page=0)),
    # notes and forms
    "a note": _with_mupdf(lambda d: d[0].add_text_annot((90, 90), "see here")),
    "a stamp": _with_mupdf(lambda d: d[0].add_stamp_annot((90, 90, 200, 140))),
    "writing over a box": _with_mupdf(lambda d: d[0].add_freetext_annot((60, 150, 200, 170), "0.31")),
    "a link laid over": _with_mupdf(lambda d: d[0].insert_link({"kind": 2, "from": pymupdf.Rect(0, 0, 90, 90), "uri": "https://example.org"})),
    "a field to fill in": _with_mupdf(lambda d: d[0].add_widget(_field())),
    # attachments
    "a value changed in the record": _with_mupdf(_swap_record(b'"schema_version":1', b'"schema_version": 1')),
    "the record taken out": _with_mupdf(lambda d: d.embfile_del(0)),
    "another file attached too": _with_mupdf(lambda d: d.embfile_add("more.json", b"{}")),
    # metadata
    "its title": _with_mupdf(lambda d: d.set_metadata({"title": "A-0099"})),
    "its author": _with_pikepdf(_set_info),
    "its title for archives": _with_pikepdf(_set_xmp),
    "a script that runs when it is opened": _with_pikepdf(lambda d: d.Root.__setitem__("/OpenAction", d.make_indirect(pikepdf.Dictionary(S=pikepdf.Name.JavaScript, JS="1")))),
    # what lies beneath, or over
    **{what: _with_pikepdf(edit) for what, edit in EDITS.items()},
    # saved again
    "locked, and open to all": _with_pikepdf(lambda d: None, encryption=pikepdf.Encryption(owner="o", user="", R=6)),
    "saved again and squeezed": _with_mupdf(lambda d: None, deflate=True, garbage=4),
    "saved again by another program": _with_pikepdf(lambda d: None),
    "saved again, streams laid open": _with_pikepdf(lambda d: None, stream_decode_level=pikepdf.StreamDecodeLevel.generalized),
    "saved again for the web": _with_pikepdf(lambda d: None, linearize=True),
    # behind the file
    "a note put behind the file": _behind(lambda d: d[0].add_text_annot((90, 90), "see here")),
    "a word put behind the file": _behind(lambda d: d[0].insert_text((100, 700), "unsatisfactory")),
    "a page drawn anew in an update by hand": lambda case: page_in_an_update(case.pdf),
    "its record swapped behind the file": _behind(lambda d: d.embfile_add("record2.json", b"{}")),
    "something behind somebody's signature": lambda case: case.signed_by_somebody(case.pdf) + b"\n",
    "a byte of somebody's signature": lambda case: _flip(signed_one := case.signed_by_somebody(case.pdf), len(signed_one) - 1500),
    "a note, and somebody's signature over both": lambda case, path: case.signed_by_somebody(WAYS["a note put behind the file"](case, path)),
    # bound again
    "the seal worked out again": _resealed,
    "bound again by the program's own code with one reading changed": lambda case: case.bound_again(case.with_reading_changed()),
    "bound again so, with a forger's signature": _forged_signature,
    "bound again so, with a signature of the firm's from another paper": lambda case: with_signature(case.bound_again(case.with_reading_changed()), signature_of(case.other)),
    "bound again so, with a forger's key": _other_key,
    "bound again so, with a forger's right signature": _signed_rightly,
    "bound again so, with a key that the firm's is said to vouch for": _following,
    "bound again so, without a key": lambda case: case.bound_again(case.with_reading_changed(sealed_with=None)),
}  # fmt: skip
TELLS_NOTHING_ALONE = {"bound again so, without a key"}
"""What only somebody with the firm's key, or the log, can tell from a paper that is true."""


def _swapped(case: Case, mark: bytes, length: int) -> bytes:
    here, there = case.pdf.index(mark), case.other.index(mark)
    return case.pdf[:here] + case.other[there : there + length] + case.pdf[here + length :]


def _field() -> pymupdf.Widget:
    widget = pymupdf.Widget()
    widget.field_type, widget.field_name, widget.rect = (
        pymupdf.PDF_WIDGET_TYPE_TEXT,
        "zs",
        pymupdf.Rect(60, 150, 200, 170),
    )
    return widget


def _judged(pdf: bytes, log: SqliteJobLog | None, *firm: str) -> Proof | None:
    """None for what is called no paper at all."""
    try:
        return proof_of(pdf, log, lambda function, request, _: named(function)(request), firm=firm)
    except NotAPdfError:
        return None


@pytest.fixture(scope="module")
def handed_in(case, tmp_path_factory) -> dict[str, bytes]:
    path = tmp_path_factory.mktemp("behind") / "paper.pdf"
    return {what: way(case, path) if way.__code__.co_argcount == 2 else way(case) for what, way in WAYS.items()}


def test_the_paper_as_issued_is_what_each_way_is_held_against(case):
    assert _judged(case.pdf, case.log).verdict is ProofVerdict.UNALTERED
    assert _judged(case.pdf, None, case.fingerprint).verdict is ProofVerdict.UNALTERED
    assert canonical(case.job)


def test_there_are_more_than_sixty_ways_and_each_changes_the_paper(case, handed_in):
    assert len(WAYS) > 60
    assert not [what for what, pdf in handed_in.items() if pdf == case.pdf]


@pytest.mark.parametrize("what", WAYS)
def test_no_way_passes_the_log(case, handed_in, what):
    by_log = _judged(handed_in[what], case.log)
    assert by_log is None or by_log.verdict is ProofVerdict.ALTERED, by_log


@pytest.mark.parametrize(
    "what", [what for what in WAYS if any(word in what for word in ("again", "signature", "seal"))]
)
def test_no_way_passes_who_has_the_key_of_the_firm(case, handed_in, what):
    by_key = _judged(handed_in[what], None, case.fingerprint)
    assert by_key is None or by_key.verdict in {ProofVerdict.ALTERED, ProofVerdict.NOT_THEIRS, ProofVerdict.UNKNOWN}
    if what not in TELLS_NOTHING_ALONE:
        assert by_key is None or by_key.verdict is not ProofVerdict.UNKNOWN, by_key
