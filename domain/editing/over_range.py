"""What a bare > stands for: the end of the range that the insulation tester showed before, as somebody typed it last."""

from domain.job.box import boxes_of, typed_in
from domain.job.circuit import RESULT_BOXES, Circuit
from domain.job.job import Job
from domain.job.reading import Meaning, Reading
from domain.place import Place

_SIGN, _INSULATION = ">", "MΩ"


def meant_by(job: Job, place: Place, text: str) -> str:
    """The reading of insulation that a bare > stands for, as on the board's other circuits or beside it on this one.

    The text as it is where no such reading stands yet, in any other box, and where it is another text: elsewhere each
    range has an end of its own.
    """
    box, board = boxes_of(Circuit).get(place.box), job.board(place.board)
    if text.strip() != _SIGN or box is None or box.unit != _INSULATION or board is None:
        return text
    texts = [typed_in(each, place.box) for each in reversed(board.circuits)]
    if here := board.circuit(place.circuit):
        texts += [typed_in(here, name) for name in RESULT_BOXES if boxes_of(Circuit)[name].unit == _INSULATION]
    return next((each for each in texts if Reading.of(each).meaning is Meaning.OVER), text)
