"""What every page and the file itself say of a paper."""

from dataclasses import dataclass
from datetime import datetime

from domain.job.logo import Logo


@dataclass(frozen=True)
class Imprint:
    """Title, number and foot of a paper, and who made it when."""

    paper: str
    number: str
    """Or that there is none yet."""
    foot: str
    author: str
    at: datetime | None
    """The issue; None on a draft."""
    firm: tuple[str, ...] = ()
    """The lines of the letterhead, the name first."""
    logo: Logo | None = None
    """Beside those lines."""
    draft_mark: str = ""
    """Set across every page of a draft; empty on an issued paper."""
    record: str = ""
    """What an issued paper was made from, as JSON; it goes into the file."""
    is_signed: bool = False
    """The log will sign its seal."""

    @property
    def title(self) -> str:
        """What the file calls itself."""
        return f"{'DRAFT ' if self.draft_mark else ''}{self.paper} {self.number}"
