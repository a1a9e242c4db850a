"""How a report comes out by its codes and edition, and the one outcome that its inspector decides.

Source of both readings under A4: open comment by engineers who hold the book (only C1 and C2 decide), and open pages of
landlords' advisers (FI too); the rows of `outcome_rules.toml` name them. Nobody here has read the book.
"""

from importlib.resources import files

import pytest

from domain.duties.duty_facts import duty_facts, with_days
from domain.edition import Edition
from domain.gate.assessment import Pack, assess, issue
from domain.gate.outcome import Outcome
from domain.gate.reason import ReasonKind
from domain.gate.report_outcome import asks_inspector, is_undecided, outcome_of
from domain.inspection.observation import Code
from domain.inspection.outcome_rule import FiAlone, OutcomeRule, outcome_rule, rules_in
from domain.job.job import Job, canonical
from domain.log.put_right.remedial_status import can_be_put_right
from domain.sheets import sheets_of
from domain.sheets.sheet import Banner, TextSheet
from tests.builders import AT, complete_report, done, enter, signed

ROWS = files("domain.inspection").joinpath("outcome_rules.toml").read_text(encoding="utf-8")


def report(*codes: Code, edition: Edition = Edition.A4, decided: str = "") -> Job:
    """A complete report, signed, with what its inspector decided."""
    job = complete_report(*codes, sign=False).model_copy(update={"edition": edition})
    if decided:
        job = done(
            job, enter("report", "fi_alone", decided), enter("report", "fi_alone_because", "Only a cable not traced")
        )
    return signed(job)


def rule(word: FiAlone) -> OutcomeRule:
    """The row of A4 with its one word changed."""
    return rules_in(ROWS.replace(FiAlone.INSPECTOR.value, word.value))[Edition.A4]


@pytest.mark.parametrize("edition", Edition)
@pytest.mark.parametrize(
    ("codes", "outcome"),
    [
        ((), Outcome.SATISFACTORY),
        ((Code.C3, Code.C3), Outcome.SATISFACTORY),
        ((Code.C2,), Outcome.UNSATISFACTORY),
        ((Code.C1, Code.FI), Outcome.UNSATISFACTORY),
        ((Code.C2, Code.FI, Code.C3), Outcome.UNSATISFACTORY),
    ],
)
def test_c1_and_c2_decide_in_every_edition_and_nothing_is_asked(
    edition: Edition, codes: tuple[Code, ...], outcome: Outcome
) -> None:
    job = report(*codes, edition=edition)
    assert outcome_of(job) is outcome
    assert not is_undecided(job)
    assert not asks_inspector(job)


@pytest.mark.parametrize("edition", [Edition.EARLIER, Edition.A2, Edition.A3])
def test_before_a4_fi_alone_is_unsatisfactory(edition: Edition) -> None:
    job = report(Code.FI, Code.C3, edition=edition)
    assert (outcome_of(job), is_undecided(job)) == (Outcome.UNSATISFACTORY, False)


def test_under_a4_fi_alone_holds_the_report_until_the_inspector_decides() -> None:
    job = report(Code.FI)
    stands = assess(job)
    assert stands.outcome is None
    (reason,) = stands.reasons
    assert (reason.kind, reason.place.box) == (ReasonKind.GAP, "fi_alone")
    for reading in outcome_rule(Edition.A4).readings:
        assert reading.says in reason.says
        assert reading.seen_in in reason.says


@pytest.mark.parametrize(
    ("decided", "outcome"),
    [("satisfactory", Outcome.SATISFACTORY_WITH_FI), ("unsatisfactory", Outcome.UNSATISFACTORY)],
)
def test_what_the_inspector_decides_is_kept_and_printed_with_both_readings(decided: str, outcome: Outcome) -> None:
    issued = issue(report(Code.FI, decided=decided), by="A. Inspector", at=AT, people=())
    assert isinstance(issued, Pack)
    assert issued.outcome is outcome
    front, *_ = sheets_of(issued.job)
    assert isinstance(front, TextSheet)
    printed = repr(front)
    assert "Only a cable not traced" in printed
    assert all(reading.says in printed for reading in outcome_rule(Edition.A4).readings)


@pytest.mark.parametrize("decided", ["satisfactory", "unsatisfactory"])
def test_fi_stands_beside_the_outcome_and_clocks_run_whatever_the_word(decided: str) -> None:
    issued = issue(report(Code.FI, decided=decided), by="A. Inspector", at=AT, people=())
    assert isinstance(issued, Pack)
    front, plain = (
        next(block for block in sheet.blocks if isinstance(block, Banner))
        for sheet in sheets_of(issued.job)
        if isinstance(sheet, TextSheet) and any(isinstance(block, Banner) for block in sheet.blocks)
    )
    assert front.says == decided.upper()
    assert "FI is to be investigated without delay" in front.beneath
    assert "1 thing to have dealt with" in plain.beneath
    assert can_be_put_right(issued.job)
    assert with_days(duty_facts(issued.job)).unsatisfactory is True


@pytest.mark.parametrize("typed", ["perhaps", "N/A", "good"])
def test_nothing_else_can_be_typed(typed: str) -> None:
    job = report(Code.FI, decided=typed)
    assert any(reason.place.box == "fi_alone" for reason in assess(job).reasons)


def test_a_decision_needs_its_reason() -> None:
    job = done(report(Code.FI), enter("report", "fi_alone", "satisfactory"))
    assert any(gap.place.box == "fi_alone_because" for gap in assess(job).gaps)


@pytest.mark.parametrize(("codes", "edition"), [((Code.C2, Code.FI), Edition.A4), ((Code.FI,), Edition.A2)])
def test_a_decision_where_there_is_none_to_make_is_emptied(codes: tuple[Code, ...], edition: Edition) -> None:
    job = report(*codes, edition=edition, decided="satisfactory")
    assert outcome_of(job) is Outcome.UNSATISFACTORY
    assert any("empty it" in gap.says for gap in assess(job).gaps)


@pytest.mark.parametrize(
    ("word", "outcome"),
    [(FiAlone.SATISFACTORY, Outcome.SATISFACTORY_WITH_FI), (FiAlone.UNSATISFACTORY, Outcome.UNSATISFACTORY)],
)
def test_one_word_of_the_row_turns_it_into_a_plain_rule(word: FiAlone, outcome: Outcome) -> None:
    job, plain = report(Code.FI), rule(word)
    assert (outcome_of(job, plain), is_undecided(job, plain), asks_inspector(job, plain)) == (outcome, False, False)


def test_a_contested_row_without_both_readings_is_refused() -> None:
    with pytest.raises(ValueError, match="both readings"):
        rules_in(ROWS[: ROWS.rindex("[[rule.reading]]")])


def test_a_report_without_the_question_has_the_bytes_it_always_had() -> None:
    assert b"fi_alone" not in canonical(report(Code.C2))


def test_a_report_issued_under_a4_before_the_question_was_asked_stays_unsatisfactory() -> None:
    issued = issue(report(Code.FI, decided="satisfactory"), by="A. Inspector", at=AT, people=())
    assert isinstance(issued, Pack)
    bare = issued.job.report.model_copy(update={"fi_alone": "", "fi_alone_because": ""})
    older = issued.job.model_copy(update={"report": bare})
    assert assess(older).outcome is Outcome.UNSATISFACTORY
