"""The pages of a paper: their areas in points, and what stands where the file is bound."""

from typing import NamedTuple

_MM = 72 / 25.4
BINDING = 20 * _MM
"""The edge that a binder holds: the left of an upright page, the top of one laid sideways."""
_A4 = (210 * _MM, 297 * _MM)


class Area(NamedTuple):
    """A page in points, and the frame that its contents may fill; down from the top left."""

    width: float
    height: float
    left: float
    top: float
    right: float
    bottom: float

    @property
    def frame_width(self) -> float:
        """From the left edge of the frame to the right."""
        return self.right - self.left

    @property
    def frame_height(self) -> float:
        """From the top of the frame to its bottom."""
        return self.bottom - self.top


UPRIGHT = Area(_A4[0], _A4[1], BINDING, 42, _A4[0] - 30, _A4[1] - 40)
SIDEWAYS = Area(_A4[1], _A4[0], 30, BINDING + 14, _A4[1] - 30, _A4[0] - 31)


def margins(area: Area) -> dict[str, float]:
    """The margins as the templates ask for them."""
    return {
        "left": area.left,
        "top": area.top,
        "right": area.width - area.right,
        "bottom": area.height - area.bottom,
    }
