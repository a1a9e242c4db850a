"""What else is owed is asked and shown; what is due is listed, answered and ticked off; several minor works start at once."""

from pathlib import Path

from domain.duties.noted import TOPIC, DutyNote, noted
from domain.editing.commands import Choose
from domain.forms.choice.answers import Answers
from domain.forms.form_set import FormSet
from domain.inspection.observation import Code
from domain.log.due_list import owing_in
from tests.builders import AT, INSPECTOR, complete_report, done, signed
from tests.storage.issuing import bind, put_right_by_others
from tests.storage.memory_log import MemoryJobLog
from tests.tui.screens.job_at import step_on
from tests.tui.screens.services import app_in
from tests.tui.screens.shown import lines_of, text_of
from tui.job_page import JobPage
from tui.screens.decision import DecisionScreen
from tui.screens.due import DueScreen
from tui.screens.intake import IntakeScreen
from tui.screens.owed import OwedScreen
from tui.screens.owed_rows import owed_lines

LET = Answers.model_validate({"done": "inspection", "nation": "England", "tenure": "private-let"})


def let_report(*codes: Code):
    report = complete_report(*codes)
    return signed(done(report, Choose(chosen=report.chosen.model_copy(update={"answers": LET}))))


async def test_what_else_is_owed_is_asked_after_the_decision_and_kept_with_the_job(tmp_path: Path) -> None:
    app = app_in(tmp_path)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("a", "y", "1", "y", "w")
        assert isinstance(app.screen, OwedScreen)
        assert "Where is it?" in text_of(app)
        await pilot.press("w", "k", "h")
        assert "Is one of these part of it?" in text_of(app)
        await pilot.press("n", "n", "r", "n")
        await pilot.pause()
        assert "All is answered" in text_of(app)
        await pilot.press("down", "down")
        assert "Wales" in text_of(app)
        await pilot.press("enter")
        assert isinstance(app.screen, DecisionScreen)
        await pilot.press("enter")
        await pilot.pause()
        assert step_on(app) is JobPage.DETAILS
        await pilot.press("O", "enter")
        await pilot.pause()
    job = app.services.log.load("A-0001")
    assert job
    answers = job.chosen.answers
    assert (answers.nation, answers.room, answers.registered, answers.after_report) == (
        "Wales",
        "kitchen",
        "registered",
        False,
    )
    assert answers.circuits == 1


async def test_going_back_keeps_the_answers_given(tmp_path: Path) -> None:
    app = app_in(tmp_path)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("i", "w", "s", "left")
        assert "Where is it?" in text_of(app)
        assert "> S Scotland" in " ".join(text_of(app).replace(">S", "> S").split())


async def test_what_was_answered_is_kept_when_one_goes_back_to_the_first_question(tmp_path: Path) -> None:
    app = app_in(tmp_path)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("b", "y", "w", *"eheyr", "escape")
        assert isinstance(app.screen, DecisionScreen)
        await pilot.press("escape", "escape", "escape", "b", "y", "w")
        assert "put right what a condition report found" in text_of(app)
        await pilot.press("n", "escape", "enter")
        await pilot.pause()
        assert step_on(app) is JobPage.DETAILS
        await pilot.press("O", "enter")
        await pilot.pause()
    job = app.services.log.load("A-0001")
    assert job
    answers = job.chosen.answers
    assert (answers.nation, answers.fitted, answers.registered) == ("England", "ev", "registered")


async def test_of_what_was_answered_only_what_still_applies_goes_into_the_job(tmp_path: Path) -> None:
    app = app_in(tmp_path)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("b", "y", "w", *"eheyrn", "escape", "escape", "escape", "i", "enter")
        await pilot.pause()
        assert step_on(app) is JobPage.DETAILS
        await pilot.press("O", "enter")
        await pilot.pause()
    job = app.services.log.load("A-0001")
    assert job
    assert (job.chosen.answers.nation, job.chosen.answers.fitted) == ("England", None)


