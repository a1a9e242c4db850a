"""Boxes are declared once, and say what is wrong with a text in words that help."""

from itertools import permutations

import pytest

from domain.forms.form_set import FormSet
from domain.job.board import Board
from domain.job.box import Box, BoxKind, boxes_of, shown_in, typed_in
from domain.job.circuit import DETAIL_BOXES, RESULT_BOXES, Circuit
from domain.job.job import SECTIONS, Job, sections_for
from domain.job.people import Client, Premises
from domain.job.supply import Supply
from domain.value import cleaned, is_blank, is_hollow, is_repeated, says_nothing

SEVERAL = Box("Installation", BoxKind.CHOICE, choices=("new", "old"), several=True)


@pytest.mark.parametrize("owner", [*SECTIONS.values(), Board, Circuit])
def test_every_box_has_a_label_of_its_own_and_fits_its_kind(owner: type) -> None:
    boxes = boxes_of(owner)
    assert boxes
    assert len({box.label for box in boxes.values()}) == len(boxes)
    for box in boxes.values():
        assert box.label
        assert bool(box.choices) == (box.kind is BoxKind.CHOICE)
        assert box.required <= box.on, "a box is asked for wherever it is required"


def test_every_field_of_a_section_is_a_box() -> None:
    for section in SECTIONS.values():
        assert set(boxes_of(section)) == set(section.model_fields)
    assert set(DETAIL_BOXES) | set(RESULT_BOXES) == set(boxes_of(Circuit))


def test_a_form_set_meets_only_its_own_pages() -> None:
    assert "report" not in sections_for(FormSet.EIC)
    assert "work" not in sections_for(FormSet.EICR)
    assert "main_switch" not in sections_for(FormSet.MEIWC)


@pytest.mark.parametrize(
    ("box", "typed", "form_set", "says"),
    [
        (Box("Zs", BoxKind.READING), "0.35", FormSet.EIC, ""),
        (Box("Zs", BoxKind.READING), "LIM", FormSet.EIC, "reports only"),
        (Box("Zs", BoxKind.READING), "N/V", FormSet.MEIWC, "reports only"),
        (Box("Zs", BoxKind.READING), "LIM", FormSet.EICR, ""),
        (Box("Zs", BoxKind.READING), "N/A", FormSet.EICR, "N/A is no answer"),
        (Box("r1", BoxKind.READING, not_applicable=True), "N/A", FormSet.EIC, ""),
        (Box("Zs", BoxKind.READING), "OL", FormSet.EIC, "type > and the end of the range"),
        (Box("Zs", BoxKind.READING), "-", FormSet.EIC, "a dash can mean several things"),
        (Box("Zs", BoxKind.READING), "abc", FormSet.EIC, "is no reading"),
        (Box("Rating", BoxKind.NUMBER, unit="A"), "32", FormSet.EIC, ""),
        (Box("Rating", BoxKind.NUMBER, unit="A"), ">32", FormSet.EIC, "is no number"),
        (Box("Points", BoxKind.NUMBER, whole=True), "8", FormSet.EIC, ""),
        (Box("Points", BoxKind.NUMBER, whole=True), "0", FormSet.EIC, ""),
        (Box("Points", BoxKind.NUMBER, whole=True), "2.5", FormSet.EIC, "is no whole number"),
        (Box("Type", figures_most=1), "60898", FormSet.EIC, "is the number of a standard"),
        (Box("Type", figures_most=1), "3", FormSet.EIC, ""),
        (
            Box("Type", BoxKind.CHOICE, choices=("B",), open_choice=True, figures_most=1),
            "61009",
            FormSet.EIC,
            "standard",
        ),
        (Box("Kind", figures_most=0), "1", FormSet.EIC, "say in words"),
        (Box("Kind", figures_most=0), "1 way unit", FormSet.EIC, ""),
        (Box("Demand", measured_in=("A", "kVA")), "80", FormSet.EIC, "as in 80 A or 80 kVA"),
        (Box("Demand", measured_in=("A", "kVA")), "80 A", FormSet.EIC, ""),
        (Box("Demand", measured_in=("A", "kVA")), "n/a", FormSet.EIC, ""),
        (Box("System", BoxKind.CHOICE, choices=("TT", "TN-S")), "TN-X", FormSet.EIC, "not one of TT, TN-S"),
        (SEVERAL, "new and old", FormSet.EIC, ""),
        (SEVERAL, "new, old", FormSet.EIC, ""),
        (SEVERAL, "new and blue", FormSet.EIC, "is none of new, old"),
        (SEVERAL, "new old", FormSet.EIC, "is none of new, old"),
        (Box("Polarity", BoxKind.TICK), "maybe", FormSet.EIC, "type Y when confirmed"),
        (Box("Date", BoxKind.DATE), "31/02/2026", FormSet.EIC, "is no date"),
        (Box("Date", BoxKind.DATE), "2026-11-25", FormSet.EIC, ""),
        (Box("Name", BoxKind.LINE), "LIM", FormSet.EIC, ""),
    ],
)
def test_a_text_that_cannot_stand_is_answered_with_what_to_do(
    box: Box, typed: str, form_set: FormSet, says: str
) -> None:
    problem = box.problem(typed, form_set)
    assert says in problem
    assert bool(says) == bool(problem)


def test_the_published_schema_carries_labels_units_and_who_must_fill_a_box() -> None:
    zs = Job.model_json_schema()["$defs"]["Circuit"]["properties"]["zs"]
    assert zs["title"] == "Measured Zs (Ω)"
    assert zs["x-required-on"] == ["EIC", "EICR", "MEIWC"]


