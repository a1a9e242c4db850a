"""What a log remembers of devices and jobs while it takes in a bundle, so that each operation need not ask for it again."""

from domain.laptops.holding import Holding, Station


class RememberedHoldings:
    """What was read and written of devices and jobs since a bundle began; nobody else writes meanwhile."""

    def __init__(self) -> None:
        self.own: str | None = None
        self.stations: dict[str, Station | None] = {}
        self.holdings: dict[str, Holding] = {}
        self.written: set[str] = set()
        """Jobs whose holding is not written down yet."""
        self.aside: frozenset[tuple[str, int]] | None = None
