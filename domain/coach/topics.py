"""Under which keys the coach looks for what stands at a place of a job."""

from domain.forms.form_set import FormSet
from domain.place import Place


def topics_of(place: Place | None, form_set: FormSet | None) -> tuple[str, ...]:
    """The keys for a place, the closest first; none where no box or item is meant."""
    if place is None:
        return ()
    if place.item:
        checklist = (form_set and form_set.profile.checklist) or "initial"
        return (f"{checklist}.{_plain(place.item)}",)
    if not place.box or place.section == "signatures":
        return ()
    owner = "circuit" if place.circuit else "board" if place.board else place.section
    return (f"{owner}.{place.box}",)


def _plain(item: str) -> str:
    """The number without the letter of a part: 5.12a is explained with 5.12."""
    return item.rstrip("abcdefgh")
