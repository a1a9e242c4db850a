"""Several minor works from one visit."""

from domain.editing.visit import SHARED, linked, minor_works_each
from domain.forms.choice.answers import Answers, Done
from domain.forms.form_set import FormSet
from domain.job.instrument import Instruments
from domain.job.people import Firm
from domain.job.reading import NOT_TAKEN
from domain.sheets import sheets_of
from tests.builders import ON, done

ANSWERS = Answers(done=Done.ALTERATION, own_work=True, circuits=2)
CIRCUITS = ("Ring, ground floor", "Lights, upstairs", "Cooker")


def test_each_circuit_gets_a_minor_works_with_what_they_share_typed_once() -> None:
    shared = {place: f"{place.section} {place.box}" for place in SHARED}
    firm, instruments = Firm(name="Harebell Electrical"), Instruments(multifunction="MFT-20417")
    jobs = minor_works_each(ANSWERS, CIRCUITS, shared, on=ON, firm=firm, instruments=instruments)
    assert [job.form_set for job in jobs] == [FormSet.MEIWC] * 3
    assert [circuit.description for job in jobs for _, circuit in job.circuits()] == list(CIRCUITS)
    for job in jobs:
        assert job.client.name == "client name"
        assert job.supply.system == "supply system"
        assert (job.firm, job.instruments) == (firm, instruments)
        assert job.circuits()[0][1].zs == NOT_TAKEN
        assert job.chosen.answers.circuits == 3
        assert job.chosen.is_override
        assert "3 circuits" in job.chosen.because


def test_each_names_all_the_minor_works_of_the_visit_on_its_paper() -> None:
    first, *_ = minor_works_each(ANSWERS, CIRCUITS, {}, on=ON)
    linked_first = done(first, linked(first, ("A-0007", "A-0008", "A-0009")))
    words = str(sheets_of(linked_first))
    assert "One of 3 for this visit" in words
    assert "A-0007, A-0008, A-0009" in words
    assert "for this visit" not in str(sheets_of(first))


def test_very_many_are_named_from_the_first_to_the_last() -> None:
    first, *_ = minor_works_each(ANSWERS, CIRCUITS, {}, on=ON)
    numbers = tuple(f"A-{number:04d}" for number in range(1, 60))
    assert linked(first, numbers).chosen.visit == "A-0001 to A-0059"
