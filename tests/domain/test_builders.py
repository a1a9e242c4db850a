import pytest

from domain.forms.form_set import FormSet
from domain.gate.assessment import assess
from domain.gate.outcome import Outcome
from domain.inspection.observation import Code
from tests.builders import complete_certificate, complete_minor_works, complete_report, snagged


@pytest.mark.parametrize("build", [complete_minor_works, complete_certificate, complete_report])
def test_a_complete_job_has_nothing_that_holds_it_back(build):
    assert assess(build()).reasons == ()


@pytest.mark.parametrize("build", [complete_minor_works, complete_certificate, complete_report])
def test_a_complete_job_without_signatures_lacks_only_those(build):
    job = build(sign=False)
    assert {str(reason.kind) for reason in assess(job).reasons} == {"signature missing"}


def test_each_builder_makes_its_own_papers():
    built = [build().form_set for build in (complete_minor_works, complete_certificate, complete_report)]
    assert built == [FormSet.MEIWC, FormSet.EIC, FormSet.EICR]


def test_a_report_with_a_c2_is_complete_and_unsatisfactory():
    assert assess(complete_report(Code.C2)).outcome is Outcome.UNSATISFACTORY


def test_a_snag_holds_a_complete_certificate_back():
    assert not assess(snagged(complete_minor_works())).may_issue
