"""The instruments the readings were taken with."""

from typing import Annotated

from domain.box import Box
from domain.form_set import EVERY
from domain.value import Line, Value


class Instruments(Value):
    """Serial numbers, so that a reading can be traced to its instrument. One multifunction tester may stand for all."""

    multifunction: Annotated[
        Line,
        Box(
            "Multifunction tester, serial no.",
            required=EVERY,
            not_applicable=True,
            help="Serial number on the instrument. N/A when separate instruments were used; then name them below.",
        ),
    ] = ""
    continuity: Annotated[
        Line, Box("Low-resistance ohmmeter, serial no.", help="When not the multifunction tester.")
    ] = ""
    insulation: Annotated[Line, Box("Insulation tester, serial no.", help="When not the multifunction tester.")] = ""
    loop: Annotated[Line, Box("Loop impedance tester, serial no.", help="When not the multifunction tester.")] = ""
    rcd: Annotated[Line, Box("RCD tester, serial no.", help="When not the multifunction tester.")] = ""
    electrode: Annotated[Line, Box("Earth electrode tester, serial no.", help="When an electrode was measured.")] = ""
