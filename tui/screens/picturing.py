"""Pictures taken into a job: by path, or from the folder where the camera of the visit puts them."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import UTC, datetime
from pathlib import Path
from typing import TYPE_CHECKING

from domain.civil_time import in_civil_time
from domain.dates import written
from domain.editing.commands import AddPicture, RemovePicture
from domain.job.picture import Image, JobPicture, PictureError
from domain.job.picture_place import place_named, place_typed
from domain.words import capitalised
from tui.given_file import read_given_file
from tui.screens.dialogs import ConfirmScreen, FormScreen
from tui.widgets.entry_lines import AskedLine, EntryOption

if TYPE_CHECKING:
    from domain.job.job import Job
    from domain.place import Place
    from tui.screens.job_step import JobStep

_FILE_MAX = 40 * 1024 * 1024
_ENDINGS = {".jpg", ".jpeg", ".png"}
_NAMED = 3
"""Files of the watched folder that are named in the question."""
_KINDS = (EntryOption("P", "photograph"), EntryOption("T", "thermal image"))


def ask_picture(step: JobStep, place: Place | None) -> None:
    """Ask for a picture, of what is under the cursor unless something else is named, and take it in."""
    job, folder = step.job, step.host.ohmfolio.services.pictures
    if job is None or not step.host.may_type():
        return
    waiting = _waiting(job, folder)
    lines = (
        AskedLine("file", "File, JPEG or PNG", waiting[0] if waiting else "", must=True),
        AskedLine("caption", "What it shows", must=True),
        AskedLine("kind", "Kind", "photograph", must=True, options=_KINDS),
        AskedLine("of", "Belongs to", place_typed(job, place) if place else "", must=True),
    )
    about = "It is made small, and what the camera wrote beside it, its place among that, is left out."
    if folder:
        named = ", ".join(waiting[:_NAMED]) + (f" and {len(waiting) - _NAMED} more" if len(waiting) > _NAMED else "")
        about = f"{about} New in {folder}: {named or 'nothing'}."
    step.host.ask(
        FormScreen("A picture: of an observation, an item, or a board", lines, about), lambda typed: _take(step, typed)
    )


def take_out(step: JobStep, place: Place | None) -> None:
    """Ask whether the last picture of what is under the cursor is taken out."""
    of_it = pictures_at(step.job, place)
    if not of_it:
        step.say("There is no picture of it")
    elif step.host.may_type():
        last = of_it[-1]
        question = ConfirmScreen("Take this picture out of the record?", told(last))
        step.host.confirm(question, lambda: step.do(RemovePicture(picture=last.id)))


def pictures_at(job: Job | None, place: Place | None) -> tuple[JobPicture, ...]:
    """The pictures of a place."""
    return tuple(each for each in job.pictures if each.about == place) if job and place else ()


def told(picture: JobPicture) -> str:
    """Name, size and day: poor lines show no more of a picture."""
    image = picture.image
    day = f", {written(datetime.fromisoformat(image.taken).date())}" if image.taken else ""
    size = f"{image.width} × {image.height}, {len(image.content) // 1000 + 1} kB"
    return f"{capitalised(picture.kind)} {picture.name}, {size}{day}: {picture.caption}"


def _waiting(job: Job, folder: Path | None) -> list[str]:
    """Names of what lies in the watched folder and is not in the record, the newest first."""
    there = {each.name for each in job.pictures}
    try:
        found = [each for each in folder.iterdir() if each.suffix.casefold() in _ENDINGS] if folder else []
        found.sort(key=lambda each: each.stat().st_mtime, reverse=True)
    except OSError:
        return []
    return [each.name for each in found if each.name not in there]


def _take(step: JobStep, typed: Mapping[str, str]) -> None:
    job, services = step.job, step.host.ohmfolio.services
    place = place_named(job, typed["of"]) if job else None
    if place is None:
        step.say(f"Nothing here is called {typed['of']!r}: write observation 2, item 4.4 or board DB1", bad=True)
        return
    path = Path(typed["file"]).expanduser()
    if services.pictures and not path.is_absolute():
        path = services.pictures / path
    step.say(f"Making {path.name} small …")

    def made() -> None:
        try:
            image = _dated(services.made_small(read_given_file(path, _FILE_MAX)), path)
        except (PictureError, OSError, ValueError) as error:
            says = (error.strerror if isinstance(error, OSError) else "") or str(error)
            step.host.ohmfolio.call_from_thread(step.say, f"No picture: {path.name}: {says}", bad=True)
            return
        kind = "thermal image" if typed["kind"] == "thermal image" else "photograph"
        picture = JobPicture(about=place, kind=kind, name=path.name[:100], caption=typed["caption"], image=image)
        step.host.ohmfolio.call_from_thread(_keep, step, picture)

    step.run_worker(made, thread=True, group="picture", exit_on_error=False)


def _dated(image: Image, path: Path) -> Image:
    """With the day of the file where the camera noted none."""
    day = in_civil_time(datetime.fromtimestamp(path.stat().st_mtime, UTC)).date()
    return image if image.taken else image.model_copy(update={"taken": day.isoformat()})


def _keep(step: JobStep, picture: JobPicture) -> None:
    if step.do(AddPicture(picture=picture)):
        step.say(f"In the record: {told(picture)}")
