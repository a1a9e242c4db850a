"""What takes longer than a moment is told on the way."""

from threading import Event

from storage.paper import progress
from storage.pdf import bind_draft
from tests.builders import complete_minor_works
from tui.commands.paper_progress import told_on_the_way


def test_what_is_being_done_is_told_beside_the_answer_once_and_not_again(capsys):
    asked, again = iter(["", "setting 44 sheets", "setting 44 sheets", "packing the file"]), Event()

    def doing_now() -> str:
        try:
            return next(asked)
        except StopIteration:
            again.set()
            return "packing the file"

    with told_on_the_way(doing_now, moment=0.001):
        assert again.wait(timeout=60)
    said = capsys.readouterr()
    assert said.out == ""
    assert said.err.splitlines() == ["… setting 44 sheets", "… packing the file"]


def test_a_paper_tells_its_sheets_and_pages_while_it_is_made_and_nothing_after():
    told: list[str] = []
    progress.have_told(told.append)
    pages = bind_draft(complete_minor_works()).pages
    assert told[0].startswith("setting ")
    assert told[1] == "packing the file"
    read = [each.removeprefix("reading back ").rpartition(", page ") for each in told[2:-1]]
    assert [page for _, _, page in read] == [f"{at} of {pages}" for at in range(1, pages + 1)]
    assert read[0][0] == "Minor Electrical Installation Works Certificate"
    assert told[-1] == ""
    assert progress.doing_now() == ""
