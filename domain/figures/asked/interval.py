"""How long until the next inspection."""

from domain.edition import Edition
from domain.figures.asked.answer import FigureAnswer, NotAskableError, tabulated
from domain.figures.asked.figure import Figure
from domain.figures.asked.given import Given
from domain.figures.asked.key import choice, either, words
from domain.figures.limits.intervals import premises, premises_called, rented_homes_in
from domain.figures.limits.table import LimitRow

_RENTED = "Domestic, rented"
_PREMISES = words("premises", "the kind of premises", "a kind named in the table, such as office, or domestic, rented")
_NATIONS = ("England", "Scotland", "Wales", "Northern Ireland")
_NATION = choice("nation", "where a rented home is, for what the law asks", dict.fromkeys(_NATIONS, ()))
_ONE_WAY = "asked one way only: many kinds of premises share an interval, so that years lead back to none of them"


def _interval(given: Given) -> FigureAnswer:
    row = _row(given)
    nation = given.maybe(_NATION)
    if nation is None:
        return _recommended(row)
    if row.texts["premises"] != _RENTED:
        raise NotAskableError(f"nation goes with premises={_RENTED!r}: the law is known for rented homes only")
    return _by_law(nation, given.edition)


def _row(given: Given) -> LimitRow:
    typed = given.need(_PREMISES)
    rows = premises_called(typed, given.edition)
    if len(rows) == 1:
        return rows[0]
    names = tuple(row.texts["premises"] for row in rows) or premises(given.edition)
    fits = "may be any of these" if rows else "is not in the table"
    raise NotAskableError(f"premises={typed!r} {fits}: {either(names)}")


def _recommended(row: LimitRow) -> FigureAnswer:
    notes = (
        "a recommendation: the inspector may ask for a shorter one, with reasons",
        f"routine check: {row.texts['routine_check']}",
        *((row.texts["also"],) if "also" in row.texts else ()),
        *(
            ("the law also sets a longest interval for rented homes: add nation=",)
            if row.texts["premises"] == _RENTED
            else ()
        ),
        _ONE_WAY,
    )
    return tabulated(row.figures["years"], f"{row.texts['premises']}, at most", notes=notes)


def _by_law(nation: str, edition: Edition) -> FigureAnswer:
    row = rented_homes_in(nation, edition)
    assert row
    said = {
        "copy_to_tenant": "copy to the tenant within",
        "copy_to_council": "copy to the council, when it asks, within",
        "remedy_within": "remedial work within",
    }
    deadlines = tuple(
        f"{words_for} {row.figures[column].shown}" for column, words_for in said.items() if column in row.figures
    )
    also = (row.texts["also"],) if "also" in row.texts else ()
    shorter = "the law's longest; the report may ask for a shorter interval"
    return tabulated(
        row.figures["years"], f"Rented homes in {nation}, at most", notes=(shorter, *deadlines, *also, _ONE_WAY)
    )


INTERVAL = Figure(
    "interval",
    "longest recommended interval between inspections",
    "years",
    (_PREMISES, _NATION),
    (("premises=office",), ("premises=domestic, rented", "nation=England")),
    _interval,
)
