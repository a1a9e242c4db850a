"""Files that are complete under their name, or not there at all; never over another."""

import os
import secrets
import shutil
from collections.abc import Iterable, Mapping
from pathlib import Path

from storage.access import make_file
from storage.renaming import rename_new


def write_new(path: Path, content: bytes | Iterable[bytes]) -> None:
    """Write a file that must not exist yet, whole or as its pieces come. FileExistsError when it does, OSError when it cannot be written."""
    path.parent.mkdir(parents=True, exist_ok=True)
    part = path.with_name(f".{secrets.token_hex(8)}.part")
    try:
        write_part(part, content)
        rename_new(part, path)
    finally:
        part.unlink(missing_ok=True)
    sync_folder(path.parent)


def write_folder(path: Path, files: Mapping[str, bytes]) -> None:
    """Write a folder that must not exist yet, with every file in it; complete, or not there."""
    path.parent.mkdir(parents=True, exist_ok=True)
    if path.exists() or path.is_symlink():
        raise FileExistsError(path)
    part = path.with_name(f".{secrets.token_hex(8)}.part")
    part.mkdir(mode=0o700)
    try:
        for name, content in files.items():
            write_part(part / name, content)
        sync_folder(part)
        # A folder never takes the place of a file, or of a folder with anything in it.
        part.rename(path)
    except BaseException:
        shutil.rmtree(part, ignore_errors=True)
        raise
    sync_folder(path.parent)


def write_part(path: Path, content: bytes | Iterable[bytes]) -> None:
    """Write a file of nobody else's, down to the disk; open to whom its folder is opened by the log."""
    descriptor = make_file(path)
    with os.fdopen(descriptor, "wb") as file:
        file.writelines((content,) if isinstance(content, bytes) else content)
        file.flush()
        os.fsync(descriptor)


def sync_folder(folder: Path) -> None:
    """Have the names in a folder on disk, not only the files."""
    descriptor = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(descriptor)
    finally:
        os.close(descriptor)
