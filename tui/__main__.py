"""Where the program begins: a first word on the screen, and all else only then."""

import gc
import os
import sys
from contextlib import nullcontext

from tui.first_paint import first_paint


def main() -> int:
    """Run the command line; the exit code."""
    typed = sys.argv[1:]
    # Looking for libraries that add to one of ours takes longer than loading it, and would run what anybody installed beside it.
    os.environ["PYDANTIC_DISABLE_PLUGINS"] = "1"
    if asked := os.environ.get("_OHMFOLIO_COMPLETE"):
        return _complete(asked)
    painted = None if typed else first_paint(os.environ)
    if painted:
        # Next to nothing that is loaded for the first screen is waste; `preload` goes on once it is there.
        gc.disable()
    try:
        with painted or nullcontext():
            from tui.wiring import run_command
    except KeyboardInterrupt:
        return 130

    return run_command(typed, painted)


def _complete(asked: str) -> int:
    """Answer a shell; somebody may well press Ctrl+C while it waits."""
    try:
        from tui.commands.completing import answer

        return answer(asked)
    except KeyboardInterrupt:
        return 130


if __name__ == "__main__":
    sys.exit(main())
