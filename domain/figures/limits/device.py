"""Protective devices as people write them, and as the tables know them."""

import re
from functools import lru_cache

RCBO = "BS EN 61009"
_GAP = r"[\s_–-]*"
_KINDS = {
    "BS EN 60898": ("breaker", r"60898(?!\d)"),
    RCBO: ("RCBO", r"61009(?!\d)"),
    "BS EN 61008": ("RCD", r"61008(?!\d)"),
    "BS EN 62423": ("RCD", r"62423(?!\d)"),
    "BS EN 60947-2": ("breaker", r"60947[\s_–-]+2(?!\d)"),
    "BS 4293": ("RCD", r"4293(?!\d)"),
    "BS 7288": ("RCD", r"7288(?!\d)"),
    "BS 3871": ("breaker", r"3871(?!\d)"),
    "BS 3036": ("fuse", r"3036(?!\d)"),
    "BS 1361": ("fuse", r"1361(?!\d)"),
    "BS 1362": ("fuse", r"1362(?!\d)"),
    "BS 88-2": ("fuse", r"(?:88[\s_–-]+2|60269[\s_–-]+2)(?![\d.])"),
    "BS 88-2.2": ("fuse", r"88[\s_–-]+2\.2(?!\d)"),
    "BS 88-3": ("fuse", r"(?:88[\s_–-]+3|60269[\s_–-]+3)(?![\d.])"),
    "BS 88-6": ("fuse", r"88[\s_–-]+6(?![\d.])"),
}
_PREFIX = f"(?:bs)?{_GAP}(?:en)?{_GAP}(?:iec|hd)?{_GAP}"
_PATTERNS = tuple((standard, re.compile(_PREFIX + number)) for standard, (_, number) in _KINDS.items())
_LETTERS = ("B", "C", "D")
_TYPES = {"BS EN 60898": _LETTERS, RCBO: _LETTERS, "BS 3871": ("1", "2", "3", "4")}
_TYPE = re.compile(r"(?:type\s*)?([a-z]|[1-4])")
_DELAYED = re.compile(r"(?<![a-z])s(?![a-z])")


@lru_cache(maxsize=1024)
def standard_in(typed: str) -> str | None:
    """The standard meant by `BS EN 60898`, `60898-1`, `bs88-3` …; None where no table knows the device.

    Older parts such as BS 88-2.2 are other devices with other figures, and are not taken for the newer ones.
    BS HD 60269-2 and 60269-3 are BS 88-2 and BS 88-3 by their international numbers.
    """
    text = typed.strip().casefold()
    return next((standard for standard, pattern in _PATTERNS if pattern.match(text)), None)


@lru_cache(maxsize=1024)
def breaker_type_in(typed: str) -> str:
    """The letter of `B`, `type c` …, or the number of an older `type 2`; "" where the text is none."""
    match = _TYPE.fullmatch(typed.strip().casefold())
    return match[1].upper() if match else ""


@lru_cache(maxsize=1024)
def is_time_delayed(rcd_type: str) -> bool:
    """The RCD is of the selective type: `S`, `A S`, `Type S`, `time delayed` and the like."""
    text = rcd_type.casefold()
    return bool(_DELAYED.search(text)) or "selective" in text or "delay" in text


def has_type(standard: str) -> bool:
    """A circuit-breaker or RCBO whose type decides its limit."""
    return standard in _TYPES


def types_of(standard: str) -> tuple[str, ...]:
    """The types a circuit-breaker or RCBO to this standard has; none for other devices."""
    return _TYPES.get(standard, ())


def kind_of(standard: str) -> str:
    """What the device is called: breaker, RCBO, RCD or fuse."""
    return _KINDS[standard][0]
