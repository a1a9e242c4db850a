"""What every job log keeps of people, firms, clients, premises and instruments."""

from datetime import timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from domain.editing.commands import Enter, Sign
from domain.gate.issued_paper import IssuedPaper
from domain.job.signature import Role
from domain.log.job_log import JobLog, JobLogError
from domain.place import Place
from domain.register.entries import CrossCheck, Instrument, KnownClient, KnownPremises, Person, RegisterKind, title_of
from domain.register.merging import merged
from storage.driver import sqlite3
from storage.log_file import FILE_NAME
from storage.sqlite_job_log import SqliteJobLog
from tests.builders import AT, INSPECTOR, complete_minor_works, entered
from tests.examples import examples
from tests.storage.issuing import WHO, bind, issued_in, sign
from tests.storage.memory_log import MemoryJobLog

LATER = AT + timedelta(days=1)
HESTER = KnownClient(name="Hester Drumlin", address="3 Pepperpot Close\nUpper Quenby", postcode="WQ4 9LP")
ZOE = KnownClient(name="Zoë O'Hester", address="The Old Forge", postcode="WQ7 1AB")


def titles(found) -> list[str]:
    return [title_of(each.entry) for each in found]


@pytest.fixture
def filled(log: JobLog) -> JobLog:
    for entry in (ZOE, HESTER, Person(name="Hester Wain"), Instrument(serial="MFT-20417", name="multifunction tester")):
        log.register(entry, who=WHO, at=AT)
    return log


@pytest.mark.parametrize(
    ("words", "found"),
    [
        ("", ["Hester Drumlin", "Zoë O'Hester"]),
        ("hes", ["Hester Drumlin"]),
        ("dru hes", ["Hester Drumlin"]),
        ("zoe", ["Zoë O'Hester"]),
        ("wq71", ["Zoë O'Hester"]),
        ("wq7 1", ["Zoë O'Hester"]),
        ("pepper wq4", ["Hester Drumlin"]),
        ("ester", []),
        ("'; DROP TABLE register; --", []),
    ],
)
def test_a_few_letters_find_an_entry_of_one_register(filled, words, found):
    assert titles(filled.registered(RegisterKind.CLIENT, words)) == found


def test_a_serial_number_is_found_with_and_without_its_dash(filled):
    assert titles(filled.registered(RegisterKind.INSTRUMENT, "mft20")) == titles(
        filled.registered(RegisterKind.INSTRUMENT, "mft-20")
    )


def test_a_change_is_another_version_and_the_older_one_stays(filled):
    (kept,) = filled.registered(RegisterKind.CLIENT, "hester d")
    moved = HESTER.model_copy(update={"postcode": "WQ2 2AA"})
    after = filled.register(moved, entry_id=kept.id, who="ned", at=LATER)
    assert (after.id, after.version, after.entry) == (kept.id, 2, moved)
    assert filled.registered(RegisterKind.CLIENT, "wq49") == ()
    assert filled.registered(RegisterKind.CLIENT, "wq22") == (after,)
    assert [(each.version, each.who, each.entry) for each in filled.versions_of(kept.id)] == [
        (1, WHO, HESTER),
        (2, "ned", moved),
    ]


def test_what_is_retired_is_offered_no_more_and_can_come_back(filled):
    (kept,) = filled.registered(RegisterKind.PERSON)
    filled.register(kept.entry, entry_id=kept.id, who=WHO, at=LATER, retired=True)
    assert filled.registered(RegisterKind.PERSON, "hes") == ()
    (retired,) = filled.registered(RegisterKind.PERSON, "hes", retired=True)
    assert retired.retired
    filled.register(kept.entry, entry_id=kept.id, who=WHO, at=LATER)
    assert titles(filled.registered(RegisterKind.PERSON, "hes")) == ["Hester Wain"]


def test_the_list_stops_where_it_is_told_to(filled):
    assert titles(filled.registered(RegisterKind.CLIENT, limit=1)) == ["Hester Drumlin"]


@pytest.mark.parametrize("entry_id", ["99", "x", "²", "9" * 30])
def test_an_entry_that_is_not_there_is_not_changed(filled, entry_id):
    assert filled.versions_of(entry_id) == ()
    with pytest.raises(JobLogError, match="no entry"):
        filled.register(HESTER, entry_id=entry_id, who=WHO, at=LATER)


def test_an_entry_stays_in_its_register(filled):
    (person,) = filled.registered(RegisterKind.PERSON)
    with pytest.raises(JobLogError, match="stays one"):
        filled.register(HESTER, entry_id=person.id, who=WHO, at=LATER)


