"""Jobs for tests, made through the same commands a person's keys make: each once, since a job never changes."""

from collections.abc import Mapping
from datetime import UTC, date, datetime
from functools import cache

from domain.editing.commands import (
    AddCircuit,
    Command,
    Declined,
    Enter,
    Observe,
    RaiseSnag,
    RecordAction,
    SetOutcome,
    Sign,
)
from domain.editing.reducer import apply
from domain.forms.choice.chosen import ChosenPapers
from domain.forms.form_set import FormSet
from domain.inspection.checklist import items_for
from domain.inspection.item_outcome import InspectionOutcome
from domain.inspection.observation import Code, ImmediateAction
from domain.job.job import Job
from domain.job.start import new_job
from domain.place import Place

ON = date(2026, 3, 2)
AT = datetime(2026, 3, 2, 16, 30, tzinfo=UTC)
INSPECTOR = "Tamsin Orchard"
MADE_SAFE = ImmediateAction(
    made_safe=True, how="Switched off and locked", told="Zoë Fairweather", told_at="02/03/2026 15:10"
)
"""What was done at once about a C1."""

_PARTIES: Mapping[str, Mapping[str, str]] = {
    "client": {
        "name": "Zoë Fairweather",
        "address": "3 Larkspur Court\nWetherham",
        "postcode": "WQ3 4ZZ",
    },
    "premises": {"address": "The Old Forge\n12 Tanner's Row\nWetherham", "postcode": "WQ7 1AB", "use": "domestic"},
    "firm": {"name": "Harebell Electrical", "address": "Unit 4, Mill Yard\nWetherham WQ1 2CD"},
    "instruments": {"multifunction": "MFT-20417"},
    "supply": {"system": "TN-C-S"},
    "earthing": {
        "conductor_verified": "Y",
        "bonding_verified": "Y",
        "bonded_water": "Y",
        "bonded_gas": "Y",
        "bonded_oil": "N/A",
        "bonded_steel": "N/A",
        "bonded_other": "N/A",
    },
}
_CERTIFIED_WORK = {
    "completed_on": "02/03/2026",
    "departures": "None",
    "exceptions": "None",
    "comments": "None",
}
_SCHEDULED: Mapping[str, Mapping[str, str]] = {
    "supply": {
        "live_conductors": "AC 1-phase 2-wire",
        "polarity": "Y",
        "voltage": "230",
        "voltage_to_earth": "230",
        "frequency": "50",
        "nominal_by": "enquiry",
        "ipf": "1.24",
        "ipf_by": "measured",
        "ze": "0.21",
        "ze_by": "measured",
        "device_standard": "BS 88-3",
        "device_type": "gG",
        "device_rating": "80",
        "other_sources": "None",
    },
    "earthing": {
        "means": "distributor's facility",
        "maximum_demand": "60 A",
        "conductor_material": "copper",
        "conductor_csa": "16",
        "bonding_material": "copper",
        "bonding_csa": "10",
        "bonded_lightning": "N/A",
    },
    "main_switch": {
        "location": "Hall cupboard",
        "standard": "BS EN 60947-3",
        "poles": "2",
        "current_rating": "100",
        "fuse_rating": "N/A",
        "voltage_rating": "230",
        "rcd_type": "N/A",
    },
}
_BOARD = {
    "designation": "DB1",
    "location": "Hall cupboard",
    "zs": "0.21",
    "spd_type": "T2",
    "spd_indicator": "Y",
}
_SCHEDULED_BOARD = {
    "supplied_from": "Origin",
    "phases": "1",
    "device_standard": "N/A",
    "device_type": "N/A",
    "device_rating": "N/A",
    "ipf": "1.24",
    "polarity": "Y",
    "phase_sequence": "N/A",
    "tested_by": INSPECTOR,
    "tested_on": "02/03/2026",
}
_ANY_CIRCUIT = {
    "wiring": "A",
    "method": "C",
    "device_standard": "BS EN 61009",
    "device_type": "B",
    "breaking_capacity": "6",
    "rcd_standard": "BS EN 61009",
    "rcd_type": "A",
    "rcd_idn": "30",
    "test_voltage": "500",
    "ir_live": ">999",
    "ir_earth": ">999",
    "polarity": "Y",
    "rcd_time": "24",
    "rcd_button": "Y",
    "afdd_button": "N/A",
}
RING_CIRCUIT = _ANY_CIRCUIT | {
    "number": "1",
    "description": "Kitchen sockets",
    "shape": "ring",
    "points": "8",
    "live_csa": "2.5",
    "cpc_csa": "1.5",
    "rating": "32",
    "rcd_rating": "32",
    "ring_r1": "0.42",
    "ring_rn": "0.42",
    "ring_r2": "0.70",
    "r1_r2": "0.28",
    "zs": "0.49",
}
_NOT_THERE = {"initial": {"2", "14"}, "periodic": {"2.0", "3.2", "4.11", "4.21", "4.22", "8"}}
"""The items of a checklist about what the made jobs do not have: an electrode, another source."""
_ONE_CIRCUIT = {"disconnection_time": "0.4", "afdd_standard": "N/A"}
RADIAL_CIRCUIT = _ANY_CIRCUIT | {
    "number": "2",
    "description": "Lights, ground floor",
    "shape": "radial",
    "points": "11",
    "live_csa": "1.5",
    "cpc_csa": "1.0",
    "rating": "6",
    "rcd_rating": "6",
    "r1_r2": "0.96",
    "zs": "1.17",
}


