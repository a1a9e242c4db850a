"""A job: everything one certificate or report is made from."""

import hashlib
import json
from collections import Counter
from collections.abc import Mapping
from typing import Annotated, Any, Literal, cast

from pydantic import BaseModel, Field, model_validator

from domain.edition import Edition
from domain.forms.choice.chosen import ChosenPapers
from domain.forms.form_set import FormSet
from domain.forms.profile import FormProfile
from domain.inspection.checklist import ChecklistItem, checklist_for, items_for
from domain.inspection.extent import Extent
from domain.inspection.item_outcome import ItemOutcome
from domain.inspection.observation import Observation
from domain.inspection.own_item import OwnItem
from domain.job.board import Board
from domain.job.box import boxes_of
from domain.job.circuit import Circuit
from domain.job.condition_report import Report
from domain.job.earthing import Earthing
from domain.job.explanation import Explanation
from domain.job.extent import extent_of
from domain.job.identity import with_ids
from domain.job.instrument import Instruments
from domain.job.job_number import JobNumber
from domain.job.logo import Logo
from domain.job.main_switch import MainSwitch
from domain.job.people import Client, Firm, Premises
from domain.job.picture import PICTURES_MAX, JobPicture
from domain.job.schema_version import SCHEMA_VERSION
from domain.job.seal_key import SealedWith
from domain.job.signatories import Signatories
from domain.job.signature import Role, Signature, roles_for
from domain.job.snag import Snag
from domain.job.supply import Supply
from domain.job.work import Work
from domain.place import Place
from domain.value import Line, Moment, Value, is_empty

BOARDS_MAX = 200
ENTRIES_MAX = 2000
UNCONFIRMED_MAX = 20_000
ID_MAX = 1_000_000_000
"""The number of an id has nine figures at most."""


class IssueStamp(Value):
    """That, when and by whom a job was issued; set by the gate alone."""

    at: Moment
    by: Line
    head: Line = ""
    """The log's chain when this was issued, in hexadecimal; "" where no log issued it."""
    set_by: Annotated[Line, Field(exclude_if=is_empty)] = ""
    """What set its paper: program, and a mark of all that decides what the pages hold; "" on papers older than this."""
    sealed_with: Annotated[SealedWith | None, Field(exclude_if=is_empty)] = None
    """The key that the log signs the seal with; None where it has none."""
    logo: Annotated[Logo | None, Field(exclude_if=is_empty)] = None
    """In the letterhead, as the register of firms had it then."""
    page_sha256: Annotated[Line, Field(exclude_if=is_empty)] = ""
    """Of the web page beside the paper, with the digest of that left out of account; "" on papers older than this."""
    table_sha256: Annotated[Line, Field(exclude_if=is_empty)] = ""
    """Of the table of schedules beside it; "" where there is none, and on papers older than this."""


def _is_false(held: bool) -> bool:  # noqa: FBT001 - pydantic hands the value over
    return not held


