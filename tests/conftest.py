"""What holds for every test: how generated examples are drawn."""

import os

from hypothesis import settings

# A loaded machine is slow, not wrong; and a proof that runs for others must draw the same examples every time.
settings.register_profile("here", deadline=None)
settings.register_profile("ci", deadline=None, derandomize=True, print_blob=True)
settings.load_profile("ci" if os.environ.get("CI") else "here")
