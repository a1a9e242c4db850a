"""A line of 8 kbit/s, on which a byte takes a millisecond, with nothing added to a packet unless said."""

from tests.tui.meter.line import Line, Sent

LINE = Line(delay=0.040, rate=8000, overhead=0)


def test_one_byte_is_seen_after_both_delays_and_its_own_time() -> None:
    assert LINE.after([Sent(0.002, 1)]) == 0.002 + 0.001 + 2 * 0.040


def test_what_is_sent_while_the_line_is_busy_waits_for_it() -> None:
    seen = LINE.seen([Sent(0, 100), Sent(0.010, 1), Sent(1, 1)])
    assert [round(at, 6) for at in seen] == [0.140, 0.141, 1.041]


def test_every_packet_carries_its_own_overhead() -> None:
    line = Line(delay=0, rate=8000, overhead=90, packet=1400)
    assert line.seconds_for(1) == 0.091
    assert line.seconds_for(1400) == 1.490
    assert line.seconds_for(1401) == 1.581


def test_a_key_that_changes_nothing_is_waited_for_by_nobody() -> None:
    assert LINE.after([]) == 0


def test_the_usual_line_shows_one_byte_after_91_milliseconds() -> None:
    """A byte and the 90 around it at 64 kbit/s take 11.4 ms; there and back are 80."""
    assert round(Line().after([Sent(0, 1)]), 4) == 0.0914