def test_an_issued_paper_teaches_what_it_names_and_a_draft_teaches_nothing(log):
    log.create(complete_minor_works(), who=WHO, at=AT)
    assert log.registered(RegisterKind.CLIENT) == ()
    issued_in(log)
    (client,), (place,) = log.registered(RegisterKind.CLIENT), log.registered(RegisterKind.PREMISES)
    (firm,), (tester,) = log.registered(RegisterKind.FIRM), log.registered(RegisterKind.INSTRUMENT)
    assert (client.entry.name, place.entry.postcode) == ("Zoë Fairweather", "WQ7 1AB")
    assert (firm.entry.name, tester.entry.serial) == ("Harebell Electrical", "MFT-20417")
    assert log.registered(RegisterKind.PERSON) == ()


def test_what_is_known_already_is_not_learnt_again_however_it_is_typed(log):
    issued_in(log)
    (client,) = log.registered(RegisterKind.CLIENT)
    log.register(client.entry.model_copy(update={"contact": "01234"}), entry_id=client.id, who=WHO, at=LATER)
    shouting = entered(complete_minor_works(), {"name": "ZOE FAIRWEATHER"}, section="client")
    number = log.create(shouting, who=WHO, at=AT).number
    for role in shouting.roles:
        log.edit(number, Sign(role=role, name="Tamsin Orchard", at=LATER), who=WHO, at=LATER)
    log.issue(number, by=WHO, at=LATER, bind=bind)
    (still,) = log.registered(RegisterKind.CLIENT)
    assert (still.entry.contact, len(log.versions_of(still.id))) == ("01234", 2)


def test_a_retired_entry_is_not_learnt_back(log):
    issued_in(log)
    (client,) = log.registered(RegisterKind.CLIENT)
    log.register(client.entry, entry_id=client.id, who=WHO, at=LATER, retired=True)
    issued_in(log)
    assert log.registered(RegisterKind.CLIENT) == ()


def test_a_version_that_was_kept_cannot_be_altered_past_the_program(sqlite_log, home):
    sqlite_log.register(HESTER, who=WHO, at=AT)
    past = sqlite3.connect(home / FILE_NAME)
    for statement in ("UPDATE register SET body = ''", "DELETE FROM register"):
        with pytest.raises(sqlite3.DatabaseError, match="stays as it was kept"):
            past.execute(statement)
    past.close()


def test_letters_are_looked_up_in_an_index(sqlite_log, home):
    sqlite_log.register(HESTER, who=WHO, at=AT)
    past = sqlite3.connect(home / FILE_NAME)
    plan = past.execute(
        "EXPLAIN QUERY PLAN SELECT entry FROM register_word WHERE kind = 'client' AND word >= 'hes' AND word < 'het'"
    ).fetchall()
    past.close()
    assert "SEARCH" in plan[0][3]
    assert "(kind=? AND word>? AND word<?)" in plan[0][3]


@examples(0.2)
@given(
    names=st.lists(st.text(max_size=12), min_size=1, max_size=5),
    asked=st.text(max_size=6),
    cut=st.integers(0, 4),
)
def test_both_logs_offer_the_same_entries(tmp_path_factory, names, asked, cut):
    sqlite_log = SqliteJobLog.open(tmp_path_factory.mktemp("log"))
    logs: tuple[JobLog, JobLog] = (MemoryJobLog(), sqlite_log)
    kept = [KnownPremises(address=name) for name in names if name.isprintable()]
    for log in logs:
        for entry in kept:
            log.register(entry, who=WHO, at=AT)
    for words in (asked, names[0][: cut + 1]):
        one, other = (log.registered(RegisterKind.PREMISES, words) for log in logs)
        assert one == other
    sqlite_log.close()


def test_a_wrong_postcode_put_right_on_paper_leaves_the_register(log):
    issued_in(log)
    listed = log.registered(RegisterKind.PREMISES)
    draft = log.replace("A-0001", because="the postcode was wrong", who=WHO, at=LATER)
    log.edit(draft.number, Enter(place=Place(section="premises", box="postcode"), text="WQ7 2ZZ"), who=WHO, at=LATER)
    sign(log, draft.number)
    assert isinstance(log.issue(draft.number, by=INSPECTOR, at=LATER, bind=bind), IssuedPaper)
    now = log.registered(RegisterKind.PREMISES)
    assert [each.entry.postcode for each in (*listed, *now)] == [listed[0].entry.postcode, "WQ7 2ZZ"]
    assert [each.id for each in log.registered(RegisterKind.PREMISES, retired=True)] == [listed[0].id]


