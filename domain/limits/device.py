"""Protective devices as people write them, and as the tables know them."""

import re
from functools import lru_cache

RCBO = "BS EN 61009"
_KINDS = {
    "BS EN 60898": ("breaker", r"60898(?!\d)"),
    RCBO: ("RCBO", r"61009(?!\d)"),
    "BS EN 61008": ("RCD", r"61008(?!\d)"),
    "BS EN 62423": ("RCD", r"62423(?!\d)"),
    "BS EN 60947-2": ("breaker", r"60947\s*-\s*2(?!\d)"),
    "BS 4293": ("RCD", r"4293(?!\d)"),
    "BS 7288": ("RCD", r"7288(?!\d)"),
    "BS 3871": ("breaker", r"3871(?!\d)"),
    "BS 3036": ("fuse", r"3036(?!\d)"),
    "BS 1361": ("fuse", r"1361(?!\d)"),
    "BS 1362": ("fuse", r"1362(?!\d)"),
    "BS 88-2": ("fuse", r"88\s*-\s*2(?![\d.])"),
    "BS 88-3": ("fuse", r"88\s*-\s*3(?![\d.])"),
}
_PREFIX = r"(?:bs)?\s*(?:en)?\s*(?:iec)?\s*"
_PATTERNS = tuple((standard, re.compile(_PREFIX + number)) for standard, (_, number) in _KINDS.items())
_TYPED_BREAKERS = {"BS EN 60898", RCBO}
_TYPE = re.compile(r"(?:type\s*)?([a-z])")
_DELAYED = re.compile(r"(?<![a-z])s(?![a-z])")


@lru_cache(maxsize=1024)
def standard_in(typed: str) -> str | None:
    """The standard meant by `BS EN 60898`, `60898-1`, `bs88-3` …; None where no table knows the device.

    Older parts such as BS 88-2.2 are other devices with other figures, and are not taken for the newer ones.
    """
    text = typed.strip().casefold()
    return next((standard for standard, pattern in _PATTERNS if pattern.match(text)), None)


@lru_cache(maxsize=1024)
def breaker_type_in(typed: str) -> str:
    """The letter of `B`, `type c` …; "" where the text is none."""
    match = _TYPE.fullmatch(typed.strip().casefold())
    return match[1].upper() if match else ""


@lru_cache(maxsize=1024)
def is_time_delayed(rcd_type: str) -> bool:
    """The RCD is of the selective type: `S`, `A S`, `Type S` and the like."""
    return bool(_DELAYED.search(rcd_type.casefold())) or "selective" in rcd_type.casefold()


def has_type(standard: str) -> bool:
    """A circuit-breaker or RCBO whose letter decides its limit."""
    return standard in _TYPED_BREAKERS


def kind_of(standard: str) -> str:
    """What the device is called: breaker, RCBO, RCD or fuse."""
    return _KINDS[standard][0]
