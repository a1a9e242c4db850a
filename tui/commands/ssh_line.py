"""A line to the office by ssh: what its two ends are, and why there is none, in a sentence."""

import subprocess
from collections.abc import Generator
from contextlib import contextmanager
from tempfile import TemporaryFile
from typing import IO, NamedTuple

from domain.log.job_log import JobLogError

_SAFE = "The same once more is safe."
_NOT_REACHED, _NO_PROGRAM = 255, 127
"""What ssh ends with where it did not get through, and a shell where it found no such program (their manuals)."""
_QUIET_FOR = ("-o", "ServerAliveInterval=20", "-o", "ServerAliveCountMax=3")
"""A line that is dead is given up after a minute."""
_SAID_MAX = 300


class Line(NamedTuple):
    """What comes from the other side, and what goes there."""

    incoming: IO[bytes]
    outgoing: IO[bytes]


@contextmanager
def line_to(host: str) -> Generator[Line]:
    """Have `ohmfolio exchange --line` answer at a host. JobLogError says why it did not, or broke off."""
    typed = ["ssh", "-T", *_QUIET_FOR, "--", host, "ohmfolio", "exchange", "--line"]
    with TemporaryFile() as said:
        try:
            ssh = subprocess.Popen(typed, stdin=subprocess.PIPE, stdout=subprocess.PIPE, stderr=said)
        except FileNotFoundError:
            raise JobLogError("There is no ssh on this computer: apt-get install openssh-client.") from None
        assert ssh.stdin is not None
        assert ssh.stdout is not None
        trouble: BaseException | None = None
        try:
            yield Line(ssh.stdout, ssh.stdin)
        except (BrokenPipeError, JobLogError) as broken:
            trouble = broken
        finally:
            _let_go(ssh)
        said.seek(0)
        words = [line.strip() for line in said.read().decode(errors="replace").splitlines() if line.strip()]
        if trouble is None:
            return
        raise JobLogError(_why(host, ssh.returncode, words, trouble)) from trouble


def _let_go(ssh: "subprocess.Popen[bytes]") -> None:
    """Hang up, and wait until the other side has heard."""
    for end in (ssh.stdin, ssh.stdout):
        try:
            if end:
                end.close()
        except BrokenPipeError:
            pass
    ssh.wait()


def _why(host: str, code: int, words: list[str], trouble: BaseException) -> str:
    last = words[-1][:_SAID_MAX].rstrip(".") if words else ""
    if code == _NOT_REACHED:
        return f"There was no line to {host}, or it broke{f': {last}' if last else ''}. {_SAFE}"
    if code == _NO_PROGRAM:
        return f"{host} was reached, and has no program ohmfolio in the path of that account ({last}). {_SAFE}"
    if code and last:
        return f"{host} answers: {last}. {_SAFE}"
    return f"{host}: {trouble}" if isinstance(trouble, JobLogError) else f"{host} hung up. {_SAFE}"
