"""What each figure answers, at, under and over the edges of its tables."""

from decimal import Decimal

import pytest

from domain.source import Trust
from tests.domain.figures.asked.typed import asked, said

BREAKER, RCBO = "device=BS EN 60898", "device=BS EN 61009"


@pytest.mark.parametrize(
    ("line", "value"),
    [
        (f"zs-max / {BREAKER} / type=B / rating=32 / time=0.4", "1.37"),
        (f"zs-max / {BREAKER} / type=B / rating=20 / time=5", "2.19"),
        (f"zs-max / {BREAKER} / type=C / rating=32", "0.68"),
        (f"zs-max / {BREAKER} / type=D / rating=20 / time=0.4", "0.55"),
        (f"zs-max / {BREAKER} / type=D / rating=20 / time=5", "1.09"),
        (f"zs-max / {BREAKER} / type=D / rating=6 / time=5", "3.64"),
        (f"zs-max / {RCBO} / type=B / rating=6", "7.28"),
        ("zs-max / device=BS 88-2 / rating=32 / time=0.4", "0.99"),
        ("zs-max / device=BS 88-2 / rating=200 / time=5", "0.18"),
        ("zs-max / device=BS 88-3 / rating=100 / time=5", "0.38"),
        ("zs-max / device=BS 3036 / rating=30 / time=0.4", "1.04"),
        ("zs-max / device=BS 1361 / rating=20 / time=0.4", "1.62"),
        ("zs-max / device=BS 1362 / rating=13 / time=0.4", "2.30"),
        (f"zs-measured-max / {BREAKER} / type=B / rating=32", "1.09"),
        (f"zs-measured-max / {BREAKER} / type=C / rating=100", "0.17"),
        (f"zs-measured-max / {BREAKER} / type=B / rating=6", "5.82"),
        (f"zs-measured-max / {BREAKER} / type=B / rating=16", "2.18"),
        ("zs / ze=0.35 / r1r2=0.52", "0.87"),
        ("zs / ze=0.35 / r1r2=0.52 / factor=1.2", "0.974"),
        ("zs / ze=0 / r1r2=0", "0"),
        ("r1-r2 / line=2.5 / cpc=1.5 / length=18", "0.35118"),
        ("r1-r2 / line=2.5 / cpc=1.5 / length=18 / temperature=20", "0.3512"),
        ("r1-r2 / line=2.5 / cpc=1.5 / length=100 / factor=1.2", "2.3412"),
        ("r1-r2 / line=25 / cpc=16 / length=100 / material=aluminium", "0.311"),
        ("r1-r2 / line=1.5 / cpc=1.5 / length=10 / material=flexible copper", "0.266"),
        ("r1-r2 / line=4 / cores=3 / length=20", "0.2422"),
        ("resistance-at / r20=0.5 / temperature=70", "0.6"),
        ("resistance-at / r20=0.5 / temperature=20", "0.5"),
        ("resistance-at / r20=0.5 / temperature=10", "0.48"),
        ("resistance-at / r20=0.5 / temperature=70 / alpha=0.00393", "0.5983"),
        ("ring / r1=0.32 / rn=0.32 / r2=0.53", "0.2125"),
        ("insulation / voltage=500 / circuit=LV", "1.0"),
        ("insulation / voltage=230", "1.0"),
        ("insulation / voltage=50 / circuit=SELV", "0.5"),
        ("insulation / voltage=250 / circuit=PELV", "0.5"),
        ("insulation / circuit=FELV", "1.0"),
        ("insulation / voltage=501", "1.0"),
        ("insulation / circuit=sensitive equipment", "1.0"),
        ("insulation / parallel=40", "40"),
        ("insulation / parallel=40;10,5;8", "4.078"),
        ("rcd-time / standard=BS EN 61008 / idn=30", "300"),
        ("rcd-time / standard=BS EN 61009 / type=general / idn=30 / times=5", "40"),
        ("rcd-time / standard=BS EN 61008 / type=S / idn=100", "500"),
        ("rcd-time / standard=BS EN 61008 / type=S / times=2", "200"),
        ("rcd-time / standard=BS 4293 / idn=30", "200"),
        ("rcd-time / standard=BS 4293 / delay=200", "400"),
        ("rcd-time / standard=BS 7288 / idn=30 / times=5", "40"),
        ("ra-max / idn=30", "1667"),
        ("ra-max / idn=300", "167"),
        ("ra-max / idn=100", "500"),
        ("ra-max / idn=10", "5000"),
        ("ra-max / idn=650", "76.92"),
        ("ra-max / idn=30 / touch=25", "833.33"),
        ("fault-current / u0=230 / z=0.35", "657.14"),
        ("fault-current / phases=3 / z=0.23", "2000"),
        ("adiabatic / current=575 / time=0.25 / k=115", "2.5"),
        ("adiabatic / zs=0.5 / time=0.4 / insulation=PVC", "2.53"),
        ("adiabatic / zs=0.5 / time=0.4 / insulation=thermoplastic", "2.53"),
        ("adiabatic / zs=0.5 / time=0.4 / insulation=thermosetting", "2.03"),
        ("adiabatic / zs=0.5 / time=0.4 / insulation=70C", "2.53"),
        ("bonding / supply=PME / neutral=35", "10"),
        ("bonding / supply=PME / neutral=36", "16"),
        ("bonding / supply=PME / neutral=50", "16"),
        ("bonding / supply=PME / neutral=95", "25"),
        ("bonding / supply=PME / neutral=150", "35"),
        ("bonding / supply=PME / neutral=151", "50"),
        ("bonding / supply=not PME / earthing=6", "6"),
        ("bonding / supply=not PME / earthing=16", "8"),
        ("bonding / supply=not PME / earthing=50", "25"),
        ("bonding / supply=not PME / earthing=95", "25"),
        ("volt-drop / table=4D5 / csa=2.5 / current=20 / length=25", "9"),
        ("volt-drop / table=4D1B / csa=25 / method=B / current=100 / length=10", "1.8"),
        ("volt-drop / table=4D1B / csa=25 / method=C / current=100 / length=10", "1.75"),
        ("volt-drop / table=4D1B / csa=25 / current=100 / length=10", "1.8"),
        ("volt-drop / table=4D2B / csa=4 / current=20 / length=10 / phases=3", "1.9"),
        ("volt-drop / table=4E4B / csa=240 / current=300 / length=50 / phases=3", "3.15"),
        ("volt-drop / mv-per-a-m=7.3 / current=32 / length=30", "7.01"),
        ("cable-rating / table=4D5 / csa=2.5 / method=C", "27"),
        ("cable-rating / table=4D5 / csa=2.5 / method=103", "13.5"),
        ("cable-rating / table=4D2A / csa=4 / method=B / ca=0.94 / cg=0.8", "22.56"),
        ("cable-rating / table=4D2A / csa=4 / method=B / ambient=35 / circuits=2", "22.56"),
        ("cable-rating / table=4D2A / csa=4 / method=B / ambient=31 / circuits=2", "22.56"),
        ("cable-rating / table=4D5 / csa=6 / method=C / device=BS 3036", "34.08"),
        ("cable-rating / table=4D5 / csa=6 / method=C / in-insulation=400", "23.97"),
        ("cable-rating / table=4D5 / csa=6 / method=C / in-insulation=2000", "23.5"),
        ("cable-rating / table=4E1A / csa=16 / method=B / phases=3", "88"),
        ("cable-rating / table=4D4A / csa=16 / method=D", "78"),
        ("cable-rating / table=4E4B / csa=16 / method=E / phases=3", "99"),
        ("cable-rating / table=4E4A / csa=25 / method=C / circuits=3 / arrangement=tray", "119.72"),
        ("cable-rating / table=4G1A 750 V / csa=2.5 / method=C / ambient=40", "28.9"),
        ("volt-drop / table=4D4A / csa=16 / current=50 / length=20 / phases=3", "2.4"),
        ("volt-drop / table=4E2B / csa=4 / current=10 / length=10", "1.2"),
        ("volt-drop / table=4G1B / csa=1.5 / current=10 / length=10", "2.8"),
        ("disconnection / system=TN-S / u0=230 / circuit=final / rating=32 / sockets=no", "0.4"),
        ("disconnection / system=TN-S / u0=230 / circuit=final / rating=33 / sockets=no", "5"),
        ("disconnection / system=TN-C-S / circuit=final / rating=63 / sockets=yes", "0.4"),
        ("disconnection / system=TN-C-S / circuit=final / rating=64 / sockets=yes", "5"),
        ("disconnection / system=TN / u0=400 / circuit=final / rating=16", "0.2"),
        ("disconnection / system=TT / circuit=final / rating=32", "0.2"),
        ("disconnection / system=TT / circuit=final / rating=40 / sockets=no", "1"),
        ("disconnection / system=TT / circuit=distribution", "1"),
        ("disconnection / system=TN-S / circuit=distribution / rating=100", "5"),
        ("disconnection / system=reduced low voltage / u0=55 / circuit=final", "5"),
        ("interval / premises=office", "5"),
        ("interval / premises=Caravan", "3"),
        ("interval / premises=caravan park", "1"),
        ("interval / premises=construction site", "0.25"),
        ("interval / premises=domestic, owner occupied", "10"),
        ("interval / premises=domestic, rented / nation=Scotland", "5"),
    ],
)
def test_the_figure_is(line: str, value: str) -> None:
    assert asked(line).value == Decimal(value)


