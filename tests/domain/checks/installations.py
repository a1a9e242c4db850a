"""Small installations and what is found on them, as the case files tell them."""

import tomllib
from functools import cache
from pathlib import Path
from typing import Any

from domain.checks import findings_of
from domain.edition import Edition
from domain.job.finding import Finding
from domain.job.job import SECTIONS, Job
from domain.job.place_in_words import described

FOLDER = Path(__file__).parents[2] / "cases"


def told(pattern: str, kind: str) -> list[dict[str, Any]]:
    """The entries of one kind in the case files."""
    return [entry for file in sorted(FOLDER.glob(pattern)) for entry in _parsed(file).get(kind, ())]


@cache
def _parsed(file: Path) -> dict[str, Any]:
    return tomllib.loads(file.read_text(encoding="utf-8"))


INSTALLATIONS = {entry["name"]: entry for entry in told("check_installations*.toml", "installation")}
INSPECTED = {entry["name"]: entry for entry in told("whole_jobs_*.toml", "inspected")}
"""Installations with the marks of their inspection beside them."""
CASES = [
    *INSTALLATIONS.values(),
    *told("check_*.toml", "case"),
    *INSPECTED.values(),
    *told("whole_jobs_*.toml", "case"),
]


def job_of(case: dict[str, Any]) -> Job:
    """The job of an installation, inspected or not, or of a case that changes some boxes or marks of one."""
    inspected = INSPECTED.get(case.get("inspected", "")) or INSPECTED.get(case.get("name", ""))
    base = INSTALLATIONS[(inspected or case).get("installation") or case["name"]]
    paper = case.get("paper") or (inspected or base).get("paper", base["paper"])
    made: dict[str, Any] = {
        "chosen": {"form_set": paper, "answers": case.get("answers", {})},
        "edition": Edition[case.get("edition", base.get("edition", "A2"))],
        "boards": [_board(each) for each in base["board"]],
        **{section: dict(base[section]) for section in SECTIONS if section in base},
    }
    if inspected:
        made["inspection"] = _marks(inspected, Job.model_validate(made))
        made["observations"] = inspected.get("observation", [])
    changes = (inspected or {}).get("change", {}) | case.get("change", {})
    for where, text in changes.items():
        _change(made, where, text)
    return Job.model_validate(made)


def _marks(inspected: dict[str, Any], job: Job) -> list[dict[str, str]]:
    """Every item ticked but those listed under another mark."""
    others = {item: mark for mark, items in inspected["marks"].items() for item in items}
    return [{"item": each.number, "mark": others.get(each.number, "✓")} for each in job.items]


_JUDGED: dict[int, tuple[dict[str, Any], Job, tuple[Finding, ...]]] = {}


def judged(case: dict[str, Any]) -> tuple[Job, tuple[Finding, ...]]:
    """The job of an entry of the case files and what is found on it, judged once for all tests that ask."""
    if id(case) not in _JUDGED:
        job = job_of(case)
        _JUDGED[id(case)] = case, job, findings_of(job)
    return _JUDGED[id(case)][1:]


def found_in(case: dict[str, Any]) -> list[tuple[str, str, str]]:
    """Severity, place and sentence of every finding on the job of an entry."""
    job, found = judged(case)
    return [(str(each.severity), described(job, each.place), each.says) for each in found]


def _board(board: dict[str, Any]) -> dict[str, Any]:
    heading, *rows = [[cell.strip() for cell in line.split("|")] for line in board["circuits"].strip().splitlines()]
    circuits = [dict(zip(heading, row, strict=True)) for row in rows]
    every = board.get("every", {})
    used = [each if each["shape"] == "spare" else every | {k: v for k, v in each.items() if v} for each in circuits]
    return {k: v for k, v in board.items() if k not in {"every", "circuits"}} | {"circuits": used}


def _change(made: dict[str, Any], where: str, text: str) -> None:
    """`supply ze`, `DB1 zs` for a board's header, or `DB1 3 zs` for a circuit; `*` stands for every circuit or item.

    `item 4.19` is the mark of an inspection item.
    """
    *owner, box = where.split()
    if owner == ["item"]:
        marked = [each for each in made["inspection"] if box in {"*", each["item"]}]
        assert marked, f"there is no item {box}"
        for each in marked:
            each["mark"] = text
        return
    if owner[0] in SECTIONS:
        made.setdefault(owner[0], {})[box] = text
        return
    (board,) = [each for each in made["boards"] if each["designation"] == owner[0]]
    if len(owner) == 1:
        board[box] = text
        return
    chosen = [each for each in board["circuits"] if owner[1] in {"*", each["number"]} and each["shape"] != "spare"]
    assert chosen, f"{where} is no place of {board['designation']}"
    for circuit in chosen:
        circuit[box] = text
