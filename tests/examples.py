"""How many examples a property test tries, as a share of what the profile says."""

from typing import Any

from hypothesis import settings


def examples(share: float, **more: Any) -> settings:
    """Settings of a test that tries a share of the usual examples: 0.2 where each is dear, 2 where the inputs are many."""
    return settings(max_examples=max(1, round(share * settings().max_examples)), deadline=None, **more)
