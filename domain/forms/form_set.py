"""The one list of form sets, and the short names under which documents, rules and the log keep them."""

from collections.abc import Generator, Iterator
from contextlib import contextmanager
from functools import cache
from typing import Any, ClassVar

from pydantic_core import PydanticKnownError, core_schema

from domain.forms.condition_report import CONDITION_REPORT
from domain.forms.installation_certificate import INSTALLATION_CERTIFICATE
from domain.forms.minor_works import MINOR_WORKS
from domain.forms.profile import FormProfile

PROFILES = (INSTALLATION_CERTIFICATE, MINOR_WORKS, CONDITION_REPORT)
"""Every form set, in the order they are offered. A new one is entered here."""

_LISTED: dict[str, "FormSet"] = {}


class _OfTheList(type):
    """The class stands for its list, as an enumeration does: `for each in FormSet`."""

    def __iter__(cls) -> Iterator["FormSet"]:
        return iter(tuple(_LISTED.values()))

    def __len__(cls) -> int:
        return len(_LISTED)

    def __contains__(cls, given: object) -> bool:
        return given in _LISTED


class FormSet(str, metaclass=_OfTheList):
    """A set of papers that belong together."""

    # One for each entry of the list, so that they can be compared with `is`. What a form set is, its profile says:
    # code asks that by name, and names a form set only where it means that one.
    profile: FormProfile
    EIC: ClassVar["FormSet"]
    MEIWC: ClassVar["FormSet"]
    EICR: ClassVar["FormSet"]

    def __new__(cls, name: str) -> "FormSet":
        """The form set kept under this name; ValueError where none is."""
        try:
            return _LISTED[name]
        except KeyError:
            raise ValueError(f"{name!r} is no form set; it can be {_names()}") from None

    def __reduce__(self) -> tuple[Any, ...]:
        return FormSet, (str(self),)

    def __repr__(self) -> str:
        return f"<FormSet {self}>"

    @property
    def value(self) -> str:
        """The short name alone, as data keeps it."""
        return str(self)

    @classmethod
    def __get_pydantic_core_schema__(cls, source: Any, handler: Any) -> core_schema.CoreSchema:
        return core_schema.no_info_plain_validator_function(
            _read,
            ref=f"{cls.__module__}.{cls.__qualname__}:{id(cls)}",
            serialization=core_schema.to_string_ser_schema(),
        )

    @classmethod
    def __get_pydantic_json_schema__(cls, schema: Any, handler: Any) -> dict[str, Any]:
        names = [each.value for each in cls]
        return {"description": cls.__doc__, "enum": names, "title": cls.__name__, "type": "string"}


@contextmanager
def listed(profile: FormProfile) -> Generator[FormSet]:
    """`profile` on the list while the block runs: so a form set is tried before it is entered there."""
    if profile.id in _LISTED:
        raise ValueError(f"{profile.id!r} is a form set already")
    _LISTED[profile.id] = _made(profile)
    try:
        yield _LISTED[profile.id]
    finally:
        del _LISTED[profile.id]


@cache
def _made(profile: FormProfile) -> FormSet:
    """The same one however often it is listed: a job that was read while it was on the list may still be at hand."""
    form_set = str.__new__(FormSet, profile.id)
    form_set.profile = profile
    return form_set


def _names() -> str:
    *most, last = (repr(name) for name in _LISTED)
    return f"{', '.join(most)} or {last}"


def _read(given: object) -> FormSet:
    held = _LISTED.get(given) if isinstance(given, str) else None
    if held is None:
        raise PydanticKnownError("enum", {"expected": _names()})
    return held


_LISTED.update((profile.id, _made(profile)) for profile in PROFILES)
FormSet.EIC = FormSet(INSTALLATION_CERTIFICATE.id)
FormSet.MEIWC = FormSet(MINOR_WORKS.id)
FormSet.EICR = FormSet(CONDITION_REPORT.id)
