"""`python -m tests.tui.endings [COUNT]`: ends in the middle of entries, 500 unless told; what came of them goes into LAST.md."""

import platform
import sys
import tempfile
from collections import Counter
from datetime import UTC, datetime
from itertools import islice
from pathlib import Path

from tests.tui.endings.half_typed import Desk, endings

LAST = Path(__file__).with_name("LAST.md")


def main() -> int:
    """Run them; 1 where one went wrong."""
    count = int(sys.argv[1]) if len(sys.argv) > 1 else 500
    came, wrong = Counter[str](), list[str]()
    with tempfile.TemporaryDirectory() as home:
        desk = Desk(Path(home))
        for ending in islice(endings(desk.job), count):
            try:
                desk.ends(ending)
            except AssertionError as trouble:
                wrong.append(f"- {ending.end}, {ending.place.box}, {ending.typed!r}: {str(trouble).splitlines()[0]}")
                desk.leave()
            came[ending.end] += 1
        desk.leave()
    today = f"{datetime.now(UTC):%Y-%m-%d}"
    lines = [
        "# Ends in the middle of an entry, as last run",
        "",
        f"{today}, {platform.machine()}, Python {platform.python_version()}. {count} ends, one at every key of entries",
        "of eight kinds; after each the old value has to stand, the trail to be as long as before, and the box to be open",
        "with what was typed when somebody comes back; every fifth is then kept with Enter, the others dropped with Esc.",
        "",
        *(f"- {end}: {number}" for end, number in came.items()),
        "",
        f"Went wrong: {len(wrong)}",
        *wrong,
        "",
    ]
    LAST.write_text("\n".join(lines), encoding="utf-8")
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())
