"""What a circuit feeds and where, as far as its description tells; and whether people live there."""

import re
from functools import lru_cache
from typing import NamedTuple

from domain.checks.shared.sources import sources_told
from domain.job.box import answers_in
from domain.job.circuit import Circuit
from domain.job.circuit_use import (
    BATHROOM,
    CHARGING_POINT,
    CONCEALED,
    EXTRA_LOW,
    FLOOR_HEATING,
    LIGHTING,
    OUTDOORS,
    SHOWER,
    SOCKETS,
    SOURCES,
    TOUCHED,
)
from domain.job.job import Job

_SOCKETS = re.compile(r"\bsockets?\b|\bsocket-outlets?\b|\bskts?\b|\bs/o\b|\bring (?:final|main)\b", re.I)
_OTHER_RINGS = re.compile(r"heat|lights?\b|lighting|boiler", re.I)
_OUTDOOR_POWER = re.compile(
    r"\b(?:garden|outdoors?|outside|external|yard|patio)\b.*\bpower\b|\bpower\b.*\b(?:garden|outdoors?|outside|yard)\b",
    re.I,
)
_OUTDOORS = re.compile(r"\b(?:garden|outdoors?|outside|external|yard|patio|shed|greenhouse)\b", re.I)
_BATH = re.compile(r"\bbath(?:room)?s?\b(?! (?:road|street|lane|terrace))|shower|\ben-?\s?suite\b|\bwet ?room\b", re.I)
_LIGHTS = re.compile(r"\blights?\b|\blighting\b|\bluminaires?\b|lights\b|\blts\b", re.I)
_VEHICLE = re.compile(
    r"\bev\b|\bevse\b|\bevcp\b|\belectric vehicle|\b(?:car|vehicle) charg|\bcharg(?:e|ing) ?points?\b", re.I
)
_FLOOR_HEATING = re.compile(r"\b(?:under)?floor[- ]heating\b|\bheating mats?\b|\bufh\b", re.I)
_PITCH = re.compile(r"\bcaravan|\bpitch(?:es)?\b|\bhook-?ups?\b|\bmarina\b|\bberths?\b", re.I)
_DWELLING = re.compile(
    r"domestic|dwelling|household|residential|\b(?:house|flat|apartment|bungalow|cottage|maisonette|home)s?\b|\bhmo\b",
    re.I,
)
_NOT_A_HOUSEHOLD = re.compile(
    r"common parts?\b|communal|landlord.?s? (?:supply|services)|public house|\bcare\b|nursing|hotel|hostel|guest ?house|hospital",
    re.I,
)
_EXTRA_LOW = re.compile(r"\b(?:selv|pelv|elv)\b|\b(?:12|24|48) ?v\b", re.I)
_SHARED_LIVING = re.compile(
    r"\bhmo\b|multiple occup|student|\bcare home|\bhigher[- ]risk residential|\bhigh[- ]rise", re.I
)


class Use(NamedTuple):
    """What is known of the use of a circuit."""

    sockets: bool
    bath: bool
    lights: bool
    vehicle: bool
    floor_heating: bool
    extra_low: bool
    outdoors: bool = False
    concealed: bool = False
    """A cable in a wall less than 50 mm deep; only ever as said in its box."""
    touched: bool = False
    """Bare mineral cable that can be touched; only ever as said in its box."""
    source: bool = False
    """It brings energy in: solar, a battery, a generator."""
    pitch: bool = False
    """Caravan pitches or berths of a marina; only ever by the words, as no box says it."""
    is_guess: bool = False
    """Read from the words of the description, as what it feeds is not said."""


def use_of(circuit: Circuit) -> Use:
    """What a circuit feeds, as its box says; while that is empty, as its description tells.

    By its description a ring feeds socket-outlets unless it says otherwise.
    """
    runs = answers_in(circuit.runs) if circuit.runs else ()
    said = _said(circuit.feeds) if circuit.feeds.strip() else _guessed(circuit)
    if not runs and not _feeds_pitches(circuit.description):
        return said
    return said._replace(
        pitch=_feeds_pitches(circuit.description),
        bath=said.bath or BATHROOM in runs,
        outdoors=said.outdoors or OUTDOORS in runs,
        concealed=CONCEALED in runs,
        touched=TOUCHED in runs,
    )


@lru_cache(maxsize=512)
def _said(feeds: str) -> Use:
    fed = set(answers_in(feeds))
    return Use(
        sockets=SOCKETS in fed,
        bath=SHOWER in fed,
        lights=LIGHTING in fed,
        vehicle=CHARGING_POINT in fed,
        floor_heating=FLOOR_HEATING in fed,
        extra_low=EXTRA_LOW in fed,
        source=bool(SOURCES & fed),
    )


def _guessed(circuit: Circuit) -> Use:
    use = _told(circuit.description)
    if circuit.is_ring and not use.extra_low and not use.sockets and not _OTHER_RINGS.search(circuit.description):
        return use._replace(sockets=True)
    return use


@lru_cache(maxsize=1024)
def _feeds_pitches(description: str) -> bool:
    return bool(_PITCH.search(description))


@lru_cache(maxsize=1024)
def _told(description: str) -> Use:
    return Use(
        sockets=bool(_SOCKETS.search(description) or _OUTDOOR_POWER.search(description)),
        bath=bool(_BATH.search(description)),
        lights=bool(_LIGHTS.search(description)),
        vehicle=bool(_VEHICLE.search(description)),
        floor_heating=bool(_FLOOR_HEATING.search(description)),
        extra_low=bool(_EXTRA_LOW.search(description)),
        outdoors=bool(_OUTDOORS.search(description)),
        source=bool(sources_told(description)),
        is_guess=True,
    )


def told_of_vehicles(description: str) -> bool:
    """The words name a charging point."""
    return _told(description).vehicle


def told_of_lights(description: str) -> bool:
    """The words name lighting."""
    return _told(description).lights


def is_dwelling(job: Job) -> bool:
    """The use of the premises, where it is typed, says that a household lives there."""
    return bool(_DWELLING.search(job.premises.use)) and not _NOT_A_HOUSEHOLD.search(job.premises.use)


def is_shared_living(job: Job) -> bool:
    """The use of the premises names one of those where arc fault detection is asked for."""
    return bool(_SHARED_LIVING.search(job.premises.use))
