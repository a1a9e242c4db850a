from domain.forms.choice.answers import Answers
from domain.forms.form_set import FormSet
from domain.inspection.observation import Code, Observation
from domain.job.job import Job
from domain.sheets import sheets_of
from domain.sheets.sheet import Banner, Listing, Sheet, SheetCell, TextSheet
from tests.builders import complete_certificate, complete_minor_works, complete_report, done, enter
from tests.domain.sheets.readers import said_on, titled


def _page(job: Job) -> TextSheet:
    (page,) = titled(sheets_of(job), "In plain words")
    assert isinstance(page, TextSheet)
    return page


def _listing(job: Job, heading: str) -> list[list[str]]:
    return [
        [cell.text for cell in row]
        for block in _page(job).blocks
        if isinstance(block, Listing) and block.heading.startswith(heading)
        for row in block.rows
        if isinstance(row, tuple)
    ]


def test_what_is_most_pressing_comes_first_and_keeps_its_number():
    rows = _listing(complete_report(Code.C3, Code.FI, Code.C2, Code.C1), "What to do")
    assert [(row[0], row[2]) for row in rows] == [("4", "C1"), ("3", "C2"), ("2", "FI"), ("1", "C3")]


def test_a_long_list_is_whole_and_says_what_to_do_about_each():
    rows = _listing(complete_report(*[Code.C2] * 40), "What to do")
    assert len(rows) == 40
    assert {row[3] for row in rows} == {
        "It becomes dangerous as soon as one more thing goes wrong. Book an electrician at once."
    }


def test_what_stood_for_nothing_is_not_called_something_to_have_looked_at():
    for comments in ("N/A, nothing existing was kept", "None; all new", "N/A"):
        job = done(complete_certificate(sign=False), enter("work", "comments", comments))
        (guidance,) = titled(sheets_of(job), "Guidance for recipients")
        assert "Have looked at" not in said_on((guidance,))


def test_the_page_says_in_plain_words_what_the_outcome_comes_to():
    def says(*codes: Code) -> str:
        return next(block.says for block in _page(complete_report(*codes)).blocks if isinstance(block, Banner))

    assert says(Code.C3, Code.C2) == "Work is needed"
    assert says(Code.C3) == "Not decided yet"


def test_a_let_home_in_england_is_told_the_last_day_for_the_work():
    # Electrical Safety Standards in the Private Rented Sector (England) Regulations 2020, regulation 3: within 28 days
    # of the inspection, its own day counted as the first, as a letting guide restates it.
    job = complete_report(Code.C2)
    answers = Answers.model_validate({"nation": "England", "tenure": "private-let"})
    job = job.model_copy(update={"chosen": job.chosen.model_copy(update={"answers": answers})})
    days = _days(job)
    assert any(day == "29 March 2026" for what, day in days if what.startswith("The landlord") and "put right" in what)


def test_the_next_inspection_stands_even_where_no_day_can_be_counted():
    job = done(complete_report(), enter("report", "next_inspection", "At the change of tenant"))
    assert ("The owner: The next inspection and test", "At the change of tenant") in _days(job)


def _answered(job: Job, answers: dict[str, str | bool]) -> Job:
    chosen = job.chosen.model_copy(update={"answers": Answers.model_validate(answers)})
    return job.model_copy(update={"chosen": chosen})


def test_the_pack_of_a_certificate_says_whom_building_control_and_the_distributor_hear_from():
    # England: the Building Regulations 2010, regulation 12(6A) and Schedule 4: a new circuit and a consumer unit are
    # notifiable. Charging points: the distributors' own guidance on connecting low-carbon technologies, common practice.
    home: dict[str, str | bool] = {
        "nation": "England",
        "building": "house",
        "done": "new-circuit",
        "registered": "registered",
    }
    for made in (complete_certificate(), complete_minor_works()):
        (guidance,) = titled(
            sheets_of(_answered(made, home | {"fitted": "ev", "demand_over": False})), "Guidance for recipients"
        )
        told = {row[0].text: row[1].text for row in _rows_of(guidance, "Who else is told")}
        assert "notif" in told["Building control"].casefold()
        assert "charg" in told["The distributor"].casefold()
        (guidance,) = titled(sheets_of(_answered(made, {"nation": "England"})), "Guidance for recipients")
        assert "Ask the firm whom it has told" in said_on((guidance,))


def test_the_pack_of_a_report_says_it_only_where_there_is_something_to_tell():
    inspected: dict[str, str | bool] = {"done": "inspection", "nation": "England"}
    assert not _listing(_answered(complete_report(Code.C2), inspected), "Who else is told")
    for item, is_told in (("1.1", True), ("3.1", True), ("1.3", False), ("4.4", False)):
        found = Observation(finding="Hot and discoloured.", code=Code.C2, items=(item,))
        job = _answered(complete_report().model_copy(update={"observations": (found,)}), inspected)
        assert [row[0].text for row in _rows_of(_page(job), "Who else is told")] == ["The distributor"] * is_told, item
    with_work: dict[str, str | bool] = {
        "done": "inspection-and-work",
        "put_right": "new",
        "nation": "England",
        "building": "house",
    }
    told = dict(map(tuple, _listing(_answered(complete_report(), with_work), "Who else is told")))
    assert "notif" in told["Building control"].casefold()


def test_days_that_the_report_names_for_urgent_work_run_sooner_than_the_law():
    # SI 2020/312, regulation 3(4): within 28 days, or such shorter period as the report specifies; the day counts.
    let: dict[str, str | bool] = {"nation": "England", "tenure": "private-let"}
    for days, last in (("7", "8 March 2026"), ("28", "29 March 2026"), ("40", "29 March 2026"), ("", "29 March 2026")):
        job = _answered(done(complete_report(Code.C2), enter("report", "remedy_within", days)), let)
        assert any(day == last for what, day in _days(job) if what.startswith("The landlord") and "put right" in what)
        (front,) = (sheet for sheet in sheets_of(job) if isinstance(sheet, TextSheet) and sheet.opens)
        assert ("Urgent work asked for within" in said_on((front,))) == bool(days)


def _rows_of(sheet: Sheet, heading: str) -> list[tuple[SheetCell, ...]]:
    assert isinstance(sheet, TextSheet)
    listings = [each for each in sheet.blocks if isinstance(each, Listing) and each.heading == heading]
    return [row for each in listings for row in each.rows if isinstance(row, tuple)]


def _days(job: Job) -> list[tuple[str, str]]:
    return [(block.label, block.says) for block in _page(job).blocks if isinstance(block, Banner)]


def test_a_certificate_says_in_short_what_was_done_and_what_to_have_looked_at():
    for job in (complete_certificate(), complete_minor_works()):
        assert not titled(sheets_of(job), "In plain words")
        seen = done(job, enter("work", "comments", "Old rubber cable in the loft."))
        (guidance,) = titled(sheets_of(seen), "Guidance for recipients")
        said = said_on((guidance,))
        assert job.work.description in said
        assert "Old rubber cable in the loft." in said
        assert ("The next inspection and test" in said) == (job.form_set is FormSet.EIC)
