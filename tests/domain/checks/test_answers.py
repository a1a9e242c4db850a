"""An answer is known by check, case, place and what was typed; the wording is no part of it."""

import json
from collections import Counter

import pytest

from domain.checks import findings_of
from domain.checks.shared.phrases import SENTENCES
from domain.editing.commands import Enter, Explain
from domain.gate.assessment import assess, explanation_of
from domain.gate.reason import ReasonKind
from domain.job.catalogue import Sentence
from domain.job.exchange import job_from_json, job_to_json
from domain.job.finding import Finding, Severity
from domain.job.job import Job, canonical
from domain.place import Place
from tests.builders import ON, complete_certificate, done
from tests.domain.checks.installations import CASES, judged
from tests.domain.checks.jobs import job

WHY = "Parallel path by the metal frame, measured with it lifted off as well"


def asked(made: Job, box: str) -> Finding:
    return next(each for each in findings_of(made) if each.place.box == box and each.severity is Severity.ASK)


def answered(made: Job, finding: Finding) -> Job:
    return done(made, Explain.of(finding, reason=WHY, by="Ada Fenn", on=ON))


def is_open(made: Job, finding: Finding) -> bool:
    return finding.id in {each.id for each in assess(made).reasons if each.kind is ReasonKind.QUESTION}


def test_a_reworded_sentence_leaves_the_answer_standing(monkeypatch: pytest.MonkeyPatch) -> None:
    made = job({"ir_earth": "1.4"})
    kept = answered(made, asked(made, "ir_earth"))
    monkeypatch.setitem(dict_of(), "insulation.low", Sentence("Only {reading} MΩ. Look into it"))
    (finding,) = [each for each in findings_of(kept) if each.place.box == "ir_earth"]
    assert finding.says == "Only 1.4 MΩ. Look into it"
    assert explanation_of(kept, finding)


def dict_of() -> dict[str, Sentence]:
    assert isinstance(SENTENCES, dict)
    return SENTENCES


@pytest.mark.parametrize(
    "change",
    [
        ("b1", "c1", "zs", "0.10"),
        ("b1", "", "zs", "0.33"),
    ],
)
def test_another_reading_asked_about_voids_the_answer(change: tuple[str, str, str, str]) -> None:
    made = job({"zs": "0.11"})
    finding = asked(made, "zs")
    kept = answered(made, finding)
    assert not is_open(kept, finding)
    board, circuit, box, text = change
    assert is_open(
        done(kept, Enter(place=Place(section="boards", board=board, circuit=circuit, box=box), text=text)), finding
    )


def test_what_it_was_not_about_leaves_it_standing() -> None:
    made = job({"zs": "0.11"})
    finding = asked(made, "zs")
    kept = answered(made, finding)
    for box, text in (("designation", "CU 7"), ("phases", "1")):
        kept = done(kept, Enter(place=Place(section="boards", board="b1", box=box), text=text))
    assert not is_open(kept, finding)


def test_two_questions_of_one_box_are_answered_one_by_one() -> None:
    made = job({"shape": "ring", "rating": "40", "zs": "0.70", "live_csa": "1.5"})
    of_ring = [each for each in findings_of(made) if each.check == "overload"]
    assert len({each.case for each in of_ring}) > 1
    kept = made
    for each in of_ring:
        kept = answered(kept, each)
    assert not any(is_open(kept, each) for each in of_ring)
    taken_back = done(kept, Explain.of(of_ring[0], reason="", by="Ada Fenn", on=ON))
    assert [is_open(taken_back, each) for each in of_ring] == [True, *[False] * (len(of_ring) - 1)]


def test_no_two_findings_of_a_job_are_known_by_the_same() -> None:
    for case in CASES:
        known = Counter((each.id, each.place) for each in judged(case)[1])
        assert known.most_common(1)[:1] == [] or known.most_common(1)[0][1] == 1, case["job"]


def test_an_answer_of_the_layout_without_cases_stands_while_the_figure_it_measured_does() -> None:
    made = job({"ir_earth": "1.4"})
    document = json.loads(job_to_json(made))
    document["explanations"] = [
        {
            "check": "insulation",
            "place": {"section": "boards", "board": "b1", "circuit": "c1", "box": "ir_earth"},
            "measured": "1.4 MΩ",
            "reason": WHY,
            "by": "Ada Fenn",
            "on": ON.isoformat(),
        }
    ]
    old = job_from_json(json.dumps(document))
    assert not is_open(old, asked(made, "ir_earth"))
    assert json.loads(canonical(old))["explanations"] == json.loads(job_to_json(old))["explanations"]
    assert document["explanations"][0].keys() <= json.loads(job_to_json(old))["explanations"][0].keys()
    assert "case" not in canonical(old).decode()
    again = done(old, Enter(place=asked(made, "ir_earth").place, text="1.5"))
    assert is_open(again, asked(made, "ir_earth"))
    anew = answered(again, asked(again, "ir_earth"))
    assert [each.case for each in anew.explanations] == ["low"]


def test_an_answer_about_phase_sequence_stands_though_a_check_of_its_own_asks_now() -> None:
    made = job({}, board={"phases": "3", "phase_sequence": "N/A"}, supply={"live_conductors": "AC 3-phase 4-wire"})
    finding = asked(made, "phase_sequence")
    assert finding.id == "phase-sequence.marked-n-a"
    old = Explain.of(finding, reason=WHY, by="Ada Fenn", on=ON).model_copy(
        update={"check": "supply-fits", "case": "", "typed": {}}
    )
    assert not is_open(done(made, old), finding)


def test_a_complete_certificate_comes_back_from_its_document_to_the_byte() -> None:
    made = answered(job({"ir_earth": "1.4"}), asked(job({"ir_earth": "1.4"}), "ir_earth"))
    assert canonical(job_from_json(job_to_json(made))) == canonical(made)
    assert b"set_by" not in canonical(complete_certificate())
