"""Where the program begins: a first word on the screen, and all else only then."""

import os
import sys
from contextlib import nullcontext

from tui.first_paint import first_paint


def main() -> int:
    """Run the command line; the exit code."""
    typed = sys.argv[1:]
    if asked := os.environ.get("_OHMFOLIO_COMPLETE"):
        from tui.commands.completing import answer

        return answer(asked)
    painted = None if typed else first_paint(os.environ)
    try:
        with painted or nullcontext():
            from tui.wiring import run_command
    except KeyboardInterrupt:
        return 130

    return run_command(typed, painted)


if __name__ == "__main__":
    sys.exit(main())
