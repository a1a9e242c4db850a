"""Circuits are known again when their ways were renumbered."""

from hypothesis import given
from hypothesis import strategies as st

from domain.job.board import Board
from domain.job.circuit import Circuit
from domain.job.job import Job
from domain.job.reading import Reading
from domain.log.last_time.matching import Match, matched
from tests.builders import complete_certificate
from tests.examples import examples


def circuit(cid: str, number: str, description: str, rating: str = "32", csa: str = "2.5", **more: str) -> Circuit:
    return Circuit(
        id=cid,
        number=number,
        description=description,
        device_standard="BS EN 61009",
        device_type="B",
        rating=Reading.of(rating),
        live_csa=Reading.of(csa),
        cpc_csa=Reading.of("1.5"),
        **more,
    )


def job_with(*circuits: Circuit, designation: str = "DB1") -> Job:
    board = Board(id="b1", designation=designation, circuits=circuits)
    return complete_certificate(sign=False).model_copy(update={"boards": (board,)})


BEFORE = job_with(
    circuit("c1", "1", "Shower", "40", "10"),
    circuit("c2", "2", "Sockets, ground floor"),
    circuit("c3", "3", "Sockets, first floor"),
    circuit("c4", "4", "Lights, ground floor", "6", "1.5"),
)


def pairs(matches: tuple[Match, ...]) -> dict[str, str]:
    return {match.circuit: match.was for match in matches}


def test_renumbered_ways_are_matched_by_what_they_feed() -> None:
    now = job_with(
        circuit("c9", "1", "Lighting ground floor", "6", "1.5"),
        circuit("c8", "2", "First floor sockets"),
        circuit("c7", "3", "Ground floor sockets"),
        circuit("c6", "4", "Electric shower", "40", "10"),
    )
    assert pairs(matched(now, BEFORE)) == {"c9": "c4", "c8": "c3", "c7": "c2", "c6": "c1"}


def test_a_new_circuit_was_none_and_a_spare_way_is_not_asked_about() -> None:
    now = job_with(
        circuit("c5", "1", "Charge point", "20", "6"),
        circuit("c6", "2", "Sockets, ground floor"),
        circuit("c7", "3", "Spare", shape="spare"),
    )
    assert pairs(matched(now, BEFORE)) == {"c5": "", "c6": "c2"}


def test_what_a_person_said_holds_and_the_others_share_the_rest() -> None:
    now = job_with(circuit("c6", "2", "Sockets, ground floor"), circuit("c7", "3", "Sockets, first floor"))
    matches = matched(now, BEFORE, {"c6": "c3", "c7": ""})
    assert pairs(matches) == {"c6": "c3", "c7": ""}
    assert all(match.confirmed for match in matches)
    assert pairs(matched(now, BEFORE, {"c6": "gone"})) == {"c6": "", "c7": "c3"}


def test_a_job_matches_itself_whole() -> None:
    assert all(match.circuit == match.was and match.likeness >= 90 for match in matched(BEFORE, BEFORE))


@examples(0.5)
@given(
    st.lists(st.sampled_from(["Sockets", "Lights", "Cooker", "Shower", "", "Ω"]), max_size=6),
    st.lists(st.sampled_from(["Sockets", "Lights", "Heater", ""]), max_size=6),
)
def test_no_circuit_was_two_and_every_circuit_is_told(names: list[str], before: list[str]) -> None:
    now = job_with(*(circuit(f"c{at}", str(at), name) for at, name in enumerate(names)))
    earlier = job_with(*(circuit(f"d{at}", str(at), name) for at, name in enumerate(before)))
    matches = matched(now, earlier)
    was = [match.was for match in matches if match.was]
    assert [match.circuit for match in matches] == [each.id for each in now.boards[0].circuits]
    assert len(was) == len(set(was))
