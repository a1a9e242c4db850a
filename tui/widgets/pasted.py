"""Lines and cells of what is pasted into a schedule."""

import re

_EACH_TWICE = re.compile(r"[^\r]*(\r\r[^\r]+){2,}(\r\r)?")
"""Every end of a line stands there twice: a multiplexer made one of each half of CR LF."""


def pasted_lines(text: str) -> list[str]:
    """The lines, each end counted once however it came through; empty lines at the end are none."""
    lines = text.replace("\r\n", "\n").rstrip("\r\n ")
    if "\n" not in lines and _EACH_TWICE.fullmatch(lines):
        lines = lines.replace("\r\r", "\n")
    return lines.splitlines()
