"""Numbers of two logs never meet where each has letters of its own, chosen before the first job."""

import pytest

from domain.forms.form_set import FormSet
from domain.job.job_number import is_job_number, prefix_offered
from domain.log.job_log import JobLog
from tests.builders import AT, fresh
from tests.storage.issuing import WHO


def test_letters_are_chosen_before_the_first_number_and_stay(log: JobLog) -> None:
    before = log.numbering()
    assert (before.prefix, before.given, before.last) == ("A", 0, "")
    assert log.begin_numbers("HM") == ""
    assert log.begin_numbers("HM") == ""
    assert log.create(fresh(FormSet.EIC), who=WHO, at=AT).number == "HM-0001"
    assert "HM-0001" in log.begin_numbers("TB")
    assert log.begin_numbers("HM") == ""
    assert (log.numbering().last, log.numbering().device) == ("HM-0001", before.device)
    assert log.create(fresh(FormSet.EIC), who=WHO, at=AT).number == "HM-0002"


@pytest.mark.parametrize("letters", ["", "hm", "HMHMH", "H1", "Ω", "H-", "A\0"])
def test_what_no_number_may_begin_with_is_refused_and_nothing_changes(log: JobLog, letters: str) -> None:
    assert "one to four letters" in log.begin_numbers(letters)
    assert log.numbering().prefix == "A"


@pytest.mark.parametrize(
    ("name", "letters"),
    [
        ("Hester Marsh", "HM"),
        ("Zoë Fairweather", "ZF"),
        ("Órla de la Rue Penhallow", "ODLR"),
        ("robin", "R"),
        ("李", "A"),
        ("", "A"),
        ("42", "A"),
    ],
)
def test_letters_are_offered_from_the_initials_of_the_person(name: str, letters: str) -> None:
    assert prefix_offered(name) == letters
    assert is_job_number(f"{letters}-0001")
