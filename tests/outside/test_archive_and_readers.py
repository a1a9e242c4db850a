"""Packs against what outside readers and checkers make of them.

PDF/UA-1 (ISO 14289-1): outloud, which covers the machine-checkable failure conditions of Matterhorn Protocol 1.1 that it lists
with `outloud --criteria`; five of its checkpoints need a person, tables and headings are among those it does check.
PDF/A-3a (ISO 19005-3): no checker of it is packaged; the engine refuses to write what breaks its rules, and the rules of clause
6 that can be read off the file are read here, from memory of the standard.
"""

import json
import shutil
import subprocess
import sys
from itertools import pairwise
from pathlib import Path

import pikepdf
import pytest

from domain.forms.form_set import FormSet
from domain.inspection.observation import Code
from domain.job.job import Job
from storage.pdf import bind_draft
from tests.builders import complete_certificate, complete_minor_works, complete_report
from tests.storage.paper.pages import issued

BUILDS = {
    FormSet.EIC: complete_certificate,
    FormSet.MEIWC: complete_minor_works,
    FormSet.EICR: lambda: complete_report(Code.C1, Code.C3),
}


@pytest.fixture(params=FormSet, ids=str)
def pack(request, tmp_path) -> Path:
    file = tmp_path / "pack.pdf"
    file.write_bytes(issued(BUILDS[request.param]()).pdf)
    return file


def test_a_checker_of_accessibility_finds_nothing_against_pdf_ua(pack: Path):
    report = pack.with_suffix(".json")
    command = [
        str(Path(sys.executable).with_name("outloud")),
        "--layer",
        "conformance",
        "--json",
        str(report),
        str(pack),
    ]
    done = subprocess.run(command, capture_output=True, text=True, timeout=120, check=False)
    assert done.returncode == 0, done.stdout
    assert "0 error(s), 0 warning(s)" in done.stdout
    assert json.loads(report.read_text(encoding="utf-8"))


def test_the_file_says_that_it_is_archival_and_accessible_and_means_it(pack: Path):
    with pikepdf.open(pack) as file:
        said = file.open_metadata()
        assert (said["pdfaid:part"], said["pdfaid:conformance"], said["pdfuaid:part"]) == ("3", "A", "1")
        assert said["xmp:CreatorTool"] == str(file.docinfo["/Creator"]) == "Ohmfolio"
        assert said["dc:title"] == str(file.docinfo["/Title"])
        assert file.Root.Lang == "en-GB"
        assert file.Root.MarkInfo.Marked
        assert not file.is_encrypted
        assert len(file.trailer.ID) == 2
        (intent,) = file.Root.OutputIntents
        assert intent.S == "/GTS_PDFA1"
        assert len(intent.DestOutputProfile.read_bytes()) > 100
        assert not {"/OpenAction", "/AA", "/AcroForm"} & set(file.Root.keys())
        (record,) = file.Root.AF
        assert record.AFRelationship == "/Source"
        assert str(record.EF.F.Subtype) == "/application/json"


def test_every_font_is_in_the_file_with_its_letters_named(pack: Path):
    with pikepdf.open(pack) as file:
        fonts = [each for each in file.objects if isinstance(each, pikepdf.Dictionary) and each.get("/Type") == "/Font"]
        assert fonts
        for font in fonts:
            if "/DescendantFonts" in font:
                assert "/ToUnicode" in font
                descriptor = font.DescendantFonts[0].FontDescriptor
                assert {"/FontFile2", "/FontFile3"} & set(descriptor.keys())


def test_tables_have_heads_and_headings_go_down_by_one(pack: Path):
    with pikepdf.open(pack) as file:
        roles = [str(each.S) for each in _elements(file.Root.StructTreeRoot)]
    levels = [int(role[2:]) for role in roles if role[:2] == "/H" and role[2:].isdigit()]
    assert levels[0] == 1
    assert all(after - before <= 1 for before, after in pairwise(levels))
    if "/Table" in roles:
        assert roles.count("/TH") > roles.count("/Table")


def _elements(element):
    kids = element.get("/K", ())
    for kid in kids if isinstance(kids, pikepdf.Array) else (kids,):
        if isinstance(kid, pikepdf.Dictionary) and "/S" in kid:
            yield kid
            yield from _elements(kid)


@pytest.mark.skipif(not shutil.which("pdftotext"), reason="poppler-utils is not installed")
def test_another_reader_gets_label_and_value_in_one_line(pack: Path):
    done = subprocess.run(["pdftotext", str(pack), "-"], capture_output=True, text=True, check=True)
    lines = [line.strip() for line in done.stdout.splitlines()]
    for line in (
        "Number: T-0001",
        "Client: Zoë Fairweather",
        "Client's postcode: WQ3 4ZZ",
        "Use of the premises: domestic",
    ):
        assert line in lines


def test_another_reader_finds_the_file_sound(pack: Path):
    with pikepdf.open(pack) as file:
        assert file.check_pdf_syntax() == []


@pytest.mark.parametrize("job", [complete_certificate(sign=False), complete_report(Code.C2, sign=False)])
def test_a_draft_is_tagged_too(job: Job, tmp_path):
    file = tmp_path / "draft.pdf"
    file.write_bytes(bind_draft(job).pdf)
    with pikepdf.open(file) as draft:
        assert draft.Root.MarkInfo.Marked
        assert draft.open_metadata()["pdfuaid:part"] == "1"
