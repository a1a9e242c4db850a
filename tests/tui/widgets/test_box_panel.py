"""The panel below a page or schedule: what matters most first, on four lines."""

from domain.forms.form_set import FormSet
from domain.job.box import boxes_of
from domain.job.circuit import Circuit
from domain.job.finding import Gap
from domain.place import Place
from tui.widgets.box_panel import HEIGHT, HEIGHT_OF_WORKING, panel_lines
from tui.widgets.box_view import BoxView, views_of
from tui.widgets.open_entry import OpenEntry

EVERY_BOX = tuple(name for name, box in boxes_of(Circuit).items() if box.is_asked(FormSet.EIC))


def view(name: str, typed: str = "", says: str = "", whose: str = "DB1, 1 Cooker") -> BoxView:
    circuit = Circuit.model_validate({name: typed})
    said = {name: (Gap(kind="cannot-stand", place=Place(circuit="c2", box=name), says=says),)} if says else {}
    return views_of(circuit, Place(circuit="c2"), whose, FormSet.EIC, said, (name,))[0]


def lines(shown: BoxView, entry: OpenEntry | None = None) -> list[str]:
    return [text for text, _ in panel_lines(shown, entry, 78)]


def below_a_schedule(shown: BoxView, *asides: str) -> list[str]:
    return [text for text, _ in panel_lines(shown, None, 78, HEIGHT_OF_WORKING, asides)]


def test_it_never_takes_more_than_its_lines_and_says_where_it_had_to_stop() -> None:
    for name in EVERY_BOX:
        told = lines(view(name, says="Far more is wrong with it than there is room to say. " * 9))
        assert len(told) <= HEIGHT
        assert told[-1].endswith("… F1")


def test_every_label_of_a_circuit_is_said_in_full_with_its_unit() -> None:
    for name in EVERY_BOX:
        box = boxes_of(Circuit)[name]
        assert lines(view(name))[0] == f"DB1, 1 Cooker: {box.label}" + (f" ({box.unit})" if box.unit else "")


def test_what_is_wrong_comes_before_the_help() -> None:
    told = lines(view("zs", "x", says="'x' is no reading"))
    assert told[1] == "✗ 'x' is no reading"
    assert told[2] == "The highest found on the circuit, in ohms."


def test_what_was_wrong_is_no_longer_said_while_something_else_is_typed() -> None:
    wrong = view("zs", "x", says="'x' is no reading")
    assert "no reading" not in " ".join(lines(wrong, OpenEntry.typed_over(wrong, "0.35")))


def test_the_choices_are_listed_and_typing_narrows_them() -> None:
    shape = view("shape")
    assert "Space: 1 ring  2 radial  3 spare" in lines(shape)
    assert "Space: 1 ring  2 radial" in lines(shape, OpenEntry.typed_over(shape, "r"))
    assert "None of the answers begins so." in lines(shape, OpenEntry.typed_over(shape, "x"))


def test_a_text_longer_than_its_column_is_said_whole() -> None:
    description = "Sockets in the first floor back bedroom and landing"
    assert description in lines(view("description", description))


def test_a_box_that_is_not_called_for_says_so() -> None:
    assert "Not needed here." in lines(view("rcd_idn"))


def test_a_sum_with_its_source_is_said_whole_where_there_is_room() -> None:
    expected = "To be expected: (1.83 + 4.61) mΩ/m × 16 m = 0.10304 Ω [IEC 60228, Tables 1 to 4, at 20 °C]"
    told = below_a_schedule(view("r1_r2"), expected)
    assert " ".join(told[1:3]) == expected
    assert told[3] == "Line and cpc joined at the board, measured at the far end. Or give R2."


def test_where_room_is_short_everything_is_begun_before_anything_is_ended() -> None:
    told = below_a_schedule(
        view("r1_r2", "x", says="'x' is no reading"), "limit " * 20, "last time " * 10, "missing " * 20
    )
    assert [line.split()[0] for line in told] == ["DB1,", "✗", "limit", "last", "missing", "Line"]
    assert [line.endswith("… F1") for line in told] == [False, False, True, True, True, False]
