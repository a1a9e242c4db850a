"""What a process does that tests start."""

import json
import os
import sys
import threading
from pathlib import Path


def tell_surroundings(_: bytes) -> bytes:
    """Answer with the folder, the environment and where code is looked for."""
    told = {"folder": str(Path.cwd()), "environment": dict(os.environ), "looked_for_code": sys.path}
    return json.dumps(told).encode()


def take_much(request: bytes) -> bytes:
    """Take more of what the request names than anything needs."""
    takes = request.decode()
    if takes == "memory":
        bytearray(1024 * 1024 * 1024)
    while takes == "processor":
        pass
    if takes == "sleep":
        threading.Event().wait()
    return bytes(2 * 1024 * 1024) if takes == "room" else b"done"
