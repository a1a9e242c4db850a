"""Paper is made in a process of its own: the same paper, and nothing is left running."""

import pickle
import subprocess
import sys
from collections.abc import Iterator

import pytest

from domain.forms.form_set import FormSet
from domain.gate.assessment import Pack, issue
from storage import pdf
from storage.paper import typesetting
from storage.paper.paper_error import PaperError
from storage.pdf_worker import PdfWorker
from tests.builders import AT, INSPECTOR, complete_minor_works, fresh


@pytest.fixture
def worker() -> Iterator[PdfWorker]:
    made = PdfWorker()
    yield made
    made.close()


def test_pack_and_draft_are_the_same_as_made_here(worker: PdfWorker) -> None:
    pack = issue(complete_minor_works(), by=INSPECTOR, at=AT, people=())
    assert isinstance(pack, Pack)
    assert worker.bind(pack) == pdf.bind(pack)
    assert worker.bind_draft(pack.job) == pdf.bind_draft(pack.job)


def test_a_large_paper_is_set_in_a_process_that_ends_with_it_and_is_the_same(monkeypatch) -> None:
    job = fresh(FormSet.MEIWC)
    set_here = pdf.bind_draft(job)
    monkeypatch.setattr(typesetting, "_LARGE", 0)
    assert pdf.bind_draft(job) == set_here


def test_a_large_paper_that_cannot_be_set_says_why() -> None:
    answer = pickle.loads(typesetting.set_apart(pickle.dumps(({"pack": "{}", "record": ""}, "pack.typ", False))))
    assert isinstance(answer, PaperError)
    assert "cannot be set" in str(answer)


class Done:
    """Stands for a value of an order; whoever reads the order does this first."""

    def __init__(self, what: str) -> None:
        self.what = what

    def __reduce__(self) -> tuple[object, tuple[str]]:
        return eval, (self.what,)


def test_a_process_killed_in_the_middle_is_told_of_and_the_next_paper_is_made(worker: PdfWorker) -> None:
    job = fresh(FormSet.MEIWC)
    with pytest.raises(PaperError, match="ended early"):
        worker.bind_draft(job, Done("__import__('os').kill(__import__('os').getpid(), 9)"))
    killed = worker.process_id
    assert worker.bind_draft(job) == pdf.bind_draft(job)
    assert worker.process_id != killed


def test_a_process_that_holds_too_much_ends_behind_its_answer_and_another_is_ready(worker: PdfWorker) -> None:
    job = fresh(FormSet.MEIWC)
    worker.open()
    grown = worker.process_id
    made = worker.bind_draft(job, Done("setattr(__import__('sys').modules['storage.pdf_worker'], '_GROWN', 0)"))
    assert made == pdf.bind_draft(job)
    assert worker.process_id not in {None, grown}
    assert worker.doing_now() == ""


def test_the_pdf_writer_is_not_loaded_where_one_types() -> None:
    program = """
import sys
from domain.forms.form_set import FormSet
from storage.pdf_worker import PdfWorker
from tests.builders import fresh
worker = PdfWorker()
print(worker.bind_draft(fresh(FormSet.MEIWC)).pages, "pymupdf" in sys.modules, "markdown_pdf" in sys.modules)
sys.stdout.flush()
os.kill(os.getpid(), 9)
"""
    # The pipe to the process that binds closes with the death of this one: it ends too, and frees the output it shares.
    done = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, timeout=60, check=False)
    assert done.stdout.split()[1:] == ["False", "False"], done.stderr


def test_a_file_in_the_folder_one_works_in_is_never_run_in_place_of_the_program(tmp_path, monkeypatch, worker) -> None:
    for name in (
        "storage/__init__.py",
        "storage/pdf_worker.py",
        "storage/pdf.py",
        "pickle.py",
        "typst.py",
        "sitecustomize.py",
    ):
        planted = tmp_path / name
        planted.parent.mkdir(exist_ok=True)
        planted.write_text(f"from pathlib import Path; Path({str(tmp_path / 'was run')!r}).touch(); raise SystemExit")
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("PYTHONPATH", str(tmp_path))
    monkeypatch.setenv("PYTHONSTARTUP", str(tmp_path / "pickle.py"))
    assert worker.bind_draft(fresh(FormSet.MEIWC)).pages
    assert not (tmp_path / "was run").exists()


def test_an_interpreter_without_a_full_path_makes_no_paper(monkeypatch, worker) -> None:
    monkeypatch.setattr(sys, "executable", "python3")
    with pytest.raises(PaperError, match="full path"):
        worker.bind_draft(fresh(FormSet.MEIWC))
