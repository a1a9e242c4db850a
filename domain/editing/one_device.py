"""An RCBO is one device that two groups of boxes ask about: what is typed into the one stands in the other."""

from collections.abc import Mapping

from domain.figures.limits.device import RCBO
from domain.job.circuit import Circuit


def agreeing(before: Circuit, after: Circuit, box: str) -> Circuit:
    """The circuit with the device and its RCD alike where both are one RCBO; a text that says otherwise is left alone."""
    taken: dict[str, object] = {}
    if box == "device_standard":
        taken |= _rcd_of(before, after)
    elif box == "rcd_standard" and after.rcd_standard == RCBO and not after.device_standard.strip():
        taken["device_standard"] = RCBO
    joined = after.model_copy(update=taken)
    if joined.device_standard == RCBO == joined.rcd_standard and box != "rcd_rating":
        follows = joined.rcd_rating.typed.strip() in {"", before.rating.typed.strip()}
        taken |= {"rcd_rating": joined.rating} if follows and joined.rating.typed.strip() else {}
    return after.model_copy(update=taken) if taken else after


def _rcd_of(before: Circuit, after: Circuit) -> Mapping[str, object]:
    """The RCD of a circuit whose device is another now: an RCBO brings its own, and takes it along."""
    if after.device_standard == RCBO and not after.rcd_standard.strip():
        return {"rcd_standard": RCBO}
    if before.device_standard == RCBO == before.rcd_standard and after.device_standard != RCBO:
        empty = Circuit()
        same_rating = before.rcd_rating == before.rating
        return {"rcd_standard": empty.rcd_standard} | ({"rcd_rating": empty.rcd_rating} if same_rating else {})
    return {}