@pytest.mark.parametrize("text", ["a\x1b[2Jb", "a\x00b", "a\u202eb", "a\nb", "a\x9bb"])
def test_text_a_terminal_would_obey_is_not_taken_into_a_line(text: str) -> None:
    with pytest.raises(ValueError, match="control characters"):
        Client(name=text)
    assert Client(name=cleaned(text)).name


@pytest.mark.parametrize("owner", [*SECTIONS.values(), Board, Circuit])
@pytest.mark.parametrize("typed", ["na", "NA", "n/a", "N.A."])
def test_n_a_in_any_spelling_is_kept_as_typed_and_shown_as_n_a_but_in_running_text(owner: type, typed: str) -> None:
    for name, box in boxes_of(owner).items():
        held = owner.model_validate({name: typed})
        assert typed_in(held, name) == typed
        if not box.problem(typed, FormSet.EICR):
            assert shown_in(held, name) == (typed if box.kind is BoxKind.PROSE else "N/A"), box.label
            assert says_nothing(typed)


def test_words_that_are_marks_elsewhere_stay_as_they_are_in_a_text_of_ones_own() -> None:
    assert shown_in(Client(name="Lim"), "name") == "Lim"
    assert shown_in(Circuit(rcd_type="lim"), "rcd_type") == "LIM"
    assert shown_in(Circuit(device_type="T"), "device_type") == "T"


@pytest.mark.parametrize(
    "text",
    [
        *("", " ", ".", "...", "-", "–", "?", "x", "X.", "xxx", "1", "n/a", "N/A.", "na", "none", "None.", "nil", "no"),
        *(
            "ok",
            "OK.",
            "yes",
            "fine",
            "ditto",
            "see above",
            "\u200b",
            "\u200bok",
            "\u3164",
            "\u2800",
            "\u00a0",
            "\u0301",
        ),
    ],
)
def test_a_text_that_says_nothing_is_no_reason_and_no_name(text: str) -> None:
    assert is_hollow(text)


@pytest.mark.parametrize(
    "text", ["Wet", "No key held", "Ng", "王", "N/A as the loft is boarded", "10 mm² there already"]
)
def test_a_text_that_says_something_is_a_reason(text: str) -> None:
    assert not is_hollow(text)


@pytest.mark.parametrize("text", ["\u200b", "\u3164", " \u2800 ", "\u2060", "\u0301"])
def test_what_nobody_can_see_is_empty(text: str) -> None:
    assert is_blank(text)
    assert not is_blank(f"{text}-")


def test_the_same_reason_ten_times_is_the_reason_of_none() -> None:
    assert not is_repeated("Locked", ["Locked"] * 9)
    assert is_repeated("Locked", ["locked ", *["Locked"] * 9])


def test_the_same_answers_stand_in_the_same_order_wherever_they_are_offered() -> None:
    owners = (*SECTIONS.values(), Board, Circuit)
    offered = {f"{owner.__name__}.{name}": box.choices for owner in owners for name, box in boxes_of(owner).items()}
    for few, many in permutations(filter(None, offered.values()), 2):
        if set(few) <= set(many):
            assert list(few) == [each for each in many if each in few]


@pytest.mark.parametrize("letter", ["L", "v", "N"])
def test_a_letter_that_stands_for_a_mark_is_no_text_where_that_mark_cannot_stand(letter: str) -> None:
    supply = boxes_of(SECTIONS["supply"])
    assert "alone says nothing" in supply["device_type"].problem(letter, FormSet.EIC)
    assert "alone says nothing" in supply["other_sources"].problem(letter, FormSet.EIC)
    assert not boxes_of(Board)["designation"].problem(letter, FormSet.EIC)
    assert not boxes_of(Circuit)["number"].problem(letter, FormSet.EICR)
    assert not boxes_of(Circuit)["device_type"].problem("B", FormSet.EIC)


@pytest.mark.parametrize(
    ("typed", "written"),
    [
        ("ls12 4qx", "LS12 4QX"),
        ("LS124QX", "LS12 4QX"),
        ("m1 1ae", "M1 1AE"),
        ("ec1a1bb", "EC1A 1BB"),
        ("gir 0aa", "GIR 0AA"),
        ("bt-something", "bt-something"),
        ("N/A", "N/A"),
        ("", ""),
    ],
)
def test_a_postcode_is_shown_in_one_spelling_and_what_is_none_as_it_was_typed(typed: str, written: str) -> None:
    # The six formats are those Royal Mail publishes (A9 9AA to AA9A 9AA), from memory.
    assert shown_in(Premises(postcode=typed), "postcode") == shown_in(Client(postcode=typed), "postcode") == written


@pytest.mark.parametrize(
    ("typed", "written"), [("c", "C"), ("103", "103"), ("b", "B"), ("clipped direct", "clipped direct")]
)
def test_a_reference_method_is_a_capital_on_every_line(typed: str, written: str) -> None:
    assert shown_in(Circuit(id="c1", method=typed), "method") == written


@pytest.mark.parametrize(
    ("typed", "written"), [("30", "30 years"), ("1", "1 year"), ("about 30", "about 30"), ("1970s", "1970s")]
)
def test_an_age_has_its_unit_also_where_a_figure_was_typed_alone(typed: str, written: str) -> None:
    assert shown_in(Premises(age=typed), "age") == written


@pytest.mark.parametrize("typed", ["B", "c", "gG", "aM", "2", "II", "I"])
def test_types_that_devices_are_marked_with_can_stand(typed: str) -> None:
    # Common practice, from memory.
    assert boxes_of(Supply)["device_type"].problem(typed, FormSet.EIC) == ""


@pytest.mark.parametrize("typed", ["v", "X", "1361"])
def test_a_letter_or_number_that_no_device_is_marked_with_cannot_stand_as_its_type(typed: str) -> None:
    assert boxes_of(Supply)["device_type"].problem(typed, FormSet.EIC)
