"""Whole installations against the same wires solved as a net of resistors; the source stands beside each check."""

from decimal import Decimal
from fractions import Fraction

import pytest

from domain.checks import findings_of
from domain.checks.shared.circuits_in_use import ways_in_use
from domain.checks.shared.expected import expected_of
from domain.editing.commands import Enter
from domain.job.job import Job
from domain.place import Place
from tests.builders import done
from tests.domain.checks.installations import INSTALLATIONS, job_of
from tests.outside.nodal import Resistor, resistance_between

# Source: IEC 60228, Tables 1 and 2: highest resistance at 20 °C in milliohms a metre.
MILLIOHMS = {"2.5": "7.41", "1.5": "12.1", "4": "4.61", "6": "3.08", "16": "1.15", "25": "0.727"}
U0 = 230


def ohms(csa: str, length: str) -> Fraction:
    return Fraction(MILLIOHMS[csa]) * Fraction(length) / 1000


def fault_loop(ze: str, *runs: tuple[str, str, str]) -> float:
    """The way of the fault current: out by the lines, back by the cpcs, and round the supply."""
    net: list[Resistor] = [("source", "line 0", Fraction(ze) / 2), ("earth", "cpc 0", Fraction(ze) / 2)]
    for at, (line, cpc, length) in enumerate(runs):
        net += [
            (f"line {at}", f"line {at + 1}", ohms(line, length)),
            (f"cpc {at}", f"cpc {at + 1}", ohms(cpc, length)),
        ]
    net.append((f"line {len(runs)}", f"cpc {len(runs)}", Fraction(1, 10**9)))
    return resistance_between("source", "earth", net)


SUBMAINS = (("25", "16", "30"), ("16", "16", "28"))


def as_worked_out(job: Job) -> Job:
    """The works with Zdb of its boards as the net has them, and R1+R2 left to the sizes and lengths."""
    zdb = [fault_loop("0.10", *SUBMAINS[:level]) for level in range(3)]
    for board, value in zip(job.boards, zdb, strict=True):
        place = Place(section="boards", board=board.id, box="zs")
        job = done(job, Enter(place=place, text=f"{value:.4f}"))
        for circuit in board.circuits:
            at = Place(section="boards", board=board.id, circuit=circuit.id)
            job = done(
                job,
                Enter(place=at.model_copy(update={"box": "r1_r2"}), text=""),
                Enter(place=at.model_copy(update={"box": "zs"}), text=""),
            )
    return job


# Source: Kirchhoff's laws, solved by numpy.
@pytest.mark.parametrize(
    ("level", "number", "last"),
    [
        (0, "2TP", ("6", "6", "18")),
        (0, "3L1", ("2.5", "2.5", "30")),
        (1, "2TP", ("4", "4", "16")),
        (2, "1L1", ("6", "6", "24")),
        (2, "1L3", ("4", "4", "19")),
    ],
)
def test_zs_and_fault_current_at_the_end_of_three_boards_in_a_row(
    level: int, number: str, last: tuple[str, str, str]
) -> None:
    job = as_worked_out(job_of(INSTALLATIONS["works"]))
    board = job.boards[level]
    (way,) = [each for each in ways_in_use(job) if each.board.id == board.id and each.circuit.number == number]
    found = expected_of(job, way)
    loop = fault_loop("0.10", *SUBMAINS[:level], last)
    assert found.zs
    assert found.fault_current
    assert float(found.zs.value) == pytest.approx(loop, abs=0.0002)
    assert float(found.fault_current.value) == pytest.approx(U0 / loop, rel=0.001)


# Source: the same net; readings a few hundredths off what the wires have are not to be remarked on.
@pytest.mark.parametrize("off", ["-0.03", "0", "0.04"])
def test_readings_as_the_wires_have_them_raise_no_question(off: str) -> None:
    job = job_of(INSTALLATIONS["works"])
    for at, way in enumerate(ways_in_use(job)):
        expected = expected_of(job, way).zs
        assert expected
        reading = max(expected.value + Decimal(off), way.board.zs.value or Decimal(0))
        job = done(job, Enter(place=way.at("zs"), text=f"{reading + Decimal(at % 3) / 100:.2f}"))
    assert findings_of(job) == ()


# Source: a ring of resistors fed at one end of both legs and tapped half way round, solved by Kirchhoff's laws.
def test_the_ring_of_a_house_has_the_r1_r2_that_its_wires_have() -> None:
    job = job_of(INSTALLATIONS["terraced house"])
    (way,) = [each for each in ways_in_use(job) if each.circuit.number == "2"]
    half = str(Fraction(way.circuit.length.typed) / 2)
    legs: list[Resistor] = [
        (f"board {conductor}", "point", 1 * ohms(csa, half))
        for conductor, csa in (("line", "2.5"), ("line", "2.5"), ("cpc", "1.5"), ("cpc", "1.5"))
    ]
    found = expected_of(job, way).r1_r2
    assert found
    assert float(found.value) == pytest.approx(resistance_between("board line", "board cpc", legs), rel=1e-9)
