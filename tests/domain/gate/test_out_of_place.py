"""Nothing is issued that gives details of what the same paper says is not there."""

from typing import Any

import pytest

from domain.gate.assessment import assess
from domain.gate.gaps import gaps_of
from tests.domain.checks.jobs import RCD_30, RING, job

NO_RCD = RCD_30 | {"rcd_standard": "N/A", "rcd_time": "N/A", "rcd_button": "N/A"}


def misplaced(sections: dict[str, Any], form_set: str = "EIC") -> set[str]:
    more = {name: section for name, section in sections.items() if name != "circuit"}
    made = job(sections.get("circuit", {}), form_set=form_set, **more)
    gaps = {gap.place.box for gap in gaps_of(made) if "stands here, but" in gap.says}
    held = {reason.place.box for reason in assess(made).reasons if "stands here, but" in reason.says}
    assert gaps == held, "whatever stands where it cannot keeps the paper back"
    return gaps


@pytest.mark.parametrize(
    ("sections", "boxes"),
    [
        ({"circuit": NO_RCD}, {"rcd_type", "rcd_idn", "rcd_rating"}),
        ({"circuit": NO_RCD | {"rcd_standard": "none", "shape": "spare"}}, {"rcd_type", "rcd_idn", "rcd_rating"}),
        ({"circuit": NO_RCD | {"rcd_type": "N/A", "rcd_idn": "na", "rcd_rating": ""}}, set[str]()),
        ({"circuit": RCD_30}, set[str]()),
        ({"circuit": RCD_30 | {"rcd_standard": ""}}, set[str]()),
        ({"circuit": RING}, set[str]()),
        ({"circuit": RING | {"shape": "radial"}}, {"ring_r1", "ring_rn", "ring_r2"}),
        (
            {"board": {"device_standard": "N/A", "device_type": "gG", "device_rating": "60"}},
            {"device_type", "device_rating"},
        ),
        ({"board": {"rcd_type": "", "rcd_idn": "100", "rcd_time": "N/A"}}, {"rcd_idn"}),
        ({"main_switch": {"rcd_type": "N/A", "rcd_idn": "30", "rcd_time": "24"}}, {"rcd_idn", "rcd_time"}),
        ({"main_switch": {"rcd_type": "A", "rcd_idn": "30", "rcd_time": "24"}}, set[str]()),
    ],
)
def test_details_of_what_is_not_there_keep_the_paper_back(sections: dict[str, Any], boxes: set[str]) -> None:
    assert misplaced(sections) == boxes


def test_a_test_button_of_an_afdd_that_is_not_there_keeps_a_minor_works_certificate_back() -> None:
    absent = {"afdd_standard": "N/A", "afdd_button": "Y"}
    assert misplaced({"circuit": absent}, "MEIWC") == {"afdd_button"}
    assert misplaced({"circuit": absent | {"afdd_button": "N/A"}}, "MEIWC") == set()
