from hypothesis import example, given
from hypothesis import strategies as st

from domain.editing.commands import Observe
from domain.inspection.observation import Code
from domain.sheets import sheets_of
from domain.sheets.continuation import lines_of
from domain.sheets.sheet import Listing, Passage, TextSheet
from tests.builders import complete_certificate, complete_report, done, enter, entered
from tests.domain.sheets.readers import said_on, titled
from tests.examples import examples

CERTIFICATE = complete_certificate(sign=False)
PRINTABLE = st.text(st.characters(exclude_categories=("Cc", "Cs", "Cf"), include_characters="\n"), max_size=6000)


def test_an_extent_too_long_for_its_box_moves_whole_and_its_box_says_where():
    extent = "Every circuit of the east wing, from the board to the last point. " * 40
    sheets = sheets_of(done(CERTIFICATE, enter("work", "extent", extent)))
    (sheet,) = titled(sheets, "Continuation sheet")
    assert isinstance(sheet, TextSheet)
    assert Passage("1", "Extent covered, and what is not", extent) in sheet.blocks
    assert "See the continuation sheet, entry 1" in said_on(sheets[:1])


def test_a_short_text_stays_in_its_box():
    assert not titled(sheets_of(CERTIFICATE), "Continuation sheet")


def test_a_long_observation_keeps_its_row_and_code():
    finding = "The enclosure is cracked along its whole lower edge and parts can be touched. " * 30
    job = done(complete_report(sign=False), Observe(finding=finding, code=Code.C2, where="Landing"))
    sheets = sheets_of(job)
    front = sheets[0]
    assert isinstance(front, TextSheet)
    rows = next(
        block for block in front.blocks if isinstance(block, Listing) and block.columns[0].heading == "No."
    ).rows
    assert [cell.text for cell in rows[0]][1:] == ["See the continuation sheet, entry 1", "Landing", "–", "C2"]
    assert finding in said_on(sheets)


def test_a_long_remark_in_a_narrow_column_is_not_lost():
    job = entered(CERTIFICATE, {"wiring": "W" * 200}, board="b1", circuit="c2")
    assert "W" * 200 in said_on(titled(sheets_of(job), "Continuation sheet"))


@examples(0.6)
@given(PRINTABLE.filter(str.strip))
@example("NA")
def test_whatever_is_typed_stands_somewhere_in_full(text: str):
    assert text in said_on(sheets_of(done(CERTIFICATE, enter("work", "comments", text))))


@given(PRINTABLE, st.integers(10, 200))
def test_no_text_takes_fewer_lines_than_it_has(text: str, width: int):
    assert lines_of(text, width) >= text.count("\n") + 1
