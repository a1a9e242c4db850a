"""The three form sets and what tells them apart."""

from enum import StrEnum


class FormSet(StrEnum):
    """A set of papers that belong together."""

    EIC = "EIC"
    MEIWC = "MEIWC"
    EICR = "EICR"

    @property
    def paper(self) -> str:
        """The name of the paper in full."""
        return _TITLES[self]

    @property
    def is_report(self) -> bool:
        """A report states a condition, pass or fail; the others certify and only ever comply."""
        return self is FormSet.EICR

    @property
    def has_schedules(self) -> bool:
        """Minor works carries its tests on the form itself."""
        return self is not FormSet.MEIWC

    @property
    def day_box(self) -> str:
        """The day that the paper itself tells in a box, by the name of its answer and its box."""
        return "inspected_on" if self.is_report else "completed_on"


_TITLES = {
    FormSet.EIC: "Electrical Installation Certificate",
    FormSet.MEIWC: "Minor Electrical Installation Works Certificate",
    FormSet.EICR: "Electrical Installation Condition Report",
}

EVERY = frozenset(FormSet)
CERTIFICATES = frozenset({FormSet.EIC, FormSet.MEIWC})
SCHEDULED = frozenset({FormSet.EIC, FormSet.EICR})
ONLY_EIC = frozenset({FormSet.EIC})
ONLY_MINOR = frozenset({FormSet.MEIWC})
ONLY_REPORT = frozenset({FormSet.EICR})
