"""How jobs are found again, in every job log."""

from datetime import date, timedelta

import pytest
from hypothesis import HealthCheck, given
from hypothesis import strategies as st

from domain.forms.form_set import FormSet
from domain.gate.outcome import Outcome
from domain.inspection.observation import Code
from domain.log.job_log import JobLogError, Query, State
from storage.sqlite_job_log import SqliteJobLog
from tests.builders import (
    AT,
    complete_minor_works,
    complete_report,
    enter,
    entered,
    fresh,
    snagged,
)
from tests.examples import examples
from tests.storage.finding import numbers
from tests.storage.issuing import bind
from tests.storage.memory_log import MemoryJobLog

WHO = "tamsin"


def fill(log):
    """A-0001 ready minor works · A-0002 the same with a snag · A-0003 a report, unsatisfactory · A-0004 begun."""
    report = entered(complete_report(Code.C2, sign=False), {"name": "Ørjan O'Hara-Łuc"}, section="client")
    jobs = [
        complete_minor_works(),
        snagged(complete_minor_works()),
        report,
        entered(fresh(FormSet.EIC), {"address": "7 Sextant Lane\nQuayford", "postcode": "NX9 8YY"}, section="premises"),
    ]
    for hours, job in enumerate(jobs):
        log.create(job, who=WHO, at=AT + timedelta(hours=hours))
    return log


@pytest.fixture
def filled(log):
    """A log of four jobs, to be changed."""
    return fill(log)


@pytest.fixture(scope="module")
def read(log_of_readers):
    """The same, only read."""
    return fill(log_of_readers)


def test_no_words_list_the_job_touched_last_first(filled):
    assert numbers(filled) == ["4", "3", "2", "1"]
    filled.edit("A-0002", enter("work", "comments", "Meter tails are old"), who=WHO, at=AT + timedelta(days=1))
    assert numbers(filled) == ["2", "4", "3", "1"]


@pytest.mark.parametrize(
    ("words", "found"),
    [
        ("fairweather", "21"),
        ("FAIR", "21"),
        ("zoe", "21"),
        ("zoë fairw", "21"),
        ("fairweather zo", "21"),
        ("fair zoe", ""),
        ("orjan", "3"),
        ("ohara", "3"),
        ("o'hara luc", "3"),
        ("tanners row", "321"),
        ("quayford", "4"),
        ("nx9", "4"),
        ("NX9 8Y", "4"),
        ("nx98yy", "4"),
        ("A-0003", "3"),
        ("a0003", "3"),
        ("harebell", "321"),
        ("kitchen sock", "321"),
        ("double socket added", "21"),
        ("new tenancy", "3"),
        ("fairweather sextant", ""),
        ("nowhere", ""),
        ("?!*", "4321"),
        ("", "4321"),
    ],
)
def test_words_find_jobs_in_any_order_and_the_last_by_its_beginning(read, words, found):
    assert numbers(read, words) == list(found)


@pytest.mark.parametrize(
    ("typed", "filters", "found"),
    [
        ("form:MEIWC", {"form_set": FormSet.MEIWC}, "21"),
        ("form:eicr", {"form_set": FormSet.EICR}, "3"),
        ("state:ready", {"state": State.READY}, "1"),
        ("state:draft", {"state": State.DRAFT}, "432"),
        ("state:issued", {"state": State.ISSUED}, ""),
        ("outcome:unsatisfactory", {"outcome": Outcome.UNSATISFACTORY}, "3"),
        ("outcome:complies", {"outcome": Outcome.COMPLIES}, "1"),
        ("snags:open", {"open_snags": True}, "2"),
        ("snags:none", {"open_snags": False}, "431"),
        ("no:a3", {"number": "A-0003"}, "3"),
        ("number:A-0009", {"number": "A-0009"}, ""),
        ("client:zoe client:fairw", {"client": "Zoe Fairw"}, "21"),
        ("client:tanners", {"client": "tanners"}, ""),
        ("place:wq7", {"place": "wq7"}, "321"),
        ("postcode:nx98yy", {"place": "nx98yy"}, "4"),
        ("place:fairweather", {"place": "fairweather"}, ""),
        ("form:meiwc snags:open", {"form_set": FormSet.MEIWC, "open_snags": True}, "2"),
        ("form:meiwc zoe state:ready", {"words": "zoe", "form_set": FormSet.MEIWC, "state": State.READY}, "1"),
    ],
)
def test_filters_are_given_by_name_or_typed_among_the_words(read, typed, filters, found):
    assert numbers(read, typed) == list(found)
    assert numbers(read, **filters) == list(found)


@pytest.mark.parametrize(
    ("typed", "meant"),
    [
        ("fairwether", "fairweather"),
        ("fairweahter zoe", "fairweather zoe"),
        ("fairweathher", "fairweather"),
        ("faurweather kitchen", "fairweather kitchen"),
        ("wehterham form:meiwc", "wetherham"),
        ("Fäirwether", "fairweather"),
    ],
)
def test_one_letter_wrong_is_put_right(read, typed, meant):
    assert numbers(read, typed) == []
    found = read.search(Query(words=typed))
    assert found.is_whole
    assert not found.is_as_typed
    assert found.jobs
    assert {" ".join(each.word for each in job.by) for job in found.jobs} == {meant}


@pytest.mark.parametrize("typed", ["zoo", "nx98yz", "quayforf nonsuch wrong", "fairwthr zzz", "?"])
def test_what_is_too_far_from_anything_known_is_never_said_to_be_found(read, typed):
    found = read.search(Query(words=typed))
    assert typed == "?" or not found.is_whole or not found.jobs
    assert all(job.lacks for job in found.jobs) or typed == "?"


