"""A large bundle from a laptop taken in by its office, in a folder and on a server: seconds, and each operation's share."""

import os
import platform
import resource
import shutil
import time
from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path

from domain.editing.commands import Enter
from domain.log.stored_log import StoredLog
from domain.place import Place
from storage.laptops.meeting import Meeting
from storage.stamp import Stamp
from tests.builders import AT
from tests.ladder.large_job import many_circuits
from tests.ladder.office import SETTINGS
from tests.storage.database_server import running
from tests.storage.laptops.firms import SmallFirm

_EACH = 500
"""Edits of a job: what sixteen circuits take."""
_CIRCUITS = 16
_TYPED = (("zs", "0.{}"), ("r1_r2", "0.{}"), ("description", "Sockets of room {}"), ("points", "{}"))


def carried(folder: Path, counts: list[int]) -> Iterator[str]:
    """One bundle at every size, from the file to the log, as `exchange` takes it in."""
    yield f"{datetime.now(UTC):%Y-%m-%d}, {os.cpu_count()} cores, {platform.machine()}, Python {platform.python_version()};"
    yield f"load on the machine {', '.join(f'{each:.1f}' for each in os.getloadavg())}."
    for count in counts:
        yield _told(count, "a folder", SmallFirm(_empty(folder / "in a folder")))
        with running(SETTINGS) as server:
            yield _told(count, "a server", SmallFirm(_empty(folder / "on a server"), server.address("postgres")))


def _empty(folder: Path) -> Path:
    shutil.rmtree(folder, ignore_errors=True)
    folder.mkdir(parents=True)
    # What an earlier run left there would tell that its logs were put back from copies.
    os.environ["XDG_STATE_HOME"] = str(folder / "state")
    return folder


def _told(count: int, where: str, firm: SmallFirm) -> str:
    laptop = firm.buy("HE")
    _worked(laptop, count)
    bundle = firm.folder / "bundle"
    ends = {"laptop": (firm.folder / "HE", laptop), "office": (firm.folder / "A", firm.office)}
    meets = {
        name: Meeting(home, log, Stamp.of_folder(home), renamed=lambda: None) for name, (home, log) in ends.items()
    }
    began = time.monotonic()
    meets["laptop"].write(meets["office"].own, bundle)
    wrote, began, own = time.monotonic() - began, time.monotonic(), time.process_time()
    taken = meets["office"].take(bundle, at=AT)
    took, own = time.monotonic() - began, time.process_time() - own
    size, memory = bundle.stat().st_size / 1e6, resource.getrusage(resource.RUSAGE_SELF).ru_maxrss // 1024
    firm.close()
    return (
        f"- {taken.new:,} operations, {size:.1f} MB, written in {wrote:.0f} s, taken in by an office in {where} in {took:.0f} s"
        f" ({own:.0f} of this process's own), {taken.aside} set aside; memory at most {memory} MB"
    )


def _worked(log: StoredLog, count: int) -> None:
    """Certificates of sixteen circuits, typed box by box."""
    for begun in range(0, count, _EACH):
        job = log.create(many_circuits(_CIRCUITS), who="hester", at=AT)
        rows = job.circuits()
        for at in range(min(_EACH, count - begun) - 1):
            board, circuit = rows[at % len(rows)]
            box, text = _TYPED[at // len(rows) % len(_TYPED)]
            place = Place(section="boards", board=board.id, circuit=circuit.id, box=box)
            log.edit(job.number, Enter(place=place, text=text.format(at % 80 + 10)), who="hester", at=AT)
