"""Several minor works from one visit."""

from domain.choice.answers import Answers, Done
from domain.form_set import FormSet
from domain.instrument import Instruments
from domain.people import Firm
from domain.reading import NOT_TAKEN
from domain.visit import SHARED, minor_works_each, of_visit
from tests.builders import ON

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


def test_the_others_name_the_first_of_the_visit() -> None:
    first, second = minor_works_each(ANSWERS, CIRCUITS[:2], {}, on=ON)
    assert of_visit(second, "A-0007").chosen.visit == "A-0007"
    assert first.chosen.visit == ""
