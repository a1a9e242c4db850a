"""Pictures on paper: four to a page after the observations, each with its caption and with words in its place."""

import pymupdf as fitz

from domain.editing.commands import AddPicture
from domain.inspection.observation import Code
from domain.place import Place
from storage.pdf import bind_draft
from storage.shapes.web_page import web_page
from tests.builders import complete_report, done
from tests.camera import picture


def test_five_pictures_stand_four_to_a_page_with_alternative_text() -> None:
    job = complete_report(Code.C2)
    about = Place(observation=job.observations[0].id)
    captions = [f"Scorched terminal, way {at}" for at in range(1, 6)]
    job = done(job, *(AddPicture(picture=picture(about, each)) for each in captions))
    pdf = bind_draft(job).pdf
    document = fitz.open(stream=pdf)
    shown = {page.number: len(page.get_images()) for page in document if page.get_images()}
    assert [*shown.values()] == [4, 1]
    text = "".join(page.get_text() for page in document)
    assert all(each in text for each in captions)
    told = "".join(document.xref_object(at) for at in range(1, document.xref_length()))
    assert told.count("/Alt") >= len(captions)
    page = web_page(job, "0" * 64).decode()
    assert page.count("<img alt=") == len(captions)
    assert "Scorched terminal, way 5" in page
