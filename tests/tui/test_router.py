"""Every route leads to a screen."""

import pytest

from tui import routes
from tui.router import screen_for

ROUTES = [
    kind
    for kind in vars(routes).values()
    if isinstance(kind, type) and issubclass(kind, routes.Route) and kind is not routes.Route
]


@pytest.mark.parametrize("route", ROUTES, ids=lambda route: route.__name__)
def test_a_route_leads_to_a_screen(route: type[routes.Route]) -> None:
    assert screen_for.dispatch(route) is not screen_for.dispatch(object), "the router knows no screen for it"


def test_where_no_screen_is_known_the_program_says_so() -> None:
    with pytest.raises(LookupError, match="no screen"):
        screen_for(routes.Route(), None)
