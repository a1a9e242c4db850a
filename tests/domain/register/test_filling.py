"""What taking an entry of a register types into a job."""

from domain.job.box import BoxKind, boxes_of
from domain.job.job import SECTIONS
from domain.place import Place
from domain.register.entries import Instrument, KnownClient, KnownFirm, KnownPremises, Person, RegisterKind
from domain.register.filling import about, filled_from, kind_at
from domain.register.learning import learnt_from
from tests.builders import complete_certificate


def at(section: str, box: str, board: str = "") -> Place:
    return Place(section=section, box=box, board=board)


def test_a_client_fills_all_of_the_client_and_nothing_else() -> None:
    client = KnownClient(name="Hester Drumlin", address="3 Pepperpot Close", postcode="WQ4 9LP")
    assert kind_at(at("client", "postcode")) is RegisterKind.CLIENT
    assert filled_from(client, at("client", "postcode")) == {
        at("client", "name"): "Hester Drumlin",
        at("client", "address"): "3 Pepperpot Close",
        at("client", "postcode"): "WQ4 9LP",
    }


def test_premises_fill_where_they_are_and_what_they_are_used_for() -> None:
    place = KnownPremises(address="The Old Forge", postcode="WQ7 1AB", use="domestic")
    assert set(filled_from(place, at("premises", "address"))) == {
        at("premises", box) for box in ("address", "postcode", "use")
    }


def test_a_firm_is_offered_for_the_paper_and_for_each_signatory() -> None:
    firm = KnownFirm(name="Harebell Electrical", address="Unit 4", membership="12345")
    assert len(filled_from(firm, at("firm", "name"))) == 3
    assert filled_from(firm, at("signatories", "design_firm")) == {
        at("signatories", "design_firm"): "Harebell Electrical",
        at("signatories", "design_address"): "Unit 4",
    }


def test_who_tested_a_board_comes_from_the_people() -> None:
    tested_by = at("boards", "tested_by", board="b1")
    assert kind_at(tested_by) is RegisterKind.PERSON
    assert filled_from(Person(name="Tamsin Orchard"), tested_by) == {tested_by: "Tamsin Orchard"}


def test_an_instrument_brings_the_day_it_is_due() -> None:
    tester = Instrument(serial="MFT-20417", due="01/05/2026")
    assert filled_from(tester, at("instruments", "loop")) == {
        at("instruments", "loop"): "MFT-20417",
        at("instruments", "loop_due"): "01/05/2026",
    }
    assert about(tester) == "MFT-20417, due 01/05/2026"


def test_nothing_is_offered_at_a_reading_or_fills_one() -> None:
    entries = (*learnt_from(complete_certificate()), Person(name="Tamsin Orchard"))
    for section, declared in SECTIONS.items():
        for box in boxes_of(declared):
            for entry in entries:
                if kind_at(at(section, box)) == entry.kind:
                    kinds = {
                        boxes_of(SECTIONS[place.section])[place.box].kind
                        for place in filled_from(entry, at(section, box))
                    }
                    assert kinds.isdisjoint({BoxKind.READING, BoxKind.TICK, BoxKind.NUMBER})
    assert kind_at(at("supply", "ze")) is None
    assert kind_at(Place(section="boards", board="b1", circuit="c2", box="zs")) is None
