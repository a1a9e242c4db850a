import pytest

from domain.forms.form_set import FormSet
from domain.gate.outcome import Outcome
from domain.log.job_log import Query, State
from domain.log.search_words import number_written, understood
from domain.words import WORD_MAX, capitalised, folded, joined, uncapitalised, words_of


@pytest.mark.parametrize(
    ("typed", "plain"),
    [
        ("Zoë", "zoe"),
        ("O'Hara", "ohara"),
        ("O’Hara", "ohara"),
        ("Łucja Sørensen", "lucja sorensen"),
        ("STRASSE", "strasse"),
        ("Straße", "strasse"),
        ("ﬁre", "fire"),
        ("İ", "i"),
        ("５Ω", "5ω"),
    ],
)
def test_accents_capitals_and_apostrophes_do_not_matter(typed, plain):
    assert folded(typed) == plain


def test_words_are_split_at_everything_that_is_no_letter_or_figure():
    assert words_of("DB1/4, kitchen_sockets (2.5 mm²)") == ("db1", "4", "kitchen", "sockets", "2", "5", "mm2")


def test_a_word_without_end_is_kept_by_its_beginning():
    assert words_of("x" * 5000) == ("x" * WORD_MAX,)


def test_a_postcode_is_one_word_however_it_is_typed():
    assert joined("wq7 1ab") == joined("WQ71AB") == "wq71ab"


@pytest.mark.parametrize("typed", ["A-0003", "a-0003", "a3", "A 3", " a0003 "])
def test_a_number_is_known_without_its_noughts_and_capitals(typed):
    assert number_written(typed) == "A-0003"


@pytest.mark.parametrize("typed", ["", "3", "A-", "A-3-4", "Zoë"])
def test_what_is_no_number_stays_as_typed(typed):
    assert number_written(typed) == typed


def test_filters_are_picked_out_of_the_words():
    typed = "zoë snags:open Form:eicr state:READY outcome:unsatisfactory no:a3 client:fair place:wq7 place:1ab kitchen"
    assert understood(Query(words=typed)) == Query(
        words="zoë kitchen",
        open_snags=True,
        form_set=FormSet.EICR,
        state=State.READY,
        outcome=Outcome.UNSATISFACTORY,
        number="A-0003",
        client="fair",
        place="wq7 1ab",
    )


def test_a_filter_takes_several_words_in_quotes_and_one_without():
    assert understood(Query(words='engineer:"Tom Larkbarrow" kitchen')) == Query(
        words="kitchen", engineer="Tom Larkbarrow"
    )
    assert understood(Query(words="place:“Saltmere Road")) == Query(place="Saltmere Road")
    assert understood(Query(words="engineer:Tom Larkbarrow")) == Query(words="Larkbarrow", engineer="Tom")


@pytest.mark.parametrize("typed", ["state:banana", "http://x", "snags:", ":open", "colour:red"])
def test_what_names_no_filter_stays_among_the_words(typed):
    assert understood(Query(words=typed)) == Query(words=typed)


def test_a_sentence_opens_with_a_capital_and_goes_on_small_but_for_words_of_capitals():
    assert capitalised("over 30 mA at DB1") == "Over 30 mA at DB1"
    assert [uncapitalised(each) for each in ("The file is empty", "PDF files are not read", "A job", "")] == [
        "the file is empty",
        "PDF files are not read",
        "a job",
        "",
    ]
