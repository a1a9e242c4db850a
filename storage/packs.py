"""The pack as it is handed out: the paper, the same as a web page, and the schedules as a table, in one folder."""

from collections.abc import Mapping
from pathlib import Path

from domain.gate.issued_paper import IssuedPaper
from storage.files import write_folder
from storage.shapes.schedule_table import schedule_table
from storage.shapes.web_page import web_page


def hand_out(issued: IssuedPaper, pdf: bytes, folder: Path) -> tuple[Path, ...]:
    """Put the whole pack of a paper and its PDF into a folder that must not exist yet; the files in it, the PDF first.

    FileExistsError when the folder is there, OSError when it cannot be written; then there is nothing of it.
    """
    files = _files(issued, pdf, folder.name)
    write_folder(folder, files)
    return tuple(folder / name for name in files)


def _files(issued: IssuedPaper, pdf: bytes, name: str) -> Mapping[str, bytes]:
    job = issued.pack.job
    files = {f"{name}.pdf": pdf, f"{name}.html": web_page(job, issued.sha256)}
    table = schedule_table(job)
    return files | ({f"{name}-schedules.csv": table} if table else {})
