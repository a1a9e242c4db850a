"""Cautions stand where the hand is, by the job's own values, and nowhere else."""

import tomllib
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from domain.coach.cautions import cautions
from domain.coach.danger import dangers, dangers_at, dangers_in, dangers_of
from domain.coach.danger_conditions import CONDITIONS
from domain.editing.commands import Enter, Observe
from domain.forms.form_set import FormSet
from domain.inspection.observation import Code
from domain.job.board import Board
from domain.job.box import boxes_of
from domain.job.circuit import Circuit
from domain.job.job import SECTIONS, Job
from domain.place import Place
from tests.builders import complete_certificate, complete_minor_works, complete_report, done, enter, snagged

CASES: list[dict[str, Any]] = tomllib.loads(Path("tests/cases/dangers.toml").read_text(encoding="utf-8"))["case"]
BEGUN = {"EIC": complete_certificate, "EICR": complete_report, "MEIWC": complete_minor_works}
WAYS = ("ring", "radial")


def job_of(case: dict[str, Any]) -> Job:
    form = case["form"]
    job = complete_report(sign=False) if form == "EICR" else BEGUN[form](sign=False)
    for name, text in case.get("typed", {}).items():
        whose, box = name.split(".")
        board = job.boards[0]
        if whose in WAYS:
            place = Place(section="boards", board=board.id, circuit=board.circuits[WAYS.index(whose)].id, box=box)
            job = done(job, Enter(place=place, text=text))
        else:
            job = done(job, enter(whose, box, text))
    if "observed" in case:
        job = done(job, Observe(finding=case["observed"], code=Code.C2))
    return snagged(job, case["snag"]) if "snag" in case else job


def every_box(job: Job) -> Iterator[tuple[str, Place]]:
    for section, declared in SECTIONS.items():
        yield from ((f"{section}.{box}", Place(section=section, box=box)) for box in boxes_of(declared))
    board = job.boards[0]
    for box in boxes_of(Board):
        yield f"board.{box}", Place(section="boards", board=board.id, box=box)
    for whose, circuit in zip(WAYS, board.circuits, strict=False):
        for box in boxes_of(Circuit):
            yield f"{whose}.{box}", Place(section="boards", board=board.id, circuit=circuit.id, box=box)


@pytest.mark.parametrize("case", CASES, ids=lambda case: case["says"])
def test_a_caution_shows_where_it_bites_and_is_silent_elsewhere(case: dict[str, Any]) -> None:
    job = job_of(case)
    said = [f"{each.id} {name}" for name, place in every_box(job) for each in dangers_at(job, place)]
    assert sorted(said) == sorted(case["shows"])
    assert {each.id for each in dangers_of(job)} == {each.split()[0] for each in case["shows"]} | {
        *case.get("sheet", ())
    }


def test_every_caution_of_the_table_is_shown_by_a_case_and_every_condition_used() -> None:
    shown = {each.split()[0] for case in CASES for each in case["shows"]}
    assert shown == {each.id for each in dangers()}
    assert {each.when for each in dangers()} == CONDITIONS.keys()


def test_every_caution_stands_at_boxes_there_are_and_names_its_source() -> None:
    there = {f"{section}.{box}" for section, declared in SECTIONS.items() for box in boxes_of(declared)}
    there |= {f"board.{box}" for box in boxes_of(Board)} | {f"circuit.{box}" for box in boxes_of(Circuit)}
    for danger in dangers():
        assert set(danger.at) <= there, danger.id
        assert {key for key in danger.at if not _is_asked(key)} == set(), danger.id
        assert danger.source.table, danger.id
        assert danger.says.endswith("."), danger.id


def test_dead_is_proved_by_a_gs38_tester_that_is_proved_before_and_after() -> None:
    assert all(words in cautions()["dead"] for words in ("GS38", "proved before and after", "local rules"))


def test_live_work_names_its_regulation_and_its_three_conditions() -> None:
    # Electricity at Work Regulations 1989, regulation 14, as open copies of the HSE's memorandum of guidance (HSR25) have it.
    said = cautions()["live"]
    assert all(words in said for words in ("1989 Regulations, 14", "unreasonable", "suitable precautions"))


def test_a_caution_by_a_condition_nobody_knows_is_refused() -> None:
    row = '[[danger]]\nid = "a"\nat = ["supply.ze"]\nwhen = "{}"\nsays = "S."\nstandard = "x"\ntrust = "memory"\n'
    with pytest.raises(KeyError, match="full moon"):
        dangers_in(row.format("full moon"))
    with pytest.raises(ValueError, match="two dangers"):
        dangers_in(row.format("solar") * 2)


def _is_asked(key: str) -> bool:
    owner, _, box = key.partition(".")
    declared = {**SECTIONS, "board": Board, "circuit": Circuit}[owner]
    return all(boxes_of(declared)[box].is_asked(form) for form in (FormSet.EIC, FormSet.EICR))
