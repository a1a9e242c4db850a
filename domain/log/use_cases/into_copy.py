"""What was set aside of a job that does not come back, put into the copy it goes on as."""

import json
from datetime import datetime

from domain.editing.commands import COMMAND, Sign
from domain.editing.undo import kept
from domain.laptops.making import called, is_mine
from domain.laptops.matter import Matter
from domain.laptops.operation import Act, Operation
from domain.laptops.settling import leave
from domain.log.store import Store, TrailEntry
from domain.log.use_cases.heard_jobs import after_edit
from domain.log.use_cases.out_with import exchange_of
from domain.log.use_cases.stored import keep, operation_on, require


def put_into_copy(store: Store, matter: Matter, copy: str, *, at: datetime) -> str:
    """Do to the copy, each under the name of who did it, what was set aside of the job; why not, where it cannot be done.

    What does not fit the copy any more is left out, and so are signatures and papers: nobody here saw them made.
    """
    with store.transaction(copy):
        exchange = exchange_of(store)
        assert exchange is not None
        now = exchange.holding(copy)
        if now.is_issued:
            return f"{copy}, as which the job goes on, has been issued; replace it where it lacks something, then leave it out here"
        if not is_mine(exchange, now):
            return f"{copy}, as which the job goes on, is out with {called(exchange, now.holder)}; settle this once it is back"
        for counter in range(matter.first, matter.last + 1):
            each = exchange.operation(matter.device, counter)
            if each and each.act is Act.EDIT and each.job == matter.job:
                _done_again(store, copy, each)
        leave(exchange, matter, 1, at=at.isoformat())
        return ""


def _done_again(store: Store, copy: str, operation: Operation) -> None:
    told, op = json.loads(operation.body), f"{operation.name} into {copy}"
    command = COMMAND.validate_python(told["command"]) if "command" in told else None
    before = require(store, copy)
    if isinstance(command, Sign) or operation_on(store, copy, op):
        return
    after = after_edit(before.job, told, command, strictly=False)
    if after is None or after == before.job:
        return
    after = after.model_copy(
        update={"signatures": tuple(each for each in after.signatures if each in before.job.signatures)}
    )
    made = datetime.fromisoformat(operation.at)
    changes = kept(before.job, after)
    keep(store, before, after, TrailEntry(told["who"], made, told["what"], op=op, command=command, changes=changes))