class Job(Value):
    """One job. All else (findings, gaps, outcome, sheets) is computed from it, never stored."""

    schema_version: Literal[1] = Field(default=SCHEMA_VERSION, description="Version of this document's layout.")
    number: JobNumber = Field(default="", description="Given by the job log; empty until then.")
    chosen: ChosenPapers
    edition: Edition
    edition_named: Line = Field(
        default="",
        exclude_if=is_empty,
        description="Edition and amendment as the person names them, where it is an earlier one.",
    )
    client: Client = Client()
    premises: Premises = Premises()
    work: Work = Work()
    report: Report = Report()
    firm: Firm = Firm()
    signatories: Signatories = Signatories()
    instruments: Instruments = Instruments()
    supply: Supply = Supply()
    earthing: Earthing = Earthing()
    main_switch: MainSwitch = MainSwitch()
    boards: Annotated[tuple[Board, ...], Field(max_length=BOARDS_MAX, fail_fast=True)] = ()
    inspection: Annotated[tuple[ItemOutcome, ...], Field(max_length=ENTRIES_MAX, fail_fast=True)] = ()
    own_items: Annotated[tuple[OwnItem, ...], Field(max_length=ENTRIES_MAX, fail_fast=True)] = ()
    observations: Annotated[tuple[Observation, ...], Field(max_length=ENTRIES_MAX, fail_fast=True)] = ()
    snags: Annotated[tuple[Snag, ...], Field(max_length=ENTRIES_MAX, fail_fast=True)] = ()
    explanations: Annotated[tuple[Explanation, ...], Field(max_length=ENTRIES_MAX, fail_fast=True)] = ()
    signatures: Annotated[tuple[Signature, ...], Field(max_length=ENTRIES_MAX, fail_fast=True)] = ()
    unconfirmed: Annotated[
        tuple[Place, ...], Field(max_length=UNCONFIRMED_MAX, fail_fast=True, exclude_if=is_empty)
    ] = ()
    """The boxes whose text was put forward or carried over, and that nobody has said yes to since."""
    pictures: Annotated[
        tuple[JobPicture, ...], Field(max_length=PICTURES_MAX, fail_fast=True, exclude_if=is_empty)
    ] = ()
    replaces: Line = Field(default="", description="Number of the issued document that this one corrects.")
    replaces_because: Line = Field(default="", description="Why that document is corrected; it is printed.")
    laid_aside: bool = Field(
        default=False, exclude_if=_is_false, description="A draft that nobody works at now; it keeps its number."
    )
    next_id: Annotated[int, Field(ge=1, le=ID_MAX, strict=True)] = 1
    issued: IssueStamp | None = None

    @model_validator(mode="before")
    @classmethod
    def _ids_are_given(cls, given: object) -> object:
        """A document typed by hand need not number its parts: what lacks an id gets the next free one."""
        return with_ids(cast(dict[str, Any], given)) if isinstance(given, dict) else given

    @model_validator(mode="after")
    def _ids_are_unique(self) -> "Job":
        ids = [board.id for board in self.boards]
        ids += [circuit.id for board in self.boards for circuit in board.circuits]
        ids += [each.id for part in (self.snags, self.observations, self.pictures) for each in part]
        twice = [each for each, times in Counter(ids).items() if times > 1]
        if twice:
            raise ValueError(
                f"the id {min(twice)!r} is used twice; boards, circuits, snags and observations need ids of their own"
            )
        own = [each.item for each in self.own_items]
        checklist = checklist_for(self.form_set, self.edition)
        if len(set(own)) != len(own) or {*own} & {item.number for item in (checklist.items if checklist else ())}:
            raise ValueError("an added inspection item has a number that is taken")
        items = [outcome.item for outcome in self.inspection]
        if len(set(items)) != len(items):
            raise ValueError("an inspection item has two outcomes")
        if len({signature.role for signature in self.signatures}) != len(self.signatures):
            raise ValueError("a part of the work is signed for twice")
        return self

    @property
    def form_set(self) -> FormSet:
        """The papers this job ends in."""
        return self.chosen.form_set

    @property
    def profile(self) -> FormProfile:
        """What those papers are, and what they ask for."""
        return self.form_set.profile

    @property
    def edition_in_full(self) -> str:
        """The edition it is worked to, as papers name it."""
        named = self.edition_named.strip()
        return named if named and self.edition is Edition.EARLIER else self.edition.value

    @property
    def amended_to(self) -> str:
        """The amendment that a declaration names: the edition's own, or as the person names it."""
        return self.edition.facts.amended_to or self.edition_named.strip()

    @property
    def roles(self) -> tuple[Role, ...]:
        """The parts of the work that its papers need signed."""
        return roles_for(self.form_set, shared_design=self.signatories.design_is_shared)

    @property
    def signers(self) -> tuple[str, ...]:
        """The names it was signed with."""
        return tuple(signature.name for signature in self.signatures)

    def board(self, board_id: str) -> Board | None:
        """The board with this id."""
        return next((board for board in self.boards if board.id == board_id), None)

    def circuits(self) -> tuple[tuple[Board, Circuit], ...]:
        """Every circuit with its board, in schedule order."""
        return tuple((board, circuit) for board in self.boards for circuit in board.circuits)

    @property
    def items(self) -> tuple[ChecklistItem, ...]:
        """What is inspected, in walking order: the list of the form set, then what was added for these premises."""
        marked = {outcome.item for outcome in self.inspection}
        listed = items_for(self.form_set, self.edition, self.extent, marked)
        return (*listed, *(own.listed for own in self.own_items))

    @property
    def extent(self) -> tuple[Extent, ...]:
        """How far the installation goes beyond a home of one board, where the list for its papers hangs on that."""
        checklist = checklist_for(self.form_set, self.edition)
        return extent_of(self.boards, self.supply, checklist.larger) if checklist and checklist.larger else ()

    @property
    def list_named(self) -> str:
        """What the list it is inspected by is called; "" where it has none."""
        checklist = checklist_for(self.form_set, self.edition)
        return checklist.name_for(self.extent) if checklist else ""

    @property
    def open_snags(self) -> tuple[Snag, ...]:
        """What still keeps a certificate back."""
        return tuple(snag for snag in self.snags if snag.is_open)


SECTIONS: Mapping[str, type[BaseModel]] = {
    "client": Client,
    "premises": Premises,
    "work": Work,
    "report": Report,
    "firm": Firm,
    "signatories": Signatories,
    "instruments": Instruments,
    "supply": Supply,
    "earthing": Earthing,
    "main_switch": MainSwitch,
}
"""The parts of a job that are pages of boxes, in the order a person meets them."""

SECTION_TITLES: Mapping[str, str] = {
    "client": "Client",
    "premises": "Premises",
    "work": "The work",
    "report": "The report",
    "firm": "Firm",
    "signatories": "Signatories",
    "instruments": "Instruments",
    "supply": "Supply",
    "earthing": "Earthing and bonding",
    "main_switch": "Main switch",
    "boards": "Boards",
    "inspection": "Inspection",
    "signatures": "Signatures",
}


def sections_for(form_set: FormSet) -> tuple[str, ...]:
    """The pages of boxes that a form set asks for."""
    return tuple(
        name for name, section in SECTIONS.items() if any(box.is_asked(form_set) for box in boxes_of(section).values())
    )


def canonical(job: Job) -> bytes:
    """The job as bytes that are the same for the same content: sorted keys, no blanks, UTF-8."""
    return _sorted_bytes(job.model_dump(mode="json"))


def _sorted_bytes(held: object) -> bytes:
    return json.dumps(held, ensure_ascii=False, sort_keys=True, separators=(",", ":")).encode()


def record_hash(job: Job) -> str:
    """SHA-256 of the canonical bytes, in hexadecimal."""
    return hashlib.sha256(canonical(job)).hexdigest()


_taken: tuple[Job, str] | None = None


def fingerprint(job: Job) -> str:
    """SHA-256 of what a signature covers: all but the number a log gave, the signatures, the issue stamp and that it is laid aside.

    Boxes left as they were given are left out, so that a box that a later version adds lifts no signature.
    """
    global _taken
    held = _taken
    if held is None or held[0] is not job:
        held = _taken = (job, _fingerprint(job))
    return held[1]


def _fingerprint(job: Job) -> str:
    signed = job.model_copy(update={"number": "", "signatures": (), "issued": None, "laid_aside": False})
    held = signed.model_dump(mode="json", exclude_defaults=True)
    return hashlib.sha256(_sorted_bytes(held)).hexdigest()
