"""What can be done to a job, and what cannot."""

from datetime import UTC, date, datetime

import pytest

from domain.editing.commands import (
    COMMAND,
    AddBoard,
    AddCircuit,
    Choose,
    ClearSnag,
    Command,
    Declined,
    Enter,
    Explain,
    Fill,
    LayAside,
    MoveCircuit,
    Observe,
    RaiseSnag,
    RemoveCircuit,
    SayWhy,
    SetOutcome,
    Sign,
    TakeUp,
    Withdraw,
)
from domain.editing.reducer import apply
from domain.forms.choice.chosen import ChosenPapers
from domain.forms.form_set import FormSet
from domain.gate.assessment import assess
from domain.gate.reason import ReasonKind
from domain.inspection.item_outcome import InspectionOutcome
from domain.inspection.observation import Code
from domain.job.circuit import Circuit
from domain.job.job import Job
from domain.job.signature import Role
from domain.job.start import as_draft, new_job
from domain.place import Place
from tests.builders import complete_certificate, complete_minor_works, signed

ON = date(2026, 11, 25)
AT = datetime(2026, 11, 25, 10, 0, tzinfo=UTC)


def fresh(form_set: FormSet = FormSet.EIC) -> Job:
    return new_job(ChosenPapers(form_set=form_set), on=ON)


def done(job: Job, *commands: Command) -> Job:
    for command in commands:
        after = apply(job, command)
        assert isinstance(after, Job), after
        job = after
    return job


def refused(job: Job, command: Command) -> str:
    after = apply(job, command)
    assert isinstance(after, Declined)
    return after.says


def circuit_box(box: str) -> Place:
    return Place(section="boards", board="b1", circuit="c2", box=box)


def test_what_is_typed_into_a_box_stands_there_as_typed() -> None:
    job = done(fresh(), Enter(place=circuit_box("zs"), text="0,90"))
    assert job.boards[0].circuits[0].zs.typed == "0,90"


def test_a_box_of_a_removed_circuit_takes_nothing_and_says_so() -> None:
    job = done(fresh(), RemoveCircuit(board="b1", circuit="c2"))
    assert "no longer there" in refused(job, Enter(place=circuit_box("zs"), text="0.9"))


def test_too_long_a_reading_is_declined_not_cut() -> None:
    assert "24 characters" in refused(fresh(), Enter(place=circuit_box("zs"), text="1" * 25))


def test_boxes_are_filled_all_together_or_not_at_all() -> None:
    job = done(fresh(), AddCircuit(board="b1", after="c2"))
    zs = [Place(section="boards", board="b1", circuit=each.id, box="zs") for each in job.boards[0].circuits]
    texts = ("0.61", "0.84")
    filled = done(job, Fill(entries=tuple(Enter(place=at, text=text) for at, text in zip(zs, texts, strict=True))))
    assert [circuit.zs.typed for circuit in filled.boards[0].circuits] == ["0.61", "0.84"]
    gone = Enter(place=zs[0].model_copy(update={"circuit": "c99"}), text="1")
    assert "no longer there" in refused(job, Fill(entries=(Enter(place=zs[0], text="0.61"), gone)))


def test_a_circuit_added_like_another_has_its_details_and_none_of_its_readings() -> None:
    job = done(
        fresh(),
        Enter(place=circuit_box("rating"), text="32"),
        Enter(place=circuit_box("number"), text="1"),
        Enter(place=circuit_box("zs"), text="0.9"),
        AddCircuit(board="b1", after="c2", like="c2"),
    )
    added = job.boards[0].circuits[1]
    assert (added.rating.typed, added.number, added.zs.typed) == ("32", "", "")


def test_circuits_are_moved_and_keep_their_readings() -> None:
    job = done(fresh(), AddCircuit(board="b1"), Enter(place=circuit_box("zs"), text="0.9"))
    moved = done(job, MoveCircuit(board="b1", circuit="c2", to=1))
    assert [each.zs.typed for each in moved.boards[0].circuits] == ["", "0.9"]


def test_minor_works_holds_one_circuit_of_one_board() -> None:
    assert "one existing circuit" in refused(fresh(FormSet.MEIWC), AddCircuit(board="b1"))
    assert "one circuit of one board" in refused(fresh(FormSet.MEIWC), AddBoard())


def test_disagreeing_with_the_advice_needs_a_reason() -> None:
    differs = ChosenPapers(form_set=FormSet.MEIWC, advised=FormSet.EIC)
    assert "Say why" in refused(fresh(), Choose(chosen=differs))
    done(fresh(), Choose(chosen=differs.model_copy(update={"because": "Agreed with the scheme"})))


def test_clearing_a_snag_needs_a_name_and_a_word_on_how() -> None:
    job = done(fresh(), RaiseSnag(what="Loose gland", by="Ada Fenn", on=ON))
    snag = job.snags[0].id
    assert "how it was put right" in refused(job, ClearSnag(snag=snag, by="Ada Fenn", on=ON, how=" "))
    assert not done(job, ClearSnag(snag=snag, by="Ada Fenn", on=ON, how="Re-made")).open_snags


