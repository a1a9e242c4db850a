"""Jobs for the checks to look at: a sound board, and what is changed on it."""

from typing import Any

from domain.checks import findings_of
from domain.job.finding import Finding, Severity
from domain.job.job import Job

SOUND_RADIAL: dict[str, Any] = {
    "id": "c1",
    "number": "1",
    "description": "Immersion heater",
    "shape": "radial",
    "wiring": "A",
    "method": "C",
    "points": "1",
    "live_csa": "2.5",
    "cpc_csa": "1.5",
    "device_standard": "BS EN 60898",
    "device_type": "B",
    "rating": "16",
    "breaking_capacity": "6",
    "rcd_standard": "N/A",
    "r1_r2": "0.30",
    "r2": "N/A",
    "test_voltage": "500",
    "ir_live": ">999",
    "ir_earth": ">999",
    "polarity": "y",
    "zs": "0.62",
    "rcd_time": "N/A",
    "rcd_button": "N/A",
    "afdd_button": "N/A",
}
RCD_30 = {
    "device_standard": "BS EN 61009",
    "rcd_standard": "BS EN 61009",
    "rcd_type": "A",
    "rcd_idn": "30",
    "rcd_rating": "16",
    "rcd_time": "24",
    "rcd_button": "y",
}
RING = {
    "shape": "ring",
    "rating": "32",
    "ring_r1": "0.60",
    "ring_rn": "0.61",
    "ring_r2": "1.00",
    "r1_r2": "0.40",
    "zs": "0.70",
}


def job(
    *circuits: dict[str, Any], form_set: str = "EIC", edition: str = "BS 7671:2018+A2:2022", **sections: Any
) -> Job:
    """A job on a PME supply with one board at the origin; each circuit is the sound radial with changes."""
    made = [
        SOUND_RADIAL | {"id": f"c{row}", "number": str(row)} | circuit
        for row, circuit in enumerate(circuits or ({},), start=1)
    ]
    board = {"id": "b1", "designation": "DB1", "supplied_from": "origin", "phases": "1", "zs": "0.32", "ipf": "0.8"}
    document = {
        "chosen": {"form_set": form_set},
        "edition": edition,
        "next_id": 100,
        "supply": {
            "system": "TN-C-S",
            "live_conductors": "AC 1-phase 2-wire",
            "voltage_to_earth": "230",
            "ze": "0.30",
            "ze_by": "measured",
            "ipf": "0.8",
            "ipf_by": "measured",
            "polarity": "y",
            "device_standard": "BS 88-3",
            "device_rating": "100",
        }
        | sections.pop("supply", {}),
        "boards": [board | sections.pop("board", {}) | {"circuits": made}, *sections.pop("more_boards", [])],
    }
    return Job.model_validate(document | sections)


def found(made: Job, box: str, *, check: str = "") -> list[Finding]:
    """What the checks say of a box."""
    return [each for each in findings_of(made) if each.place.box == box and check in ("", each.check)]


def verdict(made: Job, box: str, *, check: str = "") -> str:
    """The gravest word on a box: fails, ask, note, or passes."""
    severities = {each.severity for each in found(made, box, check=check)}
    return next((str(each) for each in Severity if each in severities), "passes")
