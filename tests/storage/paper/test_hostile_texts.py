import re

import pymupdf
import pytest

from domain.editing.commands import AddItem, Observe, RaiseSnag, SetOutcome, Sign
from domain.forms.form_set import FormSet
from domain.gate.assessment import assess
from domain.inspection.item_outcome import InspectionOutcome
from domain.inspection.observation import Code
from domain.job.box import BoxKind, boxes_of
from domain.job.job import SECTIONS, Job
from storage.paper.letters import squashed
from storage.paper.paper_error import PaperError
from storage.paper.typesetting import compiled
from storage.pdf import bind_draft
from tests.builders import AT, INSPECTOR, ON, complete_certificate, complete_minor_works, complete_report, done, entered
from tests.storage.paper.pages import Paper

TEXTS = [
    "A | B | C",
    "<style>*{color:white}</style>",
    "<!-- hidden --> seen",
    "</p></td></tr></table><h1>Owned</h1>",
    "[x](#nope)",
    "[press](http://example.invalid)",
    "![](/etc/hostname) ![p](pic.png)",
    "- item\n- item\n\n# Heading",
    "&lt;b&gt; &amp;copy; &copy; &#x41;",
    "*b* **b** _i_ `c` ~~s~~ $x^2$ {{7*7}} %s",
    "C:\\temp\\x \\| y ../../etc",
    "⚡ ☎ ⌂ spark",
    "ﬁ ﬂ ﬃ office",
    "Ω ✓ ✗ ² µ ≤ ± ½ Łódź Ŵ Ж λ",
    "e\u0301 decomposed, \u00a0 wide",
    "W" * 199 + "M",
    "pneumono" * 20,
    "\"quotes' “”    blanks ---",
    "<script>alert(1)</script><img src=x onerror=y>",
    "=1+1 @SUM(A1) +x -y",
    "'; DROP TABLE jobs; --",
    "| --- | :-: |\n> quote\n1. one\n***",
    "literal \\u0000 \\x1b[31m %00 \\n",
    "http://example.invalid/?a=1&b=2#c",
    "^[note] [^1] :smile: ==mark== H~2~O",
    "½ ⅓ m² 10⁻³ № ™ € £ § ¶ †",
    "man\u0303ana, nai\u0308ve, Å vs A\u030a",
]
OTHER_WRITING = ["שלום עולם", "مرحبا", "Ελληνικά", "Владимир", "Nguyễn Thị Hòa"]
NO_FONT_HAS = ["🔌 💡 spark", "漢字", "한국어", "हिन्दी", "\U00010efd new", "x\u1dfa stacked"]
TEXT_KINDS = {BoxKind.LINE, BoxKind.PROSE, BoxKind.CHOICE, BoxKind.DATE}
JOBS = {
    FormSet.EIC: complete_certificate(sign=False),
    FormSet.MEIWC: complete_minor_works(sign=False),
    FormSet.EICR: complete_report(sign=False),
}


def _texts_for(model: type, text: str) -> dict[str, str]:
    boxes = {name: box for name, box in boxes_of(model).items() if box.kind in TEXT_KINDS}
    return {
        name: text if box.kind is BoxKind.PROSE else text.replace("\n", " ")
        for name, box in boxes.items()
        if name != "shape"
    }


def _everywhere(job: Job, text: str) -> Job:
    """The job with one text in every box that takes text, and in what people raise."""
    for section, model in SECTIONS.items():
        job = entered(job, _texts_for(model, text), section=section)
    board = job.boards[0]
    job = entered(job, _texts_for(type(board), text), board=board.id)
    job = entered(job, _texts_for(type(board.circuits[0]), text), board=board.id, circuit=board.circuits[0].id)
    where = text.replace("\n", " ")
    if job.form_set.profile.has_schedules:
        job = done(
            job, AddItem(title=where, regulations=where), SetOutcome(item="A1", mark=InspectionOutcome.PASS, note=text)
        )
    if job.form_set.profile.states_a_condition:
        job = done(job, Observe(finding=text, code=Code.C3, where=where, reason=text))
    else:
        job = done(job, RaiseSnag(what=text, where=where, by=INSPECTOR, on=ON))
    return done(job, *(Sign(role=role, name=where, position=where, at=AT) for role in job.roles))


