"""A fourth form set takes what its profile names and nothing else, all the way from the first box to the paper."""

import pickle
from collections.abc import Iterator
from importlib.resources import files

import pytest
from hypothesis import given
from hypothesis import strategies as st

from domain.dates import date_in, written
from domain.duties.of_job import owing_for
from domain.editing.commands import AddItem, Choose, Declined, Observe, RaiseSnag
from domain.editing.reducer import apply
from domain.forms.choice.answers import Answers
from domain.forms.choice.choosing import choose
from domain.forms.choice.chosen import ChosenPapers
from domain.forms.choice.rule import ChoiceRule, rules
from domain.forms.form_set import PROFILES, FormSet, listed
from domain.gate.assessment import Pack, Refusal, assess, issue
from domain.gate.outcome import Outcome
from domain.inspection.item_outcome import InspectionOutcome, marks_for
from domain.inspection.observation import Code
from domain.job.board import Board
from domain.job.box import boxes_of
from domain.job.circuit import Circuit
from domain.job.exchange import ExchangeError, job_from_json, job_to_json
from domain.job.job import SECTIONS, Job, sections_for
from domain.job.signature import Role, roles_for
from domain.log.log_line import line_of
from domain.sheets import sheets_of
from domain.sheets.sheet import Signing, TextSheet
from tests.another_form_set import ISOLATION, PAGES, complete_isolation, isolation_listed
from tests.builders import AT, INSPECTOR, ON, complete_certificate, entered, fresh
from tests.examples import examples
from tests.random_commands import commands_for

OWNERS = {**SECTIONS, "board": Board, "circuit": Circuit}


@pytest.fixture(name="isolation")
def _isolation() -> Iterator[FormSet]:
    with isolation_listed() as form_set:
        yield form_set


def test_it_asks_for_the_boxes_of_its_groups_and_for_no_other(isolation: FormSet) -> None:
    taken = ISOLATION.asks | ISOLATION.offers
    asked = {
        (owner, name) for owner in OWNERS for name, box in boxes_of(OWNERS[owner]).items() if box.is_asked(isolation)
    }
    assert asked == {
        (owner, name) for owner in OWNERS for name, box in boxes_of(OWNERS[owner]).items() if box.group in taken
    }
    assert {owner for owner, _ in asked} == {"client", "premises", "work", "firm"} == set(sections_for(isolation))
    assert ("work", "extent") not in asked
    assert ("premises", "occupier") not in asked


def test_its_gaps_are_the_boxes_it_cannot_do_without(isolation: FormSet) -> None:
    gaps = {(gap.place.section, gap.place.box) for gap in assess(fresh(isolation)).gaps}
    assert gaps == {(section, box) for section, boxes in PAGES.items() for box in boxes}


@pytest.mark.parametrize("section", PAGES)
def test_it_is_held_back_while_a_box_is_empty_and_issued_when_none_is(isolation: FormSet, section: str) -> None:
    job = complete_isolation(isolation)
    box = next(iter(PAGES[section]))
    assert isinstance(issue(entered(job, {box: " "}, section=section), by=INSPECTOR, at=AT, people=()), Refusal)
    unsigned = complete_isolation(isolation, sign=False)
    assert [reason.says for reason in assess(unsigned).reasons] == ["Not signed yet: inspected and tested"]
    pack = issue(job, by=INSPECTOR, at=AT, people=())
    assert isinstance(pack, Pack)
    assert pack.outcome is Outcome.COMPLIES


def test_its_paper_is_one_page_with_all_that_was_typed(isolation: FormSet) -> None:
    pack = issue(complete_isolation(isolation), by=INSPECTOR, at=AT, people=())
    assert isinstance(pack, Pack)
    front, proof = sheets_of(pack.job)
    assert isinstance(front, TextSheet)
    assert (front.title, front.subtitle) == (ISOLATION.title, f"{ISOLATION.purpose} {pack.job.edition}")
    said = repr(front)
    # The firm stands in the letterhead of every paper, and days are written out.
    typed = [text for section, boxes in PAGES.items() if section != "firm" for text in boxes.values()]
    assert [text for text in typed if _as_printed(text) not in said] == []
    assert "Ze" not in said
    assert [block for block in front.blocks if isinstance(block, Signing)]
    assert proof.title != front.title
    assert sheets_of(fresh(isolation))


def _as_printed(text: str) -> str:
    day = date_in(text)
    return written(day) if day else repr(text)[1:-1]


