"""What follows an issue: how the pack is fetched from this host, and the command that an office set."""

import getpass
import os
import shlex
import socket
import subprocess
from pathlib import Path

_SECONDS = 60
"""How long the command may take; the issue stands whatever it does."""
_SAID_MAX = 200


def copy_lines(folder: Path) -> tuple[str, ...]:
    """What to type on one's own computer to fetch the pack from this host, where somebody works here from another."""
    connection = os.environ.get("SSH_CONNECTION", "").split()
    host = connection[2] if len(connection) > 2 else socket.gethostname()
    host = f"[{host}]" if ":" in host else host
    # Quoted twice: for the shell that it is typed into, and for the name that reaches this host as it is.
    source = shlex.quote(f"{getpass.getuser()}@{host}:{folder.absolute()}")
    return (f"scp -r {source} .", f"sftp -r {source} .")


def follow_up(command: str, folder: Path) -> str:
    """Run the command of OHMFOLIO_AFTER_ISSUE with the folder as its last argument, never through a shell.

    What went wrong, in a sentence; "" where nothing did.
    """
    try:
        ran = subprocess.run(
            [*shlex.split(command), str(folder.absolute())],
            stdin=subprocess.DEVNULL,
            capture_output=True,
            timeout=_SECONDS,
            check=False,
        )
    except subprocess.TimeoutExpired:
        return f"It is issued, but {command} did not end within {_SECONDS} seconds and was stopped"
    except OSError as error:
        return f"It is issued, but {command} cannot be run: {error.strerror or error}"
    if ran.returncode == 0:
        return ""
    said = " ".join(ran.stderr.decode(errors="replace").split())[:_SAID_MAX]
    return f"It is issued, but {command} ended with {ran.returncode}{f': {said}' if said else ''}"
