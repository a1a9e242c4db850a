from domain.forms.choice.answers import Answers
from domain.forms.form_set import FormSet
from domain.inspection.observation import Code
from domain.job.job import Job
from domain.sheets import sheets_of
from domain.sheets.sheet import Banner, Listing, TextSheet
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
