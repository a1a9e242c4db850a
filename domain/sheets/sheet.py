"""What a sheet is made of, before anyone decides how it is drawn."""

from dataclasses import dataclass
from enum import Enum

from domain.place import Place


class ValueOrigin(Enum):
    """How a value on paper stands."""

    TYPED = "as typed"
    OURS = "worded by the form, such as N/A for a ring reading on a radial"
    BLANK = "to be filled in"
    FAILS = "typed, and outside its limit"


@dataclass(frozen=True, slots=True)
class SheetEntry:
    """A labelled box."""

    label: str
    value: str
    unit: str = ""
    origin: ValueOrigin = ValueOrigin.TYPED
    place: Place | None = None
    weight: int = 1
    """Its share of the row it stands in."""


@dataclass(frozen=True, slots=True)
class SheetGroup:
    """Boxes that belong together, in rows."""

    heading: str
    rows: tuple[tuple[SheetEntry, ...], ...]
    note: str = ""
    """Our own words under the heading, as Markdown on one line."""


@dataclass(frozen=True, slots=True)
class Passage:
    """Running text as somebody typed it, an entry of the continuation sheet; it may flow over pages."""

    number: str
    heading: str
    text: str


@dataclass(frozen=True, slots=True)
class SheetNote:
    """Our own words, as Markdown."""

    text: str
    heading: str = ""


class Tone(Enum):
    """What a banner says at a glance."""

    GOOD = "good"
    BAD = "bad"
    OPEN = "not decided yet"


@dataclass(frozen=True, slots=True)
class Banner:
    """The one thing the reader must not miss."""

    label: str
    says: str
    beneath: str
    tone: Tone
    is_day: bool = False
    """A day to keep, larger than all else."""


@dataclass(frozen=True, slots=True)
class SheetColumn:
    """A column of a listing or a schedule."""

    heading: str
    width: int
    """In characters, to be shared out over the page."""
    group: str = ""
    """Columns of one group stand side by side under its name."""
    unit: str = ""
    centred: bool = True


@dataclass(frozen=True, slots=True)
class SheetCell:
    """One value in a row."""

    text: str
    origin: ValueOrigin = ValueOrigin.TYPED
    beside: str = ""
    """Ours, beside what was typed: which observation answers it. No part of the value."""

    @property
    def shown(self) -> str:
        """The value with what stands beside it."""
        return f"{self.text} {self.beside}" if self.beside else self.text


@dataclass(frozen=True, slots=True)
class Divider:
    """A line of our own between rows, naming what follows."""

    text: str


Row = tuple[SheetCell, ...]


@dataclass(frozen=True, slots=True)
class Listing:
    """A small table among text; its head is repeated on every page."""

    heading: str
    columns: tuple[SheetColumn, ...]
    rows: tuple[Row | Divider, ...]
    note: str = ""


@dataclass(frozen=True, slots=True)
class Signing:
    """A declaration with the signature under it, never split."""

    heading: str
    declares: str
    """Our own words."""
    entries: tuple[tuple[SheetEntry, ...], ...]


@dataclass(frozen=True, slots=True)
class SheetPicture:
    """An image with what it is of, and what it shows."""

    label: str
    caption: str
    jpeg: bytes

    @property
    def instead(self) -> str:
        """What stands for it where it cannot be seen."""
        return f"{self.label}: {self.caption}"


@dataclass(frozen=True, slots=True)
class SheetPictures:
    """Images with their captions, four to a page."""

    pictures: tuple[SheetPicture, ...]


@dataclass(frozen=True, slots=True)
class SheetSeal:
    """The place for the file's own hash, which only the finished file can tell."""

    heading: str
    label: str


@dataclass(frozen=True, slots=True)
class Section:
    """A lettered part of a paper; the blocks up to the next section belong to it."""

    letter: str
    heading: str


@dataclass(frozen=True, slots=True)
class Contents:
    """The sheets that go with a front, by title and subtitle; who sets them adds the pages they stand on."""

    heading: str
    sheets: tuple[tuple[str, str], ...]
    note: str = ""


WordBlock = Section | SheetGroup | Passage | SheetNote | Banner | Listing | Signing | SheetSeal | Contents
Block = WordBlock | SheetPictures


@dataclass(frozen=True, slots=True)
class TextSheet:
    """A sheet of text, upright, as many pages as it needs."""

    title: str
    subtitle: str
    blocks: tuple[Block, ...]
    opens: bool = False
    """The first sheet of the pack, under the letterhead."""
    large: bool = False
    """In large type, for whoever is not of the trade."""
    apart: bool = False
    """On pages of its own, to be handed on by itself."""


@dataclass(frozen=True, slots=True)
class ScheduleSheet:
    """A table that fills sheets laid sideways, head and board repeated on each."""

    title: str
    subtitle: str
    header: tuple[tuple[SheetEntry, ...], ...]
    columns: tuple[SheetColumn, ...]
    rows: tuple[Row, ...]
    notes: tuple[str, ...] = ()
    """Plain lines under the table, our own words."""
    footer: tuple[tuple[SheetEntry, ...], ...] = ()
    """Boxes under the table, on each sheet of it."""


Sheet = TextSheet | ScheduleSheet
