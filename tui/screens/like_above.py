"""A detail taken from the circuit above, over another only when Enter says so."""

from domain.job.box import BoxKind
from tui.screens.box_work import BoxWork
from tui.screens.job_step import StepHost
from tui.widgets.schedule_grid import ScheduleGrid


def like_above(host: StepHost, boxes: BoxWork, grid: ScheduleGrid | None) -> None:
    """Take the text above into the box under the cursor; says why where it cannot be. `grid` is None on a page of one circuit."""
    above = grid.above if grid else None
    if grid is None or above is None:
        host.say("There is no circuit above to be like")
    elif above.box.is_measured or above.box.kind is BoxKind.TICK:
        host.say(f"{above.box.label} is measured on each circuit and never copied")
    elif not above.typed:
        host.say("The circuit above has nothing here")
    elif not host.commit_open_entry():
        return
    elif grid.current and grid.current.typed:
        grid.put_forward(above.typed)
    elif grid.current and boxes.keep(grid.current.place, above.typed):
        grid.action_enter()
