"""Data set into pages by the templates; the only user of the typesetting engine, which is loaded at the first paper.

The engine keeps what it has set for as long as its process runs. A large paper is therefore set in a process of its own.
"""

import json
import pickle
from collections.abc import Iterator
from contextlib import ExitStack
from dataclasses import dataclass
from functools import cache
from importlib.resources import as_file, files
from pathlib import Path
from typing import Any

from storage.child_process import BeyondLimitsError, ProcessLimits, asked
from storage.paper.paper_error import PaperError

_ISSUED, _DRAFT = ["a-3a", "ua-1"], ["ua-1"]
"""What the file declares itself to be. A draft bears no date, and nobody keeps it."""
_MARKS = (
    "query(<mark>).map(each => { let at = each.location().position(); (..each.value, at.page, at.x.pt(), at.y.pt()) })"
)
_HELD = ExitStack()
"""Holds what was taken out of a packed installation."""
_LARGE = 60_000
"""Letters of data, about 75 circuits: what the engine takes for more would not leave the process that binds under 200 MiB."""
_LIMITS = ProcessLimits(memory=4096)
_SAID_OF_LETTERS = "could not be displayed"


@dataclass(frozen=True, slots=True)
class MarkPosition:
    """Where a mark came to stand."""

    mark: int
    side: str
    """`from` and `to` of a text, `row` for the top of a row, `end` for the end of a table, `foot` for that of a sheet of text."""
    page: int
    """Counted from 0."""
    x: float
    y: float
    """Points from the top left of the page."""


@dataclass(frozen=True, slots=True)
class SetPages:
    """A file as the engine made it, and where its marks stand, in the order of the text."""

    pdf: bytes
    marks: tuple[MarkPosition, ...]

    @property
    def last(self) -> int:
        """The page of its last mark, counted from 0."""
        return max((each.page for each in self.marks), default=0)


def set_pages(data: dict[str, Any], record: str, template: str = "pack.typ", *, closer: bool = False) -> SetPages:
    """Set a paper by a template. The same data give the same bytes. PaperError where a text cannot be set.

    `closer` leaves less room around the lines.
    """
    inputs = {"pack": json.dumps(data, ensure_ascii=False), "record": record, "closer": "closer" if closer else ""}
    at = bool(data["at"])
    if len(inputs["pack"]) <= _LARGE:
        return _set_here(inputs, template, at=at)
    try:
        answer = pickle.loads(asked(f"{__name__}:set_apart", pickle.dumps((inputs, template, at)), _LIMITS))
    except (BeyondLimitsError, OSError) as error:
        raise PaperError("The paper cannot be set: the process that sets it ended early. Try again") from error
    if isinstance(answer, PaperError):
        raise answer
    return answer


def set_apart(request: bytes) -> bytes:
    """Set a paper whose data come in, in a process that ends afterwards; its pages, or the PaperError."""
    inputs, template, at = pickle.loads(request)
    try:
        return pickle.dumps(_set_here(inputs, template, at=at))
    except PaperError as error:
        return pickle.dumps(error)


def _set_here(inputs: dict[str, str], template: str, *, at: bool) -> SetPages:
    pdf, compiler = compiled(_folder("templates") / template, inputs, at=at)
    return SetPages(pdf, tuple(_positions(json.loads(compiler.eval(_MARKS)))))


def compiled(source: Path | bytes, inputs: dict[str, str], *, at: bool) -> tuple[bytes, Any]:
    """A template with its values as a file, archival where it bears a date, and what can be asked of it."""
    import typst

    named: Any = source if isinstance(source, bytes) else str(source)
    standards: Any = _ISSUED if at else _DRAFT
    compiler = typst.Compiler(
        input=named,
        root=str(_folder("templates")),
        font_paths=_fonts(),
        sys_inputs=inputs,
    )
    try:
        pdf = compiler.compile(format="pdf", pdf_standards=standards)
    except typst.TypstError as error:
        raise PaperError(_said(error)) from error
    except BaseException as error:
        # A fault of the engine's own is no Exception, and must not end the process that binds without a word.
        if type(error).__module__ == "pyo3_runtime":
            raise PaperError(f"The paper cannot be set: the typesetting engine broke off ({error})") from error
        raise
    assert isinstance(pdf, bytes)
    return pdf, compiler


def drawing_as_png(svg: bytes) -> bytes:
    """A drawing in SVG as an image, fine enough to print: the writer of letters takes no other."""
    import typst

    source = (
        b'#set page(width: auto, height: auto, margin: 0pt)\n#image(bytes(sys.inputs.svg), format: "svg", width: 100pt)'
    )
    root: Any = str(_folder("templates"))
    made = typst.compile(source, format="png", ppi=432.0, sys_inputs={"svg": svg.decode()}, root=root)
    assert isinstance(made, bytes)
    return made


def _positions(found: list[Any]) -> Iterator[MarkPosition]:
    for mark, side, page, x, y in found:
        yield MarkPosition(mark, side, page - 1, x, y)


def _said(error: Any) -> str:
    message = str(error.message)
    if _SAID_OF_LETTERS in message:
        return f"It holds a letter that no font of the paper has: {message}"
    return f"The paper cannot be set: {message}"


@cache
def _fonts() -> Any:
    """The packaged fonts and no others, so that a paper comes out the same on every machine."""
    import typst

    return typst.Fonts(include_system_fonts=False, include_embedded_fonts=False, font_paths=[str(_folder("fonts"))])


@cache
def _folder(name: str) -> Path:
    """A folder of this package on disk, for as long as the program runs."""
    return _HELD.enter_context(as_file(files("storage.paper") / name))