def test_reports_take_observations_and_certificates_take_snags() -> None:
    observe = Observe(finding="No cpc at the lamp", code=Code.C2)
    assert "raise a snag" in refused(fresh(FormSet.EIC), observe)
    snag = RaiseSnag(what="Loose", by="A", on=ON)
    assert "observations" in refused(fresh(FormSet.EICR), snag)
    job = done(fresh(FormSet.EICR), observe)
    assert done(job, Withdraw(observation=job.observations[0].id)).observations == ()


def test_a_certificate_takes_no_code_in_its_inspection() -> None:
    assert "reports only" in refused(fresh(), SetOutcome(item="1", mark=InspectionOutcome.C2))


def test_any_later_change_lifts_the_signatures() -> None:
    signed = done(fresh(), Sign(role=Role.DESIGN, name="Ada Fenn", at=AT))
    assert signed.signatures
    assert not done(signed, Enter(place=circuit_box("zs"), text="0.9")).signatures


def test_a_change_that_changes_nothing_leaves_the_signatures() -> None:
    signed = done(fresh(), Sign(role=Role.DESIGN, name="Ada Fenn", at=AT))
    assert done(signed, Enter(place=circuit_box("zs"), text="")).signatures


def test_what_has_been_issued_takes_no_command() -> None:
    issued = Job.model_validate(fresh().model_dump() | {"issued": {"at": AT, "by": "Ada Fenn"}})
    assert "issued" in refused(issued, Enter(place=circuit_box("zs"), text="0.9"))


def test_a_job_from_outside_comes_in_as_a_draft_with_only_the_signatures_that_fit_it() -> None:
    signed = done(fresh(), Sign(role=Role.DESIGN, name="Ada Fenn", at=AT))
    assert as_draft(signed.model_copy(update={"number": "B-0009"})).signatures
    forged = signed.model_copy(update={"boards": (), "issued": None})
    assert not as_draft(forged).signatures


def test_parts_typed_without_ids_get_ids_of_their_own() -> None:
    job = Job.model_validate(
        {
            "chosen": {"form_set": "EIC"},
            "edition": "BS 7671:2018+A4:2026",
            "boards": [{"designation": "DB1", "circuits": [{"number": "1"}, {"number": "2", "id": "c7"}]}],
        }
    )
    ids = [job.boards[0].id, *(circuit.id for circuit in job.boards[0].circuits)]
    assert len(set(ids)) == 3
    assert done(job, AddCircuit(board=job.boards[0].id)).boards[0].circuits[-1].id not in ids


def test_an_id_used_twice_is_refused() -> None:
    document = fresh().model_dump(mode="json")
    document["boards"][0]["circuits"] = [Circuit(id="c2").model_dump(), Circuit(id="c2").model_dump()]
    with pytest.raises(ValueError, match="used twice"):
        Job.model_validate(document)


@pytest.mark.parametrize(
    "command", [Enter(place=circuit_box("zs"), text="1"), AddBoard(), Observe(finding="x", code=Code.FI)]
)
def test_commands_come_back_from_the_log_as_they_went_in(command: Command) -> None:
    assert COMMAND.validate_json(COMMAND.dump_json(command)) == command


def test_a_question_of_a_check_is_settled_by_a_reason_for_as_long_as_the_reading_stays() -> None:
    job = done(
        complete_certificate(),
        Enter(place=Place(section="boards", board="b1", circuit="c2", box="ir_earth"), text="1.50"),
    )
    (question,) = [reason for reason in assess(job).reasons if reason.kind is ReasonKind.QUESTION]
    (asked,) = [each for each in assess(job).findings if each.place == question.place]
    explained = done(
        job,
        Explain.of(asked, reason="Long external run, dry again tomorrow", by="Ada Fenn", on=ON),
    )
    assert not [reason for reason in assess(explained).reasons if reason.kind is ReasonKind.QUESTION]
    again = done(explained, Enter(place=asked.place, text="1.40"))
    assert [reason for reason in assess(again).reasons if reason.kind is ReasonKind.QUESTION]


def test_a_correction_is_kept_back_until_it_says_why_and_another_reason_lifts_the_signatures():
    job = signed(complete_minor_works(sign=False).model_copy(update={"replaces": "A-0001"}))
    assert any("say why it replaces A-0001" in reason.says for reason in assess(job).reasons)
    told = done(job, SayWhy(because="  a reading\nwas misread "))
    assert told.replaces_because == "a reading was misread"
    assert assess(signed(told)).may_issue
    assert done(signed(told), SayWhy(because="the wrong house")).signatures == ()
    for refused in (SayWhy(because="  "), SayWhy(because="x" * 201)):
        assert isinstance(apply(told, refused), Declined)
    assert isinstance(apply(complete_minor_works(), SayWhy(because="none")), Declined)


def test_a_draft_laid_aside_keeps_its_signatures_and_is_changed_only_once_it_is_taken_up() -> None:
    job = signed(complete_certificate())
    aside = done(job, LayAside())
    assert (aside.laid_aside, aside.signatures) == (True, job.signatures)
    refused = apply(aside, Enter(place=Place(section="client", box="name"), text="Mrs Orla Finch"))
    assert isinstance(refused, Declined)
    assert "take it up again" in refused.says
    assert done(aside, TakeUp()) == job
