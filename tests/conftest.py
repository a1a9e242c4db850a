"""How many examples property tests try: few by default, many in a long run.

    EXAMPLES=long pytest tests/domain

A test whose one example is dear, or whose inputs are many, asks for its share with `examples` of `tests/examples.py`.
"""

import os

from hypothesis import settings

settings.register_profile("default", max_examples=50, deadline=None)
settings.register_profile("long", max_examples=1000, deadline=None)
settings.load_profile(os.environ.get("EXAMPLES", "default"))
