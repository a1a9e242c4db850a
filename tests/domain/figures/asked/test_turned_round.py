"""Figures of a run turned round, sizes by selection, fault current behind a transformer, diversity."""

from decimal import Decimal

import pytest

from domain.figures.asked.answer import NotAskableError
from domain.figures.asked.catalogue import ask, figure_named


def value_of(asked: str) -> Decimal | None:
    name, *typed = asked.split()
    return ask(figure_named(name), typed).value


@pytest.mark.parametrize(
    ("asked", "value"),
    [
        # Conductor resistances of IEC 60228: 7.41 and 12.1 mΩ/m.
        ("length reading=0.35 line=2.5 cpc=1.5", "17.9"),
        ("r1-r2-split reading=0.3512 line=2.5 cpc=1.5", "0.218"),
        ("other-conductor r1=0.1334 line=2.5 cpc=1.5", "0.218"),
        ("other-conductor r2=0.2178 line=2.5 cpc=1.5", "0.133"),
        # The algebra of an article on step 3 readings in Wiring Matters, March 2022: the highest is (r1 + r2) / 4.
        ("ring-profile r1=0.46 r2=0.75", "0.3025"),
        # Table 54.7 as an open training blog has it: S up to 16, 16 up to 35, then half.
        ("cpc-by-table line=16", "16"),
        ("cpc-by-table line=25", "16"),
        ("cpc-by-table line=70", "35"),
        # 500 kVA at 4.75 %, 400 V: 721.7 A / 0.0475, worked out by hand.
        ("transformer-fault-current kva=500 impedance=4.75", "15.19"),
        ("transformer-fault-current kva=500 impedance=4.75 z=0.0152", "7.60"),
        # Common practice, figures from memory: 10 A and 30 % of the rest for a cooker.
        ("diversity use=cooker load=45", "20.5"),
        ("diversity use=cooker load=8", "8"),
        ("diversity use=lighting load=12", "7.92"),
    ],
)
def test_a_figure_is_what_the_source_beside_it_gives(asked: str, value: str) -> None:
    assert value_of(asked) == Decimal(value)


@pytest.mark.parametrize("metres", ["7", "18", "64"])
def test_length_and_r1_r2_are_each_others_way_back(metres: str) -> None:
    reading = value_of(f"r1-r2 line=4 cpc=1.5 length={metres}")
    assert value_of(f"length reading={reading} line=4 cpc=1.5") == Decimal(metres)


def test_a_ring_reads_alike_from_either_end_and_most_half_way_round() -> None:
    notes = ask(figure_named("ring-profile"), ["r1=0.40", "r2=1.00", "points=3"]).notes
    readings = [note.rpartition(": ")[2] for note in notes[:3]]
    assert readings == ["0.334 Ω", "0.350 Ω", "0.334 Ω"]


@pytest.mark.parametrize(
    ("asked", "says"),
    [
        ("length reading=0.35 line=3 cpc=1.5", "the table of copper conductors holds"),
        ("other-conductor r1=0.1 r2=0.2 line=4 cpc=1.5", "takes only one of"),
        ("diversity use=sauna load=20", "use is cooker"),
        ("ring-profile r1=0.4 r2=0.6 points=2.5", "whole number"),
    ],
)
def test_what_cannot_be_answered_says_what_is_allowed(asked: str, says: str) -> None:
    with pytest.raises(NotAskableError, match=says):
        value_of(asked)
