"""Pictures of a record: what they belong to, what covers them, and that they travel with it."""

import json

import pytest
from pydantic import ValidationError

from domain.editing.commands import AddPicture, Declined, RemovePicture, Withdraw
from domain.editing.reducer import apply
from domain.gate.gaps import gaps_of
from domain.inspection.observation import Code
from domain.job.exchange import ExchangeError, job_from_json, job_to_json
from domain.job.job import Job, fingerprint, record_hash
from domain.job.picture import PICTURES_MAX, JobPicture
from domain.job.picture_place import place_named, place_typed
from domain.place import Place
from domain.sheets import sheets_of
from tests.builders import complete_report, done
from tests.camera import picture
from tests.domain.sheets.readers import said_on

OBSERVATION = Place(observation="o1")


def with_pictures(*pictures: JobPicture) -> Job:
    job = complete_report(Code.C2)
    (observation,) = job.observations
    placed = (each.model_copy(update={"about": Place(observation=observation.id)}) for each in pictures)
    return done(job, *(AddPicture(picture=each) for each in placed))


def test_a_picture_is_part_of_the_record_and_lifts_the_signatures_on_it() -> None:
    before, after = complete_report(Code.C2), with_pictures(picture(OBSERVATION))
    assert record_hash(before) != record_hash(after)
    assert fingerprint(before) != fingerprint(after)
    assert "pictures" not in json.loads(job_to_json(before))
    (kept,) = after.pictures
    assert done(after, RemovePicture(picture=kept.id)).pictures == ()


def test_pictures_travel_with_the_job_and_one_that_was_altered_is_refused() -> None:
    job = with_pictures(picture(OBSERVATION), picture(OBSERVATION, "Hot spot at way 4", kind="thermal image"))
    assert job_from_json(job_to_json(job)) == job
    document = json.loads(job_to_json(job))
    held = document["pictures"][0]["image"]
    held["data"] = held["data"][:-8] + "AAAAAA=="
    with pytest.raises(ExchangeError):
        job_from_json(json.dumps(document))
    with pytest.raises(ValidationError, match="no JPEG"):
        JobPicture.model_validate(document["pictures"][1] | {"image": held | {"data": "AAAA"}})


@pytest.mark.parametrize("typed", ["observation 1", "item 4.4", "board CU1"])
def test_what_a_picture_belongs_to_is_named_as_people_name_it(typed: str) -> None:
    job = complete_report(Code.C2)
    typed = typed.replace("CU1", job.boards[0].name)
    place = place_named(job, typed.upper())
    assert place
    assert place_typed(job, place).casefold() == typed.casefold()


@pytest.mark.parametrize("typed", ["", "observation 2", "observation x", "item 99.1", "board Nowhere", "the board"])
def test_what_is_not_there_has_no_picture(typed: str) -> None:
    assert place_named(complete_report(Code.C2), typed) is None


def test_a_picture_of_nothing_without_words_or_of_too_many_is_declined() -> None:
    job = with_pictures(*(picture(OBSERVATION, f"Photograph number {at} of the board") for at in range(PICTURES_MAX)))
    here = job.pictures[0].about
    for said, given in (
        ("belongs to", picture(Place(observation="nowhere"))),
        ("caption", picture(here, "n/a")),
        (f"{PICTURES_MAX} pictures", picture(here, "One more")),
    ):
        answer = apply(job, AddPicture(picture=given))
        assert isinstance(answer, Declined)
        assert said in answer.says
    assert isinstance(apply(job, RemovePicture(picture="p0")), Declined)


def test_a_picture_whose_observation_was_withdrawn_keeps_the_paper_back() -> None:
    job = with_pictures(picture(OBSERVATION))
    assert not [gap for gap in gaps_of(job) if gap.kind == "picture-of-nothing"]
    left = done(job, Withdraw(observation=job.observations[0].id))
    assert [gap.kind for gap in gaps_of(left) if "picture" in gap.kind] == ["picture-of-nothing"]


def test_each_picture_is_printed_with_what_it_is_of_and_what_it_shows() -> None:
    said = said_on(sheets_of(with_pictures(picture(OBSERVATION, "Hot spot at way 4", kind="thermal image"))))
    assert "Picture 1, thermal image, of observation 1, taken on 2 March 2026" in said
    assert "Hot spot at way 4" in said
