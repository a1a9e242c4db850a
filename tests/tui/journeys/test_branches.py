"""Each branch once through: the real command, keys only, from the first question to the pack that is found again.

Minor works goes the whole way in one; of the two large ones what is keyed in and what comes after are a test each.
"""

import getpass
import re
from pathlib import Path
from typing import Any

import pymupdf
from pydantic import BaseModel

from domain.dates import date_in, written
from domain.forms.form_set import FormSet
from domain.job.box import BoxKind, boxes_of, typed_in
from domain.job.circuit import Circuit
from domain.job.job import Job, sections_for
from domain.job.reading import Reading
from storage.sqlite_job_log import SqliteJobLog
from tests.builders import AT, complete_certificate, complete_minor_works, complete_report
from tests.tui.commands import command_line
from tests.tui.journeys.hands import (
    DETAILS,
    RESULTS,
    asked,
    mark_items,
    one_line,
    type_boxes,
    type_circuits,
    type_details,
)
from tests.tui.terminal import Terminal


def ohmfolio(home: Path, *arguments: str) -> Any:
    """What a command prints with --json."""
    return command_line.ohmfolio(*arguments, "--json", home=home).value


def text_of(pdf: Path) -> str:
    """All words of a pack, as somebody copying from it would get them."""
    with pymupdf.open(pdf) as document:
        return " ".join(" ".join(page.get_text().split()) for page in document)


def typed_texts(job: Job) -> list[str]:
    """Everything a journey types, as the paper should show it."""
    owners: list[BaseModel] = [getattr(job, section) for section in sections_for(job.form_set)]
    owners += [job.boards[0], *job.boards[0].circuits]
    texts = []
    for owner in owners:
        for name in asked(type(owner), job.form_set):
            text = one_line(typed_in(owner, name))
            kind = boxes_of(type(owner))[name].kind
            measured = kind in {BoxKind.READING, BoxKind.NUMBER, BoxKind.TICK}
            texts.append(Reading.of(text).shown if measured else text)
    return [text for text in texts if text]


def sign_and_issue(terminal: Terminal, name: str, roles: int) -> None:
    """On the last step: sign every role, one act each, then issue into the folder that is offered."""
    terminal.press("f9")
    for role in range(roles):
        terminal.until("Signatures")
        terminal.press("enter")
        if not role:
            terminal.send(f"{name}\rElectrician\r")
        else:
            terminal.press("enter", "enter")
        terminal.until(f"{roles - role - 1} still to be signed" if role < roles - 1 else "ready to issue")
        terminal.press("down")
    terminal.send("i")
    terminal.until("Folder for the pack")
    terminal.press("enter")
    terminal.until("SHA-256", "issued")


def _as_printed(typed: str) -> str:
    """Days are written out on paper."""
    day = date_in(typed)
    return written(day) if day else " ".join(typed.split())


def assert_issued_and_found(home: Path, job: Job, number: str, outcome: str) -> None:
    """The pack holds every typed text, the log finds the job by its client, and says how it ended."""
    pdf = home / "packs" / f"{number}-{job.form_set}" / f"{number}-{job.form_set}.pdf"
    text = text_of(pdf)
    missing = [each for each in typed_texts(job) if _as_printed(each) not in text]
    assert not missing
    pages = [int(total) for total in re.findall(r"page \d+ of (\d+)", text)]
    assert set(pages) == {len(pages)}
    assert "DRAFT" not in text
    (line,) = ohmfolio(home, "find", *job.client.name.split())
    assert (line["number"], line["form_set"], line["state"], line["outcome"]) == (
        number,
        job.form_set,
        "issued",
        outcome,
    )


def logged(home: Path, job: Job) -> str:
    """The number of a job that was keyed in before, each text on one line, by whoever sits here."""
    log = SqliteJobLog.open(home)
    typed = Job.model_validate_json(job.model_dump_json().replace(r"\n", ", "))
    number = log.create(typed, who=getpass.getuser(), at=AT).number
    log.close()
    return number


def test_a_new_circuit_is_keyed_in_from_the_first_question_until_only_signatures_hold_its_certificate(
    tmp_path: Path,
) -> None:
    job = complete_certificate()
    with Terminal(home=tmp_path) as terminal:
        terminal.until("What was done?")
        terminal.send("n").until("Did the people who will sign")
        terminal.send("y").until("Electrical Installation Certificate", "Not MEIWC", "Not EICR")
        terminal.press("enter")
        terminal.until("no number yet EIC")
        type_details(terminal, job)
        terminal.press("f4")
        type_circuits(terminal, job, DETAILS)
        terminal.press("f5")
        type_circuits(terminal, job, RESULTS)
        terminal.press("f6")
        mark_items(terminal, job)
        terminal.press("f8")
        terminal.until("3 to sign before issue", "Not signed yet (3)")
    kept = ohmfolio(tmp_path, "hand-over", "A-0001")
    assert not set(typed_texts(job)) - set(typed_texts(Job.model_validate(kept)))


