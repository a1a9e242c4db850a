"""What a screen is for, whatever kind of screen it is."""

from typing import TYPE_CHECKING, Any

from textual.screen import Screen

if TYPE_CHECKING:
    from domain.coach.danger import Danger


def explained(screen: Screen[Any]) -> str:
    """What it says of itself as it stands now, or else what is said of its kind; "" where nothing is."""
    return getattr(screen, "explains", "") or getattr(screen, "EXPLAINS", "")


def lifted_at(screen: Screen[Any]) -> tuple[str, ...]:
    """What lifts the questions under its cursor; () on a screen that has none."""
    return getattr(screen, "lifts_here", ())


def dangers_at_hand(screen: Screen[Any]) -> "tuple[Danger, ...]":
    """What can hurt people under its cursor; () on a screen that has none."""
    return getattr(screen, "dangers_here", ())
