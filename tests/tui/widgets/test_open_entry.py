"""Typing into one box: offers found by what was typed, text kept as typed otherwise."""

import pytest

from domain.job.box import Box, BoxKind
from domain.place import Place
from tui.widgets.box_view import BoxView
from tui.widgets.open_entry import OpenEntry

STANDARDS = ("BS EN 60898", "BS EN 61009", "BS 88-2")


def view(
    *offers: str, kind: BoxKind = BoxKind.CHOICE, typed: str = "", open_choice: bool = False, several: bool = False
) -> BoxView:
    box = Box("Box", kind, choices=offers, open_choice=open_choice, several=several)
    return BoxView(Place(section="supply", box="box"), box, "Supply", typed, typed, offers=offers)


def typed(entry: OpenEntry, letters: str) -> OpenEntry:
    for letter in letters:
        entry = entry.typed(letter)
    return entry


def entered(box: BoxView, letters: str) -> str:
    return typed(OpenEntry.typed_over(box, letters[0]), letters[1:]).text


@pytest.mark.parametrize(
    ("letters", "text"), [("ri", "ring"), ("RING", "ring"), ("2", "radial"), ("r", "r"), ("4", "4"), ("x", "x")]
)
def test_a_closed_choice_is_found_by_beginning_or_number_when_only_one_fits(letters: str, text: str) -> None:
    assert entered(view("ring", "radial", "spare"), letters) == text


@pytest.mark.parametrize(
    ("kind", "box", "letters", "text"),
    [
        (BoxKind.TICK, "gas", "n", "N/A"),
        (BoxKind.TICK, "gas", "x", "N"),
        (BoxKind.TICK, "gas", "no", "N"),
        (BoxKind.READING, "zs", "n", "N/A"),
        (BoxKind.LINE, "method", "n", "N/A"),
        (BoxKind.LINE, "number", "n", "n"),
        (BoxKind.LINE, "method", "na", "na"),
        (BoxKind.LINE, "method", "l", "LIM"),
        (BoxKind.LINE, "method", "v", "N/V"),
        (BoxKind.LINE, "number", "l", "l"),
    ],
)
def test_n_l_and_v_are_their_marks_wherever_those_can_stand(kind: BoxKind, box: str, letters: str, text: str) -> None:
    offers = ("Y", "N", "N/A") if kind is BoxKind.TICK else ()
    marks, declared = (*offers[:1], "N/A", "LIM", "N/V"), Box("Box", kind, by_letter=box == "number")
    at = BoxView(Place(section="earthing", box=box), declared, "Earthing", "", "", offers=offers, marks=marks)
    assert entered(at, letters) == text


def test_n_says_no_of_a_tick_that_cannot_be_n_a() -> None:
    at = BoxView(Place(section="supply", box="polarity"), Box("Box", BoxKind.TICK), "", "", "", ("Y", "N"), ("Y",))
    assert entered(at, "n") == "N"


def test_a_number_picks_nothing_where_the_answers_are_numbers_themselves() -> None:
    assert entered(view("1", "3"), "2") == "2"
    assert entered(view("1", "3"), "3") == "3"


@pytest.mark.parametrize(
    ("letters", "text"),
    [("60898", "BS EN 60898"), ("88-2", "BS 88-2"), ("2", "2"), ("BS EN", "BS EN"), ("bs 88-2", "BS 88-2")],
)
def test_an_open_choice_is_found_by_a_word_in_it_and_takes_any_other_text(letters: str, text: str) -> None:
    assert entered(view(*STANDARDS, open_choice=True), letters) == text


def test_a_blank_is_typed_where_an_offer_goes_on_with_one() -> None:
    assert entered(view(*STANDARDS, open_choice=True), "bs en 61009") == "BS EN 61009"
    assert entered(view("A", "AC", open_choice=True), "A S") == "A S"


def test_space_steps_through_the_offers_and_round() -> None:
    box = view("ring", "radial", "spare")
    assert [entered(box, " " * times) for times in (1, 2, 3, 4)] == ["ring", "radial", "spare", "ring"]


def test_space_goes_on_from_what_stands_in_the_box() -> None:
    assert entered(view("ring", "radial", "spare", typed="radial"), " ") == "spare"


def test_letters_after_stepping_begin_anew() -> None:
    assert entered(view("ring", "radial", "spare"), "  s") == "spare"


def test_a_text_that_was_opened_and_left_alone_is_not_changed() -> None:
    assert not OpenEntry.opened(view("gG", "gM", typed="g", open_choice=True)).is_changed
    assert not OpenEntry.opened(view("BS EN 60898", typed="BS EN 6", open_choice=True)).is_changed


def test_a_line_takes_what_is_typed_with_its_blanks() -> None:
    assert entered(view(kind=BoxKind.LINE), "a b  c") == "a b  c"


SEVERAL = ("new", "an addition", "an alteration", "a replaced consumer unit")


@pytest.mark.parametrize(
    ("letters", "text"),
    [
        ("new", "new"),
        ("add", "an addition"),
        ("2 and 4", "an addition and a replaced consumer unit"),
        ("alt, rep", "an alteration and a replaced consumer unit"),
        ("an addition and a replaced consumer unit", "an addition and a replaced consumer unit"),
        ("add and alt and rep", "an addition and an alteration and a replaced consumer unit"),
        ("add and add", "an addition"),
        ("an addition and a shed", "an addition and a shed"),
    ],
)
def test_a_box_for_several_answers_takes_them_with_and_between_them(letters: str, text: str) -> None:
    assert entered(view(*SEVERAL, several=True), letters) == text


@pytest.mark.parametrize("phrase", ["measured by me", "mea by enquiry", "neither of them", "enquiry and measured"])
def test_a_phrase_is_not_lost_where_space_came_to_an_offer_in_it(phrase: str) -> None:
    assert entered(view("measured", "enquiry"), phrase) == phrase