@pytest.mark.parametrize(
    ("line", "unit"),
    [
        (f"zs-max / {BREAKER} / type=B / rating=32", "Ω"),
        ("insulation / parallel=40,10,8", "MΩ"),
        ("rcd-time / standard=BS 7288", "ms"),
        ("fault-current / z=0.35", "A"),
        ("adiabatic / current=575 / time=0.25 / k=115", "mm²"),
        ("volt-drop / mv-per-a-m=18 / current=1 / length=1", "V"),
        ("disconnection / system=TT / circuit=distribution", "s"),
        ("interval / premises=office", "years"),
    ],
)
def test_the_figure_has_its_unit(line: str, unit: str) -> None:
    assert asked(line).unit == unit


@pytest.mark.parametrize(
    ("line", "says"),
    [
        (f"zs-max / {BREAKER} / type=B / rating=32", "5 × In = 160 A, 230 V × 0.95 / 160 A: 1.37 Ω"),
        (
            f"zs-measured-max / {BREAKER} / type=B / rating=32",
            "0.8 × 1.37 Ω = 1.09 Ω, rounded down | unrounded 1.096 Ω",
        ),
        (f"zs-max / {RCBO} / type=B / rating=32", "ask ra-max instead"),
        ("zs-max / device=BS 1361 / rating=20 / time=0.4", "withdrawn in 2010"),
        ("zs / ze=0.35 / r1r2=0.52 / factor=1.2", "0.35 Ω + 0.52 Ω × 1.2 = 0.974 Ω"),
        ("r1-r2 / line=6 / cpc=2.5 / length=18", "r1: 3.08 mΩ/m × 18 m = 0.05544 Ω | r2: 7.41 mΩ/m × 18 m = 0.13338 Ω"),
        ("resistance-at / r20=0.5 / temperature=70", "0.5 Ω × (1 + 0.004 × (70 - 20)) = 0.6 Ω"),
        ("ring / r1=0.32 / rn=0.37 / r2=0.53", "r1 and rn are 0.05 Ω apart: within 0.05 Ω"),
        ("ring / r1=0.32 / rn=0.38 / r2=0.53", "0.06 Ω apart: more than 0.05 Ω"),
        ("ring / r1=0.32 / rn=0.32 / r2=0.53", "from 0.200 Ω at the board to 0.2125 Ω half way round"),
        ("ring / r1=0.32 / r2=0.53 / line=2.5 / cpc=1.5", "so r2 is expected between 0.413 Ω and 0.643 Ω, and fits"),
        ("ring / r1=0.32 / r2=0.80 / line=2.5 / cpc=1.5", "does not fit"),
        ("rcd-time / standard=BS EN 61008 / type=S / idn=100", "from 130 ms to 500 ms"),
        ("rcd-time / standard=BS 4293 / delay=200", "from 300 ms to 400 ms"),
        ("rcd-time / standard=BS EN 61008 / idn=30 / times=5", "5 × 30 mA = 150 mA"),
        ("ra-max / idn=30", "1666.66 Ω"),
        ("fault-current / phases=3 / z=0.23", "√3 it is 1732.05 A"),
        ("adiabatic / current=575 / time=0.25 / k=115", "next standard size 2.5 mm²"),
        ("adiabatic / current=576 / time=0.25 / k=115", "next standard size 4 mm²"),
        ("adiabatic / current=1000000 / time=5 / k=1", "no standard size"),
        ("adiabatic / current=575 / time=0.09 / k=115", "maker's I²t"),
        ("adiabatic / zs=0.5 / time=5 / material=steel / insulation=armour 90", "k = 46"),
        ("adiabatic / zs=0.5 / time=5 / material=aluminium / insulation=XLPE", "k = 94"),
        ("bonding / supply=not PME / earthing=16", "next standard size 10 mm²"),
        (
            "volt-drop / table=4D5 / csa=2.5 / current=20 / length=25",
            "3.91 % of 230 V | lighting: over 3 %, that is 6.9 V | other uses: within 5 %",
        ),
        ("volt-drop / mv-per-a-m=23 / current=10 / length=30", "lighting: within 3 %, that is 6.9 V"),
        ("volt-drop / mv-per-a-m=23.1 / current=10 / length=30", "lighting: over 3 %, that is 6.9 V"),
        ("volt-drop / mv-per-a-m=1 / current=1 / length=120", "that is 7.13 V, with what a run over 100 m may add"),
        ("volt-drop / mv-per-a-m=1 / current=1 / length=300", "that is 8.05 V, with what a run over 100 m may add"),
        ("volt-drop / mv-per-a-m=1 / current=1 / length=10 / supply=private", "lighting: within 6 %, that is 13.8 V"),
        (
            "volt-drop / table=4D2B / csa=4 / current=20 / length=10 / phases=3",
            "% of 400 V | lighting: within 3 %, that is 12 V",
        ),
        ("cable-rating / table=4D5 / csa=2.5 / method=C / in=27 / ib=27", "Ib ≤ In ≤ Iz holds: 27 ≤ 27 ≤ 27 A"),
        ("cable-rating / table=4D5 / csa=2.5 / method=C / in=28 / ib=27", "Ib ≤ In ≤ Iz does not hold"),
        ("cable-rating / table=4D5 / csa=2.5 / method=C / in=20 / ib=21", "Ib ≤ In ≤ Iz does not hold"),
        ("cable-rating / table=4D5 / csa=2.5 / method=C / in=20", "In ≤ Iz holds: 20 ≤ 27 A"),
        ("cable-rating / table=4E1A / csa=2.5 / method=C", "70 °C only"),
        ("disconnection / system=TT / circuit=final", "TN times may be used"),
        ("interval / premises=office", "a recommendation"),
        ("interval / premises=caravan park", "at most: 1 year |"),
        ("interval / premises=rented", "add nation="),
        ("interval / premises=rented / nation=England", "copy to the tenant within 28 days"),
    ],
)
def test_the_sum_and_the_notes_say(line: str, says: str) -> None:
    assert says in said(asked(line))


