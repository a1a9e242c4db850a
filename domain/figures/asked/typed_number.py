"""Numbers as people type them: a decimal point or comma, and the unit behind where they like."""

import re
from decimal import Decimal

from domain.figures.asked.answer import NotAskableError

_NUMBER = re.compile(r"([+-]?(?:[0-9]{1,9}(?:[.,][0-9]{0,6})?|[.,][0-9]{1,6}))\s*(.*)", re.DOTALL)
_TWO_WAYS = re.compile(r"[1-9][0-9]{0,2},[0-9]{3}")
_FACTORS = {"", "times"}
_TIMES = re.compile(r"^[x×]\s*", re.IGNORECASE)
_BEYOND = ("<", ">", "≤", "≥")
_SPELLED = {
    "A": {"a", "amp", "amps", "ampere", "amperes"},
    "V": {"v", "volt", "volts"},
    "Ω": {"ω", "ohm", "ohms"},
    "s": {"s", "sec", "secs", "second", "seconds"},
    "m": {"m", "metre", "metres", "meter", "meters"},
    "mm": {"mm", "millimetre", "millimetres"},
    "mm²": {"mm²", "mm2", "mm^2", "sqmm", "sq mm"},
    "°C": {"°c", "c", "°", "deg", "degc", "deg c", "celsius"},
    "mV/A/m": {"mv/a/m"},
    "A√s/mm²": {"a√s/mm²"},
    "per K": {"per k", "/k"},
    "times": {"×", "x", "times"},
}
_KILO = {"kA", "ka", "KA"}
"""A fault current is said in thousands of amperes as often as in amperes."""
_PREFIXED = {
    "mA": {"mA", "ma", "MA", "milliamp", "milliamps"},
    "MΩ": {"MΩ", "Mohm", "Mohms", "MOhm", "megohm", "megohms", "M"},
    "ms": {"ms", "mS", "MS", "msec", "millisecond", "milliseconds"},
}
"""Units where a capital M would mean a million: compared letter by letter."""


def typed_number(name: str, unit: str, typed: str) -> Decimal:
    """The number typed for a key; its unit may stand behind it, and no other."""
    if typed.strip()[:1] in _BEYOND:
        raise NotAskableError(f"{name}={typed!r} only says that the reading is out of range; it is not a number")
    match = _NUMBER.fullmatch(_TIMES.sub("", typed.strip()) if unit in _FACTORS else typed.strip())
    if match is None:
        raise NotAskableError(f"{name}={typed!r} is no number; type digits such as {_such_as(unit)}")
    digits, behind = match.groups()
    if _TWO_WAYS.fullmatch(digits):
        whole = digits.replace(",", "")
        raise NotAskableError(f"{name}={digits} can be read two ways; type {whole} or {digits.replace(',', '.')}")
    if unit == "A" and behind.strip() in _KILO:
        return Decimal(digits.replace(",", ".")).scaleb(3)
    if behind and not _is(behind, unit):
        raise NotAskableError(f"{name} is in {unit}, not {behind!r}" if unit else f"{name} has no unit, not {behind!r}")
    return Decimal(digits.replace(",", "."))


def _is(behind: str, unit: str) -> bool:
    if unit in _PREFIXED:
        return behind in _PREFIXED[unit]
    return behind.casefold() in _SPELLED.get(unit, set())


def _such_as(unit: str) -> str:
    return f"32 or 2.5, in {unit}" if unit else "0.8 or 2"