def test_its_line_says_what_it_is_and_its_duties_are_read(isolation: FormSet) -> None:
    line = line_of(complete_isolation(isolation), updated=AT)
    assert (line.form_set, line.state, line.outcome) == (isolation, "ready", Outcome.COMPLIES)
    assert owing_for(complete_isolation(isolation)).owed == ()


def test_it_goes_out_as_a_document_and_comes_in_again_only_where_it_is_known() -> None:
    with isolation_listed() as form_set:
        job = complete_isolation(form_set)
        document = job_to_json(job)
        assert '"form_set": "ISO"' in document
        assert job_from_json(document) == job
        assert pickle.loads(pickle.dumps(job)).form_set is form_set
    with pytest.raises(ExchangeError, match=r"is 'ISO'; it can be 'EIC', 'MEIWC' or 'EICR'"):
        job_from_json(document)


def test_the_published_schema_names_it_where_it_is_asked_and_nowhere_else(isolation: FormSet) -> None:
    held = Job.model_json_schema()["$defs"]
    assert held["FormSet"]["enum"] == ["EIC", "MEIWC", "EICR", "ISO"]
    assert held["Client"]["properties"]["name"]["x-required-on"] == ["EIC", "EICR", "ISO", "MEIWC"]
    assert held["Premises"]["properties"]["use"]["x-required-on"] == ["EICR"]
    assert "ISO" not in held["Supply"]["properties"]["ze"]["x-forms"]


def test_a_snag_an_observation_and_an_item_are_declined_with_a_sentence(isolation: FormSet) -> None:
    job = fresh(isolation)
    for command in (
        RaiseSnag(what="Lid missing", by=INSPECTOR, on=ON),
        Observe(finding="Lid missing", code=Code.C2),
        AddItem(title="The pump room"),
    ):
        after = apply(job, command)
        assert isinstance(after, Declined)
        assert after.says


def test_a_certificate_is_turned_into_it_and_keeps_what_was_typed(isolation: FormSet) -> None:
    job = complete_certificate(sign=False)
    after = apply(job, Choose(chosen=ChosenPapers(form_set=isolation)))
    assert isinstance(after, Job)
    assert after.boards == job.boards
    assert {gap.place.section for gap in assess(after).gaps} <= {"client", "premises", "work", "firm"}
    assert sheets_of(after)


@examples(0.3)
@given(data=st.data())
def test_whatever_is_done_to_it_it_is_assessed_and_printed(data: st.DataObject) -> None:
    with isolation_listed() as form_set:
        job = complete_isolation(form_set)
        for _ in range(4):
            after = apply(job, data.draw(commands_for(job)))
            job = after if isinstance(after, Job) else job
        assess(job)
        assert sheets_of(job)


def test_a_form_set_that_no_rule_advises_needs_no_reason_in_the_rules(isolation: FormSet) -> None:
    for rule in rules():
        assert ChoiceRule.model_validate(rule.model_dump(by_alias=True)) == rule
    assert isolation not in choose(Answers()).leads_to


def test_no_two_form_sets_share_a_name() -> None:
    with pytest.raises(ValueError, match="a form set already"), listed(PROFILES[0]):
        pass
    assert len({each.letter for each in PROFILES}) == len({each.title for each in PROFILES}) == len(PROFILES)


def test_an_unknown_name_is_refused_with_those_it_can_be() -> None:
    with pytest.raises(ValueError, match="'EIC', 'MEIWC' or 'EICR'"):
        FormSet("CERT")


@pytest.mark.parametrize("form_set", list(FormSet), ids=str)
def test_what_a_profile_names_is_there_in_the_rooms_above(form_set: FormSet) -> None:
    profile = form_set.profile
    assert profile.day_box in boxes_of(SECTIONS[profile.section])
    assert profile.day_box in Answers.model_fields
    assert "next_inspection" in boxes_of(SECTIONS[profile.section])
    assert set(roles_for(form_set)) <= set(Role)
    assert set(marks_for(form_set)) <= set(InspectionOutcome)
    assert files("domain.sheets").joinpath("texts", f"{profile.guidance}.md").is_file()
    assert not profile.checklist or files("domain.inspection").joinpath(f"{profile.checklist}.toml").is_file()
    assert not profile.asks & profile.offers


@pytest.mark.parametrize("owner", OWNERS)
def test_every_box_of_a_job_belongs_to_a_group_that_some_form_set_asks_for(owner: str) -> None:
    asked = frozenset[object]().union(*(profile.asks | profile.offers for profile in PROFILES))
    assert {name for name, box in boxes_of(OWNERS[owner]).items() if box.group not in asked} == set()
