"""Screens are composed: none stands more than two levels below the framework's own."""

from textual.screen import ModalScreen, Screen

from tests.tui.places import places


def levels_of(screen: type) -> int:
    """Classes of the program between a screen and the framework's, itself among them."""
    return sum(kind.__module__.startswith("tui.") for kind in screen.__mro__)


def test_no_screen_stands_more_than_two_levels_below_the_frameworks() -> None:
    screens = [place for place in places() if issubclass(place, Screen)]
    assert len(screens) > 20
    assert ModalScreen not in screens
    assert {screen.__name__: levels_of(screen) for screen in screens if levels_of(screen) > 2} == {}
