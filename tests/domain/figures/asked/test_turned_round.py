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
        # By hand: a fifth of the way round, (0.692 × 0.518) / 1.21 = 0.296 Ω, and the same from the other end.
        ("ring-profile r1=0.46 r2=0.75 reading=0.2962", "20"),
        ("ring-profile r1=0.46 r2=0.75 reading=0.3025", "50"),
        # Table 41.1, read the other way: 0.4 s to 230 V and 0.2 s to 400 V on TN, 0.2 s to 230 V on TT.
        ("disconnection system=TN-S circuit=final time=0.4", "230"),
        ("disconnection system=TN-C-S circuit=final time=0.2", "400"),
        ("disconnection system=TT circuit=final time=0.2", "230"),
        ("disconnection system=TN-S circuit=distribution time=5", None),
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
def test_a_figure_is_what_the_source_beside_it_gives(asked: str, value: str | None) -> None:
    assert value_of(asked) == (None if value is None else Decimal(value))


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
        ("zs zs=0.3 ze=0.35", "less than the part of it"),
        ("insulation parallel=4,2 together=2", "no other circuit takes part"),
        ("insulation voltage=500 together=2", "it goes with parallel="),
        ("bonding supply=PME size=6", "the least on PME"),
        ("zs-max device=BS88-3 zs=0.3", "say time="),
        ("other-conductor r1=0.1 r2=0.2 line=4 cpc=1.5", "takes only one of"),
        ("diversity use=sauna load=20", "use is cooker"),
        ("ring-profile r1=0.4 r2=0.6 points=2.5", "whole number"),
        ("ring reading=0.28", "needs line="),
        ("ring-profile r1=0.4 r2=0.6 reading=0.3", "a spur, a joint"),
        ("ring-profile r1=0.4 r2=0.4 reading=0.2", "no reading tells the place"),
        ("ring-profile r1=0.4 r2=0.6 reading=0.245 points=9", "asks where on the ring"),
        ("disconnection system=TN-S circuit=final time=0.9", "no voltage allows 0.9 s"),
        ("disconnection system=TN-S circuit=final time=0.4 u0=230", "asks for the voltage"),
        ("ring reading=0.28 r1=0.4 line=2.5 cpc=1.5", "asks for the ends"),
        ("transformer-fault-current current=40 kva=500 impedance=4.75", "does not come through"),
        ("diversity use=cooker load=45 taken=20", "only one of"),
    ],
)
def test_what_cannot_be_answered_says_what_is_allowed(asked: str, says: str) -> None:
    with pytest.raises(NotAskableError, match=says):
        value_of(asked)


@pytest.mark.parametrize(
    ("asked", "back"),
    [
        ("zs ze=0.35 r1r2=0.52 factor=1.2", "zs zs={} ze=0.35 factor=1.2 -> 0.52"),
        ("zs ze=0.35 r1r2=0.52", "zs zs={} r1r2=0.52 -> 0.35"),
        ("ra-max idn=250 touch=25", "ra-max ra={} touch=25 -> 250"),
        ("resistance-at r20=0.5 temperature=70", "resistance-at r={} temperature=70 -> 0.5"),
        ("insulation parallel=40,10,8", "insulation parallel=40,10 together={} -> 8"),
        ("fault-current z=0.25", "fault-current current={} -> 0.25"),
        ("fault-current phases=3 z=0.25", "fault-current phases=3 current={} -> 0.25"),
        ("adiabatic current=575 time=0.25 k=115", "adiabatic csa={} current=575 k=115 -> 0.25"),
        ("adiabatic current=575 time=0.25 k=115", "adiabatic csa={} time=0.25 k=115 -> 575"),
        ("cpc-by-table line=70", "cpc-by-table cpc={} -> 70"),
        ("cpc-by-table line=25", "cpc-by-table cpc={} -> 35"),
        ("bonding supply=PME neutral=40", "bonding supply=PME size={} -> 50"),
        # 3 % and 5 % of 230 V are 6.9 V and 11.5 V.
        ("volt-drop mv-per-a-m=18 current=20 length=31", "volt-drop mv-per-a-m=18 current=20 -> 31.9"),
        ("volt-drop mv-per-a-m=29 current=3 length=60", "volt-drop mv-per-a-m=29 length=60 use=lighting -> 3.9"),
        # Beyond 100 m a little more is allowed, up to half a per cent: 12.65 V at 28 mV a metre.
        ("volt-drop mv-per-a-m=2.8 current=10 length=451", "volt-drop mv-per-a-m=2.8 current=10 -> 451.7"),
        ("cable-rating table=4D5 csa=6 method=100", "cable-rating table=4D5 method=100 in={} -> 6"),
        ("diversity use=cooker load=45", "diversity use=cooker taken={} -> 45"),
        ("diversity use=lighting load=12", "diversity use=lighting taken={} -> 12"),
        # 400 V and 23.09 kA leave 0.01 Ω: by hand, 400² × 5 % / 800 kVA.
        ("transformer-fault-current kva=800 impedance=5", "transformer-fault-current current={} impedance=5 -> 800"),
        ("transformer-fault-current kva=800 impedance=5", "transformer-fault-current current={} kva=800 -> 5"),
        (
            "transformer-fault-current kva=800 impedance=5 z=0.01",
            "transformer-fault-current current={} kva=800 impedance=5 -> 0.01",
        ),
        ("ring r1=0.425 r2=0.695", "ring reading={} line=2.5 cpc=1.5 -> 0.425"),
        ("fault-current z=0.25", "fault-current current=0.92kA -> 0.25"),
    ],
)
def test_the_older_figures_answer_the_other_way_round_too(asked: str, back: str) -> None:
    turned, _, found = back.partition(" -> ")
    assert value_of(turned.format(value_of(asked))) == Decimal(found)


def test_a_loop_names_the_largest_device_whose_limit_it_keeps() -> None:
    breaker = ["device=BS EN 60898", "type=B"]
    for name, zs, rating in (
        ("zs-max", "1.37", "32"),
        ("zs-measured-max", "1.10", "25"),
        ("zs-measured-max", "1.09", "32"),
    ):
        assert ask(figure_named(name), [*breaker, f"zs={zs}"]).value == Decimal(rating)
    answer = ask(figure_named("ra-max"), ["ra=1667"])
    assert "the largest made that it allows: 30 mA" in answer.notes


def test_an_interval_says_itself_that_it_is_asked_one_way_only() -> None:
    for typed in (["premises=office"], ["premises=domestic, rented", "nation=Wales"]):
        assert any("one way only" in note for note in ask(figure_named("interval"), typed).notes)


def test_bonding_of_a_medical_location_says_which_group_a_reading_would_do_in() -> None:
    answer = ask(figure_named("medical-bonding"), ["group=2", "reading=0.31"])
    assert answer.value == Decimal("0.2")
    assert answer.notes[0] == "0.31 Ω is over it; it would do in group 1"
    assert ask(figure_named("medical-bonding"), ["group=2", "reading=0.2"]).notes[0] == "0.2 Ω is within it"
    assert ask(figure_named("medical-bonding"), ["group=1", "reading=0.71"]).notes[0] == "0.71 Ω is over it"