async def test_the_text_under_a_question_is_read_with_the_page_keys(tmp_path: Path) -> None:
    app = app_in(tmp_path)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("b", "y", "w", "w")
        assert "for the life of the installation" not in text_of(app)
        await pilot.press("pagedown")
        assert "for the life of the installation" in text_of(app)
        assert [line for line in lines_of(app) if line.startswith(">H ")]


async def test_dates_are_asked_and_set_clocks_going(tmp_path: Path) -> None:
    app = app_in(tmp_path, let_report())
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("f4", "w", "f3", "down", "down")
        assert "Council asked for the report" in text_of(app)
        await pilot.press(*"01/06/2026", "ctrl+o")
        await pilot.pause()
        assert isinstance(app.screen, OwedScreen)
        notes = noted(each.text for each in app.services.log.notes(TOPIC))["A-0001"]
        assert notes.answers.asked_on
        await pilot.press("tab", "pagedown")
        assert "08/06/2026" in text_of(app)


async def test_a_date_that_cannot_be_read_is_named_and_all_that_was_typed_stays(tmp_path: Path) -> None:
    app = app_in(tmp_path, let_report())
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("f4", "w", "f3", "down", *"01/06/2026", "down", *"soon", "ctrl+o")
        await pilot.pause()
        assert "Council asked for the report: 'soon' is no date" in text_of(app)
        assert "01/06/2026" in text_of(app)
        assert app.services.log.notes(TOPIC) == ()
        await pilot.press(*["backspace"] * 4, "ctrl+o")
        await pilot.pause()
        assert isinstance(app.screen, OwedScreen)
        notes = noted(each.text for each in app.services.log.notes(TOPIC))["A-0001"]
        assert notes.answers.occupied_on


async def test_the_day_the_work_was_completed_goes_into_the_box_of_the_job(tmp_path: Path) -> None:
    app = app_in(tmp_path)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("b", "y", "w", *"eheyrn", "f3", *"01/06/2026", "ctrl+o", "enter", "enter")
        await pilot.pause()
        job = app.services.log.load("A-0001")
        assert job
        assert job.work.completed_on == "01/06/2026"
        await pilot.press("escape", "f4")
        await pilot.pause()
        assert "01/07/2026" in text_of(app)
        await pilot.press("w", "f3", *["backspace"] * 10, *"02/06/2026", "ctrl+o")
        await pilot.pause()
    job = app.services.log.load("A-0001")
    assert job
    assert job.work.completed_on == "02/06/2026"


async def test_what_is_due_is_listed_in_full_and_ticked_off(tmp_path: Path) -> None:
    app = app_in(tmp_path, let_report())
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("ctrl+d")
        assert isinstance(app.screen, DueScreen)
        shown = text_of(app)
        assert "29/03/2026" in shown
        assert "A-0001" in shown
        assert "day one" in shown
        assert "March 2026 (" in shown
        assert shown.index("March 2026 (") < shown.index("29/03/2026")
        await pilot.press("d", *"posted, first class", "up", *" or so", "ctrl+o")
        await pilot.pause()
        assert "is no date" in text_of(app)
        await pilot.press(*["backspace"] * 6, *"02/03/2026", "ctrl+o")
        await pilot.pause()
        assert "29/03/2026" not in text_of(app)
        await pilot.press("v")
        await pilot.pause()
        assert "Done on 2 March 2026, as Tamsin Orchard noted: posted, first class" in text_of(app)
        await pilot.press("d", "y", "v")
        await pilot.pause()
        assert "29/03/2026" in text_of(app)
        await pilot.press("escape")
        assert isinstance(app.screen, IntakeScreen)


async def test_what_was_put_right_is_asked_for_neither_in_the_list_nor_under_what_else(tmp_path: Path) -> None:
    app = app_in(tmp_path)
    log = app.services.log
    number = log.create(let_report(Code.C2), who=INSPECTOR, at=AT).number
    log.issue(number, by=INSPECTOR, at=AT, bind=app.services.bind)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("f4", "w")
        await pilot.pause()
        assert "Have every C1, C2 and FI put right" in text_of(app)
        put_right_by_others(log, number)
        await pilot.press("escape", "w")
        await pilot.pause()
        assert "Have every C1, C2 and FI put right" not in text_of(app)


