"""What holds for every test: how generated examples are drawn."""

import os

from hypothesis import settings

# A loaded machine is slow, not wrong; and a proof draws the same examples every time and everywhere, so that it fails
# for what was changed and not by chance. Who looks for examples that nobody has drawn yet says so: DRAW=afresh.
settings.register_profile("same", deadline=None, derandomize=True, print_blob=True)
settings.register_profile("afresh", deadline=None)
settings.load_profile("afresh" if os.environ.get("DRAW") == "afresh" else "same")
