"""The visit sheet repeats what the job tells, and nothing it does not."""

from datetime import date

from domain.coach.visit_sheet import Visit, VisitPart, visit_parts, visit_text
from domain.forms.form_set import FormSet
from domain.job.job import Job
from tests.builders import complete_certificate, complete_report, done, enter, entered, fresh

ON = date(2026, 11, 30)


def part(job: Job, heading: str) -> dict[str, str]:
    parts: dict[str, VisitPart] = {each.heading: each for each in visit_parts(Visit(job=job, on=ON))}
    return dict(parts[heading].lines)


def test_it_names_every_point_of_isolation_and_every_other_source() -> None:
    job = done(complete_certificate(sign=False), enter("supply", "other_sources", "Solar PV, south roof"))
    assert part(job, "Isolation points") == {
        "Main switch": "Hall cupboard; BS EN 60947-3; 2 poles; 100 A",
        "Board DB1": "Hall cupboard; fed from Origin",
        "Other sources": "Solar PV, south roof",
    }
    assert "look for inverters" in part(complete_certificate(), "Isolation points")["Other sources"]


def test_what_the_job_does_not_tell_is_asked_for_and_never_made_up() -> None:
    points = part(fresh(FormSet.EIC), "Isolation points")
    assert points["Main switch"] == points["Other sources"] == "not told yet: find it, and write it here"
    assert part(fresh(FormSet.EICR), "Agreed")["Left out"] == "not told yet: find it, and write it here"


def test_a_circuit_that_life_or_goods_hang_on_is_asked_about_first_and_no_other() -> None:
    job = complete_certificate(sign=False)
    radial = job.boards[0].circuits[1].id
    freezer = entered(job, {"description": "Vaccine fridge"}, board="b1", circuit=radial)
    told = part(freezer, "Not to be switched off without asking")
    assert [label for label in told if label.startswith("DB1")] == ["DB1, 2 Vaccine fridge"]
    assert list(part(job, "Not to be switched off without asking")) == ["Ask on site"]


def test_tests_stand_in_their_order_without_those_about_what_is_not_there() -> None:
    # Order of tests: BS 7671, 643.2 to 643.11, as open training pages have it.
    said = part(complete_certificate(), "In this order")["Test"]
    order = ["protective and bonding", "ring final", "insulation", "supply and Ze", "loop impedance Zs", "RCDs"]
    assert sorted(order, key=said.index) == order
    assert "phase sequence" not in said
    assert "electrode" not in said
    assert "phase sequence" in part(fresh(FormSet.EIC), "In this order")["Test"]


def test_an_instrument_past_its_day_is_called_so() -> None:
    job = done(complete_certificate(sign=False), enter("instruments", "multifunction_due", "29/11/2026"))
    assert part(job, "Instruments")["Multifunction tester"].endswith("PAST ITS DAY")
    later = done(job, enter("instruments", "multifunction_due", "30/11/2026"))
    assert not part(later, "Instruments")["Multifunction tester"].endswith("PAST ITS DAY")


def test_the_plain_text_holds_all_of_it_and_defers() -> None:
    said = visit_text(Visit(job=complete_report(), on=ON))
    assert "licensed practice come first" in said
    assert "GS38" in said
    assert "Both circuits, every point." in said
