"""Whole jobs keyed in, and what its keys come to, stage by stage and kind by kind."""

import getpass
import tempfile
from collections.abc import Iterator, Sequence
from pathlib import Path

from domain.log.job_log import Query
from storage.sqlite_job_log import SqliteJobLog
from tests.builders import AT
from tests.tui.meter.asked import FEW, MOST_BYTES, spread
from tests.tui.meter.certificate import STAGES
from tests.tui.meter.house import same
from tests.tui.meter.jobs import TESTER, Keyed, keyed_jobs
from tests.tui.meter.line import Line, Sent
from tests.tui.meter.presses import Hands, Kind, Press
from tests.tui.meter.tables import Row, table, yes
from tests.tui.terminal import Terminal

_LATE = 0.25
"""Seconds after which somebody who typed on waits for the screen."""
_PACE = 8
"""Keys a second of quick hands."""


def key_in(keyed: Keyed, folder: Path) -> list[Press]:
    """Every key of a job, on a log that holds what is known before it; what comes out is the job that was meant."""
    hands = Hands(Terminal(home=folder))
    with hands.terminal as terminal:
        terminal.until("What was done?")
        terminal.fall_silent()
        hands.press(keyed.hands.strokes())
        terminal.until("SHA-256", "issued")
    log = SqliteJobLog.open(folder)
    (newest, *_) = log.find(Query(limit=1))
    assert same(log.load(newest.number), keyed.wanted), f"{keyed.name}: another job came out"
    log.close()
    return hands.presses


def all_keyed_in() -> Iterator[tuple[Keyed, list[Press]]]:
    """Every job of the meter: one that follows another on the log which that one left."""
    with tempfile.TemporaryDirectory() as folders:
        for at, keyed in enumerate(keyed_jobs()):
            folder = Path(folders, str(at - 1 if keyed.before else at))
            folder.mkdir(exist_ok=True)
            if keyed.before:
                _make_known(folder)
            yield keyed, key_in(keyed, folder)


def _make_known(folder: Path) -> None:
    """The office enters who signs; the rest was learnt from the paper before."""
    log = SqliteJobLog.open(folder)
    log.register(TESTER, who=getpass.getuser(), at=AT)
    log.close()


def told(line: Line) -> Iterator[str]:
    """The jobs with what they may take; then of the last, the largest, its stages and its kinds of keys."""
    rows: list[Row] = []
    presses: list[Press] = []
    for keyed, presses in all_keyed_in():
        rows.append(_job(keyed, presses))
    yield from table(_JOBS, rows)
    yield ""
    yield "## The largest of them, stage by stage"
    yield ""
    yield from table(_STAGES, [*(_stage(stage, presses, line) for stage in STAGES), _stage("", presses, line)])
    yield ""
    yield from table(_KINDS, [_kind(kind, presses, line) for kind in Kind])
    yield ""
    behind, late = _behind(presses, line)
    yield f"Typed on at {_PACE} keys a second, the screen is at most {behind:.2f} s behind;"
    yield f"{late} of {len(presses)} keys are seen later than {_LATE * 1000:.0f} ms after they were pressed."
    idle = [f"{press.stroke.key} ({press.stroke.stage})" for press in presses if not press.answer]
    yield f"Keys that changed nothing: {', '.join(idle) or 'none'}."


_JOBS = ("job", "keys", "at most", *STAGES, "bytes", "at most", "keys that changed nothing", "reached")


def _job(keyed: Keyed, presses: Sequence[Press]) -> Row:
    sent, idle = sum(press.bytes for press in presses), sum(not press.answer for press in presses)
    stages = (str(sum(press.stroke.stage == stage for press in presses)) for stage in STAGES)
    reached = len(presses) <= keyed.keys and sent <= keyed.bytes
    return (
        keyed.name,
        f"{len(presses):,}",
        f"{keyed.keys:,}",
        *stages,
        f"{sent:,}",
        f"{keyed.bytes:,}",
        str(idle),
        yes(reached),
    )


_STAGES = (
    "stage",
    "keys",
    "boxes",
    "keys a box",
    "of them beside the text",
    "bytes a key, median / p95 / most",
    "bytes",
    "seen after ms, median / p95 / worst",
    "line busy s",
    "keys that changed nothing",
)


def _stage(stage: str, presses: Sequence[Press], line: Line) -> Row:
    of = [press for press in presses if stage in {press.stroke.stage, ""}]
    boxes = sum(press.stroke.fills for press in of)
    beside = sum(press.stroke.kind is not Kind.LETTER for press in of)
    return (
        stage or "whole certificate",
        f"{len(of):,}",
        str(boxes or "-"),
        f"{len(of) / boxes:.2f}" if boxes else "-",
        f"{beside / boxes:.2f}" if boxes else "-",
        _bytes(of),
        f"{sum(press.bytes for press in of):,}",
        _seen_after(of, line),
        f"{sum(line.seconds_for(sent.count) for press in of for sent in press.answer):.1f}",
        str(sum(not press.answer for press in of)),
    )


_KINDS = ("key", "pressed", "bytes, median / p95 / most", "asked", "reached", "seen after ms, median / p95 / worst")


def _kind(kind: Kind, presses: Sequence[Press], line: Line) -> Row:
    of = [press for press in presses if press.stroke.kind is kind]
    most = MOST_BYTES.get(kind)
    asked = f"{most.median} / {most.p95}" if most else "-"
    reached = yes(most.holds(spread([press.bytes for press in of]))) if most else "-"
    if most and len(of) < FEW:
        reached = "too few to say"
    return kind, f"{len(of):,}", _bytes(of), asked, reached, _seen_after(of, line)


def _bytes(of: Sequence[Press]) -> str:
    bytes_ = spread([press.bytes for press in of])
    return f"{bytes_.median:.0f} / {bytes_.p95:,} / {bytes_.most:,}"


def _seen_after(of: Sequence[Press], line: Line) -> str:
    seen = spread([line.after(press.answer) * 1000 for press in of])
    return f"{seen.median:.0f} / {seen.p95:.0f} / {seen.most:.0f}"


def _behind(presses: Sequence[Press], line: Line) -> tuple[float, int]:
    """How far the screen is behind hands that type on, at most, and how often they would have to wait for it."""
    sent = [
        (at / _PACE, Sent(at / _PACE + line.delay + part.at, part.count))
        for at, press in enumerate(presses)
        for part in press.answer
    ]
    seen = line.seen(part for _, part in sent)
    after = {pressed: at - pressed for (pressed, _), at in zip(sent, seen, strict=True)}
    return max(after.values()), sum(behind > _LATE for behind in after.values())
