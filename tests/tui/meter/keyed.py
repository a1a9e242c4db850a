"""The whole certificate keyed in, and what its keys come to, stage by stage and kind by kind."""

import tempfile
from collections.abc import Iterator, Sequence
from pathlib import Path

from storage.sqlite_job_log import SqliteJobLog
from tests.tui.meter.asked import FEW, MOST_BYTES, spread
from tests.tui.meter.certificate import STAGES, Certificate
from tests.tui.meter.house import house, same
from tests.tui.meter.line import Line, Sent
from tests.tui.meter.presses import Hands, Kind, Press
from tests.tui.meter.tables import Row, table, yes
from tests.tui.terminal import Terminal

_LATE = 0.25
"""Seconds after which somebody who typed on waits for the screen."""
_PACE = 8
"""Keys a second of quick hands."""


def key_in(folder: Path) -> list[Press]:
    """Every key of the certificate, on a log with nothing in it; what comes out is the job that was meant."""
    certificate = Certificate(house())
    with Terminal(home=folder) as terminal:
        terminal.until("What was done?")
        terminal.fall_silent()
        hands = Hands(terminal)
        hands.press(certificate.strokes())
        terminal.until("SHA-256", "issued")
    log = SqliteJobLog.open(folder)
    assert same(log.load("A-0001"), house())
    log.close()
    return hands.presses


def told(line: Line) -> Iterator[str]:
    """Two tables: the stages of the certificate, and its kinds of keys."""
    with tempfile.TemporaryDirectory() as folder:
        presses = key_in(Path(folder))
    yield from table(_STAGES, [*(_stage(stage, presses, line) for stage in STAGES), _stage("", presses, line)])
    yield ""
    yield from table(_KINDS, [_kind(kind, presses, line) for kind in Kind])
    yield ""
    behind, late = _behind(presses, line)
    yield f"Typed on at {_PACE} keys a second, the screen is at most {behind:.2f} s behind;"
    yield f"{late} of {len(presses)} keys are seen later than {_LATE * 1000:.0f} ms after they were pressed."
    idle = [f"{press.stroke.key} ({press.stroke.stage})" for press in presses if not press.answer]
    yield f"Keys that changed nothing: {', '.join(idle) or 'none'}."


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