async def test_a_due_line_opens_its_job(tmp_path: Path) -> None:
    app = app_in(tmp_path, let_report())
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("f4", "enter")
        await pilot.pause()
        assert step_on(app) is JobPage.DETAILS


async def test_a_job_that_lacks_an_answer_is_asked_from_the_list(tmp_path: Path) -> None:
    app = app_in(tmp_path, complete_report())
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("f4", "end")
        assert "An answer is needed" in text_of(app)
        await pilot.press("w", "e", "p")
        await pilot.pause()
        await pilot.press("escape")
        await pilot.pause()
        assert isinstance(app.screen, DueScreen)
        assert "An answer is needed" not in text_of(app)
        assert "29/03/2026" in text_of(app)


async def test_a_minor_works_for_each_circuit_starts_with_what_they_share(tmp_path: Path) -> None:
    app = app_in(tmp_path)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("a", "y", "2", "m", *"Ring downstairs", "ctrl+o")
        await pilot.pause()
        assert isinstance(app.screen, DecisionScreen)
        assert "Name each circuit" in text_of(app)
        await pilot.press("m", *"Ring downstairs, Lights", "enter", *"Ivo Brambling", "ctrl+o")
        await pilot.pause()
        assert step_on(app) is JobPage.DETAILS
    first, second = (app.services.log.load(f"A-000{number}") for number in (1, 2))
    assert first
    assert second
    assert (first.form_set, second.form_set) == (FormSet.MEIWC, FormSet.MEIWC)
    assert first.client.name == second.client.name == "Ivo Brambling"
    assert second.circuits()[0][1].description == "Lights"
    assert second.chosen.visit == "A-0001, A-0002"


async def test_several_minor_works_are_not_offered_for_one_circuit(tmp_path: Path) -> None:
    app = app_in(tmp_path)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("a", "y", "1", "y", "m")
        assert "for several circuits" in text_of(app)


async def test_the_nation_of_the_job_before_is_not_carried_over_and_the_decision_says_what_hangs_on_it(
    tmp_path: Path,
) -> None:
    app = app_in(tmp_path)
    async with app.run_test(size=(80, 24)) as pilot:
        before = done(complete_report(), Choose(chosen=complete_report().chosen.model_copy(update={"answers": LET})))
        app.services.log.create(before, who=app.services.who, at=app.services.now())
        await pilot.press("tab", "a", "y", "1", "y")
        await pilot.pause()
        assert "England" not in text_of(app)
        assert "More hangs on: Where is it?" in " ".join(text_of(app).split())
        await pilot.press("w")
        await pilot.pause()
        assert "Where is it?" in text_of(app)
        await pilot.press("s", "n", "n", "n")
        await pilot.pause()
        assert "All is answered" in text_of(app)
        await pilot.press("escape", "enter")
        await pilot.pause()
        await pilot.press("O", "enter")
        await pilot.pause()
    job = app.services.log.load("A-0002")
    assert job
    assert job.chosen.answers.nation == "Scotland"


def test_what_a_paper_owes_and_by_when_stands_where_it_is_signed_and_what_is_done_goes() -> None:
    log = MemoryJobLog()
    number = log.create(let_report(Code.C2), who=INSPECTOR, at=AT).number
    before = owed_lines(log, log.load(number))
    assert ("no day yet", True) in {(line.by, line.says.endswith("the document was issued")) for line in before}
    log.issue(number, by=INSPECTOR, at=AT, bind=bind)
    after = owed_lines(log, log.load(number))
    dated = [line for line in after if line.by[:2].isdigit()]
    assert len(dated) > len([line for line in before if line.by[:2].isdigit()])
    assert sorted(dated[:-1], key=lambda line: (line.by[6:], line.by[3:5], line.by[:2])) == dated[:-1]
    first = next(each for each in owing_in(log, log.load(number)).clocks)
    note = DutyNote(number=number, met=first.duty.id, by=first.due.by)
    log.add_note(TOPIC, note.model_dump_json(exclude_defaults=True), who=INSPECTOR, at=AT)
    assert dated[0] not in owed_lines(log, log.load(number))
