"""Charts and notices of boards as data for their template, with all that is expected of their pages."""

from typing import Any

from domain.sheets.board_chart import COLUMNS, BoardPapers, Chart, Notice
from storage.paper.boxes import letters_to_a_line
from storage.paper.expected import Expectations, MarkKind
from storage.paper.sheet_data import Data

SHEETS = {"a4": (595.0, 13.0), "a5": (420.0, 10.0)}
"""Width of a sheet and size of its type, in points; as in templates/chart.typ."""
_WIDTHS = (10, 33, 15, 37, 17, 32)
_MARGIN, _INSET = 28.0, 4.0
_DRAFT = "DRAFT, not for use"


def chart_data(papers: BoardPapers, sheet: str) -> tuple[Data, Expectations]:
    """The charts and labels for the template, on sheets `a4` or `a5`, and what must come back from its places."""
    expected = Expectations()
    made = _ChartData(sheet, expected)
    number = papers.number or "no number yet"
    data: Data = {
        "title": f"Charts and notices {number}",
        "author": papers.firm,
        "foot": f"{papers.firm} · {number}",
        "sheet": sheet,
        "draft": "" if papers.is_issued else _DRAFT,
        "at": None,
        "charts": [made.chart(each) for each in papers.charts],
        "notices": [made.notice(each) for each in papers.notices],
    }
    return data, expected


class _ChartData:
    """Texts with their marks, cut where a word is wider than its place."""

    def __init__(self, sheet: str, expected: Expectations) -> None:
        wide, self._size = SHEETS[sheet]
        self._frame = wide - 2 * _MARGIN
        self._expected = expected

    def chart(self, chart: Chart) -> Data:
        share = self._frame / sum(_WIDTHS)
        return {
            "heading": f"Circuits of board {chart.board}",
            "facts": self._facts(chart.facts),
            "widths": list(_WIDTHS),
            "columns": list(COLUMNS),
            "rows": [
                [
                    self._text(text, f"chart, {row[0][:20]}", wide * share, condensed=True)
                    for text, wide in zip(row, _WIDTHS, strict=True)
                ]
                for row in chart.rows
            ],
            "notes": [self._text(note, "chart", self._frame) for note in chart.notes],
        }

    def notice(self, notice: Notice) -> Data:
        return {
            "heading": notice.heading,
            "facts": self._facts(notice.facts),
            "says": self._text(notice.says, notice.heading, self._frame - 20),
        }

    def _facts(self, facts: tuple[tuple[str, str], ...]) -> list[dict[str, Any]]:
        return [
            {"label": label, "value": value} | self._text(f"{label}: {value}", label, self._frame - 20)
            for label, value in facts
        ]

    def _text(self, text: str, what: str, width: float, *, condensed: bool = False) -> Data:
        mark = self._expected.add(MarkKind.BOX, text, what) if text.strip() else 0
        cut = letters_to_a_line(text, width - 2 * _INSET, self._size, condensed=condensed)
        return {"text": text, "mark": mark, "cut": cut}
