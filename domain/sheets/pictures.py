"""The photographs and thermal images of a record, four to a page."""

from domain.dates import date_in, written
from domain.job.picture import JobPicture
from domain.job.picture_place import belongs_to
from domain.sheets.facts import Facts
from domain.sheets.sheet import SheetPicture, SheetPictures, TextSheet

TITLE = "Photographs and thermal images"


def pictures_of(facts: Facts) -> tuple[TextSheet, ...]:
    """A sheet of them, in the order they were taken in; none where there is none."""
    pictures = facts.job.pictures
    if not pictures:
        return ()
    shown = tuple(_shown(facts, number, each) for number, each in enumerate(pictures, start=1))
    says = "Made smaller for this record; what they cannot show does not mean that it is in order"
    return (TextSheet(TITLE, says, (SheetPictures(shown),)),)


def _shown(facts: Facts, number: int, each: JobPicture) -> SheetPicture:
    day = date_in(each.image.taken)
    taken = f", taken on {written(day)}" if day else ""
    label = f"Picture {number}, {each.kind}, of {belongs_to(facts.job, each)}{taken}"
    return SheetPicture(label, each.caption, each.image.content)
