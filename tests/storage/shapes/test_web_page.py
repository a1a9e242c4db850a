"""The record as a page for browsers: whole, readable by machines and people, and harmless whatever was typed."""

import re
from html.parser import HTMLParser
from itertools import pairwise

import pytest

from domain.forms.form_set import FormSet
from domain.gate.assessment import Pack, issue
from domain.inspection.observation import Code
from domain.job.job import Job
from domain.sheets import sheets_of
from domain.sheets.proof import SEAL
from domain.sheets.sheet import ScheduleSheet
from storage.paper.letters import squashed
from storage.shapes.web_page import web_page
from storage.shapes.web_style import PAIRS
from tests.builders import AT, INSPECTOR, complete_certificate, complete_minor_works, complete_report, entered
from tests.domain.sheets.readers import texts_on
from tests.storage.paper.test_hostile_texts import JOBS, OTHER_WRITING, TEXTS, _everywhere

BUILDS = {FormSet.EIC: complete_certificate, FormSet.MEIWC: complete_minor_works, FormSet.EICR: complete_report}
PARTS = {"html", "head", "body", "title", "style", "header", "nav", "main", "section", "footer", "div", "a", "code"}
WORDS = {"h1", "h2", "h3", "p", "br", "bdi", "span", "strong", "em", "ul", "ol", "li", "dl", "dt", "dd"}
TABLES = {"table", "caption", "thead", "tbody", "tr", "th", "td"}
EMPTY = {"meta", "br"}
NEVER = {"src", "style", "href"}


class Page(HTMLParser):
    """A page as a strict reader takes it."""

    def __init__(self, page: bytes) -> None:
        super().__init__(convert_charrefs=True)
        self.tags: list[tuple[str, dict[str, str | None]]] = []
        self.said: list[str] = []
        self._open: list[str] = []
        self.feed(page.decode())
        assert self._open == []

    def handle_starttag(self, tag, attrs):
        self.tags.append((tag, dict(attrs)))
        if tag not in EMPTY:
            self._open.append(tag)

    def handle_endtag(self, tag):
        assert self._open.pop() == tag

    def handle_data(self, data):
        if self._open and self._open[-1] != "style":
            self.said.append(data)

    def handle_comment(self, data):
        raise AssertionError(data)

    def all_of(self, tag: str) -> list[dict[str, str | None]]:
        return [attributes for name, attributes in self.tags if name == tag]


def _page(job: Job) -> Page:
    return Page(web_page(job, "ab" * 32))


def _issued(job: Job) -> Job:
    pack = issue(job.model_copy(update={"number": "T-0001"}), by=INSPECTOR, at=AT, people=())
    assert isinstance(pack, Pack), pack
    return pack.job


@pytest.mark.parametrize("form_set", FormSet)
def test_the_page_says_all_that_the_sheets_say(form_set: FormSet):
    job = _issued(BUILDS[form_set]())
    said = squashed("".join(_page(job).said))
    for sheet in sheets_of(job):
        for text in texts_on(sheet):
            if text == SEAL:
                continue
            assert squashed(text.replace("**", "").replace("- ", "")) in said or "|" in text or "\n" in text, text


@pytest.mark.parametrize("form_set", FormSet)
def test_the_page_has_language_landmarks_and_headings_in_order(form_set: FormSet):
    page = _page(_issued(BUILDS[form_set]()))
    assert page.all_of("html") == [{"lang": "en-GB"}]
    for landmark in ("header", "nav", "main", "footer", "h1", "title"):
        assert len(page.all_of(landmark)) == 1
    levels = [int(tag[1]) for tag, _ in page.tags if tag in {"h1", "h2", "h3"}]
    assert levels[0] == 1
    assert all(after - before <= 1 for before, after in pairwise(levels))
    ids = [attributes["id"] for _, attributes in page.tags if "id" in attributes]
    assert len(set(ids)) == len(ids)
    for link in page.all_of("a"):
        assert (link["href"] or "").removeprefix("#") in ids


def test_every_table_has_a_caption_and_heads_that_say_what_they_are_over():
    page = _page(_issued(complete_report(Code.C2)))
    assert len(page.all_of("table")) == len(page.all_of("caption")) > 3
    scopes = [head.get("scope") for head in page.all_of("th")]
    assert set(scopes) == {"col", "row", "colgroup", "rowgroup"}


def test_each_row_of_a_schedule_is_as_wide_as_its_head():
    job = _issued(complete_certificate())
    schedules = [sheet for sheet in sheets_of(job) if isinstance(sheet, ScheduleSheet)]
    cells = len(_page(job).all_of("td")) + len(_page(job).all_of("th"))
    assert cells >= sum(len(sheet.columns) * (len(sheet.rows) + 1) for sheet in schedules)


def test_a_failing_reading_says_so_in_words():
    job = entered(complete_report(Code.C2, sign=False), {"rcd_time": "345"}, board="b1", circuit="c2")
    said = " ".join(_page(job).said)
    assert "✗ 345 (outside its limit)" in said


def test_what_the_form_worded_is_told_from_what_a_person_typed_and_units_stand_apart():
    job = complete_report(Code.C2, sign=False)
    page = web_page(entered(job, {"rcd_time": "N/A"}, board="b1", circuit="c2"), "ab" * 32).decode()
    assert "Slanted: worded by the form" in page
    assert '<span class="ours">N/A</span>' in page
    assert "<bdi>N/A</bdi>" in page, "typed, it is nobody's but the person's"
    assert not re.findall(r"<bdi>\d+</bdi>(?:V|A|Hz|kA|ms)\b", page)


@pytest.mark.parametrize("text", [*TEXTS, *OTHER_WRITING])
def test_any_text_in_every_box_stands_as_typed_and_does_nothing(text: str):
    job = _everywhere(JOBS[list(FormSet)[len(text) % 3]], text)
    page = _page(job)
    assert {tag for tag, _ in page.tags} <= PARTS | WORDS | TABLES | EMPTY
    assert all((link["href"] or "").startswith("#") for link in page.all_of("a"))
    for tag, attributes in page.tags:
        assert not [name for name in attributes if name.startswith("on") or (name in NEVER and tag != "a")]
    assert squashed("".join(page.said)).count(squashed(text)) >= 10


def _luminance(colour: str) -> float:
    shares = [int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5)]
    red, green, blue = (share / 12.92 if share <= 0.04045 else ((share + 0.055) / 1.055) ** 2.4 for share in shares)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


# Source: W3C, Web Content Accessibility Guidelines 2.2, success criterion 1.4.3 (4.5:1) and its definitions of relative
# luminance and contrast ratio; coefficients from memory.
@pytest.mark.parametrize("pair", PAIRS)
def test_ink_stands_out_from_its_ground(pair: str):
    lighter, darker = sorted(map(_luminance, PAIRS[pair]), reverse=True)
    assert (lighter + 0.05) / (darker + 0.05) >= 4.5


def test_the_page_fetches_nothing_and_runs_nothing():
    page = _page(_issued(complete_certificate()))
    policy = next(each["content"] for each in page.all_of("meta") if each.get("http-equiv"))
    assert "default-src 'none'" in (policy or "")
    assert not page.all_of("script") + page.all_of("img") + page.all_of("link")


def test_the_same_record_gives_the_same_page():
    job = _issued(complete_certificate())
    assert web_page(job, "ab" * 32) == web_page(job, "ab" * 32)
