"""Everything about a job that is no schedule: client, premises, work or report, supply, earthing, boards."""

from typing import ClassVar

from pydantic import BaseModel
from textual.app import ComposeResult

from domain.gate import Standing
from domain.job import SECTION_TITLES, Job, sections_for
from domain.place import Place
from tui.screens.box_screen import BoxScreen
from tui.steps import Step
from tui.widgets.box_page import BoxPage
from tui.widgets.box_panel import BoxPanel
from tui.widgets.box_view import Notes, notes_of, owner_of, views_of
from tui.widgets.page_layout import Part


class DetailsScreen(BoxScreen):
    """One page of boxes: the sections that the form set asks for, then the header of every board."""

    STEP = Step.DETAILS
    EXPLAINS: ClassVar[str] = (
        "Who ordered the work, where it is, what was done or reported on, the supply, earthing and bonding, the main "
        "switch, and the header of every board. Type into the box under the cursor; Enter keeps the text and goes on, "
        "Escape gives the old text back. A dot marks what is still to be filled in, a cross what cannot stand. Boxes in "
        "weak print may stay empty. The lines below say what a box means and what may be picked: type its beginning "
        "or its number, or step with Space. Everything kept is saved at once."
    )

    def compose_step(self) -> ComposeResult:
        yield BoxPage(self).add_class("step")
        yield BoxPanel()

    @property
    def entering(self) -> BoxPage:
        return self.query_one(BoxPage)

    def show_job(self, job: Job, stands: Standing) -> None:
        notes = notes_of(stands)
        self.entering.show([*_section_parts(job, notes), *_board_parts(job, notes)])

    def go_to(self, place: Place) -> None:
        self.entering.go_to(place)


def _section_parts(job: Job, notes: Notes) -> list[Part]:
    return [
        _part(SECTION_TITLES[name], getattr(job, name), Place(section=name), job, notes)
        for name in sections_for(job.form_set)
    ]


def _board_parts(job: Job, notes: Notes) -> list[Part]:
    return [
        _part(f"Board {board.name}", board, Place(section="boards", board=board.id), job, notes) for board in job.boards
    ]


def _part(title: str, owner: BaseModel, place: Place, job: Job, notes: Notes) -> Part:
    return Part(title, views_of(owner, place, title, job.form_set, notes.get(owner_of(place), {})))
