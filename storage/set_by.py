"""What sets a paper: this program and the libraries that draw, with a mark of every file that decides what its pages hold."""

import hashlib
import zlib
from collections.abc import Iterator
from functools import cache
from importlib.metadata import PackageNotFoundError, version
from importlib.resources import files
from importlib.resources.abc import Traversable

_PROGRAM = "ohmfolio"
_DRAWING = ("typst", "markdown-pdf", "PyMuPDF", "markdown-it-py")
_HELD = (".py", ".toml", ".md", ".typ", ".ttf", ".otf")
_SHORT = 6


@cache
def set_by() -> str:
    """Such as `ohmfolio 0.1.0, sheets 1f0c9a7be2d4`: another one as soon as a sentence, a sheet or a figure is another.

    Two papers of one record made by the same are the same, byte for byte.
    """
    mark = hashlib.blake2b(digest_size=_SHORT)
    for name, held in (*_files("domain"), *_files("storage")):
        mark.update(f"{name} {len(held)}\n".encode())
        mark.update(held)
    for library in _DRAWING:
        mark.update(f"{library} {_version(library)}\n".encode())
    mark.update(f"zlib {zlib.ZLIB_RUNTIME_VERSION}\n".encode())
    return f"{_PROGRAM} {_version(_PROGRAM)}, sheets {mark.hexdigest()}"


def _files(room: str) -> Iterator[tuple[str, bytes]]:
    yield from _within(files(room), room)


def _within(folder: Traversable, path: str) -> Iterator[tuple[str, bytes]]:
    for each in sorted(folder.iterdir(), key=lambda each: each.name):
        name = f"{path}/{each.name}"
        if each.is_dir() and not each.name.startswith("__"):
            yield from _within(each, name)
        elif each.name.endswith(_HELD):
            yield name, each.read_bytes()


def _version(library: str) -> str:
    try:
        return version(library)
    except PackageNotFoundError:
        return "unknown"