def test_a_word_that_jobs_hold_as_typed_is_not_put_right(read):
    found = read.search(Query(words="fairwea"))
    assert found.is_as_typed
    assert [job.by[0].word for job in found.jobs] == ["fairweather", "fairweather"]


def test_an_error_in_a_filter_is_put_right_too(log):
    for name in ("Harden", "Harper"):
        log.create(entered(fresh(FormSet.EIC), {"name": name}, section="client"), who=WHO, at=AT)
    assert [job.line.client for job in log.search(Query(client="harpen")).jobs] == ["Harper", "Harden"]
    assert log.search(Query(client="hqrpxen")).jobs == ()
    assert log.search(Query(words="client:harpar kitchen")).jobs[0].lacks == ("kitchen",)


def test_what_holds_most_comes_first_with_what_it_lacks(read):
    found = read.search(Query(words="zoe quayford double socket"))
    assert not found.is_whole
    assert [(job.line.number, job.lacks) for job in found.jobs[:3]] == [
        ("A-0002", ("quayford",)),
        ("A-0001", ("quayford",)),
        ("A-0004", ("zoe", "double", "socket")),
    ]


@pytest.mark.parametrize(
    ("typed", "found"),
    [
        ("fairweather march", "21"),
        ("fairweather spring", "21"),
        ("fairweather last spring", "21"),
        ("march 2026 tanners", "321"),
        ("02/03/2026 tanners", "321"),
        ("tanners april", ""),
        ("tanners 2025", ""),
    ],
)
def test_times_are_words_like_others(read, typed, found):
    said = read.search(Query(words=typed, on=date(2026, 11, 30)))
    assert [job.line.number[-1] for job in said.jobs if not job.lacks] == list(found)


@pytest.mark.parametrize(
    "typed", ["01632 960118", "01632960118", "+44 1632 960118", "0044 1632 960118", "960118", "po4471", "PO-4471/B"]
)
def test_a_telephone_number_or_a_reference_is_found_however_it_is_typed(log, typed):
    contact = {"contact": "01632 960118, ref. PO-4471/B"}
    log.create(entered(fresh(FormSet.EIC), contact, section="client"), who=WHO, at=AT)
    log.create(fresh(FormSet.EIC), who=WHO, at=AT)
    assert [job.line.number for job in log.search(Query(words=typed)).jobs] == ["A-0001"]


@pytest.mark.parametrize("typed", ["form:nonsense", "zsopen", "zfmeiwc", "colour:red", "form:", ":"])
def test_what_is_no_filter_is_looked_for_as_words(read, typed):
    assert numbers(read, typed) == (["4", "3", "2", "1"] if typed == ":" else [])


def test_an_edit_changes_what_a_job_is_found_by(filled):
    filled.edit("A-0001", enter("client", "name", "Bertram Quill"), who=WHO, at=AT)
    assert (numbers(filled, "fairweather"), numbers(filled, "bertram")) == (["2"], ["1"])
    assert numbers(filled, "state:ready") == []


def test_an_issued_job_is_found_as_issued(filled):
    filled.issue("A-0001", by=WHO, at=AT, bind=bind)
    assert numbers(filled, "state:issued") == ["1"]
    assert numbers(filled, "zoe form:meiwc state:issued") == ["1"]


def test_pages_follow_each_other_without_gap_or_repeat(log):
    for _ in range(7):
        log.create(complete_minor_works(), who=WHO, at=AT)
    for words in ("", "zoe", "form:meiwc", "form:meiwc state:ready"):
        seen, before = [], ""
        while page := log.find(Query(words=words, limit=3, before=before)):
            seen += [line.number for line in page]
            before = page[-1].number
        assert seen == [f"A-{count:04d}" for count in range(7, 0, -1)]


def test_a_page_after_a_number_never_given_is_refused(log):
    with pytest.raises(JobLogError, match="no job"):
        log.find(Query(before="A-0009"))


WORD = st.text(
    st.characters(
        exclude_categories=["Cs", "Cc"], exclude_characters="\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069"
    ),
    max_size=12,
)
ASKED = st.lists(
    st.one_of(
        st.text(max_size=30),
        st.sampled_from(
            ['"', "*", "NEAR(", "a OR b", "client:", 'facets : "zs1"', "-x", "^", "{place}:", "(", "'", "zoe"]
        ),
    ),
    max_size=5,
).map(" ".join)


@given(asked=ASKED, client=ASKED, place=ASKED, number=ASKED)
@examples(1, suppress_health_check=[HealthCheck.function_scoped_fixture])
def test_nothing_a_person_types_upsets_the_search(sqlite_log, asked, client, place, number):
    sqlite_log.find(Query(words=asked, client=client, place=place, number=number))


@given(
    names=st.lists(WORD, min_size=1, max_size=4), asked=st.lists(WORD, max_size=3).map(" ".join), cut=st.integers(0, 12)
)
@examples(0.6)
def test_both_logs_find_the_same_jobs(tmp_path_factory, names, asked, cut):
    logs = MemoryJobLog(), SqliteJobLog.open(tmp_path_factory.mktemp("log"))
    for name in names:
        for log in logs:
            log.create(entered(fresh(FormSet.EIC), {"name": name}, section="client"), who=WHO, at=AT)
    for words in (asked, names[0], names[0][:cut], names[-1].swapcase()):
        found = [[line.number for line in log.find(Query(words=words))] for log in logs]
        assert found[0] == found[1]
    logs[1].close()