def test_a_certificate_that_is_keyed_in_is_signed_by_three_issued_and_found(tmp_path: Path) -> None:
    job = complete_certificate()
    number = logged(tmp_path, job)
    with Terminal(home=tmp_path) as terminal:
        terminal.until("or go on with a job", number)
        terminal.press("enter").until("F3 Details")
        sign_and_issue(terminal, "Tamsin Orchard", roles=3)
    assert_issued_and_found(tmp_path, job, number, "complies")


def test_minor_works_goes_on_after_the_program_was_killed_in_the_middle(tmp_path: Path) -> None:
    job = complete_minor_works()
    with Terminal(home=tmp_path) as terminal:
        terminal.until("What was done?")
        terminal.send("a").until("Did the people who will sign")
        terminal.send("y").until("How many existing circuits")
        terminal.send("1").until("earthing")
        terminal.send("y").until("Minor Electrical Installation Works Certificate", "Or EIC", "Not EICR")
        terminal.press("enter")
        terminal.until("no number yet MEIWC")
        type_details(terminal, job)
        terminal.press("f4")
        terminal.until("Circuit number")
        kept = ohmfolio(tmp_path, "check", "A-0001")
        terminal.kill()

    with Terminal(home=tmp_path) as terminal:
        terminal.until("or go on with a job", *job.client.name.split())
        assert ohmfolio(tmp_path, "check", "A-0001") == kept
        terminal.press("enter")
        terminal.until("A-0001 MEIWC")
        circuit = job.boards[0].circuits[0]
        for key, among in (("f4", DETAILS), ("f5", RESULTS)):
            terminal.press(key)
            type_boxes(terminal, circuit, asked(Circuit, FormSet.MEIWC, among))
        sign_and_issue(terminal, "Tamsin Orchard", roles=1)
        terminal.send("v").until("File to verify")
        terminal.press("enter").until("is unaltered")
        terminal.send("v").until("File to verify")
        terminal.send("/nowhere.pdf\r").until("cannot be verified", gone="is unaltered")
    assert_issued_and_found(tmp_path, job, "A-0001", "complies")


def test_an_inspection_is_keyed_in_and_a_dropped_line_loses_nothing(tmp_path: Path) -> None:
    job = complete_report()
    with Terminal(home=tmp_path) as terminal:
        terminal.until("What was done?")
        terminal.send("i").until("Electrical Installation Condition Report", "Not EIC", "Not MEIWC")
        terminal.press("enter")
        terminal.until("no number yet EICR")
        type_details(terminal, job)
        terminal.press("f4")
        type_circuits(terminal, job, DETAILS)
        terminal.press("f5")
        type_circuits(terminal, job, RESULTS)
        terminal.press("f6")
        mark_items(terminal, job)
        terminal.until("to be signed")
        kept = ohmfolio(tmp_path, "check", "A-0001")
        terminal.hang_up()
        assert terminal.ended() != 0

    with Terminal(home=tmp_path) as terminal:
        terminal.until("or go on with a job")
        assert ohmfolio(tmp_path, "check", "A-0001") == kept
        terminal.press("enter")
        terminal.until("A-0001 EICR")


def test_an_inspection_with_a_c2_is_issued_as_unsatisfactory(tmp_path: Path) -> None:
    job = complete_report()
    number = logged(tmp_path, job)
    with Terminal(home=tmp_path) as terminal:
        terminal.until("or go on with a job", number)
        terminal.press("enter")
        terminal.until(f"{number} EICR")
        terminal.press("f6", "home", "down", "down")
        terminal.send("2")
        terminal.until("C2")
        terminal.send("No main bond to the incoming gas pipe\r").press("ctrl+o")
        terminal.until("saved")
        sign_and_issue(terminal, "Tamsin Orchard", roles=2)
        terminal.until("unsatisfactory")
    assert_issued_and_found(tmp_path, job, number, "unsatisfactory")
    pdf = tmp_path / "packs" / f"{number}-EICR" / f"{number}-EICR.pdf"
    assert "No main bond to the incoming gas pipe" in text_of(pdf)
