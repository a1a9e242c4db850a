"""Whether what an office and its laptops told each other is still what was told, and who holds a job follows from it."""

from collections.abc import Iterator

from domain.laptops.holding import OFFICE
from domain.laptops.operation import Act, Operation, digest_of
from domain.log.upkeep import Concern, LogFault
from storage.errors import DamagedError
from storage.log_file import LogFile
from storage.sqlite_exchange import SqliteExchange
from storage.upkeep.whole_file import GO_BACK

_TABLES = ("operation", "operation_aside", "holding", "contested", "matter", "station")
_HOLDINGS = """
SELECT job, holder, fence, job IN (SELECT job FROM contested) FROM holding ORDER BY job
"""
_TOLD_MAX = 5


def faults_of_laptops(file: LogFile) -> Iterator[LogFault]:
    """What was told between devices that is not as it was told; all of it in a log that has no laptops and is none."""
    exchange = SqliteExchange(file, _not_told)
    # One that was put back from a copy is none of the devices it knows, until it tells them so.
    if not file.first("SELECT 1 FROM station WHERE device IN (SELECT id FROM device)"):
        if astray := [table for table in _TABLES if file.first(f"SELECT 1 FROM {table}")]:
            yield _fault(
                f"This log has no laptops, and another program put into it what laptops tell: {', '.join(astray)}."
            )
        return
    try:
        stations = exchange.stations()
        known = {name for station in stations for name in (station.device, *station.was)}
        held = _Held()
        for operation in exchange.following({}):
            if why := held.against(operation, file):
                yield _fault(f"What was told as {operation.name} is not as it was told: {why}.")
                return
        yield from _faults_of_holdings(file, held, known)
        own = exchange.station(exchange.own())
        if own and own.is_office:
            enrolled = held.enrolled | {
                name for each in stations if each.is_office for name in (each.device, *each.was)
            }
            if strange := [each.name for each in stations if not {each.device, *each.was} & enrolled]:
                yield _fault(f"{', '.join(strange[:_TOLD_MAX])}: the office never enrolled such a laptop.")
    except (DamagedError, ValueError):
        yield _fault("What the laptops of this log told holds what this program never writes.")


def _not_told(device: str, counter: int) -> None:
    """Nothing is added here, so nobody has to hear of it."""


class _Held:
    """Follows operations: each device's in a chain, and who came to hold each job."""

    def __init__(self) -> None:
        self.holders: dict[str, tuple[str, int]] = {}
        """By job, the device and the fence; of jobs that went another way nothing is said."""
        self.elsewise: set[str] = set()
        self.enrolled: set[str] = set()
        self._ends: dict[str, tuple[int, str]] = {}

    def against(self, operation: Operation, file: LogFile) -> str:
        """Why it cannot be what was told; "" where it can."""
        device, counter = operation.device, operation.counter
        digest, is_done = file.run(
            "SELECT digest, is_done FROM operation WHERE device = ? AND counter = ?", (device, counter)
        )[0]
        if digest != digest_of(operation):
            return "it was altered"
        if (end := self._ends.get(device)) and (end[0] + 1, end[1]) != (counter, operation.before):
            return "it does not follow on what that device did before"
        self._ends[device] = (counter, digest)
        if operation.act is Act.ENROL:
            self.enrolled.add(operation.told["device"])
        if operation.job:
            self._follow(operation, is_done=bool(is_done))
        return ""

    def _follow(self, operation: Operation, *, is_done: bool) -> None:
        job, (holder, fence) = operation.job, self.holders.get(operation.job, (OFFICE, 0))
        if not is_done or operation.act in {Act.SET_ASIDE, Act.COPY, Act.ADMIT}:
            self.elsewise.add(job)
        elif operation.act is Act.GRANT:
            self.holders[job] = (operation.told["device"], operation.fence)
        elif operation.act is Act.GIVE:
            self.holders[job] = (OFFICE, fence)
        elif operation.act is Act.BEGIN:
            self.holders[job] = ("?", 0)
        else:
            self.holders.setdefault(job, (holder, fence))


def _faults_of_holdings(file: LogFile, held: _Held, known: set[str]) -> Iterator[LogFault]:
    wrong: list[str] = []
    for job, holder, fence, is_contested in file.run(_HOLDINGS):
        expected = held.holders.get(job, (OFFICE, 0))
        if (holder != OFFICE and holder not in known) or (
            not is_contested and job not in held.elsewise and expected[0] != "?" and (holder, fence) != expected
        ):
            wrong.append(job)
    if wrong:
        more = f" and {len(wrong) - _TOLD_MAX} more" if len(wrong) > _TOLD_MAX else ""
        yield _fault(
            f"Who holds {', '.join(wrong[:_TOLD_MAX])}{more} does not follow from what was lent and given back."
        )


def _fault(says: str) -> LogFault:
    return LogFault(about=Concern.RECORDS, says=says, do=GO_BACK)