@pytest.mark.parametrize(
    "line",
    [
        f"zs-max / {BREAKER} / type=B / rating=30",
        f"zs-max / {BREAKER} / type=C / rating=3",
        "zs-max / device=BS 88-3 / rating=6 / time=0.4",
        "zs-max / device=BS 88-3 / rating=80 / time=0.4",
        "zs-max / device=BS 1361 / rating=45 / time=0.4",
        f"zs-measured-max / {BREAKER} / type=B / rating=30",
        "zs-measured-max / device=BS 88-3 / rating=80 / time=0.4",
        "rcd-time / standard=BS 7288 / type=S",
        "rcd-time / standard=BS 4293 / times=2",
        "volt-drop / table=4D1B / csa=185 / method=C / current=10 / length=10",
        "disconnection / system=TN / u0=50 / circuit=final",
        "disconnection / system=reduced low voltage / u0=50 / circuit=final",
    ],
)
def test_no_limit_known_is_an_answer(line: str) -> None:
    answer = asked(line)
    assert answer.value is None
    assert answer.notes[0] == "no limit known"
    assert answer.source


def test_at_half_its_current_an_rcd_has_no_time_because_it_must_not_open() -> None:
    answer = asked("rcd-time / standard=BS EN 61008 / idn=30 / times=0.5")
    assert answer.value is None
    assert "must not open" in answer.notes
    assert "15 mA" in answer.working