@pytest.mark.parametrize("text", TEXTS)
def test_any_text_in_every_box_comes_back_as_typed_and_does_nothing_else(text: str):
    form_set = list(FormSet)[TEXTS.index(text) % 3]
    paper = Paper(bind_draft(_everywhere(JOBS[form_set], text)))
    everything = squashed("".join(paper.pages))
    assert everything.count(squashed(text)) >= 10
    assert "Owned" not in [title for _, title, _ in paper.document.get_toc()]
    assert not [link for page in paper.document for link in page.get_links() if link["kind"] not in {1, 4}]
    assert not any(page.get_images() for page in paper.document)


@pytest.mark.parametrize("text", OTHER_WRITING)
def test_names_in_other_writing_can_be_printed(text: str):
    job = entered(JOBS[FormSet.MEIWC], {"name": text}, section="client")
    assert bind_draft(entered(job, {"remarks": text}, board="b1", circuit="c2")).pages == bind_draft(job).pages


@pytest.mark.parametrize("text", ["שָׁלוֹם 16A", "Adébáyọ̀", "رحوب ٣٤"])
def test_other_writing_stands_in_schedules_letter_for_letter(text: str):
    job = entered(JOBS[FormSet.EIC], {"number": text, "description": text, "remarks": text}, board="b1", circuit="c2")
    assert not any(text in gap.says for gap in assess(job).gaps)
    assert bind_draft(job).pages >= 5


@pytest.mark.parametrize(
    ("text", "told"),
    [("Bax\u0301\u0302ter", "more accents than"), ("\u0301abc", "stands on no letter"), ("مُحَمَّد", "U\\+0651")],
)
def test_accents_that_cannot_be_read_back_are_refused_at_their_box_and_not_first_when_it_is_bound(text: str, told: str):
    job = entered(JOBS[FormSet.MEIWC], {"name": text}, section="client")
    assert any(re.search(told, gap.says) for gap in assess(job).gaps)


def test_a_fault_of_the_engines_own_is_told_and_ends_no_process():
    with pytest.raises(PaperError, match="engine broke off"):
        compiled('#set text(font: "DejaVu Sans", kerning: false)\nשלום'.encode(), {}, at=False)


@pytest.mark.parametrize("text", NO_FONT_HAS)
def test_a_letter_no_font_has_is_never_left_out_but_refused_by_name(text: str):
    job = entered(JOBS[FormSet.MEIWC], {"name": text}, section="client")
    assert any("is in no font of the paper" in gap.says for gap in assess(job).gaps)
    with pytest.raises(PaperError):
        bind_draft(job)


def test_a_picture_beside_the_program_is_not_pulled_in(tmp_path, monkeypatch):
    (tmp_path / "pic.png").write_bytes(b"not to be read")
    monkeypatch.chdir(tmp_path)
    paper = Paper(bind_draft(_everywhere(JOBS[FormSet.MEIWC], '![p](pic.png) <img src="pic.png">')))
    assert not any(page.get_images() for page in paper.document)


@pytest.mark.parametrize(
    "text",
    ["A sentence of ordinary length about the works. " * 125, "line\n" * 300, "W" * 6000],
    ids=["sentences", "lines", "one word"],
)
def test_texts_of_the_greatest_length_flow_over_pages_whole(text: str):
    job = entered(JOBS[FormSet.EIC], {"extent": text, "comments": text}, section="work")
    paper = Paper(bind_draft(job))
    assert "Entry 2" in paper.said
    assert paper.bound.pages > bind_draft(JOBS[FormSet.EIC]).pages


def test_forty_observations_keep_their_number_place_and_code():
    job = done(
        JOBS[FormSet.EICR],
        *(
            Observe(
                finding=f"Finding {at}: cover missing, live parts within reach. " * 3, code=Code.C2, where=f"Room {at}"
            )
            for at in range(1, 41)
        ),
    )
    said = Paper(bind_draft(job)).said
    for at in range(1, 41):
        assert f"Room {at}" in said


def test_names_that_look_like_the_inside_of_a_file_are_bookmarked_and_signed_as_typed():
    author, board = "/Creator(Firm) & Sons", "<</O/Layout/BorderStyle>>/A[<</O/Table/Headers[(a)]>>]"
    job = complete_certificate(sign=False)
    job = job.model_copy(
        update={
            "firm": job.firm.model_copy(update={"name": author}),
            "boards": (job.boards[0].model_copy(update={"designation": board}),),
        }
    )
    with pymupdf.open(stream=bind_draft(job).pdf, filetype="pdf") as paper:
        assert paper.metadata["author"] == author
        assert paper.metadata["creator"] == "Ohmfolio"
        assert any(board in title for _, title, _ in paper.get_toc())
