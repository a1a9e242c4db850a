"""One reading over all visits, drawn in plain text."""

from datetime import date

from domain.job.reading import Reading
from domain.log.last_time.history import Earlier, History
from domain.log.last_time.trend import Point, chart, trend_of
from domain.place import Place
from tests.builders import complete_certificate, entered

ZS = Place(section="boards", board="b1", circuit="c2", box="zs")


def test_each_visit_has_a_bar_as_long_as_its_reading() -> None:
    points = (
        Point("A-0001", date(2016, 3, 2), Reading.of("0.40")),
        Point("A-0002", date(2021, 3, 12), Reading.of("LIM")),
        Point("A-0003", None, Reading.of("0.80")),
    )
    assert chart(points, 40) == (
        "2 March 2016   0.40  █████████",
        "12 March 2021   LIM",
        "A-0003         0.80  ███████████████████",
    )


def test_a_reading_over_range_shows_that_it_goes_on() -> None:
    (line,) = chart((Point("A-0001", date(2016, 3, 2), Reading.of(">999")),), 30)
    assert line == "2 March 2016  >999  █████████>"


def test_the_trend_runs_from_the_oldest_visit_to_now() -> None:
    now = entered(complete_certificate(sign=False), {"zs": "0.61"}, board="b1", circuit="c2")
    visits = tuple(
        Earlier(job=entered(now, {"zs": zs}, board="b1", circuit="c2"), on=date(year, 3, 2))
        for year, zs in ((2021, "0.52"), (2016, "0.48"))
    )
    points = trend_of(History(visits=visits), now, ZS)
    assert [(point.on.year, point.reading.shown) for point in points] == [
        (2016, "0.48"),
        (2021, "0.52"),
        (2026, "0.61"),
    ]