@cache
def fresh(form_set: FormSet) -> Job:
    """A job as it begins."""
    return new_job(ChosenPapers(form_set=form_set), on=ON)


def done(job: Job, *commands: Command) -> Job:
    """The job after commands that must be accepted."""
    for command in commands:
        after = apply(job, command)
        assert not isinstance(after, Declined), f"{command}: {after.says}"
        job = after
    return job


def enter(section: str, box: str, text: str) -> Enter:
    """The command for a text typed into a box of a section."""
    return Enter(place=Place(section=section, box=box), text=text)


def entered(job: Job, boxes: Mapping[str, str], *, section: str = "boards", board: str = "", circuit: str = "") -> Job:
    """The job with texts typed into the boxes of one section, board or circuit."""
    place = Place(section=section, board=board, circuit=circuit)
    return done(
        job, *(Enter(place=place.model_copy(update={"box": box}), text=text) for box, text in boxes.items() if text)
    )


def signed(job: Job, *, name: str = INSPECTOR, at: datetime = AT) -> Job:
    """The job with every signature its papers need."""
    return done(job, *(Sign(role=role, name=name, position="Electrician", at=at) for role in job.roles))


def snagged(job: Job, what: str = "Grommet missing at the board") -> Job:
    """The job with one open snag more; its signatures fall."""
    return done(job, RaiseSnag(what=what, by=INSPECTOR, on=ON))


@cache
def complete_minor_works(*, sign: bool = True) -> Job:
    """A minor works job with every gap filled: one socket added to a ring."""
    job = _with_pages(fresh(FormSet.MEIWC), _PARTIES)
    job = entered(job, _CERTIFIED_WORK | {"description": "One double socket added to the kitchen ring"}, section="work")
    job = entered(job, _BOARD | {"kind": "Consumer unit, metal"}, board="b1")
    job = entered(job, RING_CIRCUIT | _ONE_CIRCUIT, board="b1", circuit="c2")
    return signed(job) if sign else job


@cache
def complete_certificate(*, sign: bool = True) -> Job:
    """A certificate with every gap filled: two new circuits of one board, all inspection items passed or N/A."""
    work = _CERTIFIED_WORK | {
        "kind": "an addition",
        "construction_departures": "None",
        "inspection_departures": "None",
        "description": "Kitchen rewired: a ring and a lighting circuit",
        "extent": "Both circuits, from the board to the last point. The rest was not looked at.",
        "next_inspection": "10 years",
    }
    job = entered(_with_schedules(FormSet.EIC), work, section="work")
    return signed(job) if sign else job


@cache
def complete_report(*codes: Code, sign: bool = True) -> Job:
    """A report with every gap filled, all inspection items passed, and one observation for each code."""
    job = entered(
        _with_schedules(FormSet.EICR),
        {
            "age": "20 years",
            "alterations": "no",
            "occupier": "The client",
            "records": "None seen",
            "records_held_by": "N/A",
            "last_inspection": "Not known",
            "last_report": "Not known",
        },
        section="premises",
    )
    report = {
        "reason": "New tenancy",
        "inspected_on": "02/03/2026",
        "extent": "Both circuits, every point.",
        "agreed_limitations": "None",
        "operational_limitations": "None",
        "general_condition": "Sound, with signs of ordinary wear.",
        "next_inspection": "5 years",
        "interval_reason": "Rented dwelling.",
    }
    job = entered(job, report, section="report")
    job = done(job, *(Observe(finding=f"Invented finding, coded {code}", code=code, where="Hall") for code in codes))
    dangers = (each.id for each in job.observations if each.code is Code.C1)
    job = done(job, *(RecordAction(observation=each, action=MADE_SAFE) for each in dangers))
    return signed(job) if sign else job


def _with_pages(job: Job, pages: Mapping[str, Mapping[str, str]]) -> Job:
    for section, boxes in pages.items():
        job = entered(job, boxes, section=section)
    return job


def _with_schedules(form_set: FormSet) -> Job:
    job = _with_pages(_with_pages(fresh(form_set), _PARTIES), _SCHEDULED)
    job = entered(job, _BOARD | _SCHEDULED_BOARD, board="b1")
    job = entered(job, RING_CIRCUIT, board="b1", circuit="c2")
    job = done(job, AddCircuit(board="b1"))
    job = entered(job, RADIAL_CIRCUIT, board="b1", circuit=job.boards[0].circuits[-1].id)
    return done(
        job,
        *(
            SetOutcome(
                item=item.number,
                mark=InspectionOutcome.NOT_APPLICABLE
                if item.lists or item.number in _NOT_THERE[form_set.profile.checklist]
                else InspectionOutcome.PASS,
            )
            for item in items_for(form_set, job.edition)
        ),
    )
