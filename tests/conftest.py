"""Settings for every test."""

import os

from hypothesis import settings

# No test measures time: a slow machine is no bug. In CI the same examples are tried each time.
settings.register_profile("crumbcoat", deadline=None, derandomize="CI" in os.environ)
settings.load_profile("crumbcoat")