def paper_for(log, *, postcode="WQ7 1AB", client="Zoë Fairweather", replaces=""):
    """A minor works certificate issued with this postcode of its premises and client, or one in the place of another."""
    if replaces:
        job = log.replace(replaces, because="The postcode", who=WHO, at=LATER)
        typed = {("premises", "postcode"): postcode, ("client", "postcode"): postcode, ("client", "name"): client}
        for (section, box), text in typed.items():
            log.edit(job.number, Enter(place=Place(section=section, box=box), text=text), who=WHO, at=LATER)
        number = job.number
    else:
        job = entered(complete_minor_works(), {"postcode": postcode}, section="premises")
        job = entered(job, {"postcode": postcode, "name": client}, section="client")
        number = log.create(job, who=WHO, at=AT).number
    for role in complete_minor_works().roles:
        log.edit(number, Sign(role=role, name="Tamsin Orchard", at=LATER), who=WHO, at=LATER)
    issued = log.issue(number, by=WHO, at=LATER, bind=bind)
    assert isinstance(issued, IssuedPaper), issued
    return number


def postcodes(log, kind, *, retired=False):
    return sorted(each.entry.postcode for each in log.registered(kind, retired=retired))


@pytest.mark.parametrize("kind", [RegisterKind.PREMISES, RegisterKind.CLIENT])
def test_a_wrong_postcode_put_right_on_paper_retires_the_wrong_entry_and_no_other(kind):
    log = MemoryJobLog()
    paper_for(log, postcode="WQ7 1AC", replaces=paper_for(log, postcode="WQ7 1AB"))
    assert postcodes(log, kind) == ["WQ7 1AC"]
    assert postcodes(log, kind, retired=True) == ["WQ7 1AB"]
    assert len(log.registered(RegisterKind.FIRM)) == len(log.registered(RegisterKind.INSTRUMENT)) == 1


@pytest.mark.parametrize("kind", [RegisterKind.PREMISES, RegisterKind.CLIENT])
def test_an_entry_that_another_paper_names_too_stays_when_one_paper_is_put_right(kind):
    log = MemoryJobLog()
    paper_for(log, postcode="WQ7 1AB")
    paper_for(log, postcode="WQ7 1AC", replaces=paper_for(log, postcode="WQ7 1AB"))
    assert postcodes(log, kind) == ["WQ7 1AB", "WQ7 1AC"]


def test_two_entries_of_one_client_are_merged_and_the_one_that_goes_is_not_learnt_back(log):
    older = log.register(HESTER.model_copy(update={"contact": "01234"}), who=WHO, at=AT)
    stays = log.register(HESTER.model_copy(update={"postcode": "WQ4 9LQ", "address": ""}), who=WHO, at=AT)
    now = log.merge_entries(stays.id, older.id, who="ned", at=LATER)
    assert (now.id, now.version, now.entry.postcode, now.entry.contact) == (stays.id, 2, "WQ4 9LQ", "01234")
    assert now.entry.address == HESTER.address
    assert log.registered(RegisterKind.CLIENT) == (now,)
    assert [each.id for each in log.registered(RegisterKind.CLIENT, retired=True)] == [older.id]
    with pytest.raises(JobLogError, match="one register"):
        log.merge_entries(stays.id, stays.id, who=WHO, at=LATER)


def test_merging_gives_nobody_a_right_to_sign_and_leaves_all_as_it_was_where_it_cannot_be():
    log = MemoryJobLog()
    trainee = log.register(Person(name="N Farthing", position="Trainee"), who=WHO, at=AT)
    signer = log.register(Person(name="Ned Farthing", signs=(Role.INSPECTION,)), who=WHO, at=AT)
    assert log.merge_entries(trainee.id, signer.id, who=WHO, at=LATER).entry.signs == ()
    client = log.register(HESTER, who=WHO, at=AT)
    with pytest.raises(JobLogError, match="one register"):
        log.merge_entries(trainee.id, client.id, who=WHO, at=LATER)
    assert [each.id for each in log.registered(RegisterKind.CLIENT)] == [client.id]


def test_cross_checks_of_two_entries_of_one_instrument_are_kept_in_the_order_of_their_days():
    first, second = (CrossCheck(on=day.date(), by=WHO, known="0.50", read="0.51") for day in (AT, LATER))
    both = merged(
        Instrument(serial="MFT-20417", checks=(second,)), Instrument(serial="MFT20417", checks=(first, second))
    )
    assert both == Instrument(serial="MFT-20417", checks=(first, second))
