"""Where in a job something stands: a box, a circuit, an inspection item, a snag, a signature."""

from domain.value import Line, Value


class Place(Value):
    """An address inside one job. Which parts are given says what kind of place it is."""

    section: Line = ""
    """A field of the job that holds boxes: client, supply, earthing …; or signatures, boards, inspection."""
    board: Line = ""
    """Id of a board."""
    circuit: Line = ""
    """Id of a circuit of that board."""
    box: Line = ""
    """Field name of the box, or the role of a signature."""
    item: Line = ""
    """Number of an inspection item."""
    snag: Line = ""
    observation: Line = ""

    @property
    def whose(self) -> tuple[str, str, str]:
        """Section (of a page), board and circuit: whose box a place is. A board's id says enough without its section."""
        return "" if self.board else self.section, self.board, self.circuit
