"""The logo of a firm: out of a file into the register, onto papers, and into the record they can be made again from."""

from datetime import date
from io import BytesIO

import pymupdf
import pytest
from PIL import Image, PngImagePlugin

from domain.gate.assessment import Pack, issue
from domain.gate.proof import ProofVerdict
from domain.inspection.observation import Code
from domain.job.job import Job, canonical
from domain.job.logo import Logo, LogoError, LogoKind
from domain.log.put_right.letter import Letter
from domain.log.put_right.remedial_status import PutRight
from domain.register.entries import KnownFirm, RegisterKind
from storage.child_process import named
from storage.logos import FILE_MAX, answer, made_logo
from storage.pdf import bind, bind_draft, bind_letter
from storage.sqlite_job_log import SqliteJobLog
from storage.verifying import proof_of
from tests.builders import AT, INSPECTOR, complete_minor_works, complete_report

pytestmark = pytest.mark.usefixtures("processes_part")

SAYS = "A bolt in a square"
SVG = (
    b'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 120 60"><linearGradient id="g"><stop offset="0" stop-color="#0d4d54"/>'
    b'<stop offset="1" stop-color="#c08020"/></linearGradient><rect width="120" height="60" style="fill:url(#g)"/></svg>'
)


def png(width: int = 900, height: int = 300) -> bytes:
    noted, made = PngImagePlugin.PngInfo(), BytesIO()
    noted.add_text("Comment", "drawn in Quenby")
    drawn = Image.new("RGBA", (width, height), (0, 0, 0, 0))
    drawn.paste((13, 77, 84, 255), (0, 0, width // 3, height))
    drawn.save(made, "PNG", pnginfo=noted, dpi=(300, 300))
    return made.getvalue()


@pytest.fixture(scope="module")
def logos() -> dict[LogoKind, Logo]:
    return {LogoKind.PNG: made_logo(png(), SAYS), LogoKind.SVG: made_logo(SVG, SAYS)}


def issued(job: Job, logo: Logo) -> Pack:
    pack = issue(job.model_copy(update={"number": "T-0001"}), by=INSPECTOR, at=AT, people=(), logo=logo)
    assert isinstance(pack, Pack)
    return pack


def test_an_image_is_set_on_white_and_keeps_nothing_that_a_program_wrote_beside_it(logos):
    logo = logos[LogoKind.PNG]
    assert b"Quenby" not in logo.content
    with Image.open(BytesIO(logo.content)) as image:
        assert image.size == (900, 300)
        seen = image.convert("RGB")
        assert seen.getpixel((100, 100)) == (13, 77, 84)
        assert seen.getpixel((800, 100)) == (255, 255, 255)


@pytest.mark.parametrize(
    ("content", "says"),
    [
        (b"", "no PNG or SVG"),
        (b"%PDF-1.7", "no PNG or SVG"),
        (png()[:200], "no PNG or SVG"),
        (png(2000, 20), "far wider"),
        (b"<svg xmlns='http://www.w3.org/2000/svg' viewBox='0 0 9 9'><text>A</text></svg>", "into paths"),
    ],
    ids=["nothing", "a paper", "cut off", "a line", "letters"],
)
def test_anything_else_is_refused_in_plain_words(content: bytes, says: str):
    assert says in answer(content).decode()


def test_a_file_beyond_all_logos_is_not_even_looked_at():
    with pytest.raises(LogoError, match="larger than"):
        made_logo(bytes(FILE_MAX + 1), SAYS)


@pytest.mark.parametrize("kind", LogoKind)
def test_a_paper_bears_the_logo_with_words_in_its_place_and_a_draft_none(logos, kind):
    job = complete_minor_works()
    pdf = bind(issued(job, logos[kind])).pdf
    with pymupdf.open(stream=pdf) as document:
        objects = [document.xref_object(at) for at in range(1, document.xref_length())]
        corner = document[0].get_pixmap(clip=(55, 28, 65, 38)).pixel(5, 5)
    assert any("/Figure" in each and f"/Alt ({SAYS})" in each for each in objects)
    assert corner != (255, 255, 255)
    with pymupdf.open(stream=bind_draft(job).pdf) as draft:
        assert SAYS not in "".join(draft.xref_object(at) for at in range(1, draft.xref_length()))


@pytest.mark.parametrize("kind", LogoKind)
def test_a_letter_bears_the_logo_of_the_report_it_is_about(logos, kind):
    report = issued(complete_report(Code.C2), logos[kind]).job
    with pymupdf.open(
        stream=bind_letter(Letter(put_right=PutRight(report=report, items=()), on=date(2026, 3, 12))).pdf
    ) as letter:
        assert letter[0].get_images()


def test_a_log_issues_with_the_logo_of_the_firm_as_it_was_then_and_the_record_alone_tells_the_paper(tmp_path, logos):
    log = SqliteJobLog.open(tmp_path / "log")
    plain = complete_minor_works()
    first = log.create(plain, who="tamsin", at=AT).number
    before = log.issue(first, by=INSPECTOR, at=AT, bind=bind)
    assert b'"logo"' not in canonical(before.pack.job)
    (kept,) = log.registered(RegisterKind.FIRM, plain.firm.name)
    assert isinstance(kept.entry, KnownFirm)
    log.register(kept.entry.model_copy(update={"logo": logos[LogoKind.SVG]}), entry_id=kept.id, who="tamsin", at=AT)
    second = log.create(plain, who="tamsin", at=AT).number
    after = log.issue(second, by=INSPECTOR, at=AT, bind=bind)
    assert after.pack.job.issued.logo == logos[LogoKind.SVG]
    (now,) = log.registered(RegisterKind.FIRM, plain.firm.name)
    log.register(now.entry.model_copy(update={"logo": None}), entry_id=now.id, who="tamsin", at=AT)
    fingerprint = log.seal_keys()[0].fingerprint
    paper = log.paper(second)
    log.close()
    proof = proof_of(paper, None, lambda function, request, _: named(function)(request), firm=(fingerprint,))
    assert proof.verdict is ProofVerdict.UNALTERED
