"""The instruments the readings were taken with."""

from collections.abc import Callable, Mapping
from typing import Annotated, Any

from domain.forms.box_group import BoxGroup
from domain.job.box import Box, BoxKind
from domain.value import Line, Value, says_none, says_nothing

_NOT_THE_MULTIFUNCTION = "When not the multifunction tester."
_DUE = "The day its calibration is due again. Readings taken after that day bring up a question to answer."


def _is_named(box: str) -> Callable[[Any], bool]:
    return lambda instruments: not says_nothing(getattr(instruments, box))


def _has_no_multifunction(instruments: Any) -> bool:
    return says_none(instruments.multifunction)


def _apart(label: str) -> Box:
    """An instrument of its own, needed where no multifunction tester stands for it."""
    return Box(
        label,
        group=BoxGroup.INSTRUMENTS,
        must=True,
        when=_has_no_multifunction,
        not_applicable=True,
        help=_NOT_THE_MULTIFUNCTION,
    )


def _due(box: str, label: str) -> Box:
    return Box(
        f"{label}, calibration due",
        BoxKind.DATE,
        group=BoxGroup.INSTRUMENTS,
        when=_is_named(box),
        not_applicable=True,
        help=_DUE,
    )


class Instruments(Value):
    """Serial numbers, so that a reading can be traced to its instrument. One multifunction tester may stand for all."""

    multifunction: Annotated[
        Line,
        Box(
            "Multifunction tester",
            group=BoxGroup.INSTRUMENTS,
            must=True,
            not_applicable=True,
            help="Serial number on the instrument. N/A when separate instruments were used; then name them below.",
        ),
    ] = ""
    multifunction_due: Annotated[Line, _due("multifunction", "Multifunction tester")] = ""
    continuity: Annotated[Line, _apart("Continuity tester")] = ""
    continuity_due: Annotated[Line, _due("continuity", "Continuity tester")] = ""
    insulation: Annotated[Line, _apart("Insulation tester")] = ""
    insulation_due: Annotated[Line, _due("insulation", "Insulation tester")] = ""
    loop: Annotated[Line, _apart("Loop impedance tester")] = ""
    loop_due: Annotated[Line, _due("loop", "Loop impedance tester")] = ""
    rcd: Annotated[Line, Box("RCD tester", group=BoxGroup.INSTRUMENTS, help=_NOT_THE_MULTIFUNCTION)] = ""
    rcd_due: Annotated[Line, _due("rcd", "RCD tester")] = ""
    electrode: Annotated[
        Line, Box("Earth electrode tester", group=BoxGroup.INSTRUMENTS, help="When an electrode was measured.")
    ] = ""
    electrode_due: Annotated[Line, _due("electrode", "Earth electrode tester")] = ""


INSTRUMENTS: Mapping[str, str] = {
    "multifunction": "multifunction tester",
    "continuity": "continuity tester",
    "insulation": "insulation tester",
    "loop": "loop impedance tester",
    "rcd": "RCD tester",
    "electrode": "earth electrode tester",
}
"""The boxes of serial numbers, with what each instrument is."""


def due_box(box: str) -> str:
    """The box that holds when the instrument of a box is due for calibration."""
    return f"{box}_due"
