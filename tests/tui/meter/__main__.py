"""The meter from the command line: whole jobs keyed in, then single kinds of keys.

    python -m tests.tui.meter                                      over 64 kbit/s and 40 ms each way
    python -m tests.tui.meter --delay 150 --rate 256 --overhead 90     ms each way, kbit/s, bytes a packet

Bytes are the same on every computer. Times are not: run it on a machine with nothing else to do.
"""

import argparse
import os
import platform
import sys
from collections.abc import Iterator
from datetime import UTC, datetime

from tests.tui.meter import keyed, pressed_alone
from tests.tui.meter.line import Line
from tests.tui.meter.tables import yes


def main() -> int:
    """Measure, and tell it as it comes; 1 where a figure was not reached."""
    asked = argparse.ArgumentParser(prog="python -m tests.tui.meter", description=(__doc__ or "").splitlines()[0])
    asked.add_argument("--delay", type=float, default=40, help="milliseconds each way")
    asked.add_argument("--rate", type=float, default=64, help="kbit a second towards the person")
    asked.add_argument("--overhead", type=int, default=90, help="bytes added to every packet")
    typed = asked.parse_args()
    missed = False
    for told in _told(Line(typed.delay / 1000, typed.rate * 1000, typed.overhead)):
        sys.stdout.write(f"{told}\n")
        sys.stdout.flush()
        missed |= told.endswith(f"| {yes(reached=False)} |")
    return int(missed)


def _told(line: Line) -> Iterator[str]:
    yield "# The meter, as last read"
    yield ""
    yield f"{datetime.now(UTC):%Y-%m-%d}, {os.cpu_count()} cores, {platform.machine()}, Python {platform.python_version()};"
    yield f"load on the machine {', '.join(f'{each:.1f}' for each in os.getloadavg())}. 80 by 24."
    yield f"The line: {line.delay * 1000:.0f} ms each way, {line.rate / 1000:.0f} kbit/s, {line.overhead} bytes a packet."
    yield ""
    yield "## Jobs keyed in from the first question to their issue"
    yield ""
    yield from keyed.told(line)
    yield ""
    yield "## Single keys, on a board of forty circuits"
    yield ""
    yield from pressed_alone.told(line)


if __name__ == "__main__":  # a program of a test terminal parts from a process that loads this module again
    sys.exit(main())
