"""Which failures an observation is offered, in which order, and what answers one that is said of several circuits."""

import pytest

from domain.gate.answered import answering_finding, guidance_on, offered, open_failures
from domain.gate.observation_gaps import UNOBSERVED, observation_gaps
from domain.inspection.observation import Code, Observation
from domain.job.finding import DAYS_CHECK, Finding, Severity
from domain.job.job import Job
from domain.place import Place
from tests.builders import complete_report

HOUSE = complete_report(sign=False)
"""Board b1 with the circuits c2, Kitchen sockets, and c3, Lights, ground floor."""


def box(circuit: str, name: str, board: str = "b1") -> Place:
    return Place(section="boards", board=board, circuit=circuit, box=name)


def fails(place: Place, *also: Place, check: str = "insulation", severity: Severity = Severity.FAILS) -> Finding:
    return Finding(check=check, case="low", place=place, also=also, severity=severity, says="fails")


def written(**held: object) -> Observation:
    return Observation.model_validate({"id": "o1", "finding": "Rust", "code": Code.C2} | held)


def with_observations(*observations: Observation) -> Job:
    return HOUSE.model_copy(update={"observations": observations})


SOCKETS, LIGHTS, BOARD, GAS = (
    box("c2", "zs"),
    box("c3", "ir_live"),
    box("", "polarity"),
    Place(section="earthing", box="bonded_gas"),
)
ELSEWHERE = box("c9", "ir_earth", "b2")


@pytest.mark.parametrize(
    ("observation", "failing", "first"),
    [
        pytest.param({"answers": (GAS,), "about": LIGHTS}, (LIGHTS, GAS), GAS, id="what it answers, before where it was raised"),
        pytest.param({"about": LIGHTS}, (box("c3", "ir_earth"), LIGHTS), LIGHTS, id="the box it was raised from, before its circuit"),
        pytest.param({"about": LIGHTS}, (BOARD, box("c3", "zs")), box("c3", "zs"), id="the circuit it was raised from, before its board"),
        pytest.param({"about": LIGHTS}, (box("", "polarity", "b2"), BOARD), BOARD, id="the board it was raised from, before another"),
        pytest.param({"about": LIGHTS}, (GAS, BOARD), BOARD, id="the board it was raised from, before a page"),
        pytest.param({"about": LIGHTS}, (box("c9", "zs", "b2"), box("c9", "ir_live", "b2")), box("c9", "ir_live", "b2"), id="the like box of another board"),
        pytest.param({"answers": (LIGHTS,)}, (SOCKETS, box("c3", "zs")), box("c3", "zs"), id="the circuit of what it answers"),
        pytest.param({"where": "KITCHEN sockets"}, (LIGHTS, SOCKETS), SOCKETS, id="the circuit that its place names"),
        pytest.param({"finding": "The kitchen sockets are cracked"}, (LIGHTS, SOCKETS), SOCKETS, id="the circuit that its words name"),
        pytest.param({"about": GAS, "where": "Kitchen sockets"}, (LIGHTS, SOCKETS), SOCKETS, id="words, where the place names no board"),
        pytest.param({"about": GAS}, (GAS.model_copy(update={"box": "bonded_oil"}), ELSEWHERE, BOARD), GAS.model_copy(update={"box": "bonded_oil"}), id="as they come, where nothing speaks for one"),
        pytest.param({"where": "Hall"}, (ELSEWHERE, GAS, SOCKETS), ELSEWHERE, id="as they come, on a board that is not there any more"),
    ],
)  # fmt: skip
def test_the_failure_an_observation_most_likely_speaks_of_is_offered_first(
    observation: dict[str, object], failing: tuple[Place, ...], first: Place
) -> None:
    asked = written(**observation)
    places = [each.place for each in offered(with_observations(asked), asked, map(fails, failing))]
    assert places[0] == first
    assert set(places) == set(failing)


def test_a_circuit_without_a_description_is_named_by_no_text() -> None:
    bare = HOUSE.model_dump()
    bare["boards"][0]["circuits"][0]["description"] = " "
    asked = written(where="Kitchen")
    job = Job.model_validate(bare).model_copy(update={"observations": (asked,)})
    assert [each.place for each in offered(job, asked, map(fails, (LIGHTS, SOCKETS)))] == [LIGHTS, SOCKETS]


def test_what_another_observation_answers_is_not_offered_and_a_box_that_fails_twice_is_offered_once() -> None:
    asked, other = written(), written(id="o2", answers=(GAS,))
    job = with_observations(asked, other)
    failing = [fails(SOCKETS), fails(SOCKETS, check="earth-fault"), fails(GAS)]
    asks, day = fails(BOARD, severity=Severity.ASK), fails(LIGHTS, check=DAYS_CHECK)
    assert [each.check for each in offered(job, asked, [*failing, asks, day])] == ["insulation"]


def test_what_is_said_of_several_circuits_is_answered_by_naming_one_under_the_number_it_is_printed_with() -> None:
    of_both, of_one = fails(SOCKETS, LIGHTS), fails(SOCKETS)
    rust, low = written(), written(id="o2", answers=(LIGHTS,))
    job = with_observations(rust, low)
    assert answering_finding(job, of_both) == ((2, low),)
    assert open_failures(job, [of_both, of_one]) == (of_one,)


def test_guidance_names_nothing_for_a_failure_that_it_does_not_know() -> None:
    assert guidance_on(fails(SOCKETS, check="no-such-check")) is None


def test_a_failure_without_an_answer_says_which_finding_it_is_so_that_a_screen_can_raise_it() -> None:
    (unanswered,) = [each for each in observation_gaps(HOUSE, (fails(SOCKETS),)) if each.kind == UNOBSERVED]
    assert (unanswered.place, unanswered.values["id"]) == (SOCKETS, "insulation.low")
