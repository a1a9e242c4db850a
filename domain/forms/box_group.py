"""The boxes of a job in groups that a form set takes or leaves as a whole."""

from enum import StrEnum


class BoxGroup(StrEnum):
    """What a group of boxes is about. Each box names its group; the profile of a form set names the groups it takes."""

    CLIENT = "who ordered the work"
    PREMISES = "where the installation is"
    OCCUPIER = "who lives or works there"
    USE = "what the premises are used for"
    HISTORY = "age of the wiring, alterations and earlier records"
    FIRM = "the firm responsible"
    WORK = "the work certified"
    INSTALLATION = "kind and extent of new work, departures of each who signs, and its next inspection"
    SIGNATORIES = "firms of those who sign, and a second designer"
    CONDITION = "reason, extent, limitations and result of an inspection"
    INSTRUMENTS = "the instruments"
    SYSTEM = "how the supply is earthed"
    ORIGIN = "supply, means of earthing and main switch"
    BONDING = "earthing conductor and bonding, verified"
    BOARD = "a board by name, and what is verified on it for any circuit"
    BOARD_FEED = "what feeds a board, and what is measured there"
    CIRCUIT = "details and results of a circuit"
    CIRCUIT_USE = "what a circuit feeds, where it runs, and what its design allowed for"
    ONE_CIRCUIT = "what a paper says of its one circuit, having no schedule"
