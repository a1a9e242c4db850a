"""What follows from an answer is put forward, once, where it is asked and nothing stands."""

import pytest

from domain.forms.form_set import FormSet
from domain.job.place_in_words import text_at
from tests.builders import entered, fresh

_CASES = [
    (FormSet.EIC, "supply", {"system": "TN-C-S"}, {"means": "distributor's facility"}),
    (FormSet.EIC, "supply", {"system": "TT"}, {"means": "electrode"}),
    (FormSet.EIC, "supply", {"system": "IT"}, {}),
    (FormSet.EIC, "main_switch", {"standard": "BS EN 60947-3"}, {"fuse_rating": "N/A", "rcd_type": "N/A"}),
    (FormSet.EIC, "main_switch", {"standard": "BS EN 61008"}, {"fuse_rating": "N/A"}),
    (FormSet.EIC, "main_switch", {"standard": "BS EN 60947-2"}, {}),
    (FormSet.EIC, "main_switch", {"location": "Hall"}, {"location": "Hall"}),
    (FormSet.EIC, "work", {"completed_on": "02/03/2026"}, {"tested_on": "02/03/2026"}),
    (FormSet.EICR, "report", {"inspected_on": "02/03/2026"}, {"tested_on": "02/03/2026"}),
    (FormSet.EICR, "premises", {"records": "None seen"}, {"records_held_by": "N/A"}),
    (FormSet.EICR, "premises", {"last_inspection": "Not known"}, {"last_report": "Not known"}),
    (FormSet.EIC, "work", {"kind": "an addition"}, {}),
]


@pytest.mark.parametrize(("form_set", "section", "typed", "follows"), _CASES)
def test_an_answer_puts_forward_what_follows_from_it(
    form_set: FormSet, section: str, typed: dict[str, str], follows: dict[str, str]
) -> None:
    job = entered(fresh(form_set), typed, section=section)
    assert {place.box: text_at(job, place) for place in job.unconfirmed} == follows


def test_a_new_installation_is_covered_whole_and_has_nothing_existing_beside_it() -> None:
    job = entered(fresh(FormSet.EIC), {"kind": "new"}, section="work")
    assert (job.work.extent, job.work.comments) == ("The whole installation, from the meter to the last point", "N/A")
    assert (entered(job, {"kind": "an alteration"}, section="work").work.extent) == ""


def test_the_origin_has_no_device_before_it_that_is_not_the_supplys() -> None:
    job = entered(fresh(FormSet.EIC), {"supplied_from": "origin"}, board="b1")
    assert job.boards[0].device_standard == "N/A"


def test_a_device_brings_the_test_voltage_but_not_for_extra_low_voltage() -> None:
    # 500 V d.c. for circuits up to 500 V: BS 7671 Table 64, as published in trade magazines; 250 V for SELV and PELV.
    job = entered(fresh(FormSet.EIC), {"device_standard": "BS EN 60898"}, board="b1", circuit="c2")
    assert job.boards[0].circuits[0].test_voltage.typed == "500"
    low = entered(
        fresh(FormSet.EIC), {"feeds": "SELV or PELV", "device_standard": "BS EN 60898"}, board="b1", circuit="c2"
    )
    assert low.boards[0].circuits[0].test_voltage.typed == ""
