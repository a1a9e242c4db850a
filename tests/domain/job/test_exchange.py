"""Jobs out and in as JSON: what comes in is a job, or one plain sentence on why not."""

import copy
import json
import re
from contextlib import suppress

import pytest
from hypothesis import given
from hypothesis import strategies as st

from domain.editing.commands import Declined
from domain.editing.reducer import apply
from domain.job.exchange import DOCUMENT_MAX, ExchangeError, job_from_json, job_to_json
from domain.job.job import Job
from tests.builders import complete_certificate, complete_minor_works, complete_report
from tests.examples import examples
from tests.random_commands import commands_for

WHOLE = json.loads(job_to_json(complete_minor_works()))


def told(document: bytes | str) -> str:
    """The sentence a document is refused with; fit for a terminal."""
    with pytest.raises(ExchangeError) as trouble:
        job_from_json(document)
    says = str(trouble.value)
    assert len(says) < 400
    assert not re.search(r"[\x00-\x1f\x7f-\x9f\u202a-\u202e]", says)
    assert not re.search(r"pydantic|validat|Traceback", says)
    return says


def with_change(change) -> str:
    document = copy.deepcopy(WHOLE)
    change(document)
    return json.dumps(document)


@pytest.mark.parametrize("build", [complete_minor_works, complete_certificate, complete_report])
def test_a_job_comes_back_as_it_went_out(build):
    job = build()
    assert job_from_json(job_to_json(job)) == job
    assert job_from_json(job_to_json(job).encode()) == job


@given(data=st.data())
@examples(0.2)
def test_whatever_was_done_to_a_job_it_comes_back_as_it_went_out(data):
    job = complete_minor_works()
    for _ in range(data.draw(st.integers(0, 6))):
        after = apply(job, data.draw(commands_for(job)))
        job = job if isinstance(after, Declined) else after
    assert job_from_json(job_to_json(job)) == job


def test_a_job_typed_by_hand_needs_only_its_form_set_and_edition():
    job = job_from_json('{"chosen": {"form_set": "EIC"}, "edition": "BS 7671:2018+A2:2022", "boards": [{}]}')
    assert job.boards[0].id == "b1"


@pytest.mark.parametrize(
    ("document", "says"),
    [
        (b"", "not JSON: line 1, column 1"),
        (b"{", "not JSON"),
        (b"\xff\xfe{}", "not text in UTF-8"),
        (b"%PDF-1.7", "not JSON"),
        (b"[]", "holds no job"),
        (b"null", "holds no job"),
        (b'"a job"', "holds no job"),
        (b"{}", "'chosen' is missing"),
        (b'{"schema_version": 2}', "schema version 2; this program reads version 1"),
        (b'{"schema_version": "\\u001b[31m"}', r"schema version '\x1b[31m'"),
        (b'{"schema_version": true}', "schema version True"),
        (b'{"schema_version": [1]}', "schema version a list"),
        (b'{"edition": NaN}', "holds NaN"),
        (b'{"edition": -Infinity}', "holds -Infinity"),
        (b'{"client": 1, "client": 2}', "gives 'client' twice"),
        (b'{"a":' * 100_000, "nested too deeply"),
        (b"[" * 100_000, "nested too deeply"),
        (b'{"next_id": ' + b"9" * 5_000 + b"}", "more digits"),
        (b" " * (DOCUMENT_MAX + 1), "larger than any job (4 MB at most)"),
    ],
)
def test_what_is_no_job_is_told_in_one_sentence(document, says):
    assert says in told(document)


def place_of(document: dict, *steps):
    for step in steps:
        document = document[step]
    return document


CIRCUIT = ("boards", 0, "circuits", 0)


@pytest.mark.parametrize(
    ("steps", "held", "says"),
    [
        ((), {"colour": "red"}, "There is no field 'colour' in a job"),
        (CIRCUIT, {"zs_max": "1"}, "There is no field 'zs_max' in Board 1, circuit 1"),
        (("client",), {"\x1b[31mred": "1"}, r"There is no field '\x1b[31mred' in Client"),
        (("client",), {"x" * 500: "1"}, "There is no field 'xxxx"),
        (CIRCUIT, {"zs": 0.49}, "Board 1, circuit 1, Measured Zs cannot be used: a reading is text"),
        (CIRCUIT, {"zs": "9" * 25}, "Measured Zs cannot be used: a reading holds at most 24 characters"),
        (CIRCUIT, {"description": "x" * 201}, "Board 1, circuit 1, Description holds more than 200 characters"),
        (("work",), {"description": "x" * 1_000_000}, "The work, Description of the work holds more than 6000"),
        (("client",), {"name": "\x1b]0;gone\x07"}, "Client, Client cannot be used: holds control characters"),
        (("client",), {"name": "\u202etxt.exe"}, "holds control characters"),
        (("client",), {"name": 7}, "Client, Client must be text, in quotes"),
        (("client",), {"name": None}, "must be text, in quotes"),
        ((), {"client": "Zoë"}, "Client must be an object"),
        ((), {"boards": {}}, "The list of boards must be a list"),
        ((), {"boards": [1]}, "Board 1 must be an object"),
        ((), {"boards": [{}] * 201}, "The list of boards holds more than 200 entries"),
        ((), {"boards": [{"circuits": [{}] * 501}]}, "Board 1, the list of circuits holds more than 500 entries"),
        ((), {"boards": [{"id": "b1"}, {"id": "b1"}]}, "the id 'b1' is used twice"),
        ((), {"edition": "\x1b[2J" * 50}, "'BS 7671:2018+A2:2022+A3:2024' or 'BS 7671:2018+A4:2026'"),
        (("chosen",), {"form_set": "PAT"}, "'PAT'; it can be 'EIC', 'MEIWC' or 'EICR'"),
        ((), {"next_id": "many"}, "must be a whole number"),
        ((), {"issued": {"at": "yesterday", "by": "me"}}, "no date and time"),
        ((), {"snags": [{"what": "x", "raised_on": "2026-01-01"}]}, "Snag 1, 'raised_by' is missing"),
        ((), {"inspection": [{"item": "1", "mark": "C9"}]}, "Inspection outcome 1"),
    ],
)
def test_what_is_wrong_in_a_job_is_told_with_its_place(steps, held, says):
    assert says in told(with_change(lambda document: place_of(document, *steps).update(held)))


def test_markup_and_paths_are_taken_as_plain_text():
    name = "[bold red]**Zoë**[/] <b>&amp;</b> ../../etc/passwd $(reboot) `x`"
    job = job_from_json(with_change(lambda document: document["client"].update(name=name)))
    assert job.client.name == name


JSON = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=10),
    lambda inner: (
        st.lists(inner, max_size=3) | st.dictionaries(st.sampled_from([*WHOLE, "id", "x"]), inner, max_size=3)
    ),
    max_leaves=10,
)


@given(field=st.sampled_from([*WHOLE]), held=JSON)
@examples(1)
def test_any_value_anywhere_is_a_job_or_a_sentence(field, held):
    with suppress(ExchangeError):
        assert isinstance(job_from_json(json.dumps(WHOLE | {field: held})), Job)


@given(document=st.binary(max_size=200) | st.text(max_size=200))
@examples(1)
def test_any_bytes_are_refused_in_a_sentence(document):
    assert told(document)