@pytest.mark.parametrize(
    ("line", "trust"),
    [
        (f"zs-max / {BREAKER} / type=B / rating=32", Trust.PUBLISHED),
        (f"zs-measured-max / {BREAKER} / type=B / rating=32", Trust.COMMON_PRACTICE),
        ("zs-max / device=BS 1361 / rating=20 / time=0.4", Trust.MEMORY),
        ("adiabatic / zs=0.5 / time=0.4 / insulation=PVC", Trust.MEMORY),
        ("adiabatic / zs=0.5 / time=0.4 / k=115", Trust.PUBLISHED),
        ("interval / premises=office", Trust.COMMON_PRACTICE),
        ("interval / premises=rented / nation=Wales", Trust.PUBLISHED),
        ("cable-rating / table=4E1A / csa=16 / method=B", Trust.PUBLISHED),
        ("cable-rating / table=4E1A / csa=16 / method=B / in-insulation=100", Trust.MEMORY),
        ("volt-drop / mv-per-a-m=18 / current=1 / length=1 / supply=private", Trust.MEMORY),
        ("disconnection / system=reduced low voltage / u0=55 / circuit=final", Trust.MEMORY),
    ],
)
def test_a_figure_is_trusted_as_far_as_the_weakest_thing_it_rests_on(line: str, trust: Trust) -> None:
    assert asked(line).trust is trust
