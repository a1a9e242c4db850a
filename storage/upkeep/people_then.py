"""The people of the register as they were when a paper was issued, by the log's own order."""

from collections.abc import Iterable

from pydantic import ValidationError

from domain.job.job import Job
from domain.register.entries import ENTRY, Kept, Person, RegisterKind, identity_of, still_asked
from domain.words import joined
from storage.line_rows import moment
from storage.log_file import LogFile


class PeopleThen:
    """Every version of every person, in the order in which they were kept."""

    def __init__(self, file: LogFile) -> None:
        self._versions: list[tuple[int, Kept]] = []
        self._heard = {
            number
            for (number,) in file.run(
                "SELECT job FROM operation WHERE act = 'issue' AND device NOT IN (SELECT id FROM device WHERE is_here = 1)"
            )
        }
        for turn, entry, version, at, who, retired, body in file.run(
            "SELECT ledger.seq, entry, version, at, who, retired, body FROM register"
            " JOIN ledger ON ledger.kind = 'register' AND ledger.row = register.seq"
            " WHERE register.kind = ? ORDER BY ledger.seq",
            (RegisterKind.PERSON,),
        ):
            try:
                person = ENTRY.validate_json(body)
            except ValidationError:
                # The ledger names it.
                continue
            kept = Kept(id=str(entry), version=version, at=moment(at), who=who, entry=person, retired=bool(retired))
            self._versions.append((turn, kept))

    def signers_of(self, job: Job, turn: int) -> tuple[Person, ...]:
        """Those of the register among the signers of a paper when it was issued.

        Nobody for one that was issued with a laptop or at the office, elsewhere: what the register said there is not
        known here, and where it said otherwise here, that was told when the paper came in.
        """
        return () if job.number in self._heard else self.named(job.signers, turn)

    def named(self, names: Iterable[str], before: int) -> tuple[Person, ...]:
        """Those who had one of these names before a turn of the log."""
        then = {kept.id: kept for turn, kept in self._versions if turn < before}
        found: list[Person] = []
        for name in filter(None, dict.fromkeys(map(joined, names))):
            same = [each for each in then.values() if identity_of(each.entry) == name]
            found += still_asked(sorted(same, key=lambda each: int(each.id)))
        return tuple(found)
