"""How hypothesis looks for counterexamples: the same ones in every run, so that a failure is a change's own.

`pytest --hypothesis-profile search` looks for new ones, and for longer.
"""

from hypothesis import settings

settings.register_profile("steady", derandomize=True, deadline=None)
settings.register_profile("search", max_examples=2000, deadline=None)
settings.load_profile("steady")
